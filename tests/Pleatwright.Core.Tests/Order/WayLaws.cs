using System.Collections.Immutable;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Tests.Chart;
using Pleatwright.Tests.Endurance;

namespace Pleatwright.Tests.Order;

/// <summary>What each way of working promises, on any piece.</summary>
public class WayLaws
{
    private static readonly Gen<Piece> Pieces = OrderGen.Pieces;

    // Corners of them: a plan for the plate is made some twenty times for each.
    private static readonly Gen<Piece> Few = Gen.Select(Pieces, Gen.Int[4, 12], Gen.Int[3, 7]).Select((piece, width, height) =>
        piece with { Figures = [new Figure("figure", [.. piece.Figures[0].Rows.Take(height).Select(r => r[..Math.Min(width, r.Length)])])] });

    private static WorkingOrder Planned(Piece piece, Func<Working, Working>? with = null, Effort effort = Effort.Plate) =>
        Planner.Plan(Work.Lay(with is null ? piece : piece with { Working = with(piece.Working) }), effort);

    private static string Text(Piece piece) => string.Join('\n', piece.Figures[0].Rows) + "\n" + piece.Working;

    [Fact]
    public void Row_by_row_a_row_is_finished_right_across_in_all_its_colours_before_the_next_outward() => Pieces.Sample(piece =>
    {
        var order = Planned(piece, w => w with { Way = WayOfWorking.RowByRow }, Effort.Resting);
        var work = order.Work;
        foreach (var area in order.Steps.GroupBy(s => work.Areas.AreaOf(s.RunIndex)))
        {
            // each run of rows that are one: the row is met again only on another way out from the base
            var rows = new List<(CableRow Row, int Way, int Round)>();
            foreach (var step in area)
            {
                var here = (step.Row, order.Outward.WayOf(step.RunIndex), order.Outward.GenerationOf(step.RunIndex));
                if (rows.Count == 0 || rows[^1] != here) rows.Add(here);
            }
            Assert.Equal(rows.Count, rows.Distinct().Count());
            foreach (var way in rows.GroupBy(r => (r.Way, r.Round)))
                Assert.Equal(way.OrderBy(r => way.Key.Way < 0 ? -r.Row.Index : r.Row.Index).Select(r => r.Row), way.Select(r => r.Row));
        }
        // an area once begun is finished before another is begun
        var areas = order.Steps.Select(s => work.Areas.AreaOf(s.RunIndex)).ToList();
        Assert.Equal(areas.Distinct().Count(), areas.Where((a, i) => i == 0 || areas[i - 1] != a).Count());
    }, iter: Long.Of(60, 200), print: Text);

    [Fact]
    public void Row_by_row_the_work_is_not_turned_within_a_row_and_no_run_is_fitted_between_two() => Pieces.Sample(piece =>
    {
        var order = Planned(piece, w => w with { Way = WayOfWorking.RowByRow }, Effort.Resting);
        for (var i = 1; i < order.Steps.Length; i++)
            if (order.Steps[i].Row == order.Steps[i - 1].Row && order.Parts.Of(order.Steps[i].RunIndex) == order.Parts.Of(order.Steps[i - 1].RunIndex))
                Assert.Equal(order.Steps[i - 1].Turned, order.Steps[i].Turned);
        // and every figure is begun with the top edge up
        Assert.All(order.Steps.GroupBy(s => order.Parts.Of(s.RunIndex)), part => Assert.False(part.First().Turned));
        Assert.Equal(0, Fitted(order));
        // a thread goes straight on from the end of one figure to the beginning of the next, or not at all
        var open = new HashSet<int>();
        var begun = new HashSet<int>();
        foreach (var step in order.Steps)
        {
            if (begun.Add(order.Parts.Of(step.RunIndex))) Assert.True(open.Count == 0 || (open.Count == 1 && open.Contains(step.Needleful) && step.Starts == StartKind.Carry));
            open.Add(step.Needleful);
            if (step.TieOff) open.Remove(step.Needleful);
        }
    }, iter: Long.Of(60, 200), print: Text);

