using CsCheck;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Tests.Plate;

public class TilingTests
{
    private static Gen<(Tiling Tiling, ChartGeometry Geometry)> Any =>
        from work in SomeWorks.Any
        from width in Gen.Double[6, 60]
        from height in Gen.Double[4, 60]
        let geometry = ChartGeometry.Scaled(work, 1)
        select (Tiling.Over(geometry, ChartPages.WorkedWindow(work), new Box(0, 0, width * geometry.Pitch, height * geometry.RowHeight)), geometry);

    [Fact]
    public void Every_stitch_is_whole_on_at_least_one_page() => Any.Sample((tiling, geometry) =>
    {
        var shown = new HashSet<Brick>();
        foreach (var tile in tiling.Tiles())
        {
            var box = geometry.BoxOf(tile.Window).Grown(1e-9);
            foreach (var brick in geometry.Bricks(tile.Window))
                if (brick.Box.X >= box.X && brick.Box.Right <= box.Right && brick.Box.Y >= box.Y && brick.Box.Bottom <= box.Bottom) shown.Add(brick);
        }
        Assert.Empty(geometry.Bricks(geometry.Everything).Except(shown));
    });

    [Fact]
    public void Pages_fit_their_room_and_neighbours_overlap_by_as_much_as_is_said() => Any.Sample((tiling, geometry) =>
    {
        var windows = from row in Enumerable.Range(0, tiling.Rows) from column in Enumerable.Range(0, tiling.Columns) select (row, column, window: tiling.WindowOf(column, row));
        foreach (var (row, column, window) in windows)
        {
            Assert.True(window.Pleats > 0 && window.Rows > 0);
            if (column > 0) Assert.Equal(Tiling.OverlapPleats, tiling.WindowOf(column - 1, row).LastPleat - window.FirstPleat + 1);
            if (row > 0) Assert.Equal(Tiling.OverlapRows, tiling.WindowOf(column, row - 1).LastRow - window.FirstRow + 1);
        }
        var last = tiling.WindowOf(tiling.Columns - 1, tiling.Rows - 1);
        Assert.Equal((tiling.Window.LastPleat, tiling.Window.LastRow), (last.LastPleat, last.LastRow));
    });

    [Fact]
    public void Pages_without_a_stitch_are_left_out()
    {
        var work = SomeWorks.Of(false, "rrr" + new string('.', 200) + "rrr");
        var geometry = ChartGeometry.Scaled(work, 1);
        var tiling = Tiling.Over(geometry, ChartPages.WorkedWindow(work), new Box(0, 0, 30 * geometry.Pitch, 300));
        Assert.True(tiling.Columns > 6);
        Assert.Equal(2, tiling.Tiles().Length);
    }
}
