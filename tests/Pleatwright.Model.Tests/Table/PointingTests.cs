using Pleatwright.Bench.Model.Table;

namespace Pleatwright.Model.Tests.Table;

/// <summary>What mouse, fingers and pen mean.</summary>
public class PointingTests
{
    private readonly AtTable at = new(Pieces.Empty);

    public PointingTests() => Here = at.Middle(20, 8);

    private (double X, double Y) Here { get; }

    private void Finger(PointerMove move, double dx, double dy, int id = 1, double size = 20) => at.Point(move, Here.X + dx, Here.Y + dy, PointerKind.Touch, id, size: size);

    private void Pen(PointerMove move, double dx, double dy, PointerButtons buttons = PointerButtons.Main) => at.Point(move, Here.X + dx, Here.Y + dy, PointerKind.Pen, 90, buttons);

    [Fact]
    public void A_tap_of_a_finger_stitches_where_it_came_down()
    {
        Finger(PointerMove.Down, 0, 0);
        Assert.Empty(at.Worked());
        Finger(PointerMove.Move, 1, 1);
        Finger(PointerMove.Up, 1, 1);
        Assert.Equal([(20, 8)], at.Worked());
    }

    [Fact]
    public void A_finger_draws_once_it_moves_clearly_or_has_rested()
    {
        Finger(PointerMove.Down, 0, 0);
        Finger(PointerMove.Move, Pointing.ClearMove - 1, 0);
        Assert.Empty(at.Worked());
        Finger(PointerMove.Move, Pointing.ClearMove + 1, 0);
        Assert.NotEmpty(at.Worked());
        Finger(PointerMove.Up, Pointing.ClearMove + 1, 0);
        at.Key("Ctrl+z");
        Finger(PointerMove.Down, 0, 0);
        at.Time.Advance(Pointing.Meaning);
        Assert.Equal([(20, 8)], at.Worked());
        Finger(PointerMove.Cancel, 0, 0);
        Assert.Empty(at.Worked());
    }

    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(90, 0, 0)]
    [InlineData(400, 0, 0)]   // the first finger had begun to draw
    [InlineData(20, 60, 3)]   // the first finger had moved clearly
    [InlineData(400, 200, 90)]
    public void A_pinch_leaves_nothing_ever(int milliseconds, double dx, double dy)
    {
        var (piece, valley, row) = (at.Piece, at.Needle.Valley, at.Needle.Row);
        var before = at.Cloth.Seen;
        Finger(PointerMove.Down, 0, 0);
        if (dx > 0) Finger(PointerMove.Move, dx, dy);
        at.Time.Advance(TimeSpan.FromMilliseconds(milliseconds));
        Finger(PointerMove.Down, 60 + dx, 0, id: 2);
        Assert.Same(piece, at.Piece);
        for (var i = 1; i < 10; i++)
        {
            Finger(PointerMove.Move, dx - 10 * i, dy, id: 1);
            Finger(PointerMove.Move, 60 + dx + 10 * i, 0, id: 2);
        }
        at.Time.Advance(TimeSpan.FromSeconds(1));
        Finger(PointerMove.Up, 150, 0, id: 2);
        Finger(PointerMove.Move, 100, 100, id: 1); // the finger left moves the cloth
        at.Time.Advance(TimeSpan.FromSeconds(1));
        Finger(PointerMove.Up, 100, 100, id: 1);
        Assert.Same(piece, at.Piece);
        Assert.False(at.Desk.History.CanUndo);
        Assert.Equal((valley, row), (at.Needle.Valley, at.Needle.Row));
        Assert.Null(at.Needle.Drawing);
        Assert.True(at.Cloth.Seen.Scale > before.Scale * 1.5);
    }

    [Fact]
    public void A_palm_that_touches_while_a_pen_draws_is_nothing()
    {
        Pen(PointerMove.Down, 0, 0);
        Finger(PointerMove.Down, 80, 90, id: 2, size: 70);
        Finger(PointerMove.Down, 60, 120, id: 3);
        Finger(PointerMove.Move, 60, 150, id: 3);
        var seen = at.Cloth.Seen;
        var (x, y) = at.Middle(30, 8);
        Pen(PointerMove.Move, x - Here.X, y - Here.Y);
        Finger(PointerMove.Up, 80, 90, id: 2);
        Pen(PointerMove.Up, x - Here.X, y - Here.Y);
        Finger(PointerMove.Up, 60, 150, id: 3);
        Assert.Equal(seen, at.Cloth.Seen);
        Assert.Equal(Enumerable.Range(20, 11).Select(v => (v, 8)), at.Worked());
    }

    [Fact]
    public void A_palm_that_comes_down_before_the_pen_leaves_nothing()
    {
        Finger(PointerMove.Down, 80, 60, id: 2);
        at.Time.Advance(TimeSpan.FromMilliseconds(300));
        Assert.NotEmpty(at.Worked());
        Pen(PointerMove.Down, 0, 0);
        Pen(PointerMove.Up, 0, 0);
        Finger(PointerMove.Move, 120, 60, id: 2);
        Finger(PointerMove.Up, 120, 60, id: 2);
        Assert.Equal([(20, 8)], at.Worked());
    }

    [Fact]
    public void While_a_pen_is_near_or_was_lately_a_finger_only_moves_the_cloth()
    {
        Pen(PointerMove.Move, 5, 5, PointerButtons.None); // near
        var before = at.Cloth.Seen;
        Finger(PointerMove.Down, 0, 0);
        at.Time.Advance(TimeSpan.FromSeconds(1));
        at.Point(PointerMove.Move, Here.X + 40, Here.Y + 10, PointerKind.Touch);
        Assert.Equal(before with { X = before.X + 40, Y = before.Y + 10 }, at.Cloth.Seen);
        Finger(PointerMove.Up, 0, 0);
        Assert.Empty(at.Worked());
        Assert.Contains(at.Said, w => w.Contains("pen draws", StringComparison.Ordinal));
        at.Time.Advance(Pointing.Lately);
        Finger(PointerMove.Down, 0, 0);
        Finger(PointerMove.Up, 0, 0);
        Assert.Single(at.Worked());
    }

    [Theory]
    [InlineData(PointerButtons.Other)]
    [InlineData(PointerButtons.Eraser)]
    public void The_other_button_and_the_other_end_of_the_pen_clear(PointerButtons buttons)
    {
        at.Stroke(Here);
        Pen(PointerMove.Down, 0, 0, buttons);
        Pen(PointerMove.Up, 0, 0, PointerButtons.None);
        Assert.Empty(at.Worked());
    }

    [Fact]
    public void The_middle_button_and_bare_ground_move_the_cloth()
    {
        var before = at.Cloth.Seen;
        at.Point(PointerMove.Down, Here.X, Here.Y, buttons: PointerButtons.Middle);
        at.Point(PointerMove.Move, Here.X + 30, Here.Y + 4, buttons: PointerButtons.Middle);
        at.Point(PointerMove.Up, 0, 0, buttons: PointerButtons.None);
        Assert.Equal((before.X + 30, before.Y + 4), (at.Cloth.Seen.X, at.Cloth.Seen.Y));
        at.Stroke((2, 2), (12, 2));
        Assert.Equal(before.X + 40, at.Cloth.Seen.X);
        Assert.Empty(at.Worked());
    }

    [Fact]
    public void A_button_lifted_outside_the_page_ends_the_stroke()
    {
        at.Point(PointerMove.Down, Here.X, Here.Y);
        at.Point(PointerMove.Move, Here.X + 1, Here.Y, buttons: PointerButtons.None);
        at.Point(PointerMove.Move, Here.X + 300, Here.Y, buttons: PointerButtons.None);
        Assert.Equal([(20, 8)], at.Worked());
        Assert.True(at.Desk.History.CanUndo);
    }

    [Fact]
    public void Filling_and_taking_an_accent_off_are_taken_back_too()
    {
        at.Stroke(at.Middle(15, 8), at.Middle(25, 8));
        at.Key("4");
        var piece = at.Piece;
        at.Key("b");
        at.Needle.TakeUp(Doing.Fill);
        Finger(PointerMove.Down, 0, 0);
        at.Time.Advance(TimeSpan.FromSeconds(1));
        Assert.NotSame(piece, at.Piece);
        Finger(PointerMove.Down, 50, 0, id: 2);
        Assert.Same(piece, at.Piece);
        Finger(PointerMove.Up, 0, 0);
        Finger(PointerMove.Up, 50, 0, id: 2);
        Assert.Same(piece, at.Piece);
    }

    [Theory]
    [InlineData("")]
    [InlineData("1 1 1")]
    [InlineData("1 7 0 1 0 3 4 0.5 1")]
    [InlineData("1 0 9 1 0 3 4 0.5 1")]
    [InlineData("1 0 0 1 0 NaN 4 0.5 1")]
    [InlineData("x 0 0 1 0 3 4 0.5 1")]
    public void What_is_no_event_is_passed_over(string words)
    {
        Assert.False(at.Hand.Hear("pointer", words));
        Assert.False(at.Hand.Hear("wheel", words));
    }
}
