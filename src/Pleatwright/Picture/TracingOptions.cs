using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>How a picture is to be traced.</summary>
public sealed record TracingOptions
{
    /// <summary>The most stitches a figure may be traced in here: valleys times cable rows.</summary>
    public const int MostCells = 1_000_000;

    /// <summary>The narrowest figure, in valleys.</summary>
    public const int LeastWidth = 3;

    /// <summary>The most threads: one to a letter.</summary>
    public const int MostThreads = 52;

    /// <summary>Valleys across the figure, <see cref="LeastWidth"/> to <see cref="Chart.Figure.MostValleys"/>. Default 80.</summary>
    public int Width { get; init; } = 80;

    /// <summary>Cable rows down the figure; null keeps the picture's proportions at the gauge.</summary>
    public int? Height { get; init; }

    /// <summary>Threads at most, 1 to <see cref="MostThreads"/>. Default 6.</summary>
    public int Threads { get; init; } = 6;

    /// <summary>Threads to choose from; when empty, the colours are chosen freely.</summary>
    public ImmutableArray<Floss> Stash { get; init; } = [];

    /// <summary>0: as few runs as can be; 1: every cable in its nearest thread. Default 0.5.</summary>
    public double Fidelity { get; init; } = 0.5;

    /// <summary>The weights of the energy; null takes those of <see cref="Fidelity"/>.</summary>
    public Weights? Weights { get; init; }

    /// <summary>The part of the picture to trace; null for all of it.</summary>
    public Crop? Crop { get; init; }

    /// <summary>A turn, after the crop.</summary>
    public Turn Turn { get; init; }

    /// <summary>What is left as bare pleats. Default: what is transparent.</summary>
    public Background Background { get; init; } = Background.None;

    /// <summary>Whether the figure is made the same left and right of its middle.</summary>
    public bool Mirror { get; init; }

    /// <summary>Whether run ends on the figure's outline are squared with a half stitch where the picture fills it. Default yes.</summary>
    public bool HalfStitches { get; init; } = true;

    /// <summary>The gauge it will be worked at.</summary>
    public Gauge Gauge { get; init; } = Gauge.Common;

    /// <summary>The figure's name in the piece. Default "figure".</summary>
    public string Name { get; init; } = "figure";

    /// <summary>Checks the ranges above.</summary>
    /// <exception cref="ArgumentException">A value is out of its range; the message says which and what would serve.</exception>
    public void Check()
    {
        if (Width is < LeastWidth or > Chart.Figure.MostValleys) throw new ArgumentException($"a figure is {LeastWidth} to {Chart.Figure.MostValleys} valleys wide, not {Width}");
        if (Height is < 1 or > Chart.Figure.MostRows) throw new ArgumentException($"a figure is 1 to {Chart.Figure.MostRows} cable rows high, not {Height}");
        if (Threads is < 1 or > MostThreads) throw new ArgumentException($"a piece has 1 to {MostThreads} threads, not {Threads}");
        if (!(Fidelity is >= 0 and <= 1)) throw new ArgumentException("fidelity runs from 0 to 1");
        if (!(Background.Tolerance is >= 0 and <= 100)) throw new ArgumentException("the background's tolerance runs from 0 to 100");
    }
}
