using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Tests.Chart;

namespace Pleatwright.Tests.Order;

/// <summary>Random pieces for the laws of the working order: one figure on a cloth that holds it, and a way of working.</summary>
internal static class OrderGen
{
    public static readonly Gen<Working> Workings = Gen.Select(
        Gen.Select(Gen.Int[10, 60], Gen.Int[0, 8], Gen.Int[0, 6]),
        Gen.Select(Gen.Bool, Gen.Bool, Gen.Bool),
        Gen.Int[0, 4], Gen.Int[0, 2], Gen.Enum<WayOfWorking>()).Select((sizes, flags, parked, first, way) => new Working
        {
            Way = way,
            WorkingLength = Length.FromCentimetres(sizes.Item1),
            Tails = Length.FromCentimetres(sizes.Item2),
            CarryPleats = sizes.Item3,
            Hand = flags.Item1 ? Hand.Left : Hand.Right,
            First = (FirstWay)first,
            MayTurn = flags.Item2,
            SplitRuns = flags.Item3,
            ParkedThreads = parked,
        });

    public static readonly Gen<ImmutableArray<string>> Rows = Gen.Select(Gen.Int[1, 40], Gen.Int[1, 14], Gen.OneOf(".aa", "..aab", ".aaaabbbb", "....abc"))
        .SelectMany((width, height, letters) => Gen.Select(Gen.OneOf([.. letters]), Gen.Int[0, 2]).Array[width * height]
            .Select(cells => Smear(cells, width, height)));

    public static readonly Gen<Piece> Pieces = Gen.Select(Rows, Workings, Gen.Bool).Select((rows, working, square) => PieceOf(rows, working, square));

    /// <summary>A piece of 60 pleats with one figure, its middle on the centre valley, its top row on gathering row 2.</summary>
    public static Piece PieceOf(ImmutableArray<string> rows, Working working, bool square = false) => new(
        "Random",
        new ClothPlan(new Panel(Length.FromInches(5)), Gauge.Common, 6),
        PieceGen.Threads,
        [new Figure("figure", rows) { Square = square }],
        [new Placement("figure", Centre.Middle, new GatheringRow(2), 0)])
    { Working = working, Back = Backsmocking.None };

    // Cells that copy their left or upper neighbour make runs and areas of all sizes.
    private static ImmutableArray<string> Smear((char Letter, int Copy)[] cells, int width, int height)
    {
        var letters = new char[cells.Length];
        for (var i = 0; i < cells.Length; i++)
            letters[i] = cells[i].Copy == 1 && i % width > 0 ? letters[i - 1]
                : cells[i].Copy == 2 && i >= width ? letters[i - width]
                : cells[i].Letter;
        return [.. Enumerable.Range(0, height).Select(r => new string(letters, r * width, width))];
    }
}
