using System.Collections.Immutable;
using Pleatwright.Bench.Basket;
using Pleatwright.Bench.Pieces;
using Pleatwright.Bench.Printing;
using Pleatwright.Bench.Stitching;
using Pleatwright.Bench.Table;
using Pleatwright.Bench.Tracing;
using Pleatwright.Bench.Working;

namespace Pleatwright.Bench;

/// <summary>A station on the way of the work.</summary>
/// <param name="Name">Its name in the address, after the #.</param>
/// <param name="Title">Its name on the screen.</param>
/// <param name="Hint">What is done there.</param>
/// <param name="Component">What shows it.</param>
public sealed record View(string Name, string Title, string Hint, Type Component)
{
    /// <summary>Every station, in the order of the work.</summary>
    public static ImmutableArray<View> All { get; } =
    [
        new("shelf", "Shelf", "your pieces", typeof(ShelfView)),
        new("table", "Table", "draw and check", typeof(TableView)),
        new("order", "Order", "how to work it", typeof(OrderView)),
        new("stash", "Stash", "what you have and what to buy", typeof(StashView)),
        new("plate", "Plate", "print it", typeof(PlateView)),
        new("stitch", "Stitch", "at your chair", typeof(StitchView)),
    ];

    /// <summary>What lies beside the way: gone to from a station and left for one.</summary>
    public static ImmutableArray<View> Aside { get; } = [new("picture", "Picture", "trace a figure from it", typeof(TraceView))];

    /// <summary>The station an address names; the table when it names none.</summary>
    public static View At(string address)
    {
        var hash = address.IndexOf('#', StringComparison.Ordinal);
        var name = hash < 0 ? "" : address[(hash + 1)..];
        return All.Concat(Aside).FirstOrDefault(v => v.Name == name) ?? All[1];
    }
}