    [Fact]
    public void Space_by_space_no_row_beyond_a_gathering_row_is_begun_before_those_within_it_are_done() => Pieces.Sample(piece =>
    {
        var order = Planned(piece, w => w with { Way = WayOfWorking.SpaceBySpace }, Effort.Resting);
        var perSpace = order.Work.Pleating.Gauge.CableRowsPerSpace;
        foreach (var way in order.Steps.GroupBy(s => (order.Work.Areas.AreaOf(s.RunIndex), Way: order.Outward.WayOf(s.RunIndex), order.Outward.GenerationOf(s.RunIndex))))
        {
            if (way.Key.Way == 0) continue;
            var spaces = way.Select(s => way.Key.Way < 0 ? -(s.Row.Index / perSpace) : (s.Row.Index + perSpace - 1) / perSpace).ToList();
            Assert.Equal(spaces.Order(), spaces);
        }
    }, iter: Long.Of(50, 150), print: Text);

    [Fact]
    public void More_freedom_or_more_effort_never_gives_more_starts() => Gen.Select(Few, Gen.Int[0, 5], Gen.Int[0, 6]).Sample((piece, parked, carry) =>
    {
        Func<Working, Working> With(WayOfWorking way, int p, int c) => w => w with { Way = way, ParkedThreads = p, CarryPleats = c };
        foreach (var way in Enum.GetValues<WayOfWorking>())
        {
            var starts = Planned(piece, With(way, parked, carry)).Starts;
            Assert.True(Planned(piece, With(way, parked + 1, carry)).Starts <= starts, $"{way}: a thread more parked");
            Assert.True(Planned(piece, With(way, parked, carry + 1)).Starts <= starts, $"{way}: a pleat more carried");
            Assert.True(starts <= Planned(piece, With(way, parked, carry), Effort.Resting).Starts, $"{way}: more effort");
            Assert.True(Planned(piece, With(way, parked, carry), Effort.Resting).Starts <= Planned(piece, With(way, parked, carry), Effort.Drawing).Starts, $"{way}: some effort");
            if (way != WayOfWorking.FewestStarts) Assert.True(Planned(piece, With(way + 1, parked, carry)).Starts <= starts, $"{way + 1}: a freer way");
        }
    }, iter: Long.Of(8, 25), print: t => $"{Text(t.Item1)} parked {t.Item2} carried {t.Item3}");

    [Fact]
    public void The_ways_told_side_by_side_are_what_each_would_be_planned_as() => Few.Sample(piece =>
    {
        var order = Planned(piece);
        var ways = Planner.InEveryWay(order);
        Assert.Equal(Enum.GetValues<WayOfWorking>(), ways.Select(w => w.Way));
        foreach (var way in ways) Assert.Equal(Planned(piece, w => w with { Way = way.Way }).Steps, way.Steps);
    }, iter: Long.Of(4, 10), print: Text);

    [Fact]
    public void A_thread_is_left_hanging_or_carried_both_ways_only_where_that_saves_a_start() => Few.Sample(piece =>
    {
        // what can be proved of a small piece: without parked threads there would be more starts
        var work = Work.Lay(piece);
        if (work.Runs.Length > 10) return;
        foreach (var way in Enum.GetValues<WayOfWorking>())
        {
            var order = Planned(piece, w => w with { Way = way });
            if (order.TakeUps > 0) Assert.True(Planned(piece, w => w with { Way = way, ParkedThreads = 0 }).Starts > order.Starts || Fitted(Planned(piece, w => w with { Way = way, ParkedThreads = 0 })) > Fitted(order));
        }
    }, iter: Long.Of(40, 100), print: Text);

    // On the examples each thread left hanging saves a start of its own, however long it waits.
    [Fact]
    public void Row_by_row_every_thread_left_hanging_in_the_examples_saves_a_start()
    {
        var hanging = 0;
        foreach (var path in Repository.Examples)
        {
            var piece = Smocking.Read(File.ReadAllBytes(path));
            if (!piece.Working.Places.IsEmpty) continue;
            WorkingOrder order = Planned(piece, w => w with { Way = WayOfWorking.RowByRow }), none = Planned(piece, w => w with { Way = WayOfWorking.RowByRow, ParkedThreads = 0 });
            Assert.Equal((none.Starts - order.Starts, 0), (order.TakeUps, none.TakeUps));
            hanging += order.TakeUps;
        }
        Assert.InRange(hanging, 1, int.MaxValue);
    }

