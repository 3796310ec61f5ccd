using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Tests.Endurance;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Order;

/// <summary>Needlefuls are lengths: worked as told, the thread in the needle does, and what is left is used again.</summary>
public class NeedlefulLaws
{
    private static void Every(Action<Work, WorkingOrder> law, long? times = null) => OrderGen.Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        law(work, Planner.Plan(work));
    }, iter: times ?? Long.Of(50, 150), print: p => string.Join('\n', p.Figures[0].Rows) + "\n" + p.Working);

    // As a stitcher does it, with a rule at hand: a length is cut, used up stitch by stitch, tied off, laid by and taken again.
    [Fact]
    public void Worked_as_told_no_needle_runs_out_and_every_rest_is_there_when_it_is_taken() => Every((work, order) =>
    {
        var (working, gauge) = (work.Piece.Working, work.Pleating.Gauge);
        Length cable = Usage.Cable(gauge.Pitch, gauge.LineHeight), half = Usage.HalfStitch(gauge.Pitch, gauge.LineHeight), hair = Length.FromMillimetres(0.2);
        var left = new Dictionary<int, Length>();
        var thread = new Dictionary<int, ThreadKey>();
        var tiedOff = new Dictionary<int, int>(); // by needleful: the step after which it was
        var cut = 0;
        foreach (var step in order.Steps)
        {
            Assert.Equal(step.Starts == StartKind.New, step.Threads || step.RestFrom > 0);
            if (step.Threads)
            {
                Assert.Equal(++cut, step.Needleful);
                (left[step.Needleful], thread[step.Needleful]) = (working.WorkingLength + working.Longer, step.Thread);
            }
            else if (step.RestFrom > 0)
            {
                Assert.Equal(step.RestFrom, tiedOff[step.Needleful]);
                Assert.True(left[step.Needleful] - working.Longer * (LongerUsed(order, step.Needleful) ? 0 : 1) + hair >= working.LeastRest);
                tiedOff.Remove(step.Needleful);
            }
            else Assert.False(tiedOff.ContainsKey(step.Needleful));
            Assert.Equal(thread[step.Needleful], step.Thread);
            if (step.Starts == StartKind.New) left[step.Needleful] -= working.Tails;
            left[step.Needleful] -= step.Carried + cable * step.Cables + half * step.HalfStitches;
            Assert.True(left[step.Needleful] + hair >= Length.Zero || step.Cables == 1, $"step {step.Number}: {left[step.Needleful]}");
            if (step.TieOff) tiedOff[step.Needleful] = step.Number;
        }
        Assert.Equal(order.CutLengths, cut);
        Assert.Equal(cut, order.ThreadUses().Sum(u => u.Needlefuls));
        Assert.True(cut <= order.Starts);
    });

    private static bool LongerUsed(WorkingOrder order, int needleful) => order.ThreadUses().Any(u => u.LongerNeedlefuls > 0) && needleful > 0;

    [Fact]
    public void A_length_is_cut_longer_only_to_finish_a_run_and_only_by_so_much() => Every((work, order) =>
    {
        var (working, gauge) = (work.Piece.Working, work.Pleating.Gauge);
        Length cable = Usage.Cable(gauge.Pitch, gauge.LineHeight), half = Usage.HalfStitch(gauge.Pitch, gauge.LineHeight);
        var used = Length.Zero;
        foreach (var stretch in Stretches(order))
        {
            Assert.Equal(1, stretch.Count(s => s.TieOff));
            Assert.True(stretch[^1].TieOff);
            used = working.Tails + stretch.Aggregate(Length.Zero, (sum, s) => sum + s.Carried + cable * s.Cables + half * s.HalfStitches);
            if (used <= working.WorkingLength + Length.FromMillimetres(1e-6) || stretch.Sum(s => s.Cables) == 1) continue;
            Assert.True(used <= working.WorkingLength + working.Longer + Length.FromMillimetres(1e-6), $"{used}");
            Assert.False(stretch[^1].GoesOn);
        }
    });

    // What is worked between a start and its tie-off.
    private static List<List<Step>> Stretches(WorkingOrder order)
    {
        var open = new Dictionary<int, List<Step>>();
        var all = new List<List<Step>>();
        foreach (var step in order.Steps)
        {
            if (step.Starts == StartKind.New) all.Add(open[step.Needleful] = []);
            open[step.Needleful].Add(step);
        }
        return all;
    }

    [Fact]
    public void Thread_left_is_told_as_it_lies_in_the_needle() => Every((work, order) =>
    {
        var working = work.Piece.Working;
        foreach (var stretch in Stretches(order))
        {
            var cable = work.CableThread(stretch[0].Row);
            for (var i = 0; i < stretch.Count; i++)
            {
                Assert.True(stretch[i].Left >= working.Tails * 0.5 - Length.FromMillimetres(0.2) || work.Piece.Working.WorkingLength - working.Tails < cable * 3);
                if (i > 0)
                    Assert.Equal((stretch[i - 1].Left - stretch[i].Left).Millimetres,
                        (stretch[i].Carried + work.CableThread(stretch[i].Row) * stretch[i].Cables + work.HalfStitchThread(stretch[i].Row) * stretch[i].HalfStitches).Millimetres, 0.2);
            }
        }
    });

    // Seven eyes far apart: seven starts, and one length of thread.
    [Fact]
    public void Seven_eye_cables_are_not_seven_needlefuls()
    {
        var piece = OrderGen.PieceOf(["a......a......a......a......a......a......a"], new Working { Tails = Length.FromCentimetres(4) });
        var order = Planner.Plan(Work.Lay(piece));
        Assert.Equal((7, 1), (order.Starts, order.CutLengths));
        Assert.Equal(1, order.ThreadUses()[0].Needlefuls);
        Assert.Equal([true, false, false, false, false, false, false], order.Steps.Select(s => s.Threads));
        // with a rest of 12 cm at the least, and 8 cm for every start, a length of 45.7 cm does for five: 45.7 - 4 × 8.7 = 10.8
        var wasteful = Planner.Plan(Work.Lay(piece with { Working = new Working() }));
        Assert.Equal(2, wasteful.CutLengths);
    }

    // A needleful of 37.7 cm holds 51 cables of 7.3 mm. A row of 55 takes 40.4 cm: a length cut 2.7 cm longer saves a start of four cables.
    [Fact]
    public void A_slightly_longer_needleful_is_taken_where_it_saves_a_start_of_a_few_cables()
    {
        var piece = OrderGen.PieceOf([new string('a', 55)], new Working());
        Assert.Equal(1, Planner.Plan(Work.Lay(piece)).Starts);
        Assert.Equal(1, Planner.Plan(Work.Lay(piece)).ThreadUses()[0].LongerNeedlefuls);
        var never = Planner.Plan(Work.Lay(piece with { Working = new Working { Longer = Length.Zero } }));
        Assert.Equal((2, 0), (never.Starts, never.ThreadUses()[0].LongerNeedlefuls));
        // of 59 the longer one would leave three over: it is cut as usual
        var more = Planner.Plan(Work.Lay(OrderGen.PieceOf([new string('a', 58)], new Working())));
        Assert.Equal((2, 0), (more.Starts, more.ThreadUses()[0].LongerNeedlefuls));
        Assert.Contains(Directions.Write(more, LevelWords.UpDown), d => d.Text.Contains("of the thread is left", StringComparison.Ordinal));
    }
}
