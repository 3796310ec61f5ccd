using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Tests.Endurance;

namespace Pleatwright.Tests.Order;

/// <summary>The search in the neighbourhood of an order: so many runs at a time are set free and ordered anew.</summary>
public class ReorderTests
{
    private static readonly Gen<Piece> Pieces = OrderGen.Pieces.Select(p => p with { Working = p.Working with { Way = p.Working.Way == WayOfWorking.RowByRow ? WayOfWorking.FewestStarts : p.Working.Way } });

    private static string Text(Piece piece) => string.Join('\n', piece.Figures[0].Rows) + "\n" + piece.Working;

    [Fact]
    public void Runs_set_free_are_each_worked_once_butt_worked_ones_keep_the_way_and_cost_what_is_told() =>
        Gen.Select(Pieces, Gen.Int[2, 26], Gen.Int[0, 20], Gen.Int[1, 12]).Sample((piece, free, first, width) =>
        {
            var layout = new Layout(Work.Lay(piece));
            for (var c = 0; c < layout.Clusters.Count; c++)
            {
                var known = new Scheduler(layout, default).Run(layout.Clusters.Kept(c), Scheduler.Preference.FewTurns, false, static _ => { });
                var (route, _) = new Linker(layout, default, default).Reorder(known, free, first % free, width, spentFirst: width % 2 == 0);
                Assert.Equal(layout.Clusters[c].ToArray().Order(), route.Visits.Select(v => v.Run).Order());
                var done = new HashSet<int>();
                var fitted = 0;
                foreach (var visit in route.Visits)
                {
                    Assert.All(layout.Before[visit.Run].ToArray(), b => Assert.Contains(b, done));
                    Assert.DoesNotContain(done, d => layout.Stages.IsBefore(visit.Run, d));
                    var beside = new[] { visit.Run - 1, visit.Run + 1 }.Where(r => r >= 0 && r < layout.Runs && layout.Outward.StretchOf(r) == layout.Outward.StretchOf(visit.Run)).ToArray();
                    if (layout.Outward.IsArm(visit.Run) && beside.Length > 0) Assert.Contains(beside, done.Contains);
                    if (layout.LiesBetween(visit.Run) && beside.All(done.Contains)) fitted++;
                    done.Add(visit.Run);
                }
                var steps = Steps.From(layout, [route]);
                Assert.Equal(route.Cost.Starts, steps.Count(s => s.Starts == StartKind.New));
                Assert.Equal(route.Cost.Fitted, fitted);
                // the order known is one of those followed
                Assert.True(route.Cost.CompareTo(known.Cost) <= 0, $"{route.Cost} after {known.Cost}");
            }
        }, iter: Long.Of(60, 1000), print: t => $"{Text(t.Item1)} {t.Item2} {t.Item3} {t.Item4}");

    // More runs than are looked through, and tangled.
    private static readonly Piece Tangled = Scattered(3, 21, 9);

    private static Piece Scattered(int seed, int width, int height)
    {
        var random = new Random(seed);
        string[] rows = [.. Enumerable.Range(0, height).Select(_ => new string([.. Enumerable.Range(0, width).Select(_ => ".ab"[random.Next(3)])]))];
        return OrderGen.PieceOf([.. rows], new Working { Way = WayOfWorking.FewestStarts, WorkingLength = Length.FromCentimetres(30), ParkedThreads = 1, CarryPleats = 3 });
    }

    [Fact]
    public void It_saves_starts()
    {
        var (before, after) = (0, 0);
        for (var seed = 0; seed < 4; seed++)
        {
            var layout = new Layout(Work.Lay(Scattered(seed, 31, 14)));
            for (var c = 0; c < layout.Clusters.Count; c++)
            {
                var known = new Scheduler(layout, default).Run(layout.Clusters.Kept(c), Scheduler.Preference.FewTurns, false, static _ => { });
                before += known.Cost.Starts;
                foreach (var free in (int[])[12, 20]) known = new Linker(layout, default, default).Reorder(known, free, 0, 16, true).Route;
                after += known.Cost.Starts;
            }
        }
        Assert.InRange(after, 1, before * 0.95);
    }

    [Fact]
    public void The_same_work_gives_the_same_order_however_long_it_is_sought() =>
        Assert.Equal(Planner.Plan(Work.Lay(Tangled), Effort.Plate).Steps, Planner.Plan(Work.Lay(Tangled), Effort.Plate).Steps);

    [Theory]
    [InlineData(WayOfWorking.RowByRow)]
    [InlineData(WayOfWorking.SpaceBySpace)]
    [InlineData(WayOfWorking.FewestStarts)]
    public void Told_that_it_is_enough_the_best_order_so_far_is_handed_out(WayOfWorking way)
    {
        var work = Work.Lay(Tangled with { Working = Tangled.Working with { Way = way } });
        WorkingOrder whole = Planner.Plan(work, Effort.Plate), quick = Planner.Plan(work, Effort.Drawing);
        Assert.True(whole.Starts < quick.Starts);
        var starts = new List<int>();
        foreach (var at in (double[])[0, 0.7])
        {
            using var enough = new CancellationTokenSource();
            var order = Planner.Plan(work, Effort.Plate, new Told(done => { if (done >= at) enough.Cancel(); }), enough: enough.Token);
            starts.Add(order.Starts);
            Assert.Equal(Enumerable.Range(0, work.Runs.Length), order.Steps.Where(s => !s.Continues).Select(s => s.RunIndex).Order());
            // told at once, the quick order is all there is
            if (at == 0) Assert.Equal(quick.Steps, order.Steps);
            // nothing that was not sought to the end is taken for sought when the work is planned anew
            if (at > 0) Assert.Equal(whole.Steps, Planner.Replan(order, work, Effort.Plate).Steps);
        }
        Assert.InRange(starts[1], whole.Starts, starts[0]);
    }

    private sealed class Told(Action<double> hear) : IProgress<double>
    {
        public void Report(double value) => hear(value);
    }
}
