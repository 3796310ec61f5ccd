using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;

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
