using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Order;

public class BandWorkTests
{
    private static readonly Gen<Work> Works = BandGen.Pieces.Select(Work.Lay);

    [Fact]
    public void Every_stitch_of_every_band_is_worked_once_in_order() => Works.Sample(work =>
    {
        var steps = BandWork.Of(work).Steps;
        foreach (var band in work.Bands)
            foreach (var pass in band.Passes)
            {
                var parts = steps.Where(s => s.Band == band && (s.Pass.Row, s.Pass.Journey, s.Pass.GoesOn) == (pass.Row, pass.Journey, pass.GoesOn)).ToArray();
                var next = 0;
                foreach (var step in parts)
                {
                    Assert.Same(parts[0].Pass, step.Pass);
                    Assert.Equal(next, step.First);
                    next += step.Count;
                }
                Assert.Equal(pass.Stitches.Length, next);
                // worked back it is the same stitches, the last first
                if (parts[0].Pass.Turned == pass.Turned) Assert.Equal(pass.Stitches, parts[0].Pass.Stitches);
                else Assert.Equal(pass.Stitches.Select(Lies), parts[0].Pass.Stitches.Reverse().Select(Lies));
            }

        static (StitchKind, Bite, Bite) Lies(Stitch s) => s.From.Pleat.Number < s.To.Pleat.Number || (s.From.Pleat == s.To.Pleat && s.From.Depth < s.To.Depth)
            ? (s.Kind, s.From, s.To) : (s.Kind, s.To, s.From);
    });

    [Fact]
    public void No_needleful_is_longer_than_the_working_length() => Works.Sample(work =>
    {
        var usable = work.Piece.Working.WorkingLength - work.Piece.Working.Tails;
        var (needleful, stitches) = (Length.Zero, 0);
        var half = (Length.Zero, 0); // what the other half of a needleful begun at the centre has taken
        foreach (var step in BandWork.Of(work).Steps)
        {
            if (step.Thread == BandThread.NewWithTail) half = (step.Takes, step.Count);
            if (step.Thread != BandThread.Carry) (needleful, stitches) = step.Thread == BandThread.Tail ? half : (Length.Zero, 0);
            (needleful, stitches) = (needleful + step.Takes, stitches + step.Count);
            Assert.True(needleful <= usable * (1 + 1e-9) || stitches == 1 || (step.Thread == BandThread.Tail && step.Count == 1));
        }
    });

    [Fact]
    public void A_thread_is_carried_only_as_far_as_the_maker_allows() => Works.Sample(work =>
    {
        BandStep? before = null;
        foreach (var step in BandWork.Of(work).Steps)
        {
            Assert.Equal(step.Thread == BandThread.Carry, before is { TieOff: false });
            if (step.Pass.Turned && !step.Pass.GoesOn) Assert.True(work.Piece.Working.MayTurn && step.Band.Stitch.MayWorkBack);
            if (step.Thread == BandThread.Carry)
            {
                Assert.Equal(before!.Band.Band.Thread, step.Band.Band.Thread);
                // from valley to valley: where the moves of the one before leave the thread, and where the needle comes up
                Assert.Equal(NeedlePath.Of(step.Pass, 1).First().Point.At.Across - NeedlePath.Of(before.Pass, 1).Last().Point.At.Across, step.CarriedPleats);
                Assert.Equal(step.CarriedSpaces, step.Begin.From.Depth - before.End.To.Depth, 9);
                Assert.InRange(Math.Abs(step.CarriedPleats), 0, work.Piece.Working.CarryPleats);
                Assert.InRange(Math.Abs(step.CarriedSpaces), 0, 1 + 1e-9);
            }
            else Assert.Equal(Length.Zero, step.Carried);
            before = step;
        }
        Assert.True(before is not { TieOff: false });
    });

    [Fact]
    public void Carrying_on_never_takes_more_starts_than_beginning_every_row_anew() => Works.Sample(work =>
    {
        var apart = Work.Lay(work.Piece with { Working = work.Piece.Working with { MayTurn = false, CarryPleats = 0 } });
        BandWork joined = BandWork.Of(work), anew = BandWork.Of(apart);
        Assert.True(joined.Starts <= anew.Starts);
        if (joined.Steps.All(s => s.TieOff)) Assert.Equal(anew.Starts, joined.Starts);
    });