    private static int Fitted(WorkingOrder order)
    {
        var runs = order.Work.Runs;
        var done = new bool[runs.Length];
        var fitted = 0;
        foreach (var step in order.Steps)
        {
            var r = step.RunIndex;
            if (!done[r] && r > 0 && r + 1 < done.Length && done[r - 1] && done[r + 1] && runs[r - 1].Row == step.Row && runs[r + 1].Row == step.Row
                && runs[r - 1].To.Number + 1 == runs[r].From.Number && runs[r].To.Number + 1 == runs[r + 1].From.Number) fitted++;
            done[r] = true;
        }
        return fitted;
    }

    private static Piece Scene(ImmutableArray<Placement> placements, params Band[] bands) => new("Scene",
        new ClothPlan(new Panel(Length.FromInches(10)), Gauge.Common, 9), PieceGen.Threads,
        [new Figure("boat", ["..a..", ".aaa.", "bbbbb"]), new Figure("sun", ["aaa", "aaa"])], placements)
    { Back = Backsmocking.None, Bands = [.. bands] };

    private static List<int> PartsOf(WorkingOrder order)
    {
        var parts = new List<int>();
        foreach (var step in order.Steps)
            if (parts.Count == 0 || parts[^1] != order.Parts.Of(step.RunIndex)) parts.Add(order.Parts.Of(step.RunIndex));
        return parts;
    }

    [Fact]
    public void Borders_come_first_then_the_figures_at_the_sides_and_the_middle_one_last()
    {
        // five boats that stand on a border: their keels touch it
        var boats = new Placement("boat", Centre.Middle, new GatheringRow(5), 2) { Repeat = new Repeat(5, 20) };
        var border = new Band("cable", new GatheringRow(5), new Pleatwright.Thread.ThreadKey('c')) { Drop = 1 };
        var order = Planner.Plan(Work.Lay(Scene([boats], border)), Effort.Plate);
        Assert.Single(order.Work.Areas.All.ToArray());
        var parts = PartsOf(order).ConvertAll(p => order.Parts.InOrder[p]);
        Assert.Equal(6, parts.Count); // each worked in one go
        Assert.True(parts[0].IsBorder);
        var centre = order.Work.Pleating.CentreValley;
        Assert.Equal([-40, -20, 40, 20, 0], parts.Skip(1).Select(p => (p.From.Number + p.To.Number) / 2 - centre));
        // the maker may have the middle one before the others, but not before what it stands on
        var middle = new FigurePlace(new CableRow(20), new Valley(centre));
        var other = Planner.Plan(Work.Lay(order.Work.Piece with { Working = new Working { Figures = [middle] } }), Effort.Plate);
        Assert.Equal([0, -40, -20, 40, 20], PartsOf(other).ConvertAll(p => other.Parts.InOrder[p]).Skip(1).Select(p => (p.From.Number + p.To.Number) / 2 - centre));
        Assert.True(other.Parts.InOrder[0].IsBorder);
    }

    [Fact]
    public void A_figure_that_falls_into_several_areas_is_finished_before_the_next_is_begun()
    {
        // a sail apart from its hull, twice
        var figure = new Figure("boat", ["..a..", ".aaa.", ".....", "bbbbb"]);
        var piece = Scene([new Placement("boat", Centre.Middle, new GatheringRow(5), 3) { Repeat = new Repeat(3, 7) }]) with { Figures = [figure] };
        var order = Planner.Plan(Work.Lay(piece), Effort.Plate);
        var figures = order.Steps.Select(s => order.Parts.InOrder[order.Parts.Of(s.RunIndex)].Figure).ToList();
        Assert.Equal(figures.Order(), figures);
        Assert.Equal(3, figures.Distinct().Count());
    }

    // The issue's own measurement: on this triangle three needles of one blue were hung and taken up again, with no start saved.
    [Fact]
    public void The_learners_triangle_is_plain_back_and_forth()
    {
        var piece = Smocking.Read(File.ReadAllBytes(Repository.Path("examples", "first-pennant.piece.json")));
        var order = Planner.Plan(Work.Lay(piece), Effort.Plate);
        Assert.Equal((2, 0), (order.Starts, order.TakeUps));
        Assert.All(order.Steps, s => Assert.InRange(Math.Abs(s.CarriedRows), 0, 1));
        Assert.Equal(Enumerable.Range(5, 10), order.Steps.Where(s => !s.Continues).Select(s => s.Row.Index));
    }
}
