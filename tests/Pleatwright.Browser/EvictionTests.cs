using System.Diagnostics;
using Microsoft.Playwright;
using Pleatwright.Files;

namespace Pleatwright.Browser.Tests;

/// <summary>
/// Chromium truly clears what the bench keeps in it, as it does when the disk runs short, and truly gives it no more room; under the hand of who draws.
/// A journal whose marks are gone is found again.
/// </summary>
public class EvictionTests(Chromium chromium)
{
    private static async Task RetitleAsync(IPage page, string title)
    {
        await page.Locator("#title").FillAsync(title);
        await page.Locator("#title").PressAsync("Enter");
        await page.Locator("#title").BlurAsync();
    }

    private static Task SafeAsync(IPage page) => page.Locator(".kept[data-state=safe] .kept-plain").WaitForAsync();

    private static string[] TitlesIn(string folder) => [.. Directory.GetFiles(folder, "*.piece.json").Select(f => PieceReader.Read(File.ReadAllBytes(f)).Title)];

    private static async Task ClearAsync(IPage page, string what)
    {
        var cdp = await page.Context.NewCDPSessionAsync(page);
        await cdp.SendAsync("Storage.clearDataForOrigin", new() { ["origin"] = new Uri(page.Url).GetLeftPart(UriPartial.Authority), ["storageTypes"] = what });
        await cdp.DetachAsync();
    }

    [Fact]
    public async Task What_is_cleared_under_the_hand_is_told_and_kept_again_and_later_edits_reach_the_shelf()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "table");
        var page = bench.Page;
        foreach (var title in new[] { "One", "Two" }) await RetitleAsync(page, title);
        await SafeAsync(page);
        await OpenBench.JournaledAsync(page, p => p.Title == "Two");
        await ClearAsync(page, "all");
        await RetitleAsync(page, "Three");
        await OpenBench.JournaledAsync(page, p => p.Title == "Three");
        await SafeAsync(page);
        Assert.Equal(["Three"], TitlesIn(bench.Folder)); // one piece, no twin
        await bench.SeeAsync("shelf");
        await page.GetByText("This browser has cleared what the bench kept in it").First.WaitForAsync();
        await bench.SeeAsync("table");
        Assert.Equal(0, await page.GetByText("another bench").CountAsync());

        await bench.ReloadAsync();
        Assert.Equal("Three", await page.Locator("#title").InputValueAsync());
        foreach (var title in new[] { "Two", "One", "Harbour morning" }) // its way back is kept again, too
        {
            await page.Keyboard.PressAsync("Control+z");
            Assert.Equal(title, await page.Locator("#title").InputValueAsync());
        }
        await RetitleAsync(page, "Four");
        await OpenBench.JournaledAsync(page, p => p.Title == "Four");
        await SafeAsync(page);
        Assert.Equal(["Four"], TitlesIn(bench.Folder));
    }

    [Fact]
    public async Task A_journal_whose_marks_were_cleared_is_found_again_and_goes_to_the_shelf()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "table");
        bench.Expected.AddRange(["Failed to load resource", "ERR_FAILED"]);
        var page = bench.Page;
        await RetitleAsync(page, "Before");
        await SafeAsync(page);
        await bench.Context.RouteAsync("**/api/**", r => r.AbortAsync()); // the shelf cannot be what keeps it
        await RetitleAsync(page, "Meanwhile");
        await OpenBench.JournaledAsync(page, p => p.Title == "Meanwhile");
        await ClearAsync(page, "local_storage"); // which tab holds which piece, what was opened last
        await page.CloseAsync(new() { RunBeforeUnload = false });
        await bench.Context.UnrouteAsync("**/api/**");
        Assert.Equal(["Before"], TitlesIn(bench.Folder));

        var next = await bench.NewPageAsync();
        await next.GotoAsync(bench.AddressOf("shelf"));
        await OpenBench.StandsAsync(next);
        await next.Locator("[id^=piece-]").First.ClickAsync();
        await next.Locator(".bench[data-view=table]").WaitForAsync();
        await Assertions.Expect(next.Locator("#title")).ToHaveValueAsync("Meanwhile");
        await SafeAsync(next);
        await RetitleAsync(next, "After");
        await OpenBench.JournaledAsync(next, p => p.Title == "After");
        await SafeAsync(next);
        Assert.Equal(["After"], TitlesIn(bench.Folder));
    }

    [Fact]
    public async Task A_browser_that_truly_gives_no_more_room_is_told_and_with_room_it_goes_on()
    {
        await using var site = await StaticSite.StartAsync();
        await using var context = await chromium.ContextAsync(new BrowserNewContextOptions { BaseURL = site.Url, ServiceWorkers = ServiceWorkerPolicy.Block });
        var page = await context.NewPageAsync();
        await page.AddInitScriptAsync("globalThis.noPainter = true;");
        await page.GotoAsync("/#table");
        await OpenBench.StandsAsync(page);
        await RetitleAsync(page, "Before");
        await SafeAsync(page);
        var cdp = await context.NewCDPSessionAsync(page);
        var origin = new Uri(site.Url).GetLeftPart(UriPartial.Authority);
        await cdp.SendAsync("Storage.overrideQuotaForOrigin", new() { ["origin"] = origin, ["quotaSize"] = 1 });
        // The browser remembers for half a minute how much room there was.
        for (var clock = Stopwatch.StartNew(); clock.ElapsedMilliseconds < Chromium.Patience && await page.Locator(".kept[data-state=trouble]").CountAsync() == 0; await Task.Delay(500))
            await RetitleAsync(page, $"One too many, {clock.ElapsedMilliseconds}");
        var last = await page.Locator("#title").InputValueAsync();
        await Assertions.Expect(page.Locator(".kept")).ToContainTextAsync("no more room");
        Assert.Equal(last, await page.Locator("#title").InputValueAsync());
        await cdp.SendAsync("Storage.overrideQuotaForOrigin", new() { ["origin"] = origin }); // the usual one again
        await RetitleAsync(page, "Room again");
        await SafeAsync(page);
        // Cleared as a whole where nothing else keeps it: what lies on the table is kept again.
        await ClearAsync(page, "all");
        await RetitleAsync(page, "After all");
        await OpenBench.JournaledAsync(page, p => p.Title == "After all");
        await SafeAsync(page);
        await page.ReloadAsync();
        await OpenBench.StandsAsync(page);
        Assert.Equal("After all", await page.Locator("#title").InputValueAsync());
    }
}
