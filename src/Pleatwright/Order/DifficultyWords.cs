using Pleatwright.Measure;

namespace Pleatwright.Order;

/// <summary>How hard a piece is, in words.</summary>
internal static class DifficultyWords
{
    /// <summary>"beginner", "easy", "intermediate", "advanced".</summary>
    public static string Of(Grade grade) => grade switch
    {
        Grade.Beginner => "beginner",
        Grade.Easy => "easy",
        Grade.Intermediate => "intermediate",
        Grade.Advanced => "advanced",
        _ => throw new ArgumentOutOfRangeException(nameof(grade)),
    };

    /// <summary>"2 threads waiting at once".</summary>
    public static string Of(HardCount count) => count.Of switch
    {
        Hardness.ThreadsWaiting => $"{Counting.Of(count.Count, "thread")} waiting at once",
        Hardness.LongestRun => $"a run of {Counting.Of(count.Count, "cable")}",
        Hardness.CablesInFigure => $"{Counting.Of(count.Count, "cable")} in one figure",
        Hardness.TurnedRows => $"{Counting.Of(count.Count, "row")} worked turned",
        Hardness.HalfStitches => Counting.Of(count.Count, "half stitch", "half stitches"),
        Hardness.OtherStitches => $"{Counting.Of(count.Count, "stitch", "stitches")} beside the cable",
        Hardness.Starts => $"{Counting.Of(count.Count, "thread")} begun",
        _ => throw new ArgumentOutOfRangeException(nameof(count)),
    };

    /// <summary>"intermediate: 2 threads waiting at once, 29 threads begun"; a beginner's piece needs no reason.</summary>
    public static string Of(Difficulty difficulty) => Of(difficulty.Grade)
        + (difficulty.Grade == Grade.Beginner ? "" : ": " + string.Join(", ", difficulty.Why.Select(Of)));
}
