using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Tests.Chart.Stitches;

namespace Pleatwright.Tests.Order;

public class DirectionsTests
{
    private static string Say(Working working, LevelWords words = LevelWords.UpDown, params string[] rows)
    {
        if (rows.Length == 0) rows = ["..a..", ".aaa.", "aaaaa"];
        var order = Planner.Plan(Work.Lay(OrderGen.PieceOf([.. rows], working)));
        return Text(Directions.Write(order, words));
    }

    internal static string Text(IEnumerable<Direction> said) =>
        string.Join('\n', said.Select(d => d.Kind == DirectionKind.Step ? $"{d.Step!.Number}. {d.Text}" : $"[{d.Kind}] {d.Text}")) + "\n";

    internal static void Matches(string name, string said) => Snapshot.Check("Order", name + ".snap.txt", said);

    [Fact]
    public void A_small_triangle() => Matches("triangle", Say(new Working()));

    [Fact]
    public void A_small_triangle_left_handed() => Matches("triangle-left-handed", Say(new Working { Hand = Hand.Left }));

    [Fact]
    public void A_small_triangle_held_sideways_without_turning() => Matches("triangle-sideways", Say(new Working { MayTurn = false, CarryPleats = 2 }, LevelWords.LeftRight));

    [Fact]
    public void A_run_longer_than_a_needleful() => Matches("long-run", Say(new Working { WorkingLength = Length.FromCentimetres(18) }, LevelWords.UpDown, "aaaaaaaaaaaaaaaaaaaa"));

    [Fact]
    public void Feather_says_that_it_goes_the_other_way()
    {
        foreach (var (hand, way) in new[] { (Hand.Right, "from right to left"), (Hand.Left, "from left to right") })
        {
            var piece = BandGen.Alone(BandGen.Band("feather"), 20) with { Working = new Working { Hand = hand } };
            var said = Directions.Write(Planner.Plan(Work.Lay(piece)), LevelWords.UpDown);
            Assert.Contains(said, d => d.Text.Contains($"It is worked the other way than cables, {way}.", StringComparison.Ordinal));
        }
        Assert.DoesNotContain(Directions.Write(Planner.Plan(Work.Lay(BandGen.Alone(BandGen.Band("wave"), 20))), LevelWords.UpDown), d => d.Text.Contains("other way than cables", StringComparison.Ordinal));
    }

    // A row there and, with the work turned, a row back; a knot's place is told with the top edge up.
    [Fact]
    public void Before_the_accents_the_work_is_turned_back()
    {
        var piece = OrderGen.PieceOf(["aaaaaaaaa", "aaaaaaaaa"], new Working()) with
        {
            Accents = [new Pleatwright.Chart.Accents.AccentMark("knot", Centre.Middle, new GatheringRow(2), new Pleatwright.Thread.ThreadKey('a'))],
        };
        var order = Planner.Plan(Work.Lay(piece));
        Assert.True(order.Steps[^1].Turned);
        Assert.Equal(order.Turns + 1, order.TurnsInAll);
        var items = WorkItem.Of(Directions.Write(order, LevelWords.UpDown));
        Assert.Contains(items[^1].Words, w => w.Text == "Turn the work back: top edge up.");
        Assert.Equal(order.Turns, Planner.Plan(Work.Lay(piece with { Accents = [] })).TurnsInAll);
    }

    [Fact]
    public void Half_stitches_are_said_at_both_ends()
    {
        var order = Planner.Plan(Work.Lay(OrderGen.PieceOf(["aaaa", "aaaa"], new Working(), square: true)));
        Matches("square", Text(Directions.Write(order, LevelWords.UpDown)));
    }

    [Fact]
    public void Counts_can_be_verified()
    {
        var order = Planner.Plan(Work.Lay(OrderGen.PieceOf(["..a..", ".aaa.", "bbbbb", ".bbb."], new Working())));
        var said = Directions.Write(order, LevelWords.UpDown);
        var cables = 0;
        foreach (var step in said.Where(d => d.Kind == DirectionKind.Step))
        {
            cables += step.Step!.Cables;
            Assert.Contains(cables == 1 ? "So far 1 cable," : $"So far {cables} cables,", step.Text, StringComparison.Ordinal);
        }
        Assert.Contains($"{order.Work.Cables} cables", said[^1].Text, StringComparison.Ordinal);
        Assert.Equal(order.Steps, said.Where(d => d.Kind == DirectionKind.Step).Select(d => d.Step!));
    }
}
