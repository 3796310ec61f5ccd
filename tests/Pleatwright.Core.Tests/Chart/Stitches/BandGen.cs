using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Chart.Stitches;

/// <summary>Random bands of every stitch, and pieces with them.</summary>
internal static class BandGen
{
    private static readonly ThreadKey Thread = new('a');

    private static Gen<int?> Maybe(Choice? choice) => choice is { } c
        ? Gen.OneOf(Gen.Const((int?)null), Gen.Int[c.Least, c.Most].Select(n => (int?)n))
        : Gen.Const((int?)null);

    /// <summary>Bands of one stitch on gathering row 3 or about it, from side to side.</summary>
    public static Gen<Band> BandsOf(BandStitch stitch) =>
        Gen.Select(Maybe(stitch.Steps), Maybe(stitch.Height), Gen.Int[1, 3], Gen.Bool, Gen.Int[0, 2], Gen.Select(Gen.Int[-4, 4], Gen.Int[-3, 3], Gen.Bool))
            .Select((steps, height, rows, upside, start, place) => new Band(stitch.Name, new GatheringRow(3), Thread)
            {
                Steps = steps,
                Height = height,
                Rows = rows,
                UpsideDown = upside,
                WorkFrom = start == 0 || stitch.OnLattice ? null : start == 1 ? WorkFrom.Side : WorkFrom.Centre,
                Offset = place.Item1,
                Drop = place.Item2,
                Ends = place.Item3 && !stitch.OnLattice && stitch.Name is not ("outline" or "wheat") ? BandEnds.Whole : BandEnds.Cut,
            });

    public static readonly Gen<BandStitch> Stitches = Gen.Int[0, BandStitch.All.Length - 1].Select(i => BandStitch.All[i]);

    public static readonly Gen<Band> Bands = Stitches.SelectMany(BandsOf);

    /// <summary>A band laid on a random even count of pleats, by either hand.</summary>
    public static readonly Gen<LaidBand> Laid = Gen.Select(Bands, Gen.Int[1, 90], Gen.Int[1, 9], Gen.Bool).Select((band, half, perSpace, left) =>
        LaidBand.Lay(0, band, BandStitch.Named(band.Stitch)!, 2 * half, perSpace, left ? Hand.Left : Hand.Right));

    public static readonly Gen<AccentMark> Accents = Gen.Select(Gen.Int[0, Accent.All.Length - 1].Select(i => Accent.All[i]), Gen.Int[1, 40], Gen.Int[1, 6], Gen.Int[-4, 4], Gen.Bool, Gen.Int[1, 3])
        .SelectMany((accent, valley, row, offset, upright, count) => Maybe(accent.Size).Select(size =>
            new AccentMark(accent.Name, Centre.At(new Valley(valley)), new GatheringRow(row), Thread)
            {
                Offset = offset,
                Drop = (valley + row) % 4,
                Size = size,
                Upright = upright && accent.Size is not null,
                Repeat = new Repeat(count, 6),
            }));

    /// <summary>Pieces with a few bands and accents, and perhaps a figure.</summary>
    public static readonly Gen<Piece> Pieces = Gen.Select(PieceGen.Pieces, Bands.Array[0, 4], Accents.Array[0, 3], Gen.Select(Gen.Int[0, 20], Gen.Int[22, 60], Gen.Bool))
        .Select((piece, bands, accents, range) => piece with
        {
            Cloth = piece.Cloth with { GatheringRows = Math.Max(6, piece.Cloth.GatheringRows) },
            Bands = [.. bands.Select((b, i) => i == 0 && range.Item3 ? b with { From = new Pleat(range.Item1 + 1), To = new Pleat(range.Item2) } : b)],
            Accents = [.. accents],
        });

    /// <summary>A piece with one band and nothing else, on so many pleats.</summary>
    public static Piece Alone(Band band, int pleats, int gatheringRows = 6) =>
        new("Band", new ClothPlan(new Panel(Gauge.Common.Pitch * pleats), Gauge.Common, gatheringRows), PieceGen.Threads, [], []) { Bands = [band] };

    public static Band Band(string stitch) => new(stitch, new GatheringRow(2), Thread);

    public static LaidBand Lay(Band band, int pleats, Hand hand = Hand.Right) =>
        LaidBand.Lay(0, band, BandStitch.Named(band.Stitch)!, pleats, 5, hand);

    /// <summary>The stitches of the first journey as it shows on the chart, from left to right.</summary>
    public static ImmutableArray<Stitch> Across(LaidBand laid) =>
        [.. laid.Passes.Where(p => p is { Row: 0, Journey: 0 }).SelectMany(p => p.Stitches).OrderBy(s => s.Valley.Number)];
}
