using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Tests.Chart;
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
        foreach (var pass in work.Bands.SelectMany(b => b.Passes))
        {
            var next = 0;
            foreach (var step in steps.Where(s => ReferenceEquals(s.Pass, pass)))
            {
                Assert.Equal(next, step.First);
                next += step.Count;
            }
            Assert.Equal(pass.Stitches.Length, next);
        }
    });

    [Fact]
    public void No_needleful_is_longer_than_the_working_length() => Works.Sample(work =>
    {
        var usable = work.Piece.Working.WorkingLength - work.Piece.Working.Tails;
        var needleful = Length.Zero;
        foreach (var step in BandWork.Of(work).Steps)
        {
            if (step.Thread == BandThread.NewWithTail) needleful = step.Length;
            else if (step.Thread == BandThread.Tail) Assert.True(needleful + step.Length <= usable * (1 + 1e-9) || step.Count == 1);
            Assert.True(step.Length <= usable * (1 + 1e-9) || step.Count == 1);
        }
    });

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
    public void Backsmocking_is_planned_on_every_row_without_stitching_and_on_no_other()
    {
        var piece = BandGen.Alone(BandGen.Band("outline"), 40, gatheringRows: 5);
        Assert.Equal([1, 3, 4, 5], Rows(piece));
        Assert.Empty(Rows(piece with { Back = Backsmocking.None }));
        // a honeycomb a space high holds two rows, a wave of half a space one
        Assert.Equal([1, 4, 5], Rows(piece with { Bands = [BandGen.Band("honeycomb")] }));
        Assert.Equal([1, 3, 4, 5], Rows(piece with { Bands = [BandGen.Band("baby wave")] }));
        // a row a quarter space off its gathering row still holds it, one half a space off does not
        Assert.Equal([1, 3, 4, 5], Rows(piece with { Bands = [BandGen.Band("outline") with { Offset = 1 }] }));
        Assert.Equal([1, 2, 3, 4, 5], Rows(piece with { Bands = [BandGen.Band("outline") with { Offset = 2 }] }));

        int[] Rows(Piece p) => [.. Planner.Plan(Work.Lay(p)).Backsmock.Rows.Select(r => r.Row.Number)];
    }

    [Fact]
    public void Long_gaps_beside_a_figure_are_backsmocked_a_pleat_into_the_stitching()
    {
        var piece = new Piece("", new ClothPlan(new Panel(Gauge.Common.Pitch * 60), Gauge.Common, 2), PieceGen.Threads, [new Figure("bar", [new string('a', 21)])],
            [new Placement("bar", Centre.At(new Valley(30)), new GatheringRow(1), 0)]);
        var rows = Planner.Plan(Work.Lay(piece)).Backsmock.Rows;
        // cables in valleys 20 to 40 hold pleats 20 to 41
        Assert.Equal([(1, 1, 20), (1, 41, 60), (2, 1, 60)], rows.Select(r => (r.Row.Number, r.From.Number, r.To.Number)));
    }

    [Fact]
    public void Backsmocking_takes_three_times_the_width_of_its_rows_and_its_own_thread()
    {
        var order = Planner.Plan(Work.Lay(BandGen.Alone(BandGen.Band("outline"), 60, gatheringRows: 2)));
        var back = order.Backsmock;
        var row = Assert.Single(back.Rows);
        Assert.Equal(59, row.Cables);
        Assert.InRange(row.Length.Inches, 3 * 59 / 12.0, 3 * 59 / 12.0 * 1.2);
        Assert.Equal(2, back.Thread.Strands);
        Assert.Equal(order.Work.Piece.Cloth.Colour, back.Thread.Colour);
        Assert.Equal(59, order.ThreadUses()[0].BandStitches);
        Assert.Equal(0, order.ThreadUses()[0].Cables);
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
