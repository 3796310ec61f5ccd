using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Tests.Endurance;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Order;

public class OrderLawTests
{
    private static void Every(Action<Work, WorkingOrder> law, long? times = null) => OrderGen.Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        law(work, Planner.Plan(work));
    }, iter: times ?? Long.Of(50, 150), print: PieceText);

    private static string PieceText(Piece piece) =>
        string.Join('\n', piece.Figures[0].Rows) + "\n" + piece.Working;

    [Fact]
    public void Every_run_is_worked_once_and_whole() => Every((work, order) =>
    {
        var cables = new int[work.Runs.Length];
        var halves = new int[work.Runs.Length];
        var visits = new List<int>();
        for (var i = 0; i < order.Steps.Length; i++)
        {
            var step = order.Steps[i];
            Assert.Equal(i + 1, step.Number);
            var run = work.Runs[step.RunIndex];
            Assert.Equal((run.Row, run.Thread), (step.Row, step.Thread));
            Assert.True(run.Contains(step.From) && run.Contains(step.To));
            cables[step.RunIndex] += step.Cables;
            halves[step.RunIndex] += step.HalfStitches;
            if (step.Continues)
            {
                var before = order.Steps[i - 1];
                Assert.Equal(before.RunIndex, step.RunIndex);
                Assert.Equal(1, Math.Abs(step.From.Number - before.To.Number));
                Assert.True(before.GoesOn && before.TieOff && step.Starts == StartKind.New);
            }
            else visits.Add(step.RunIndex);
        }
        Assert.Equal(visits.Count, visits.Distinct().Count());
        for (var r = 0; r < cables.Length; r++)
            Assert.Equal((work.Runs[r].Cables, work.Runs[r].HalfStitches), (cables[r], halves[r]));
        Assert.Equal(work.Cables, order.ThreadUses().Sum(u => u.Cables));
        Assert.Equal(order.CutLengths, order.ThreadUses().Sum(u => u.Needlefuls));
    });

    [Fact]
    public void Each_run_butts_worked_rows_and_none_is_squeezed() => Every((work, order) =>
    {
        var areas = work.Areas;
        var baseRow = new Dictionary<int, CableRow>();
        var done = new bool[work.Runs.Length];
        foreach (var step in order.Steps)
        {
            var run = work.Runs[step.RunIndex];
            if (!step.Continues)
            {
                bool above = false, below = false, beside = false;
                for (var r = 0; r < done.Length; r++)
                {
                    if (!done[r]) continue;
                    var other = work.Runs[r];
                    var shares = other.From.Number <= run.To.Number && run.From.Number <= other.To.Number;
                    above |= shares && other.Row.Index == run.Row.Index - 1;
                    below |= shares && other.Row.Index == run.Row.Index + 1;
                    beside |= other.Row == run.Row && (other.To.Number + 1 == run.From.Number || run.To.Number + 1 == other.From.Number);
                }
                Assert.False(above && below);
                if (baseRow.TryAdd(areas.AreaOf(step.RunIndex), run.Row)) Assert.False(above || below || beside);
                else if (run.Row != baseRow[areas.AreaOf(step.RunIndex)]) Assert.True(above || below || beside);
            }
            done[step.RunIndex] = true;
        }
    });

    [Fact]
    public void One_way_from_the_base_row_is_finished_before_the_other_is_begun() => Every((work, order) =>
    {
        if (work.Piece.Working.First == FirstWay.Either) return;
        foreach (var area in order.Steps.GroupBy(s => work.Areas.AreaOf(s.RunIndex)))
        {
            var baseRow = work.Areas.All[area.Key].Base.Index;
            var onBase = area.Where(s => s.Row.Index == baseRow).Select(s => s.RunIndex).ToHashSet();
            HashSet<int> up = Reached(onBase, -1), down = Reached(onBase, 1);
            var (first, second) = work.Piece.Working.First == FirstWay.Up ? (up, down) : (down, up);
            var lastOfFirst = area.LastOrDefault(s => first.Contains(s.RunIndex))?.Number ?? 0;
            var firstOfSecond = area.FirstOrDefault(s => second.Contains(s.RunIndex))?.Number ?? int.MaxValue;
            Assert.True(lastOfFirst < firstOfSecond);
        }

        // row by row from the base row: what stands on what was reached, and what lies beside it
        HashSet<int> Reached(HashSet<int> onBase, int way)
        {
            var all = new HashSet<int>();
            for (var row = onBase; row.Count > 0;)
            {
                var next = new HashSet<int>();
                for (var grew = true; grew;)
                {
                    grew = false;
                    for (var r = 0; r < work.Runs.Length; r++)
                    {
                        var run = work.Runs[r];
                        if (run.Row.Index != work.Runs[row.First()].Row.Index + way || next.Contains(r)) continue;
                        if (!row.Any(i => work.Runs[i].From.Number <= run.To.Number && run.From.Number <= work.Runs[i].To.Number)
                            && !next.Any(i => work.Runs[i].To.Number + 1 == run.From.Number || run.To.Number + 1 == work.Runs[i].From.Number)) continue;
                        next.Add(r);
                        grew = true;
                    }
                }
                all.UnionWith(next);
                row = next;
            }
            return all;
        }
    });

    [Fact]
    public void Carries_keep_to_their_limits() => Every((work, order) =>
    {
        foreach (var step in order.Steps)
        {
            if (step.Starts == StartKind.New)
            {
                Assert.Equal(Length.Zero, step.Carried);
                continue;
            }
            var before = order.Steps[order.LastStepOf(step) - 1];
            Assert.Equal((before.Needleful, before.Thread), (step.Needleful, step.Thread));
            Assert.False(before.TieOff);
            Assert.Equal(step.From.Number - before.To.Number, step.CarriedPleats);
            Assert.Equal(step.Row.Index - before.Row.Index, step.CarriedRows);
            Assert.InRange(Math.Abs(step.CarriedPleats), 0, work.Piece.Working.CarryPleats);
            Assert.InRange(Math.Abs(step.CarriedRows), 0, work.Pleating.Gauge.CableRowsPerSpace);
            // floated up to three pleats, further cabled across: a cable for each pleat but the last
            var sideways = Math.Abs(step.CarriedPleats) <= 3 ? work.Pleating.Gauge.Pitch * Math.Abs(step.CarriedPleats) : work.Pleating.Gauge.Pitch + work.CableThread(step.Row) * (Math.Abs(step.CarriedPleats) - 1);
            var expected = sideways + work.Pleating.Gauge.CableRowHeight * Math.Abs(step.CarriedRows);
            Assert.Equal(expected.Millimetres, step.Carried.Millimetres, 0.02);
        }
    });

    [Fact]
    public void No_more_threads_are_parked_than_allowed() => Every((work, order) =>
    {
        var open = new HashSet<int>(); // needlefuls begun and not tied off
        var takeUps = 0;
        foreach (var step in order.Steps)
        {
            if (step.Starts == StartKind.New) Assert.True(open.Add(step.Needleful));
            else Assert.Contains(step.Needleful, open);
            if (step.Starts == StartKind.Carry && order.Steps[step.Number - 2].Needleful != step.Needleful) takeUps++;
            Assert.InRange(open.Count - 1, 0, work.Piece.Working.ParkedThreads);
            if (step.TieOff) open.Remove(step.Needleful);
            Assert.Equal(open.Contains(step.Needleful) && order.Steps[step.Number].Needleful != step.Needleful, step.Parks);
        }
        Assert.Empty(open);
        Assert.Equal(takeUps, order.TakeUps);
        Assert.Equal(takeUps, order.Steps.Count(s => s.Parks));
    });

    [Fact]
    public void A_run_is_split_only_where_asked_or_needed() => Every((work, order) =>
    {
        var working = work.Piece.Working;
        var gauge = work.Pleating.Gauge;
        if (working.SplitRuns) return;
        foreach (var step in order.Steps)
        {
            if (!step.GoesOn) continue;
            var run = work.Runs[step.RunIndex];
            var whole = Usage.Cable(gauge.Pitch, gauge.LineHeight) * run.Cables + Usage.HalfStitch(gauge.Pitch, gauge.LineHeight) * run.HalfStitches;
            Assert.True(whole + working.Tails > working.WorkingLength + working.Longer - Length.FromMillimetres(0.1));
        }
    });

    [Fact]
    public void Levels_follow_the_lattice_and_swap_as_held_when_turned() => Every((work, order) =>
    {
        foreach (var step in order.Steps)
        {
            var run = work.Runs[step.RunIndex];
            Assert.Equal(Lattice.LevelAt(step.From, step.Row, run.Phase), step.Begin);
            Assert.Equal(Lattice.LevelAt(step.To, step.Row, run.Phase), step.End);
            Assert.Equal(step.Cables % 2 == 1, step.Begin == step.End);
            Assert.Equal(step.Turned, step.HeldBegin != step.Begin);
            Assert.Equal(step.Turned, step.HeldEnd != step.End);
            if (step.Cables > 1)
                Assert.Equal(step.Turned == (work.Piece.Working.Hand == Hand.Right), step.From.Number > step.To.Number);
            Assert.True(work.Piece.Working.MayTurn || !step.Turned);
        }
    });

    [Fact]
    public void Never_fewer_starts_than_the_bound() => Every((_, order) =>
    {
        Assert.InRange(order.LowerBoundStarts, order.Steps.IsEmpty ? 0 : 1, order.Steps.IsEmpty ? 0 : order.Starts);
    });

    [Fact]
    public void The_same_work_always_gives_the_same_order() => Every((work, order) =>
        Assert.Equal(order.Steps, Planner.Plan(Work.Lay(work.Piece)).Steps), 15);

    [Fact]
    public void A_mirrored_work_in_the_other_hand_is_worked_alike() => OrderGen.Pieces.Sample(piece =>
    {
        // an odd figure width keeps the mirror's centre on the centre valley
        if (piece.Figures[0].Width % 2 == 0) return;
        var order = Planner.Plan(Work.Lay(piece));
        var hand = piece.Working.Hand == Hand.Right ? Hand.Left : Hand.Right;
        var mirror = Planner.Plan(Work.Lay(piece with { Placements = [piece.Placements[0] with { Mirror = true }], Working = piece.Working with { Hand = hand } }));
        Assert.Equal(order.Steps.Sum(s => s.Cables), mirror.Steps.Sum(s => s.Cables));
        Assert.Equal((order.Starts, order.TakeUps, order.Turns, order.Carried), (mirror.Starts, mirror.TakeUps, mirror.Turns, mirror.Carried));
    }, iter: Long.Of(60, 1000), print: PieceText);
}
