using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// What a maker counted and measured on a swatch of the very cloth and thread. Several swatches make the range narrower.
/// </summary>
/// <param name="Pleats">Pleats counted, 1 to <see cref="MostCounted"/>.</param>
/// <param name="Width">Finished width they were counted over, more than 0.</param>
public sealed record Swatch(int Pleats, Length Width)
{
    /// <summary>The most swatches one piece may have.</summary>
    public const int Most = 200;

    /// <summary>The most pleats, cables or starts that one swatch may count.</summary>
    public const int MostCounted = 100_000;

    /// <summary>Flat cloth that went into those pleats, when measured.</summary>
    public Length? Cloth { get; init; }

    /// <summary>Cables stitched with the thread measured; 0 when none were.</summary>
    public int Cables { get; init; }

    /// <summary>Thread they used, tails and all, when measured.</summary>
    public Length? Thread { get; init; }

    /// <summary>Starts, each with its tie-off, within that thread; 0 when the stitching alone was measured. Default 1.</summary>
    public int Starts { get; init; } = 1;

    /// <summary>Why these measurements cannot be right; null when they can.</summary>
    public ClothFault? Fault =>
        Pleats is < 1 or > MostCounted || Width <= Length.Zero ? new("pleats", $"a swatch needs the pleats counted, 1 to {MostCounted}, and the width they were counted over")
        : Cables is < 0 or > MostCounted || Starts is < 0 or > MostCounted ? new(Cables is < 0 or > MostCounted ? "cables" : "starts", $"cables and starts are counted from 0 to {MostCounted}")
        : Thread is not null != Cables > 0 ? new(Cables > 0 ? "cables" : "thread", "a swatch gives the cables stitched and the thread they took together, or neither")
        : Cloth < Width ? new("cloth", $"a swatch of {Width} cannot have been gathered from {Cloth} of cloth")
        : null;
}
