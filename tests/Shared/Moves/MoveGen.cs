using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Moves;

/// <summary>Pieces in whose steps every kind of move comes.</summary>
internal static class MoveGen
{
    /// <summary>Bands of every stitch.</summary>
    public static readonly Gen<Band> Bands = Gen.Select(Gen.OneOf([.. BandStitch.All]), Gen.Int[0, 12], Gen.Int[0, 8], Gen.Bool, Gen.Enum<WorkFrom>(), Gen.Int[1, 2]).Select((stitch, steps, height, upsideDown, from, rows) =>
        new Band(stitch.Name, new GatheringRow(1), new ThreadKey('b'))
        {
            Steps = stitch.Steps is { } s ? Math.Clamp(steps, s.Least, s.Most) : null,
            Height = stitch.Height is { } h ? Math.Clamp(height, h.Least, h.Most) : null,
            UpsideDown = upsideDown,
            WorkFrom = from,
            Rows = rows,
        });

    private static readonly Gen<AccentMark> Accents = Gen.Select(Gen.OneOf([.. Accent.All]), Gen.Bool, Gen.Int[1, 3]).Select((accent, upright, copies) =>
        new AccentMark(accent.Name, Centre.Middle, new GatheringRow(2), new ThreadKey('c')) { Upright = upright && accent.Size is not null, Repeat = new Repeat(copies, 4) });

    /// <summary>Pieces with runs, half stitches, bands, accents and backsmocking, for either hand.</summary>
    public static readonly Gen<Piece> Pieces = Gen.Select(Drawn.Pieces, Bands.Array[0, 2], Accents.Array[0, 2], Gen.Select(Gen.Bool, Gen.Bool, Gen.Enum<WayOfWorking>(), Gen.Enum<Backsmocking>(), Gen.Int[0, 9])).Select((piece, bands, accents, how) => piece with
    {
        Figures = [.. piece.Figures.Select(f => f with { Square = how.Item1 })],
        Bands = [.. bands],
        Accents = [.. accents],
        Back = how.Item4,
        Working = piece.Working with { Hand = how.Item2 ? Hand.Left : Hand.Right, Way = how.Item3, CarryPleats = how.Item5 },
    });
}
