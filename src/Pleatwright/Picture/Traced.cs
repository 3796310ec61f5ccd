using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>A picture traced.</summary>
public sealed record Traced
{
    /// <summary>The figure, cut down to its worked rows and valleys.</summary>
    public required Figure Figure { get; init; }

    /// <summary>The threads it is worked in, the most used first.</summary>
    public required ImmutableArray<Floss> Threads { get; init; }

    /// <summary>The figure's base row, 0 at the top: its widest row, the topmost of several.</summary>
    public required int BaseRow { get; init; }

    /// <summary>The phase it was traced for, its left valley and top row both counted as 0.</summary>
    public required Phase Phase { get; init; }

    /// <summary>What lies under every stitch of the picture as prepared; wider and higher than the figure where that was cut down.</summary>
    public required BrickSamples Samples { get; init; }

    /// <summary>Columns and rows cut off at the figure's left and top.</summary>
    public required (int Columns, int Rows) Offset { get; init; }

    /// <summary>The picture as prepared: cropped, turned, its background gone.</summary>
    public required Raster Prepared { get; init; }

    /// <summary>What was charged.</summary>
    public required Weights Weights { get; init; }

    /// <summary>The energy at the start and after every sweep; it never rises.</summary>
    public required ImmutableArray<long> Energies { get; init; }

    /// <summary>Cables worked.</summary>
    public required int Cables { get; init; }

    /// <summary>Runs worked.</summary>
    public required int Runs { get; init; }

    /// <summary>The mean CIEDE2000 difference between each cable's thread and what it covers.</summary>
    public required double MeanDifference { get; init; }
}

/// <summary>How far a trace has come.</summary>
/// <param name="Stage">What is being done.</param>
/// <param name="Sweep">Sweeps done.</param>
/// <param name="Energy">The energy now; null before the first.</param>
internal readonly record struct TraceProgress(TraceStage Stage, int Sweep = 0, long? Energy = null);

/// <summary>The stages of a trace, in order.</summary>
internal enum TraceStage
{
    /// <summary>Cropping, turning, removing the background.</summary>
    Preparing,

    /// <summary>Averaging under every brick.</summary>
    Sampling,

    /// <summary>Choosing the threads.</summary>
    Choosing,

    /// <summary>Lowering the energy.</summary>
    Smoothing,

    /// <summary>Done.</summary>
    Done,
}
