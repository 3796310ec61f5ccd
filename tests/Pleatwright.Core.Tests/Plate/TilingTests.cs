using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;
using Pleatwright.Tests.Order;

namespace Pleatwright.Tests.Plate;

public class TilingTests
{
    private static Gen<(Tiling Tiling, ChartGeometry Geometry, (int Width, int Height) Room)> Any =>
        from work in Gen.OneOf(SomeWorks.Any, OrderGen.Pieces.Select(p => Work.Lay(p)), CopiesTests.Pieces.Select(p => Work.Lay(p)))
        from width in Gen.Int[6, 60]
        from height in Gen.Int[4, 60]
        let geometry = ChartGeometry.Scaled(work, 1)
        select (Tiling.Over(geometry, ChartPages.WorkedWindow(work), new Box(0, 0, width * geometry.Pitch, height * geometry.RowHeight), Tiling.Wholes(work)), geometry, (width, height));

    [Fact]
    public void Every_stitch_is_whole_on_at_least_one_page() => Any.Sample((tiling, geometry, _) =>
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
    public void Pages_fit_their_room_and_neighbours_overlap_by_as_much_as_is_said() => Any.Sample((tiling, geometry, room) =>
    {
        var windows = from row in Enumerable.Range(0, tiling.Rows) from column in Enumerable.Range(0, tiling.Columns) select (row, column, window: tiling.WindowOf(column, row));
        foreach (var (row, column, window) in windows)
        {
            Assert.True(window.Pleats > 0 && window.Rows > 0);
            Assert.Equal(column > 0 ? tiling.WindowOf(column - 1, row).LastPleat - window.FirstPleat + 1 : 0, tiling.PleatsAgain(column));
            Assert.Equal(row > 0 ? tiling.WindowOf(column, row - 1).LastRow - window.FirstRow + 1 : 0, tiling.RowsAgain(row));
            Assert.True((column == 0 || tiling.PleatsAgain(column) >= Tiling.OverlapPleats) && (row == 0 || tiling.RowsAgain(row) >= Tiling.OverlapRows));
            Assert.True(window.Pleats <= Math.Max(room.Width, Tiling.OverlapPleats + 1) && window.Rows <= Math.Max(room.Height, Tiling.OverlapRows + 1));
        }
        var last = tiling.WindowOf(tiling.Columns - 1, tiling.Rows - 1);
        Assert.Equal((tiling.Window.LastPleat, tiling.Window.LastRow), (last.LastPleat, last.LastRow));
    });

    // A figure of several areas, a copy of it, a stitched area: whole on one page wherever a page has room for it.
    [Fact]
    public void No_figure_that_fits_a_page_is_cut() => Any.Sample((tiling, geometry, room) =>
    {
        var tiles = tiling.Tiles();
        foreach (var whole in Tiling.Wholes(geometry.Work))
        {
            if (whole.Pleats > room.Width || whole.Rows > room.Height || !geometry.Bricks(whole).Any()) continue;
            if (whole.FirstPleat < tiling.Window.FirstPleat || whole.LastPleat > tiling.Window.LastPleat || whole.FirstRow < tiling.Window.FirstRow || whole.LastRow > tiling.Window.LastRow) continue; // bare corners off the chart
            Assert.Contains(tiles, t => t.Window.FirstPleat <= whole.FirstPleat && t.Window.LastPleat >= whole.LastPleat && t.Window.FirstRow <= whole.FirstRow && t.Window.LastRow >= whole.LastRow);
        }
    });

    // The foot of the lighthouse stood on the kite's sheet, too.
    [Fact]
    public void What_is_shown_twice_is_bare_where_sheets_of_another_length_make_it_so()
    {
        var seen = 0;
        Gen.Select(Gen.Int[4, 12], Gen.Int[14, 40], Gen.Int[4, 12], Gen.Int[26, 60]).Sample((first, between, second, room) =>
        {
            var work = SomeWorks.Of(false, new string('r', first) + new string('.', between) + new string('r', second));
            var geometry = ChartGeometry.Scaled(work, 1);
            var tiling = Tiling.Over(geometry, ChartPages.WorkedWindow(work), new Box(0, 0, room * geometry.Pitch, 300), Tiling.Wholes(work));
            if (tiling.Columns != 2 || first + between + second < room) return; // what fits a sheet stands whole on one
            Interlocked.Increment(ref seen);
            var areas = Enumerable.Range(0, work.Runs.Length).Select(i => work.Runs[i]).ToList();
            // a sheet may end anywhere between them where both then have room
            var possible = Enumerable.Range(areas[0].LastPleat.Number + Tiling.OverlapPleats, Math.Max(0, areas[1].FirstPleat.Number - areas[0].LastPleat.Number - Tiling.OverlapPleats))
                .Any(last => last - tiling.Window.FirstPleat + 1 <= room && tiling.Window.LastPleat - (last - Tiling.OverlapPleats + 1) + 1 <= room);
            if (possible) Assert.All(areas, run => Assert.Single(Enumerable.Range(0, 2), c => tiling.WindowOf(c, 0) is var w && w.FirstPleat <= run.LastPleat.Number && w.LastPleat >= run.FirstPleat.Number));
        }, iter: 2000);
        Assert.True(seen > 50);
    }

    [Fact]
    public void Pages_without_a_stitch_are_left_out()
    {
        var work = SomeWorks.Of(false, "rrr" + new string('.', 200) + "rrr");
        var geometry = ChartGeometry.Scaled(work, 1);
        var tiling = Tiling.Over(geometry, ChartPages.WorkedWindow(work), new Box(0, 0, 30 * geometry.Pitch, 300), Tiling.Wholes(work));
        Assert.True(tiling.Columns > 6);
        Assert.Equal(2, tiling.Tiles().Length);
    }
}
