using Pleatwright.Cloth;

namespace Pleatwright.Chart;

/// <summary>Copies of a figure spread evenly about its centre.</summary>
/// <param name="Count">Copies in all, 1 to <see cref="MostCount"/>.</param>
/// <param name="Every">Valleys from one copy to the next, 1 to <see cref="PleatingPlan.MostPleats"/>.</param>
public readonly record struct Repeat(int Count, int Every)
{
    /// <summary>The most copies.</summary>
    public const int MostCount = 2500;

    /// <summary>What is wrong with it, as a sentence; null when nothing is.</summary>
    public string? Fault => Count is < 1 or > MostCount ? FormattableString.Invariant($"Copies run from 1 to {MostCount:#,0}.")
        : Every is < 1 or > PleatingPlan.MostPleats ? FormattableString.Invariant($"Copies lie 1 to {PleatingPlan.MostPleats:#,0} valleys apart.")
        : null;

    /// <summary>A figure placed once.</summary>
    public static Repeat Once => new(1, 1);

    /// <summary>Valleys by which copy <paramref name="copy"/> (from 0) is shifted from the centre; half a valley goes left.</summary>
    public int OffsetOf(int copy) => copy * Every - (Count - 1) * Every / 2 - ((Count - 1) * Every & 1);
}

/// <summary>A figure put on the cloth.</summary>
/// <param name="Figure">The figure's name.</param>
/// <param name="Centre">The valley its middle lies on.</param>
/// <param name="GatheringRow">The gathering row that one of its rows lies on.</param>
/// <param name="FigureRow">Which of its rows that is, 0 at the top.</param>
public sealed record Placement(string Figure, Centre Centre, GatheringRow GatheringRow, int FigureRow)
{
    /// <summary>Whether the figure is mirrored left to right.</summary>
    public bool Mirror { get; init; }

    /// <summary>Whether it follows the other phase than the piece.</summary>
    public bool FlipPhase { get; init; }

    /// <summary>Copies about the centre.</summary>
    public Repeat Repeat { get; init; } = Repeat.Once;

    /// <summary>The cable row on which the figure's top row lies; may be off the cloth.</summary>
    public CableRow Top(PleatingPlan pleating) =>
        new(GatheringRow.CableRow(pleating.Gauge.CableRowsPerSpace).Index - FigureRow);

    /// <summary>The valley on which the figure's leftmost column lies in a copy, mirrored or not; may be off the cloth.</summary>
    public Valley Left(Figure figure, PleatingPlan pleating, int copy) => new(
        Centre.On(pleating).Number
        - (Mirror ? figure.Width - 1 - figure.Middle : figure.Middle) + Repeat.OffsetOf(copy));
}
