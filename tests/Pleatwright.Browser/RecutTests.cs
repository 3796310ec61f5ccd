using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

/// <summary>A piece cut for another gauge, and one of its figures scaled by its corner, as a maker does it.</summary>
public class RecutTests(WarmBench warm) : IClassFixture<WarmBench>
{
    [Fact]
    public async Task A_piece_is_cut_for_four_rows_a_space_then_its_crab_is_pulled_larger_and_undo_takes_back_each()
    {
        await using var bench = await warm.ExampleAsync("quay-yoke");
        var page = bench.Page;
        await AtTheTable.OpenAsync(bench, "Cloth");
        await page.Locator("#drawer").GetByRole(AriaRole.Button, new() { Name = "Another gauge" }).ClickAsync();
        var changes = page.Locator("#gauge-form .changes");
        await Assertions.Expect(changes).ToContainTextAsync("Nothing changes yet.");
        await page.GetByLabel("Cable rows in a space").FillAsync("4");
        await Assertions.Expect(changes).ToContainTextAsync("5 cable rows to a space become 4.");
        await Assertions.Expect(changes).ToContainTextAsync("“kite” is drawn again: 23 valleys by 21 cable rows become 23 valleys by 17 cable rows.");
        await page.GetByLabel("The count").CheckAsync();
        await Assertions.Expect(changes).Not.ToContainTextAsync("drawn again");
        await page.GetByLabel("The size").CheckAsync();
        await bench.NoSeriousFaultAsync();
        await bench.PictureAsync("another-gauge");
        await page.GetByRole(AriaRole.Button, new() { Name = "Cut it for this gauge" }).ClickAsync();
        var cut = await AtTheTable.OnShelfAsync(bench, p => p.Cloth.Gauge.CableRowsPerSpace == 4);
        Assert.Equal(17, cut.Figure("kite")!.Height);

        // The crab is taken hold of, and pulled by its corner.
        await page.GetByRole(AriaRole.Radio, new() { Name = "Take hold" }).ClickAsync();
        await page.Locator("#table-cloth").FocusAsync();
        await page.Keyboard.PressAsync("0");
        var crab = cut.Placements.Single(p => p.Figure == "crab");
        var (middle, row) = (crab.Centre.Valleys, crab.GatheringRow.CableRow(4).Index);
        var (x, y) = await AtTheTable.PlaceOfAsync(bench, middle, row);
        await page.Mouse.ClickAsync(x, y);
        var figure = cut.Figure("crab")!;
        var (cornerX, cornerY) = await CornerAsync(bench, middle + figure.Middle + 1, row - crab.FigureRow + figure.Height);
        await page.Mouse.MoveAsync(cornerX, cornerY);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(cornerX + (cornerX - x), cornerY + (cornerY - y), new() { Steps = 5 });
        await page.Mouse.UpAsync();
        var pulled = await AtTheTable.OnShelfAsync(bench, p => p.Figure("crab")!.Width > 38);
        Assert.InRange(pulled.Figure("crab")!.Height, 10, 18);
        Assert.Equal(crab.GatheringRow, pulled.Placements.Single(p => p.Figure == "crab").GatheringRow);
        await bench.PictureAsync("figure-scaled");
        await AtTheTable.PressAsync(bench, "Control+z");
        await AtTheTable.OnShelfAsync(bench, p => p.Figure("crab")!.Width == 29 && p.Cloth.Gauge.CableRowsPerSpace == 4);
        await AtTheTable.PressAsync(bench, "Alt+PageUp"); // the same by a key
        await AtTheTable.OnShelfAsync(bench, p => p.Figure("crab")!.Width == 31);
        await AtTheTable.PressAsync(bench, "Control+z", "Control+z");
        await AtTheTable.OnShelfAsync(bench, p => p.Cloth.Gauge.CableRowsPerSpace == 5 && p.Figure("kite")!.Height == 21);
    }

    // Where the handle beside a corner is on the screen: a corner by the pleats across and the rows down.
    private static async Task<(float X, float Y)> CornerAsync(OpenBench bench, int across, int rows)
    {
        var at = await bench.Page.EvaluateAsync<float[]>("""
            async ([across, rows]) => {
              const { painterOf } = await import("/painter.js");
              for (let h = 1; h < 5000; h++) {
                const p = painterOf(h);
                if (p?.host.id !== "table-cloth") continue;
                const box = p.host.getBoundingClientRect();
                return [box.left + p.x(across, rows - 1) + p.handles.beside, box.top + p.y(rows * 2) + p.handles.beside];
              }
            }
            """, new[] { across, rows });
        return (at[0], at[1]);
    }
}