    [Fact]
    public void A_rest_is_taken_only_where_it_lies_and_reaches() => Works.Sample(work =>
    {
        var working = work.Piece.Working;
        var (hair, left, rests) = (Length.FromMillimetres(0.01), Length.Zero, new List<(ThreadKey Thread, Length Left)>());
        var cut = new Dictionary<ThreadKey, int>();
        var steps = BandWork.Of(work).Steps;
        for (var i = 0; i < steps.Length; i++)
        {
            if (steps[i].Thread is BandThread.NewWithTail or BandThread.Tail)
            {
                Assert.Equal(steps[i].Starts, steps[i].Threads);
                if (steps[i].Threads) cut[steps[i].Band.Band.Thread] = cut.GetValueOrDefault(steps[i].Band.Band.Thread) + 1;
                left = Length.Zero; // nothing of it is used again
                continue;
            }
            var thread = steps[i].Band.Band.Thread;
            if (steps[i].Threads) (left, cut[thread]) = (working.WorkingLength - working.Tails, cut.GetValueOrDefault(thread) + 1);
            else if (steps[i].Starts)
            {
                var takes = steps.Skip(i).TakeWhile((s, k) => k == 0 || s.Thread == BandThread.Carry).Aggregate(working.Tails, (sum, s) => sum + s.Takes);
                var reaches = rests.Where(r => r.Thread == thread && r.Left + hair >= takes).OrderBy(r => r.Left).ToList();
                Assert.NotEmpty(reaches);
                Assert.True(reaches[0].Left + hair >= working.LeastRest);
                rests.Remove(reaches[0]);
                left = reaches[0].Left - working.Tails;
            }
            left -= steps[i].Takes;
            if (steps[i].TieOff && left + hair >= working.LeastRest) rests.Add((thread, left));
        }
        foreach (var (thread, count) in cut)
            Assert.True(count <= Planner.Plan(work, Effort.Drawing).ThreadUses().Single(u => u.Thread.Key == thread).Needlefuls);
    });

    // By hand: 9 stitches of 7.3 mm and 8 cm of tails take 14.6 cm; of 45.7 cm 31.1 are left, and then 16.5.
    [Fact]
    public void Three_short_rows_far_apart_are_three_starts_and_one_length()
    {
        var piece = BandGen.Alone(BandGen.Band("outline"), 10, 7);
        piece = piece with { Bands = [.. ((int[])[1, 4, 7]).Select(row => BandGen.Band("outline") with { GatheringRow = new GatheringRow(row) })], Back = Backsmocking.None, Accents = [] };
        var order = Planner.Plan(Work.Lay(piece));
        Assert.Equal((3, 1), (order.Bands.Starts, order.ThreadUses().Sum(u => u.Needlefuls)));
        Assert.Equal([true, false, false], order.Bands.Steps.Where(s => s.Starts).Select(s => s.Threads));
        Assert.Equal(2, Directions.Write(order, LevelWords.UpDown).Count(d => d.Text.Contains("what was left of a after band step ", StringComparison.Ordinal)));
    }

    // A needleful holds 37.7 cm. Halves of 13 stitches share one; halves of 25 take one each, where half a needleful would not
    // reach; halves of 46 take half of one and another.
    [Theory]
    [InlineData(26, new[] { BandThread.NewWithTail, BandThread.Tail })]
    [InlineData(48, new[] { BandThread.New, BandThread.New })]
    [InlineData(92, new[] { BandThread.NewWithTail, BandThread.GoesOn, BandThread.Tail, BandThread.GoesOn })]
    public void A_tail_is_left_at_the_centre_where_it_saves_a_start(int pleats, BandThread[] threads) =>
        Assert.Equal(threads, BandWork.Of(Work.Lay(BandGen.Alone(BandGen.Band("baby wave"), pleats))).Steps.Select(s => s.Thread));

