using Microsoft.Playwright;
using Pleatwright.Files;

namespace Pleatwright.Browser.Tests;

/// <summary>Ticks kept on the shelf: another device goes on where the first left off.</summary>
public class PlaceTests(Chromium chromium, WarmBench warm) : IClassFixture<WarmBench>
{
    [Fact]
    public async Task Another_browser_goes_on_where_the_first_left_off()
    {
        await using var bench = await warm.AfreshAsync("shelf", Screens.Tablet, fillShelf: folder => File.WriteAllText(Path.Combine(folder, "tide.piece.json"), """
            { "pleatwright": 1, "title": "Tide",
              "cloth": { "form": "panel", "finishedWidth": "2 in", "gatheringRows": 4 },
              "threads": { "b": { "name": "slate", "colour": "#3b5b7a" } },
              "figures": { "bar": { "rows": ["bbbbbb", "bbbbbb"] } },
              "place": [ { "figure": "bar", "centre": "middle", "gatheringRow": 2, "figureRow": 0 } ],
              "back": "none" }
            """));
        await SitAsync(bench, bench.Page);
        for (var i = 0; i < 3; i++) await bench.Page.Locator("#tick").ClickAsync();
        await bench.OnShelfAsync("tide.place.json", text => TickLogReader.Read(text).Count, count => count == 3);

        var other = await chromium.ContextAsync(new() { ViewportSize = Screens.Phone, BaseURL = bench.Host.Url.ToString(), ServiceWorkers = ServiceWorkerPolicy.Block });
        try
        {
            var phone = await other.NewPageAsync();
            await phone.GotoAsync("/#shelf");
            await OpenBench.StandsAsync(phone);
            await SitAsync(bench, phone);
            await phone.Locator(".chair-tally", new() { HasTextRegex = new("^3 of") }).WaitForAsync();
            await phone.Locator("#tick").ClickAsync();
            await bench.OnShelfAsync("tide.place.json", text => TickLogReader.Read(text).Count, count => count == 4);
        }
        finally
        {
            await other.DisposeAsync();
        }
        await bench.GoAsync("table"); // and back at the first, it is as the other left it
        await bench.GoAsync("stitch");
        await bench.Page.Locator(".chair-tally", new() { HasTextRegex = new("^4 of") }).WaitForAsync();
    }

    private static async Task SitAsync(OpenBench bench, IPage page)
    {
        await page.GetByText("Tide", new() { Exact = true }).First.ClickAsync();
        await page.Locator("#table-cloth").WaitForAsync();
        await page.GotoAsync(bench.AddressOf("stitch"));
        await page.Locator("#tick").WaitForAsync();
    }
}
