using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Tests.Chart;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Order;

public class BacksmockTests
{
    private static readonly Gen<Work> Works = OrderGen.Pieces.Select(piece => Work.Lay(piece with { Back = Backsmocking.Auto }));

    private static Length Usable(Work work) => work.Piece.Working.WorkingLength - work.Piece.Working.Tails;

    // As a stitcher does it, cable by cable: threads a needle only when no cable is left in hand.
    [Fact]
    public void Worked_as_told_the_needlefuls_do_and_every_carry_keeps_to_its_limits() => Works.Sample(work =>
    {
        var working = work.Piece.Working;
        var cable = Usage.Cable(work.Pleating.Gauge.Pitch, work.Pleating.Gauge.LineHeight);
        var hair = Length.FromMillimetres(0.02 * 60); // the planner rounds each cable up to a micrometre
        BackRow? before = null;
        var inHand = Length.Zero;
        foreach (var row in Backsmock.Of(work).Rows)
        {
            Assert.Equal(before is { KeepsThread: true }, row.Carried > Length.Zero);
            Assert.Equal(working.Hand == Hand.Right != row.Turned, row.Begin.Number > row.End.Number);
            Assert.True(working.MayTurn || !row.Turned);
            if (before is { KeepsThread: true } last)
            {
                Assert.Equal(last.Row.Below, row.Row);
                Assert.Equal(!last.Turned, row.Turned);
                Assert.Equal(row.Begin.Number - last.End.Number, row.CarriedPleats);
                Assert.InRange(Math.Abs(row.CarriedPleats), 0, working.CarryPleats);
                var far = Math.Abs(row.CarriedPleats) > 3 ? Math.Abs(row.CarriedPleats) - 1 : 0; // cabled across
                Assert.Equal((work.Pleating.Gauge.RowSpacing + work.Pleating.Gauge.Pitch * (Math.Abs(row.CarriedPleats) - far) + work.CableThread(row.Row.CableRow(work.Pleating.Gauge.CableRowsPerSpace)) * far).Millimetres, row.Carried.Millimetres, 0.02);
                inHand -= row.Carried;
                Assert.True(inHand + hair >= cable); // something is worked with what is carried
            }
            else
            {
                Assert.False(row.Turned);
                inHand = Length.Zero;
            }
            var threaded = 0;
            for (var n = 0; n < row.Cables; n++)
            {
                if (threaded < row.Needlefuls && inHand < cable) (inHand, threaded) = (Usable(work) > cable ? Usable(work) : cable, threaded + 1);
                inHand -= cable;
                Assert.True(inHand + hair >= Length.Zero, $"row {row}, cable {n}");
            }
            Assert.Equal(row.Needlefuls, threaded);
            before = row;
        }
        Assert.True(before is not { KeepsThread: true });
    });

    [Fact]
    public void Every_carry_is_drawn_from_where_a_row_ends_to_where_the_next_begins() => Works.Sample(work =>
    {
        var order = Planner.Plan(work, Effort.Drawing);
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var rows = order.Backsmock.Rows;
        var expected = rows.Zip(rows.Skip(1)).Where(p => p.First.KeepsThread).Select(p =>
            (p.First.End.Number, (p.First.Row.Number - 1) * perSpace, p.Second.Begin.Number, (p.Second.Row.Number - 1) * perSpace));
        Assert.Equal(expected.Select(e => (new BackPoint(e.Item1, e.Item2 + 0.5), new BackPoint(e.Item3, e.Item4 + 0.5))),
            BackPath.CarriesOfBacksmocking(order).Select(points => (points[0], points[^1])));
    }, iter: 60);

    [Fact]
    public void Every_stretch_is_cabled_once_whether_rows_share_a_thread_or_not_and_sharing_only_saves_starts() => Works.Sample(work =>
    {
        Backsmock shared = Backsmock.Of(work), apart = Backsmock.Of(Work.Lay(work.Piece with { Working = work.Piece.Working with { MayTurn = false } }));
        Assert.Equal(apart.Rows.Select(r => (r.Row, r.From, r.To)), shared.Rows.Select(r => (r.Row, r.From, r.To)).Order());
        Assert.Equal(apart.Cables, shared.Cables);
        Assert.True(shared.Needlefuls <= apart.Needlefuls);
        if (shared.Needlefuls == apart.Needlefuls) Assert.Equal(apart.Rows, shared.Rows); // no carry in vain
        Assert.Equal((shared.Rows.Sum(r => r.Length.Millimetres) + shared.Carried.Millimetres + work.Piece.Working.Tails.Millimetres * shared.Needlefuls), shared.Length.Millimetres, 6);
        Assert.Equal(0, apart.Turns);
        // alone, a row takes whole cables of each needleful
        var each = Math.Max(1, (int)(Usable(work) / Usage.Cable(work.Pleating.Gauge.Pitch, work.Pleating.Gauge.LineHeight) + 1e-9));
        Assert.All(apart.Rows, r => Assert.InRange(r.Needlefuls - (r.Cables + each - 1) / each, 0, 1)); // 1 where a micrometre tips it
    });