    // Common practice, no source: at a row's end the thread goes on down the pleat, the work turned, while it lasts.
    [Fact]
    public void Two_short_rows_are_worked_there_and_back_with_one_needleful()
    {
        var band = BandGen.Band("wheat");
        var order = Planner.Plan(Work.Lay(BandGen.Alone(band, 20) with { Back = Backsmocking.None }));
        Assert.Equal([(BandThread.New, false, 1, 20), (BandThread.Carry, true, 20, 1)],
            order.Bands.Steps.Select(s => (s.Thread, s.Pass.Turned, s.Begin.From.Pleat.Number, s.End.To.Pleat.Number)));
        Assert.Equal((1, 2, 1), (order.Bands.Starts, order.TurnsInAll, order.Needlefuls));
        // one cable row down the pleat, a fifth of a space
        Assert.Equal(Gauge.Common.RowSpacing.Millimetres / 5, order.CarriedInAll.Millimetres, 6);
        var use = order.ThreadUses()[0];
        Assert.Equal(1, use.Needlefuls);
        var stitches = order.Bands.Steps.Select(s => s.Length).Aggregate((a, b) => a + b);
        Assert.Equal((stitches + order.CarriedInAll + order.Work.Piece.Working.Tails).Millimetres, use.Length.Millimetres, 6);
        // without turning, each row begins at its own side
        var oneWay = Planner.Plan(Work.Lay(BandGen.Alone(band, 20) with { Working = new Working { MayTurn = false } }));
        Assert.Equal((2, 0), (oneWay.Bands.Starts, oneWay.Bands.Turns));
        // feather is never worked back
        Assert.Equal(3, BandWork.Of(Work.Lay(BandGen.Alone(BandGen.Band("feather") with { Rows = 3 }, 10))).Starts);
    }

    [Fact]
    public void A_thread_is_changed_only_after_a_stitch_over_two_pleats() => Works.Sample(work =>
    {
        foreach (var step in BandWork.Of(work).Steps.Where(s => s.Continues)) Assert.NotEqual(step.End.From.Pleat, step.End.To.Pleat);
    });

    [Fact]
    public void Amounts_add_up_over_the_bands() => Works.Sample(work =>
    {
        var order = Planner.Plan(work);
        var uses = order.ThreadUses();
        Assert.Equal(work.Bands.Sum(b => b.Stitches), uses.Sum(u => u.BandStitches));
        Assert.Equal(work.Cables, uses.Sum(u => u.Cables));
        Assert.Equal(order.Bands.Accents.Length, uses.Sum(u => u.Accents));
        var alone = Planner.Plan(Work.Lay(work.Piece with { Bands = [.. work.Piece.Bands.Where(b => b.Stitch == "cable" && work.Bands.All(l => l.Band != b))], Accents = [] })).ThreadUses();
        foreach (var (with, without) in uses.Zip(alone)) Assert.True(with.Length >= without.Length && with.Needlefuls >= without.Needlefuls);
    });

    // Common practice, no source: three times the width of the row; a level stitch of a band is a cable.
    [Fact]
    public void A_row_of_outline_takes_what_a_row_of_cables_takes()
    {
        Length Of(string stitch) => Planner.Plan(Work.Lay(BandGen.Alone(BandGen.Band(stitch), 20) with { Working = new Working { WorkingLength = Length.FromMetres(2) } })).ThreadUses()[0].Length;
        Assert.Equal(Of("cable").Millimetres, Of("outline").Millimetres, 6);
    }

    // By hand: 12 pleats an inch, rows 3/8 in; a step of half a space is hypot(2/12, 3/16) in over the front, then 1/12 in
    // back through the pleat and half a cable row, 3/80 in, between lines.
    [Fact]
    public void A_slanting_stitch_takes_its_slant()
    {
        var work = Work.Lay(BandGen.Alone(BandGen.Band("baby wave"), 20));
        var step = work.Bands[0].Passes[0].Stitches.First(s => !s.IsLevel);
        var inches = Math.Sqrt(Math.Pow(2.0 / 12, 2) + Math.Pow(3.0 / 16, 2)) + 1.0 / 12 + 3.0 / 80;
        Assert.Equal(inches * 25.4, BandWork.LengthOf(work, step).Millimetres, 6);
    }

    [Fact]
    public void Accents_off_the_cloth_take_no_thread()
    {
        var mark = new AccentMark("knot", Centre.At(new Valley(59)), new GatheringRow(1), new ThreadKey('a')) { Repeat = new Repeat(3, 20) };
        var order = Planner.Plan(Work.Lay(BandGen.Alone(BandGen.Band("outline"), 60) with { Accents = [mark] }));
        Assert.Equal(2, order.Bands.Accents.Length);
        Assert.Equal(2, order.ThreadUses()[0].Accents);
    }
}
