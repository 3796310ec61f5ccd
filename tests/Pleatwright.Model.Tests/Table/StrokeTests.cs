using CsCheck;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;

namespace Pleatwright.Model.Tests.Table;

/// <summary>Where a stroke lays its stitches.</summary>
public class StrokeTests
{
    private static AtTable Fresh() => new(Pieces.Empty);

    [Fact]
    public void A_straight_stroke_along_a_row_lays_every_valley_between_its_ends()
    {
        for (var line = 0; line < 2; line++)
            for (var from = 10; from < 14; from++)
            {
                var at = Fresh();
                var (y, _) = (at.Middle(from + line, 4).Y, 0); // either of the row's two lines
                at.Stroke((at.Middle(from, 4).X, y), (at.Middle(30, 4).X, y));
                var worked = at.Worked();
                Assert.All(worked, c => Assert.Equal(4, c.Row));
                Assert.Equal(Enumerable.Range(worked[0].Valley, worked[^1].Valley - worked[0].Valley + 1), worked.Select(c => c.Valley));
                Assert.InRange(worked[0].Valley, from - 1, from + 1);
                Assert.InRange(worked[^1].Valley, 29, 31);
            }
    }

    [Fact]
    public void A_stroke_from_the_middle_of_one_brick_to_that_of_another_ends_on_both()
    {
        var at = Fresh();
        at.Stroke(at.Middle(12, 6), at.Middle(25, 6));
        Assert.Equal(Enumerable.Range(12, 14).Select(v => (v, 6)), at.Worked());
    }

    [Fact]
    public void A_straight_stroke_down_lays_one_column_one_brick_wide()
    {
        foreach (var off in new[] { -0.9, -0.45, 0, 0.3, 0.8 })
        {
            var at = Fresh();
            var (x, y) = at.Middle(20, 2);
            var pleat = at.Cloth.Seen.Scale * at.Desk.Work.Pleating.PitchAt(2).Millimetres;
            at.Stroke((x + off * pleat, y), (x + off * pleat + 0.3 * pleat, at.Middle(20, 11).Y));
            Assert.Equal(Enumerable.Range(2, 10).Select(r => (20, r)), at.Worked());
        }
    }

    [Fact]
    public void A_touch_lays_the_brick_that_is_seen_under_it()
    {
        foreach (var off in new[] { -0.95, -0.6, 0, 0.6, 0.95 })
        {
            var at = Fresh();
            var (x, y) = at.Middle(20, 3);
            at.Stroke((x + off * at.Cloth.Seen.Scale * at.Desk.Work.Pleating.PitchAt(3).Millimetres, y));
            Assert.Equal([(20, 3)], at.Worked());
        }
    }

    /// <summary>Any stroke, however quick: its cells hang together through shared sides, and it goes where the pointer went.</summary>
    [Fact]
    public void No_stroke_skips_a_stitch()
    {
        var bishop = Pieces.Bishop with { Figures = [], Placements = [], Bands = [], Accents = [] };
        Gen.Select(Gen.Bool, Gen.Select(Gen.Double[0.02, 0.98], Gen.Double[0.02, 0.98]).Array[2, 5], Gen.Double[0.7, 6]).Sample((fan, places, zoom) =>
        {
            var at = new AtTable(fan ? bishop : Pieces.Empty);
            at.Cloth.Zoom(zoom);
            var work = at.Desk.Work;
            var line = new StrokeLine();
            var cells = new List<(Valley Valley, CableRow Row)>();
            foreach (var (a, d) in places)
            {
                var (x, y) = at.Cloth.Seen.PlaceOf(work.Pleating, new Spotted(d * work.CableRows * 2, a * work.Pleating.Pleats));
                cells.AddRange(line.To(work, at.Cloth.Seen, x, y));
                var seen = at.Cloth.Seen.At(work.Pleating, x, y)!.Value;
                if (Math.Abs(seen.Line - Math.Round(seen.Line)) < 1e-6) continue; // on the very line between two rows a fan's rounding leaves either
                Assert.InRange(Math.Abs(line.At.Row.Index - seen.Row.Index), 0, 1);
                Assert.True(Math.Abs(line.At.Valley.Number - seen.Across) <= 1.6, $"{line.At} for {seen}");
            }
            for (var i = 1; i < cells.Count; i++)
                Assert.Equal(1, Math.Abs(cells[i].Valley.Number - cells[i - 1].Valley.Number) + Math.Abs(cells[i].Row.Index - cells[i - 1].Row.Index));
        }, iter: 400, threads: 1);
    }

