using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests;

/// <summary>
/// Pieces drawn cell by cell: one figure as wide as the cloth, its top row on gathering row 1. Lines are as high as at
/// the common gauge, however many rows the space has.
/// </summary>
internal static class Drawn
{
    /// <summary>Four threads that cover and differ: a red, b blue, c green of three strands, d yellow.</summary>
    public static readonly ImmutableArray<Floss> Threads =
    [
        Some.Floss('a', "#b3202c"), Some.Floss('b', "#1f4e79"), Some.Floss('c', "#2f7f48", 3), Some.Floss('d', "#d8a200"),
    ];

    /// <summary>A piece of these rows; they are equally long and of odd length, as there is a centre valley.</summary>
    public static Piece Piece(int perSpace, params string[] rows)
    {
        var spaces = Math.Max(1, (rows.Length - 1 + perSpace - 1) / perSpace);
        var bare = new string(Figure.Bare, rows[0].Length);
        var all = rows.Concat(Enumerable.Repeat(bare, spaces * perSpace + 1 - rows.Length));
        return new Piece("Drawn", Cloth(rows[0].Length + 1, spaces + 1, perSpace), Threads, [new Figure("drawn", [.. all])],
            [new Placement("drawn", Centre.Middle, new GatheringRow(1), 0)]);
    }

    /// <summary>Cloth of so many pleats at twelve to the inch.</summary>
    public static ClothPlan Cloth(int pleats, int gatheringRows, int perSpace) => new(
        new Panel(Length.FromInches(pleats / 12.0)),
        Gauge.FromPleatsPerInch(12, Length.FromInches(0.25), Length.FromInches(0.075 * perSpace), perSpace), gatheringRows);

    public static Work Work(int perSpace, params string[] rows) => Pleatwright.Chart.Work.Lay(Piece(perSpace, rows));

    /// <summary>The same piece seen in a looking glass.</summary>
    public static Piece Mirrored(Piece piece) => piece with { Figures = [.. piece.Figures.Select(f => f.Mirrored())] };

    /// <summary>Random pieces, from a few specks to nearly full.</summary>
    public static readonly Gen<Piece> Pieces =
        from half in Gen.Int[1, 9]
        from height in Gen.Int[1, 14]
        from perSpace in Gen.Int[1, 6]
        from density in Gen.Int[1, 9]
        from cells in Gen.Int[0, 99].Array[(2 * half + 1) * height]
        select Piece(perSpace, [.. Enumerable.Range(0, height).Select(r => new string(
            [.. Enumerable.Range(0, 2 * half + 1).Select(i => cells[r * (2 * half + 1) + i] is var n && n / 10 < density ? "aaaaaabcda"[n % 10] : Figure.Bare)]))]);
}
