using Pleatwright.Tests.Endurance;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;

namespace Pleatwright.Tests.Order;

/// <summary>The planner against a constraint solver (Google OR-Tools, CP-SAT) on pieces small enough for both.</summary>
public class ExactOrderTests
{
    private const int MostRuns = 14;

    [Theory]
    [InlineData(WayOfWorking.RowByRow, 200)]
    [InlineData(WayOfWorking.SpaceBySpace, 60)]
    [InlineData(WayOfWorking.FewestStarts, 200)]
    public void Small_pieces_are_ordered_as_well_as_a_constraint_solver_orders_them(WayOfWorking way, int pieces)
    {
        var random = new Random(20);
        int asked = 0, agreed = 0, unproved = 0;
        var worse = new List<string>();
        while (asked < Long.Of(pieces / 20, pieces))
        {
            var piece = Small(random);
            piece = piece with { Working = piece.Working with { Way = way } };
            var work = Work.Lay(piece);
            if (work.Runs.Length is < 2 or > MostRuns) continue;
            asked++;
            var order = Planner.Plan(work, Effort.Plate);
            var areas = order.Steps.Select(s => work.Areas.AreaOf(s.RunIndex)).Distinct().ToArray();
            if (ExactOrder.Solve(work, areas) is not { } exact)
            {
                unproved++;
                continue;
            }
            var found = CostOf(order);
            var told = $"the solver found {exact}, we {found}:\n{string.Join('\n', piece.Figures[0].Rows)}\n{piece.Working}";
            Assert.True(exact.CompareTo(found) <= 0, told);
            Assert.True(order.LowerBoundStarts <= exact.Starts);
            if (exact == found) agreed++;
            else worse.Add(told);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"agreed {agreed}, not proved in time {unproved}");
        Assert.True(worse.Count == 0, $"{worse.Count} of {asked} worse; the first: {worse.FirstOrDefault()}");
        Assert.InRange(unproved, 0, 4);
    }

    // Counted from the steps, not taken from the planner.
    private static ExactOrder.Cost CostOf(WorkingOrder order)
    {
        var runs = order.Work.Runs;
        var done = new bool[runs.Length];
        var (fitted, takeUps, both) = (0, 0, 0);
        foreach (var step in order.Steps)
        {
            var r = step.RunIndex;
            if (!step.Continues && r > 0 && r + 1 < runs.Length && done[r - 1] && done[r + 1] && runs[r - 1].Row == step.Row && runs[r + 1].Row == step.Row
                && runs[r - 1].To.Number + 1 == runs[r].From.Number && runs[r].To.Number + 1 == runs[r + 1].From.Number) fitted++;
            done[r] = true;
            if (step.Starts != StartKind.Carry) continue;
            if (order.Steps[step.Number - 2].Needleful != step.Needleful) takeUps++;
            if (step.CarriedRows != 0) both += Math.Abs(step.CarriedPleats);
        }
        return new ExactOrder.Cost(order.Starts, fitted, takeUps, both, order.Turns + (order.Way == WayOfWorking.RowByRow && order.Steps[^1].Turned ? 1 : 0), (int)Math.Round(order.Carried.Millimetres * 1000));
    }

    private static Piece Small(Random random)
    {
        int width = random.Next(2, 13), height = random.Next(1, 8);
        var letters = random.Next(3) switch { 0 => ".aaa", 1 => ".aab", _ => "..abc" };
        var rows = new string[height];
        for (var y = 0; y < height; y++)
        {
            var row = new char[width];
            for (var x = 0; x < width; x++)
                row[x] = x > 0 && random.Next(3) > 0 ? row[x - 1] : y > 0 && random.Next(2) > 0 ? rows[y - 1][x] : letters[random.Next(letters.Length)];
            rows[y] = new string(row);
        }
        return OrderGen.PieceOf([.. rows], new Working
        {
            WorkingLength = Length.FromCentimetres(random.Next(9, 30)),
            Tails = Length.FromCentimetres(2),
            CarryPleats = random.Next(5),
            Hand = random.Next(3) == 0 ? Hand.Left : Hand.Right,
            First = (FirstWay)random.Next(3),
            MayTurn = random.Next(4) > 0,
            SplitRuns = random.Next(2) == 0,
            ParkedThreads = random.Next(4),
            Longer = Length.FromCentimetres(random.Next(3)),
        });
    }
}
