using CsCheck;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;

namespace Pleatwright.Model.Tests.Table;

/// <summary>What a finger that draws covers is shown beside it, and named.</summary>
public class LoupeTests
{
    [Fact]
    public void It_is_never_under_the_finger_and_never_off_the_view()
    {
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1], AtTable.Pick(new Pane(0, 0, 390, 690), new Pane(62, 0, 844, 300), new Pane(66, 0, 980, 650), new Pane(0, 0, 768, 860)), Gen.Enum<Hand>()).Sample((a, d, free, hand) =>
        {
            var (x, y) = (free.Left + a * (free.Right - free.Left), free.Top + d * (free.Bottom - free.Top));
            var loupe = Loupe.Over(x, y, free, hand, "");
            var (away, down) = (Math.Max(Math.Max(loupe.Left - x, x - loupe.Left - Loupe.Width), 0), Math.Max(Math.Max(loupe.Top - y, y - loupe.Top - Loupe.Height), 0));
            Assert.True(Math.Max(away, down) >= Loupe.Clear - 1e-9, $"{loupe} under the finger");
            Assert.True(loupe.Top + Loupe.Height <= y || loupe.Top == free.Top + 6, "below the finger, where the hand lies");
            Assert.True(loupe.Top >= free.Top && loupe.Top + Loupe.Height <= free.Bottom, $"{loupe} off the view");
            if (free.Right - free.Left >= 2 * (Loupe.Width + Loupe.Clear)) Assert.True(loupe.Left >= free.Left && loupe.Left + Loupe.Width <= free.Right, $"{loupe} off the view");
        }, iter: 4000);
    }

    [Fact]
    public void A_finger_that_draws_brings_it_and_lifts_it_away_and_no_mouse_or_pen_does()
    {
        var at = new AtTable(Pieces.Empty);
        var (x, y) = at.Middle(30, 12);
        at.Point(PointerMove.Down, x, y, PointerKind.Touch, size: 20);
        Assert.Null(at.Hand.Loupe); // it may be a pinch
        at.Time.Advance(Pointing.Meaning);
        Assert.Equal("Valley 30 · up · r sail red", at.Hand.Loupe?.Words);
        (x, y) = at.Middle(34, 12);
        at.Point(PointerMove.Move, x, y, PointerKind.Touch, size: 20);
        Assert.Equal(("Valley 34 · up · r sail red", x, y), (at.Hand.Loupe?.Words, at.Hand.Loupe?.X, at.Hand.Loupe?.Y));
        at.Point(PointerMove.Up, x, y, PointerKind.Touch, size: 20);
        Assert.Null(at.Hand.Loupe);
        foreach (var kind in new[] { PointerKind.Mouse, PointerKind.Pen })
        {
            at.Point(PointerMove.Down, x, y, kind, 5);
            at.Point(PointerMove.Move, x + 30, y, kind, 5);
            Assert.Null(at.Hand.Loupe);
            at.Point(PointerMove.Up, x, y, kind, 5);
        }
    }

    [Fact]
    public void A_pinch_and_a_lost_page_take_it_away()
    {
        foreach (var second in new[] { true, false })
        {
            var at = new AtTable(Pieces.Empty);
            var (x, y) = at.Middle(30, 12);
            at.Point(PointerMove.Down, x, y, PointerKind.Touch, size: 20);
            at.Point(PointerMove.Move, x + 40, y, PointerKind.Touch, size: 20);
            Assert.NotNull(at.Hand.Loupe);
            if (second) at.Point(PointerMove.Down, x, y + 80, PointerKind.Touch, 2, size: 20);
            else at.Hand.Hear("blur", "");
            Assert.Null(at.Hand.Loupe);
        }
    }
}
