using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Files;

/// <summary>Reads bands and accents: which keys they take depends on their stitch.</summary>
internal static class BandReader
{
    private const int MostOffset = Chart.Band.MostOffset;

    /// <summary>One band.</summary>
    public static Band Band(JsonText text, Located value, ClothPlan cloth, ImmutableArray<Floss> threads)
    {
        var keys = new KeyReader(text, value, "a band");
        var stitchAt = keys.Required("stitch");
        var name = keys.AsString(stitchAt, "stitch");
        var stitch = BandStitch.Named(name) ?? throw text.Error(stitchAt.Offset,
            $"no stitch is called {JsonText.Quote(name)}; there are {string.Join(", ", BandStitch.All.Select(s => s.Name))}.");
        keys.Named($"a band of {name}");
        var band = new Band(name, new GatheringRow(keys.Whole("gatheringRow", 1, cloth.GatheringRows)), PlaceReader.Thread(text, keys, threads))
        {
            Offset = keys.Whole("offset", -MostOffset, MostOffset, 0),
            Drop = keys.Whole("drop", -MostOffset, MostOffset, 0),
            Rows = keys.Whole("rows", 1, Chart.Band.MostRows, 1),
            UpsideDown = keys.Flag("upsideDown", false),
            Panel = PlaceReader.Panel(text, keys, cloth),
            From = Pleat(keys, "from"),
            To = Pleat(keys, "to"),
            Steps = Chosen(keys, "steps", stitch.Steps),
            Height = Chosen(keys, "height", stitch.Height),
        };
        if (stitch.TakesEnds(band))
            band = band with { Ends = keys.OneOf("ends", BandEnds.Cut, ("cut", BandEnds.Cut), ("whole", BandEnds.Whole)) };
        if (!stitch.OnLattice && keys.Optional("workFrom") is not null)
            band = band with { WorkFrom = keys.OneOf("workFrom", WorkFrom.Side, ("side", WorkFrom.Side), ("centre", WorkFrom.Centre)) };
        keys.NothingElse();
        if (band is { From: { } from, To: { } to } && to.Number <= from.Number)
            throw text.Error(keys.Required("to").Offset, $"the band ends at pleat {to.Number}, but begins at pleat {from.Number}; it needs two pleats at least.");
        return band;
    }

    /// <summary>One accent.</summary>
    public static AccentMark Accent(JsonText text, Located value, ClothPlan cloth, ImmutableArray<Floss> threads)
    {
        var keys = new KeyReader(text, value, "an accent");
        var accentAt = keys.Required("accent");
        var name = keys.AsString(accentAt, "accent");
        var accent = Chart.Accents.Accent.Named(name) ?? throw text.Error(accentAt.Offset,
            $"no accent is called {JsonText.Quote(name)}; there are {string.Join(", ", Chart.Accents.Accent.All.Select(a => a.Name))}.");
        keys.Named($"an accent of {name}");
        var mark = new AccentMark(name, PlaceReader.Centre(text, keys, cloth), new GatheringRow(keys.Whole("gatheringRow", 1, cloth.GatheringRows)), PlaceReader.Thread(text, keys, threads))
        {
            Offset = keys.Whole("offset", -MostOffset, MostOffset, 0),
            Drop = keys.Whole("drop", -MostOffset, MostOffset, 0),
            Repeat = PlaceReader.Repeat(text, keys),
            Size = Chosen(keys, "size", accent.Size),
            Upright = accent.MayBeUpright && keys.Flag("upright", false),
        };
        keys.NothingElse();
        return mark;
    }

    private static Pleat? Pleat(KeyReader keys, string key) =>
        keys.Optional(key) is { } value ? new Pleat(keys.AsWhole(value, key, 1, PleatingPlan.MostPleats)) : null;

    private static int? Chosen(KeyReader keys, string key, Choice? choice) =>
        choice is { } c && keys.Optional(key) is { } value ? keys.AsWhole(value, key, c.Least, c.Most) : null;
}
