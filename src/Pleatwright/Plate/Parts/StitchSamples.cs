using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>Small pieces of the geometric stitches and accents of a work, laid and drawn as the chart draws them.</summary>
internal static class StitchSamples
{
    private const int Pleats = 10;
    private const double Width = 13;

    /// <summary>One sample for each stitch, thread and side the thread lies on, in the order of the piece.</summary>
    public static IEnumerable<SignEntry> Of(Work work, LevelWords levels)
    {
        var piece = work.Piece;
        foreach (var group in work.Bands.GroupBy(b => (b.Stitch.Name, b.Band.Thread, Sides: b.Stitch.SidesOf(b.Band) is { IsEmpty: false } sides ? Phrases.Sides(sides, levels) : "")))
            if (piece.Thread(group.Key.Thread) is { } thread)
                yield return new SignEntry(Sign.Sample, Words(group.Key.Name, thread) + (group.Key.Sides.Length > 0 ? $": {group.Key.Sides}" : ""), Draw(work, piece with
                {
                    Bands = [group.First().Band with { GatheringRow = new GatheringRow(2), Offset = 0, Drop = 0, Rows = 1, Panel = null, From = null, To = null, Ends = BandEnds.Cut }],
                    Accents = [],
                }));
        foreach (var group in work.Accents.GroupBy(a => (a.Accent.Name, a.Mark.Thread)))
            if (piece.Thread(group.Key.Thread) is { } thread)
                yield return new SignEntry(Sign.Sample, Words(group.Key.Name, thread), Draw(work, piece with
                {
                    Bands = [],
                    Accents = [group.First().Mark with { Centre = Centre.Middle, GatheringRow = new GatheringRow(2), Offset = 0, Drop = 0, Repeat = Repeat.Once }],
                }));
    }

    private static string Words(string stitch, Floss thread)
    {
        var name = Tidy.Line(thread.Name);
        return $"{char.ToUpperInvariant(stitch[0])}{stitch[1..]}, in {thread.Key}" + (name.Length > 0 ? $" ({name})" : "");
    }

    // The sample's own cloth is always a panel: only the stitch is shown.
    private static Drawing? Draw(Work work, Piece piece)
    {
        var gauge = work.Pleating.Gauge;
        var cloth = new ClothPlan(new Panel(gauge.Pitch * Pleats), gauge, 5) { SeamPleats = 0 };
        var sample = Work.Lay(piece with { Cloth = cloth, Figures = [], Placements = [] });
        var geometry = ChartGeometry.Scaled(sample, Width / (Pleats * gauge.Pitch.Millimetres));
        var spans = ThreadShapes.Spans(sample).ToList();
        if (spans.Count == 0) return null;
        var middle = (spans[0].FirstRow + spans[0].LastRow + 1) / 2.0 * geometry.RowHeight;
        var all = geometry.Everything;
        var view = new Box(0, middle - 3, Width, 6);
        return new Drawing(view,
        [
            .. ChartCloth.Draw(geometry, all, Look.Booklet),
            .. ThreadShapes.Bands(geometry, all, Look.Booklet),
            .. ThreadShapes.Accents(geometry, all, Look.Booklet),
        ]);
    }
}