    // A needleful holds 51 cables of 7.3 mm in 37.7 cm. Four rows of 19, there and back two by two: 38 cables and a space of 9.5 mm
    // fit one needleful.
    [Fact]
    public void Short_rows_are_cabled_there_and_back_two_with_one_needleful()
    {
        var order = Planner.Plan(Work.Lay(BandGen.Alone(BandGen.Band("outline") with { GatheringRow = new GatheringRow(5) }, 20, gatheringRows: 5)));
        Assert.Equal((2, 4, 4), (order.Backsmock.Needlefuls, order.Backsmock.Rows.Length, order.Backsmock.Turns));
        Assert.Equal(
        [
            "On the back, gathering row 1. Start a new needleful. From 10 left of the centre (pleat 20) to 10 right of the centre (pleat 1): 19 cables with 1 new needleful. Keep the thread for the next step.",
            "Turn the work: bottom edge up. On the back, gathering row 2, turned. The same thread, carried on the back 5 cable rows along the pleat. "
                + "From 10 left of the centre (pleat 1) to 10 right of the centre (pleat 20): 19 cables with what is left of it. Tie off.",
            "Turn the work back: top edge up. On the back, gathering row 3. Start a new needleful. From 10 left of the centre (pleat 20) to 10 right of the centre (pleat 1): 19 cables with 1 new needleful. Keep the thread for the next step.",
            "Turn the work: bottom edge up. On the back, gathering row 4, turned. The same thread, carried on the back 5 cable rows along the pleat. "
                + "From 10 left of the centre (pleat 1) to 10 right of the centre (pleat 20): 19 cables with what is left of it. Tie off.",
        ], Directions.Write(order, LevelWords.UpDown).Where(d => d.Back is not null).Select(d => d.Text));
        Assert.Equal([false, true, false, true], WorkItem.Of(Directions.Write(order, LevelWords.UpDown)).Take(4).Select(i => i.IsTurned));
        // 26 cables a row: 78 in three rows take two needlefuls, and so do 52 in two
        var three = Backsmock.Of(Work.Lay(BandGen.Alone(BandGen.Band("outline") with { GatheringRow = new GatheringRow(4) }, 27 + 1, gatheringRows: 4)));
        Assert.Equal([(1, false), (1, true), (0, false)], three.Rows.Select(r => (r.Needlefuls, r.Turned)));
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
            [new Placement("bar", Centre.At(new Valley(30)), new GatheringRow(1), 0)]) { Back = Backsmocking.Gaps };
        var rows = Planner.Plan(Work.Lay(piece)).Backsmock.Rows;
        // cables in valleys 20 to 40 hold pleats 20 to 41
        Assert.Equal([(1, 1, 20), (1, 41, 60), (2, 1, 60)], rows.Select(r => (r.Row.Number, r.From.Number, r.To.Number)).Order());
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

    private static readonly Figure Bar = new("bar", [new string('a', 21)]);

    private static int[] RowsOf(Piece piece) => [.. Planner.Plan(Work.Lay(piece), Effort.Drawing).Backsmock.Rows.Select(r => r.Row.Number).Order()];

    // The default is the plain habit: right across every gathering row, as support behind the figures, save where the front holds it right across.
    [Fact]
    public void Backsmocking_goes_right_across_behind_the_figures_but_not_behind_a_border()
    {
        var piece = new Piece("", new ClothPlan(new Panel(Gauge.Common.Pitch * 60), Gauge.Common, 4), PieceGen.Threads, [Bar],
            [new Placement("bar", Centre.At(new Valley(30)), new GatheringRow(1), 0)]) { Bands = [new Band("cable", new GatheringRow(3), PieceGen.Threads[0].Key)] };
        var back = Planner.Plan(Work.Lay(piece)).Backsmock;
        Assert.True(back.IsRightAcross);
        Assert.Equal([1, 2, 4], back.Rows.Select(r => r.Row.Number).Order());
        Assert.All(back.Rows, r => Assert.Equal((1, 60), (r.From.Number, r.To.Number)));
        Assert.Equal([1, 1, 2, 4], RowsOf(piece with { Back = Backsmocking.Gaps })); // both sides of the bar, and rows without a stitch
        Assert.Empty(RowsOf(piece with { Back = Backsmocking.None }));
        // a figure that leaves no more than three pleats at either end holds its row right across
        var wide = piece with { Figures = [new Figure("bar", [new string('a', 55)])] };
        Assert.Equal([2, 4], RowsOf(wide));
        Assert.Equal([1, 2, 4], RowsOf(wide with { Figures = [new Figure("bar", [new string('a', 51)])] }));
    }

    [Fact]
    public void Rows_right_across_are_told_once_and_counted_apart()
    {
        var piece = new Piece("", new ClothPlan(new Panel(Gauge.Common.Pitch * 60), Gauge.Common, 4), PieceGen.Threads, [Bar],
            [new Placement("bar", Centre.At(new Valley(30)), new GatheringRow(1), 0)]);
        var order = Planner.Plan(Work.Lay(piece));
        var told = Assert.Single(Directions.Table(order, LevelWords.UpDown).Blocks[0].Lines);
        Assert.Equal(["G1 to G4", "to R", "30 L", "30 R", "59 each", "new", $"{order.Backsmock.Needlefuls} in all", "as said"], told.Cells);
        Assert.Equal(4, Directions.Write(order, LevelWords.UpDown).Count(d => d.Back is not null)); // beside the work each row is ticked
        Assert.Equal(21, order.ThreadUses().Sum(u => u.Cables));
        Assert.Equal(236, order.Backsmock.Use.Cables);
    }

    // Below the yoke a bishop must be free to flare.
    [Fact]
    public void Nothing_is_backsmocked_below_the_design_of_a_bishop_unless_asked()
    {
        var cloth = new ClothPlan(new Round(Length.FromInches(11), Angle.FromDegrees(360), [new RoundPanel("all", Length.FromInches(44))]), Gauge.Common, 6);
        var piece = new Piece("", cloth, PieceGen.Threads, [Bar], [new Placement("bar", Centre.Middle, new GatheringRow(3), 0)]);
        Assert.Equal([1, 2, 3], RowsOf(piece));
        Assert.Equal([1, 2, 3], RowsOf(piece with { Back = Backsmocking.Gaps }).Distinct());
        Assert.Equal([1, 2, 3, 4, 5, 6], RowsOf(piece with { Back = Backsmocking.All }));
    }
}
