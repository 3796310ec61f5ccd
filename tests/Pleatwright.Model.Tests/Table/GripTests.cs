using CsCheck;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Tests.Endurance;

namespace Pleatwright.Model.Tests.Table;

/// <summary>One figure is scaled on the cloth by its corner, or by keys: the same act as another gauge.</summary>
public class GripTests
{
    private static readonly Piece Crab = Pleatwright.Bench.Model.Examples.Read("quay-yoke");

    private static AtTable Holding()
    {
        var at = new AtTable(Crab);
        at.Needle.TakeUp(Doing.Figure);
        at.Needle.GoTo(new Valley(31), new CableRow(15)); // the crab's middle, on gathering row 4
        return at;
    }

    private static (double X, double Y) Corner(AtTable at)
    {
        var handle = at.Needle.Handles.Single(h => h.Scales);
        var (x, y) = at.Cloth.Sight!.Value.PlaceOf(at.Desk.Work.Pleating, new Spotted(handle.Line, handle.Across));
        return (x + Gesture.GripBeside, y + Gesture.GripBeside);
    }

    private static Figure Figure(AtTable at) => at.Piece.Figure("crab")!;

    [Fact]
    public void The_corner_shows_while_figures_are_taken_hold_of_and_says_how_large_the_figure_is()
    {
        var at = Holding();
        Assert.Equal("29 by 9", at.Needle.Handles.Single(h => h.Scales).Words);
        at.Needle.GoTo(new Valley(56), new CableRow(2)); // bare
        Assert.DoesNotContain(at.Needle.Handles, h => h.Scales);
        at.Needle.GoTo(new Valley(31), new CableRow(15));
        at.Needle.TakeUp(Doing.Stitch);
        Assert.Empty(at.Needle.Handles);
    }

    [Theory]
    [InlineData(PointerKind.Mouse), InlineData(PointerKind.Touch)]
    public void Pulled_away_it_grows_pulled_in_it_shrinks_and_one_undo_takes_it_back(PointerKind kind) => Gen.Double[-0.7, 1.5].Array[1, 4].Sample(pulls =>
    {
        var at = Holding();
        var (x, y) = Corner(at);
        var gauge = at.Desk.Work.Pleating.Gauge;
        var scale = at.Cloth.Seen.Scale;
        // From the middle of its gathering row to its corner: fifteen pleats, four rows and a half.
        double wide = 15 * gauge.Pitch.Millimetres * scale, deep = 4.5 * gauge.CableRowHeight.Millimetres * scale;
        at.Point(PointerMove.Down, x, y, kind);
        at.Time.Advance(TimeSpan.FromSeconds(1)); // a finger that rests draws
        foreach (var pull in pulls)
        {
            at.Point(PointerMove.Move, x + pull * wide, y + pull * deep, kind);
            Assert.InRange(Figure(at).Width, Math.Max(1, 30 * (1 + pull) - 2) - 1e-6, 30 * (1 + pull) + 1e-6);
            Assert.Equal(1, Figure(at).Width & 1);
            Assert.InRange((double)Figure(at).Height, 9 * (1 + pull) - 1.5, 9 * (1 + pull) + 1.5);
        }
        Assert.Same(Crab, at.Desk.History.Now.Piece);
        at.Point(PointerMove.Up, x, y, kind);
        Assert.True(at.Desk.History.Past.Count() <= 1);
        if (at.Desk.History.CanUndo)
        {
            Assert.Equal("scaling a figure", at.Desk.History.Now.Edit);
            Assert.Equal(Crab.Placements.Select(p => (p.GatheringRow, p.Centre)), at.Piece.Placements.Select(p => (p.GatheringRow, p.Centre)));
            at.Key("Ctrl+z");
        }
        Assert.Same(Crab, at.Piece);
    }, iter: Long.Of(20, 200), threads: 1);

    [Fact]
    public void A_pull_taken_back_leaves_nothing_and_inside_the_figure_it_is_moved_as_ever()
    {
        var at = Holding();
        var (x, y) = Corner(at);
        at.Point(PointerMove.Down, x, y);
        at.Point(PointerMove.Move, x + 40, y + 20);
        Assert.NotEqual(29, Figure(at).Width);
        at.Point(PointerMove.Cancel, 0, 0);
        Assert.Same(Crab, at.Piece);
        at.Stroke(at.Middle(37, 16), at.Middle(40, 16));
        Assert.Equal(29, Figure(at).Width);
        Assert.Equal(34, at.Piece.Placements[0].Centre.Valleys);
    }

    [Fact]
    public void Keys_make_it_larger_and_smaller_by_steps_and_say_so()
    {
        var at = Holding();
        at.Key("Alt+PageUp");
        Assert.Equal((31, 10), (Figure(at).Width, Figure(at).Height));
        Assert.Contains("“crab” is drawn again: 29 valleys by 9 cable rows become 31 valleys by 10 cable rows.", at.Said.Last());
        at.Key("Ctrl+z");
        at.Key("Alt+PageDown");
        Assert.Equal((27, 8), (Figure(at).Width, Figure(at).Height));
    }

    [Fact]
    public void Seen_from_the_back_the_corner_is_pulled_the_other_way()
    {
        var at = Holding();
        at.Cloth.Back = true;
        var handle = at.Needle.Handles.Single(h => h.Scales);
        var (x, y) = at.Cloth.Sight!.Value.PlaceOf(at.Desk.Work.Pleating, new Spotted(handle.Line, handle.Across));
        at.Point(PointerMove.Down, x - Gesture.GripBeside, y + Gesture.GripBeside);
        at.Point(PointerMove.Move, x - Gesture.GripBeside - 60, y + Gesture.GripBeside);
        Assert.True(Figure(at).Width > 21);
    }
}
