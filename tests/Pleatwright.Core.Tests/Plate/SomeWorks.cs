using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Plate;

/// <summary>Works of all sorts for laws about plates.</summary>
internal static class SomeWorks
{
    public static ImmutableArray<Floss> Threads { get; } =
    [
        new Floss(new ThreadKey('r'), "sail red", Colour.Parse("#b3202c"), 4),
        new Floss(new ThreadKey('b'), "hull blue", Colour.Parse("#1f4e79"), 4),
    ];

    /// <summary>A work with one figure on cloth with room for it.</summary>
    public static Work Of(bool square, params string[] rows) => Of(new Figure("f", [.. rows]) { Square = square });

    public static Work Of(Figure figure, string title = "Some work")
    {
        var spaces = Math.Max(1, (figure.Height + 4) / 5);
        var pleats = (figure.Width + 6) / 2 * 2;
        var gauge = Gauge.Common;
        var cloth = new ClothPlan(new Panel(gauge.Pitch * pleats), gauge, spaces + 1);
        return Work.Lay(new Piece(title, cloth, Threads, [figure],
            [new Placement("f", Centre.Middle, new GatheringRow(1), 0)]));
    }

    /// <summary>Any figure of up to 30 by 30.</summary>
    public static Gen<Work> Any { get; } =
        from width in Gen.Int[1, 30]
        from height in Gen.Int[1, 30]
        from square in Gen.Bool
        from rows in Gen.Char["..rrb"].Array[width].Array[height]
        select Of(new Figure("f", [.. rows.Select(r => new string(r))]) { Square = square });
}
