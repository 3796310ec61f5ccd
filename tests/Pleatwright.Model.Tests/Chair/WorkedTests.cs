using CsCheck;
using Pleatwright.Bench.Model.Chair;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Tests.Chart;

namespace Pleatwright.Tests.Chair;

public class WorkedTests
{
    private static readonly Gen<(bool With, string Line, int At)> Acts = Gen.Select(Gen.Bool, Gen.OneOf("c1", "c2", "b1.0.0.0.0.wave"), Gen.Int[-6, 12]);

    // The outside source is the platform's own set.
    [Fact]
    public void A_set_of_ticks_holds_what_a_set_holds_and_reads_back_what_it_wrote() => Acts.Array[0, 60].Sample(acts =>
    {
        var (worked, set) = (Worked.Nothing, new HashSet<StitchName>());
        foreach (var (with, line, at) in acts)
        {
            var name = new StitchName(line, at);
            worked = with ? worked.With(name) : worked.Without(name);
            if (with) set.Add(name); else set.Remove(name);
        }
        var read = Worked.Read(worked.Write());
        Assert.NotNull(read);
        Assert.Equal(set.Count, worked.Count);
        Assert.Equal(worked.Write(), read.Write());
        foreach (var line in new[] { "c1", "c2", "b1.0.0.0.0.wave" })
            for (var at = -8; at <= 14; at++)
                Assert.Equal(set.Contains(new StitchName(line, at)), read.Has(new StitchName(line, at)));
    }, iter: 3000);

    [Theory]
    [InlineData("")]
    [InlineData("3 2 8f00")]
    [InlineData("worked 2\nc1")]
    [InlineData("worked 2\nc1 3:1")]
    [InlineData("worked 2\nc1 1:2 3:4")]
    [InlineData("worked 2\nc1 1:2\nc1 5:6")]
    [InlineData("worked 2\nc1 one:two")]
    public void What_was_not_written_so_is_not_read(string text) => Assert.Null(Worked.Read(text));

    [Fact]
    public void A_tick_is_for_one_stitch_and_no_stitch_has_two() => PieceGen.Pieces.Sample(piece =>
    {
        if (Lay(piece) is not { } work) return;
        var order = Planner.Plan(work, Effort.Drawing);
        var chair = ChairWork.Of(order, LevelWords.UpDown);
        Assert.Equal(chair.Ticks, Enumerable.Range(0, chair.Ticks).Select(t => chair[t]).Distinct().Count());
        Assert.Equal(order.Steps.Sum(s => s.Cables), Enumerable.Range(0, chair.Ticks).Count(t => chair[t].Line[0] == 'c'));
        for (var t = 0; t < chair.Ticks; t++) Assert.InRange(t, chair.Before(chair.ItemOf(t)), chair.Before(chair.ItemOf(t) + 1) - 1);

        // Sideways or upright, the ticks are for the same stitches in the same order.
        var sideways = ChairWork.Of(order, LevelWords.LeftRight);
        for (var t = 0; t < chair.Ticks; t++) Assert.Equal(chair[t], sideways[t]);
    }, iter: 300);

    [Fact]
    public void The_hand_that_works_it_and_the_order_it_is_worked_in_change_no_name() => PieceGen.Pieces.Sample(piece =>
    {
        if (Lay(piece) is not { } right || Lay(piece with { Working = piece.Working with { Hand = Hand.Left } }) is not { } left) return;
        Assert.Equal(Names(right), Names(left));
    }, iter: 300);

    private static SortedSet<string> Names(Work work)
    {
        var chair = ChairWork.Of(Planner.Plan(work, Effort.Drawing), LevelWords.UpDown);
        return [.. Enumerable.Range(0, chair.Ticks).Select(t => $"{chair[t].Line} {chair[t].At}")];
    }

    private static Work? Lay(Piece piece)
    {
        try { return Work.Lay(piece); }
        catch (ArgumentException) { return null; }
    }
}
