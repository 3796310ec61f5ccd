using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Plate;

namespace Pleatwright.Tests.Plate;

public class ChartGeometryTests
{
    [Fact]
    public void Every_cable_and_every_half_stitch_is_exactly_one_brick() => SomeWorks.Any.Sample(work =>
    {
        var geometry = ChartGeometry.Scaled(work, 2);
        var bricks = geometry.Bricks(geometry.Everything).ToList();
        Assert.Equal(work.Cables, bricks.Count(b => b.Kind == BrickKind.Cable));
        var halves = 0;
        foreach (var run in work.Runs) halves += run.HalfStitches;
        Assert.Equal(halves, bricks.Count(b => b.Kind != BrickKind.Cable));
        Assert.Equal(bricks.Count, bricks.Distinct().Count());
        for (var i = 0; i < work.Runs.Length; i++)
            Assert.Equal(bricks.Where(b => b.RunIndex == i), geometry.Bricks(i));
    });

    [Fact]
    public void Bricks_on_one_line_never_overlap() => SomeWorks.Any.Sample(work =>
    {
        var geometry = new ChartGeometry(work, 1, 1);
        foreach (var line in geometry.Bricks(geometry.Everything).GroupBy(b => b.Line))
        {
            var right = double.NegativeInfinity;
            foreach (var brick in line.OrderBy(b => b.Box.X))
            {
                Assert.True(brick.Box.X >= right);
                Assert.Equal(brick.Line.Index, brick.Box.Y);
                right = brick.Box.Right;
            }
        }
    });

    [Fact]
    public void A_squared_area_is_covered_whole() =>
        Gen.Select(Gen.Int[2, 30], Gen.Int[1, 20], (width, height) => (width, height)).Sample(size =>
        {
            var work = SomeWorks.Of(true, [.. Enumerable.Repeat(new string('r', size.width), size.height)]);
            var geometry = new ChartGeometry(work, 1, 1);
            var area = geometry.Bricks(geometry.Everything).Sum(b => b.Box.Width * b.Box.Height);
            Assert.Equal((size.width + 1) * size.height * 2, area); // pleats by lines
        });

    [Fact]
    public void An_up_cable_lies_on_the_upper_line_of_its_row_over_its_own_two_pleats()
    {
        var work = SomeWorks.Of(false, "rrr");
        var geometry = new ChartGeometry(work, 10, 3);
        var run = work.Runs[0];
        var bricks = geometry.Bricks(0).ToList();
        foreach (var brick in bricks)
        {
            Assert.Equal((brick.Valley.Number - 1) * 10, brick.Box.X);
            Assert.Equal(run.LevelAt(brick.Valley) == Level.Up ? 0 : 3, brick.Box.Y);
            Assert.Equal((20, 3), (brick.Box.Width, brick.Box.Height));
        }
        Assert.Equal(3, geometry.Down(new GatheringRow(1)));
    }

    [Fact]
    public void A_window_shows_every_brick_that_reaches_into_it() => Gen.Select(SomeWorks.Any, Gen.Int[1, 20], Gen.Int[0, 20]).Sample((work, pleat, row) =>
    {
        var geometry = new ChartGeometry(work, 1, 1);
        var window = new ChartWindow(pleat, pleat + 5, row, row + 4);
        var box = geometry.BoxOf(window);
        var expected = geometry.Bricks(geometry.Everything)
            .Where(b => b.Box.X < box.Right && b.Box.Right > box.X && b.Box.Y < box.Bottom && b.Box.Bottom > box.Y)
            .Where(b => b.Kind == BrickKind.Cable);
        Assert.Empty(expected.Except(geometry.Bricks(window)));
    });
}
