using System.Collections.Immutable;

namespace Pleatwright.Bench.Model;

/// <summary>A station on the way of the work.</summary>
/// <param name="Name">Its name in the address, after the #.</param>
/// <param name="Title">Its name on the screen.</param>
/// <param name="Hint">What is done there.</param>
public sealed record View(string Name, string Title, string Hint)
{
    /// <summary>Where pieces are kept.</summary>
    public static View Shelf { get; } = new("shelf", "Shelf", "your pieces");

    /// <summary>Where a piece is drawn and proofread.</summary>
    public static View Table { get; } = new("table", "Table", "draw and check");

    /// <summary>Where its order is told.</summary>
    public static View Order { get; } = new("order", "Order", "how to work it");

    /// <summary>Where threads and cloth are counted and bought.</summary>
    public static View Stash { get; } = new("stash", "Stash", "what you have and what to buy");

    /// <summary>Where it is printed.</summary>
    public static View Plate { get; } = new("plate", "Plate", "print it");

    /// <summary>Where it is stitched.</summary>
    public static View Stitch { get; } = new("stitch", "Stitch", "at your chair");

    /// <summary>Beside the way: gone to from a station and left for one.</summary>
    public static View Picture { get; } = new("picture", "Picture", "trace a figure from it");

    /// <summary>Beside the way: a step, or a move by itself, in motion.</summary>
    public static View Show { get; } = new("show", "Show", "the stitch in motion");

    /// <summary>Every station, in the order of the work.</summary>
    public static ImmutableArray<View> All { get; } = [Shelf, Table, Order, Stash, Plate, Stitch];

    /// <summary>The station an address names; the table when it names none.</summary>
    public static View At(string address)
    {
        var hash = address.IndexOf('#', StringComparison.Ordinal);
        var name = hash < 0 ? "" : address[(hash + 1)..];
        return All.Append(Picture).Append(Show).FirstOrDefault(v => v.Name == name) ?? Table;
    }
}
