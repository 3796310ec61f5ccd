using System.Collections.Immutable;

namespace Pleatwright.Order;

/// <summary>How hard a piece is to work, in the four words that plates and classes use, easiest first.</summary>
internal enum Grade
{
    /// <summary>For a first piece.</summary>
    Beginner,

    /// <summary>For one who has stitched a piece or two.</summary>
    Easy,

    /// <summary>For one at home in stacked cables.</summary>
    Intermediate,

    /// <summary>For a practised hand.</summary>
    Advanced,
}

/// <summary>What makes a piece hard.</summary>
internal enum Hardness
{
    /// <summary>Threads that hang at the back at once while another is worked.</summary>
    ThreadsWaiting,

    /// <summary>Cables of the longest run of a figure: so far the count must be kept. A border's runs end at the side, and need no count.</summary>
    LongestRun,

    /// <summary>Cables of the largest figure, borders apart: so long a hand must keep one depth and tension.</summary>
    CablesInFigure,

    /// <summary>Rows worked with the work turned, where up and down swap as held.</summary>
    TurnedRows,

    /// <summary>Half stitches.</summary>
    HalfStitches,

    /// <summary>Kinds of geometric stitch and accent beside the cable.</summary>
    OtherStitches,

    /// <summary>Threads begun, of the front and the back.</summary>
    Starts,
}

/// <summary>One count of a piece, and the grade it alone would make.</summary>
/// <param name="Of">What is counted.</param>
/// <param name="Count">How many.</param>
/// <param name="Grade">The grade.</param>
internal readonly record struct HardCount(Hardness Of, int Count, Grade Grade);

/// <summary>
/// How hard a piece is, decided from counts alone. Each count makes a grade by <see cref="Bounds"/>; the piece has the highest grade that two counts
/// at least reach: one thing alone makes no piece hard, and none is as easy as its easiest part. The rule and its bounds are our own choice; no source.
/// </summary>
/// <param name="Grade">The grade.</param>
/// <param name="Counts">Every count, in the order of <see cref="Hardness"/>.</param>
internal sealed record Difficulty(Grade Grade, ImmutableArray<HardCount> Counts)
{
    /// <summary>The most of each count that is still a beginner's, easy, intermediate; beyond it is advanced. Our own choice, no source.</summary>
    public static (int Beginner, int Easy, int Intermediate) Bounds(Hardness of) => of switch
    {
        Hardness.ThreadsWaiting => (0, 1, 2),
        Hardness.LongestRun => (24, 40, 80),
        Hardness.CablesInFigure => (150, 300, 800),
        Hardness.TurnedRows => (8, 20, 60),
        Hardness.HalfStitches => (4, 16, 60),
        Hardness.OtherStitches => (1, 2, 4),
        Hardness.Starts => (10, 25, 75),
        _ => throw new ArgumentOutOfRangeException(nameof(of)),
    };

    /// <summary>The grade a count makes by itself.</summary>
    public static Grade GradeOf(Hardness of, int count)
    {
        var (beginner, easy, intermediate) = Bounds(of);
        return count <= beginner ? Grade.Beginner : count <= easy ? Grade.Easy : count <= intermediate ? Grade.Intermediate : Grade.Advanced;
    }

    /// <summary>How hard a piece is when it is worked in this order.</summary>
    public static Difficulty Of(WorkingOrder order)
    {
        ImmutableArray<HardCount> counts = [.. Enum.GetValues<Hardness>().Select(h => (Of: h, Count: Count(order, h))).Select(c => new HardCount(c.Of, c.Count, GradeOf(c.Of, c.Count)))];
        return new Difficulty(counts.OrderByDescending(c => c.Grade).ElementAt(1).Grade, counts);
    }

    /// <summary>The counts that make the grade: those that reach it.</summary>
    public IEnumerable<HardCount> Why => Counts.Where(c => c.Grade >= Grade);

    private static int Count(WorkingOrder order, Hardness of) => of switch
    {
        Hardness.ThreadsWaiting => ThreadsWaiting(order),
        Hardness.LongestRun => InFigures(order).Select(r => r.Cables).DefaultIfEmpty(0).Max(),
        Hardness.CablesInFigure => InFigures(order).GroupBy(r => r.Figure, r => r.Cables).Select(f => f.Sum()).DefaultIfEmpty(0).Max(),
        Hardness.TurnedRows => order.Steps.Where(s => s.Turned).Select(s => (order.Parts.Of(s.RunIndex), s.Row)).Distinct().Count(),
        Hardness.HalfStitches => order.Steps.Sum(s => s.HalfStitches),
        Hardness.OtherStitches => order.Work.Bands.Select(b => b.Stitch.Name).Concat(order.Work.Accents.Select(a => a.Accent.Name)).Distinct().Count(),
        Hardness.Starts => order.Needlefuls,
        _ => throw new ArgumentOutOfRangeException(nameof(of)),
    };

    private static int ThreadsWaiting(WorkingOrder order)
    {
        int waiting = 0, most = 0;
        for (var i = 0; i < order.Steps.Length; i++)
        {
            var step = order.Steps[i];
            if (i > 0 && step.Starts == StartKind.Carry && step.Needleful != order.Steps[i - 1].Needleful) waiting--;
            if (step.Parks) most = Math.Max(most, ++waiting);
        }
        return most;
    }

    // The runs that are no border's.
    private static IEnumerable<(int Figure, int Cables)> InFigures(WorkingOrder order)
    {
        for (var r = 0; r < order.Work.Runs.Length; r++)
        {
            var part = order.Parts.InOrder[order.Parts.Of(r)];
            if (!part.IsBorder) yield return (part.Figure, order.Work.Runs[r].Cables);
        }
    }
}
