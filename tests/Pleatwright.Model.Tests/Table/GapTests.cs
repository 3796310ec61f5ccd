using CsCheck;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;

namespace Pleatwright.Model.Tests.Table;

/// <summary>The copies of a figure are pulled apart on the cloth by the gap between them.</summary>
public class GapTests
{
    private static Piece Repeated(int count, int every, int width = 3, int at = 30) => Pieces.Empty with
    {
        Figures = [new Figure("gull", [new string('r', width), new string('b', width)])],
        Placements = [new Placement("gull", Centre.At(new Valley(at)), new GatheringRow(3), 0) { Repeat = new Repeat(count, every) }],
    };

    private static AtTable Holding(Piece piece)
    {
        var at = new AtTable(piece);
        at.Needle.TakeUp(Doing.Figure);
        return at;
    }

    private static (double X, double Y) Handle(AtTable at, Gap gap) => at.Cloth.Sight!.Value.PlaceOf(at.Desk.Work.Pleating, new Spotted(gap.Line, gap.Across));

    private static double Pleat(AtTable at) => at.Cloth.Seen.Scale * at.Desk.Work.Pleating.PitchAt(10).Millimetres;

    [Fact]
    public void The_gap_is_counted_in_bare_pleats_and_room_in_copies_that_lie_wholly_on_the_cloth()
    {
        var at = Holding(Repeated(2, 10)); // three cables take four pleats
        var gap = Assert.Single(at.Needle.Gaps);
        Assert.Equal(6, gap.Pleats);
        Assert.Equal(59, at.Desk.Work.Valleys);
        Assert.Equal(4, gap.Room); // six copies, their middles on 5, 15, 25, 35, 45 and 55
        Assert.Equal("Gap 6 pleats, room for 4 more", Where.Of(gap));
        Assert.Equal("Gap 6 pleats, no room for more", Where.Of(Gap.Of(Work.Lay(Repeated(6, 10)), 0)!.Value));
        Assert.Equal("Gap 6 pleats, 2 run off the cloth", Where.Of(Gap.Of(Work.Lay(Repeated(8, 10)), 0)!.Value));
        Assert.StartsWith("The copies join", Where.Of(Gap.Of(Work.Lay(Repeated(2, 3)), 0)!.Value), StringComparison.Ordinal);
        at.Needle.TakeUp(Doing.Stitch);
        Assert.Empty(at.Needle.Gaps);
    }

    /// <summary>Counted on the cloth itself: pleats that no cable of the row covers between the first two copies.</summary>
    [Fact]
    public void The_gap_told_is_the_pleats_left_bare()
    {
        Gen.Select(Gen.Int[2, 5], Gen.Int[1, 14], Gen.Int[1, 9], Gen.Int[20, 40]).Sample((count, every, width, at) =>
        {
            if (every < width) return;
            var work = Work.Lay(Repeated(count, every, width, at));
            var gap = Gap.Of(work, 0)!.Value;
            var first = work.Footprints[0].From.Number;
            if (first < 1 || first + every + width > work.Valleys) return;
            var covered = Enumerable.Range(first, every + 1).Count(p => !work.IsWorked(new Valley(p - 1), work.Footprints[0].Top) && !work.IsWorked(new Valley(p), work.Footprints[0].Top));
            Assert.Equal(Math.Max(0, gap.Pleats), covered);
        }, iter: 500);
    }

    /// <summary>The first copy goes with the pointer, in steps that leave every copy on its level; the others stay evenly about their middle.</summary>
    [Fact]
    public void Pulled_the_first_copy_follows_and_no_copy_changes_its_level()
    {
        Gen.Select(Gen.Int[2, 4], Gen.Int[7, 13], Gen.Double[-9, 9].Array[1, 4]).Sample((count, every, pulls) =>
        {
            var piece = Repeated(count, every);
            var at = Holding(piece);
            var (x, y) = Handle(at, at.Needle.Gaps.Single());
            at.Point(PointerMove.Down, x, y);
            foreach (var pull in pulls)
            {
                at.Point(PointerMove.Move, x + pull * Pleat(at), y);
                var repeat = at.Piece.Placements[0].Repeat;
                Assert.Equal(count, repeat.Count);
                Assert.Equal(every & 1, repeat.Every & 1);
                Assert.True(repeat.Every >= 4, "pulled into each other");
                Assert.Equal(repeat.Every - 4, at.Needle.GapHere!.Value.Pleats); // told while it is pulled
                var went = (every - repeat.Every) * (count - 1) / 2.0;
                if (repeat.Every is > 5 and < 59) Assert.InRange(Math.Abs(went - pull), 0, (count - 1) + 0.01);
            }
            Assert.Same(piece, at.Desk.History.Now.Piece);
            at.Point(PointerMove.Up, 0, 0);
            Assert.True(at.Desk.History.Past.Count() <= 1);
            if (at.Desk.History.CanUndo)
            {
                at.Key("Ctrl+z");
                Assert.Same(piece, at.Piece);
            }
        }, iter: 300, threads: 1);
    }

    [Fact]
    public void A_pull_taken_back_leaves_nothing_and_beside_the_handle_a_figure_is_taken_hold_of_as_ever()
    {
        var piece = Repeated(3, 14);
        var at = Holding(piece);
        var gap = at.Needle.Gaps.Single();
        var (x, y) = Handle(at, gap);
        at.Point(PointerMove.Down, x, y);
        at.Point(PointerMove.Move, x - 6 * Pleat(at), y);
        Assert.NotEqual(14, at.Piece.Placements[0].Repeat.Every);
        at.Point(PointerMove.Cancel, 0, 0);
        Assert.Same(piece, at.Piece);
        at.Stroke(at.Middle(30, 10), at.Middle(32, 11));
        Assert.Equal(14, at.Piece.Placements[0].Repeat.Every);
        Assert.Equal(32, at.Piece.Placements[0].Centre.On(at.Desk.Work.Pleating).Number);
    }

    [Fact]
    public void By_key_the_gap_goes_two_pleats_at_a_time_and_is_told_and_the_form_tells_it_too()
    {
        var at = new AtTable(Repeated(2, 10));
        at.Needle.GoTo(new Valley(25), new CableRow(10));
        Assert.NotNull(at.Needle.GapHere);
        at.Key("Shift+PageUp");
        Assert.Equal(12, at.Piece.Placements[0].Repeat.Every);
        Assert.Equal("Gap 8 pleats, room for 3 more.", at.Said[^1]);
        at.Needle.GoTo(new Valley(24), new CableRow(10));
        foreach (var _ in Enumerable.Range(0, 9)) at.Key("Shift+PageDown");
        Assert.Equal(4, at.Piece.Placements[0].Repeat.Every); // no copy into another
        Assert.Equal("Gap 0 pleats, room for 13 more.", new FigureDraft(at.Desk, at.Needle, 0).GapWords);
    }
}