    /// <summary>How often the pointer is told of makes no difference to a stroke along a row, and to one aslant none wider than a brick, two valleys, where it crosses an edge between two looks at it.</summary>
    [Fact]
    public void A_slow_hand_and_a_quick_one_lay_the_same()
    {
        Gen.Select(Gen.Int[2, 50], Gen.Int[0, 19], Gen.Int[2, 50], Gen.Int[0, 19], Gen.Int[1, 12]).Sample((v0, r0, v1, r1, events) =>
        {
            var (quick, slow) = (Fresh(), Fresh());
            var (a, b) = (quick.Middle(v0, r0), quick.Middle(v1, r1));
            quick.Stroke(a, b);
            slow.Stroke([a, .. Enumerable.Range(1, events).Select(i => (a.X + (b.X - a.X) * i / events, a.Y + (b.Y - a.Y) * i / events))]);
            foreach (var (one, other) in new[] { (quick.Worked(), slow.Worked()), (slow.Worked(), quick.Worked()) })
                Assert.All(one, c => Assert.Contains(other, o => Math.Abs(o.Row - c.Row) + Math.Abs(o.Valley - c.Valley) <= 2));
            Assert.Contains((v0, r0), quick.Worked());
            Assert.Contains((v0, r0), slow.Worked());
            Assert.Contains(quick.Worked(), c => c.Row == r1 && Math.Abs(c.Valley - v1) <= 1);
            if (r0 == r1) Assert.Equal(Enumerable.Range(Math.Min(v0, v1), Math.Abs(v1 - v0) + 1).Select(v => (v, r0)), slow.Worked());
        }, iter: 200, threads: 1);
    }

    [Fact]
    public void A_stroke_that_leaves_the_cloth_and_comes_back_draws_nothing_between()
    {
        var at = Fresh();
        var (x, y) = at.Middle(3, 4);
        var (x2, y2) = at.Middle(3, 12);
        at.Stroke((x, y), (x - 400, y), (x - 400, y2), (x2, y2));
        Assert.Equal([4, 12], at.Worked().Select(c => c.Row).Distinct());
    }

    [Fact]
    public void The_cloth_moved_under_a_stroke_draws_nothing_by_itself()
    {
        var at = Fresh();
        var (x, y) = at.Middle(20, 4);
        at.Point(PointerMove.Down, x, y);
        at.Hand.Hear("wheel", FormattableString.Invariant($"{x} {y} 100 40 0 0"));
        var (x2, y2) = at.Middle(20, 4);
        at.Point(PointerMove.Move, x2, y2);
        at.Point(PointerMove.Up, x2, y2);
        Assert.Equal([(20, 4)], at.Worked());
    }

    [Fact]
    public void One_stroke_is_one_moment()
    {
        var at = Fresh();
        at.Stroke(at.Middle(10, 4), at.Middle(20, 4), at.Middle(20, 9));
        at.Key("Ctrl+z");
        Assert.Empty(at.Worked());
        Assert.False(at.Desk.History.CanUndo);
    }

    [Fact]
    public void Undoing_by_a_button_takes_back_the_stroke_under_way_and_redoing_brings_all_of_it()
    {
        var at = Fresh();
        at.Point(PointerMove.Down, at.Middle(10, 4).X, at.Middle(10, 4).Y);
        at.Point(PointerMove.Move, at.Middle(14, 4).X, at.Middle(14, 4).Y);
        at.Desk.Undo();
        Assert.Empty(at.Worked());
        at.Desk.Redo();
        Assert.Equal(5, at.Worked().Count);
    }

    [Fact]
    public void What_comes_between_loses_nothing_of_a_stroke_and_ends_it()
    {
        var at = Fresh();
        at.Point(PointerMove.Down, at.Middle(10, 4).X, at.Middle(10, 4).Y);
        at.Point(PointerMove.Move, at.Middle(14, 4).X, at.Middle(14, 4).Y);
        at.Key("Ctrl+z");
        Assert.Empty(at.Worked());
        at.Point(PointerMove.Move, at.Middle(18, 4).X, at.Middle(18, 4).Y);
        at.Point(PointerMove.Up, at.Middle(18, 4).X, at.Middle(18, 4).Y);
        Assert.Empty(at.Worked());
        at.Key("Ctrl+y");
        Assert.Equal(5, at.Worked().Count);
    }
}
