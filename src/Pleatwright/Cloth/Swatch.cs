using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// What a maker counted and measured on a swatch of the very cloth and thread. Several swatches make the range narrower.
/// </summary>
/// <param name="Pleats">Pleats counted, at least 1.</param>
/// <param name="Width">Finished width they were counted over, more than 0.</param>
public sealed record Swatch(int Pleats, Length Width)
{
    /// <summary>Flat cloth that went into those pleats, when measured.</summary>
    public Length? Cloth { get; init; }

    /// <summary>Cables stitched with the thread measured; 0 when none were.</summary>
    public int Cables { get; init; }

    /// <summary>Thread they used, tails and all, when measured.</summary>
    public Length? Thread { get; init; }

    /// <summary>Starts, each with its tie-off, within that thread; 0 when the stitching alone was measured. Default 1.</summary>
    public int Starts { get; init; } = 1;

    /// <summary>Why these measurements cannot be right, one sentence; null when they can.</summary>
    public string? Fault =>
        Pleats < 1 || Width <= Length.Zero ? "A swatch needs the pleats counted and the width they were counted over."
        : Thread is not null != Cables > 0 ? "A swatch gives the cables stitched and the thread they took together, or neither."
        : Cloth < Width ? $"A swatch of {Width} cannot have been gathered from {Cloth} of cloth."
        : Starts < 0 ? "Starts are counted from none upward."
        : null;
}
