using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Tests.Plate;

namespace Pleatwright.Tests.Order;

public class DifficultyTests
{
    // Counted and graded by hand from the charts and their orders.
    [Theory]
    [InlineData("first-pennant", "beginner")]
    [InlineData("flawed-kite", "easy: 151 cables in one figure, 13 threads begun")]
    [InlineData("gulls-turning", "intermediate: 2 threads waiting at once, 31 threads begun")]
    [InlineData("harbour-morning", "easy: 1 thread waiting at once, 12 rows worked turned, 32 threads begun")]
    [InlineData("harbour-wall", "intermediate: 6 stitches beside the cable, 47 threads begun")]
    [InlineData("quay-banner", "intermediate: a run of 55 cables, 605 cables in one figure, 22 half stitches")]
    [InlineData("quay-bishop", "easy: 22 rows worked turned, 23 threads begun")]
    [InlineData("quay-yoke", "intermediate: 3 threads waiting at once, 24 rows worked turned, 29 threads begun")]
    public void Of_the_examples(string example, string words) =>
        Assert.Equal(words, DifficultyWords.Of(Difficulty.Of(Planner.Plan(Plates.Example(example), Effort.Drawing))));

    [Fact]
    public void A_piece_has_the_highest_grade_that_two_counts_reach() => OrderGen.Pieces.Sample(piece =>
    {
        var difficulty = Difficulty.Of(Planner.Plan(Work.Lay(piece), Effort.Drawing));
        Assert.Equal(Enum.GetValues<Hardness>(), difficulty.Counts.Select(c => c.Of));
        Assert.True(difficulty.Counts.Count(c => c.Grade >= difficulty.Grade) >= 2);
        Assert.True(difficulty.Counts.Count(c => c.Grade > difficulty.Grade) < 2);
        Assert.Equal(difficulty.Counts.Where(c => c.Grade >= difficulty.Grade), difficulty.Why);
    }, iter: 60);

    [Fact]
    public void The_counts_are_those_of_the_order() => OrderGen.Pieces.Sample(piece =>
    {
        var order = Planner.Plan(Work.Lay(piece), Effort.Drawing);
        int Count(Hardness of) => Difficulty.Of(order).Counts.Single(c => c.Of == of).Count;
        // A thread waits from the step after which it hangs to the one that takes it up, if other steps lie between.
        var waits = order.Steps.Where(s => s.Starts == StartKind.Carry).Select(s => (After: order.LastStepOf(s), Until: s.Number)).Where(w => w.Until > w.After + 1).ToList();
        Assert.Equal(order.Steps.Select(s => waits.Count(w => w.After <= s.Number && s.Number < w.Until)).DefaultIfEmpty(0).Max(), Count(Hardness.ThreadsWaiting));
        Assert.Equal(order.Needlefuls, Count(Hardness.Starts));
        Assert.Equal(order.Work.Runs.ToArray().Sum(r => r.HalfStitches), Count(Hardness.HalfStitches));
        Assert.Equal(order.Work.Runs.ToArray().Select(r => r.Cables).DefaultIfEmpty(0).Max(), Count(Hardness.LongestRun)); // one figure, no border
        Assert.Equal(order.Work.Cables, Count(Hardness.CablesInFigure));
        Assert.InRange(Count(Hardness.TurnedRows), order.Steps.Any(s => s.Turned) ? 1 : 0, order.Steps.Count(s => s.Turned));
    }, iter: 60);

    [Theory]
    [InlineData(Hardness.ThreadsWaiting, 0, 1, 2)]
    [InlineData(Hardness.LongestRun, 24, 40, 80)]
    [InlineData(Hardness.CablesInFigure, 150, 300, 800)]
    [InlineData(Hardness.TurnedRows, 8, 20, 60)]
    [InlineData(Hardness.HalfStitches, 4, 16, 60)]
    [InlineData(Hardness.OtherStitches, 1, 2, 4)]
    [InlineData(Hardness.Starts, 10, 25, 75)]
    internal void A_count_is_graded_by_its_bounds(Hardness of, int beginner, int easy, int intermediate)
    {
        Assert.Equal([Grade.Beginner, Grade.Beginner, Grade.Easy, Grade.Easy, Grade.Intermediate, Grade.Intermediate, Grade.Advanced],
            ((int[])[0, beginner, beginner + 1, easy, easy + 1, intermediate, intermediate + 1]).Select(n => Difficulty.GradeOf(of, n)));
    }

    [Fact]
    public void A_piece_without_a_stitch_is_a_beginners() =>
        Assert.Equal(Grade.Beginner, Difficulty.Of(Planner.Plan(Work.Lay(OrderGen.PieceOf(["."], new Working())))).Grade);
}
