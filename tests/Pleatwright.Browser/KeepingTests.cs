using System.Collections.Concurrent;
using Microsoft.Playwright;
using Pleatwright.Files;

namespace Pleatwright.Browser.Tests;

/// <summary>Nothing drawn is lost: by a reload, a kill, a stopped host, a second bench or a closed tab.</summary>
public class KeepingTests(Chromium chromium, WarmBench warm) : IClassFixture<WarmBench>
{
    private static async Task RetitleAsync(IPage page, string title)
    {
        await page.Locator("#title").FillAsync(title);
        await page.Locator("#title").PressAsync("Enter");
        await page.Locator("#title").BlurAsync();
    }

    private static Task SafeAsync(IPage page) => page.Locator(".kept[data-state=safe] .kept-plain").WaitForAsync();

    private static string TitleIn(string file) => PieceReader.Read(File.ReadAllBytes(file)).Title;

    private static Task<string> TitleAsync(IPage page) => page.Locator("#title").InputValueAsync();

    [Fact]
    public async Task An_example_goes_to_the_shelf_with_its_first_edit_and_a_reload_keeps_every_step_back()
    {
        await using var bench = await warm.AfreshAsync("table");
        Assert.Empty(Directory.GetFiles(bench.Folder));
        foreach (var title in new[] { "One", "Two", "Three" }) await RetitleAsync(bench.Page, title);
        await SafeAsync(bench.Page);
        Assert.Equal("Three", TitleIn(Assert.Single(Directory.GetFiles(bench.Folder, "*.piece.json"))));
        await bench.Page.Keyboard.PressAsync("Control+z");
        await bench.ReloadAsync();
        Assert.Equal("Two", await TitleAsync(bench.Page));
        await bench.Page.Keyboard.PressAsync("Control+y");
        Assert.Equal("Three", await TitleAsync(bench.Page));
        foreach (var expected in new[] { "Two", "One", "Harbour morning" })
        {
            await bench.Page.Keyboard.PressAsync("Control+z");
            Assert.Equal(expected, await TitleAsync(bench.Page));
        }
    }

    [Fact]
    public async Task A_browser_killed_loses_at_most_the_last_second()
    {
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        await using var host = await OpenBench.ServeAsync(folder);
        using var own = await KillableChromium.StartAsync();
        for (var round = 1; round <= 2; round++)
        {
            var page = await own.OpenAsync();
            await page.GotoAsync(host.Url.ToString());
            await OpenBench.StandsAsync(page);
            if (round > 1)
            {
                var title = await TitleAsync(page);
                Assert.True(title == $"Killed {round - 1}" || title == $"Last second of {round - 1}", title);
                await SafeAsync(page);
                Assert.Equal(title, TitleIn(Directory.GetFiles(folder, "*.piece.json").Single()));
            }
            await page.RouteAsync("**/api/**", r => r.AbortAsync()); // so that the shelf cannot be what saves it
            await RetitleAsync(page, $"Killed {round}");
            await OpenBench.JournaledAsync(page, p => p.Title == $"Killed {round}");
            await RetitleAsync(page, $"Last second of {round}");
            own.Kill();
        }
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_stopped_host_is_said_and_the_shelf_catches_up_when_it_is_back()
    {
        await using var bench = await warm.AfreshAsync("table");
        bench.Expected.AddRange(["ERR_CONNECTION_REFUSED", "Failed to load resource", "ERR_SOCKET"]);
        await RetitleAsync(bench.Page, "Before");
        await SafeAsync(bench.Page);
        await bench.StopHostAsync();
        await RetitleAsync(bench.Page, "Meanwhile");
        await bench.Page.Locator(".kept[data-state=trouble]").WaitForAsync();
        Assert.Contains("does not answer", await bench.Page.Locator(".kept").TextContentAsync(), StringComparison.Ordinal);
        await bench.RestartHostAsync();
        await SafeAsync(bench.Page);
        Assert.Equal("Meanwhile", TitleIn(Directory.GetFiles(bench.Folder, "*.piece.json").Single()));
    }

    [Fact]
    public async Task A_piece_changed_elsewhere_parts_and_both_are_kept()
    {
        await using var bench = await warm.AfreshAsync("table");
        bench.Expected.Add("412");
        await RetitleAsync(bench.Page, "Ours");
        await SafeAsync(bench.Page);
        var file = Directory.GetFiles(bench.Folder, "*.piece.json").Single();
        File.WriteAllText(file, File.ReadAllText(file).Replace("Ours", "Theirs", StringComparison.Ordinal));
        await RetitleAsync(bench.Page, "Ours again");
        await bench.Page.Locator(".kept[data-state=parted]").WaitForAsync();
        Assert.Equal("Theirs", TitleIn(file));
        await RetitleAsync(bench.Page, "Ours still");
        await bench.Page.GetByText("Take the one on the shelf").ClickAsync();
        await SafeAsync(bench.Page);
        Assert.Equal("Theirs", await TitleAsync(bench.Page));
        var kept = Directory.GetFiles(Path.Combine(bench.Folder, ".versions"), "*conflict*", SearchOption.AllDirectories).Select(TitleIn);
        Assert.Equal(["Ours again", "Ours still"], kept.Order());

        File.WriteAllText(file, File.ReadAllText(file).Replace("Theirs", "Theirs again", StringComparison.Ordinal));
        await RetitleAsync(bench.Page, "Mine");
        await bench.Page.GetByText("Keep mine as a piece of its own").ClickAsync();
        await SafeAsync(bench.Page);
        Assert.Equal(["Mine", "Theirs again"], Directory.GetFiles(bench.Folder, "*.piece.json").Select(TitleIn).Order());
    }

    [Fact]
    public async Task Served_as_plain_files_the_browser_keeps_pieces_figures_and_stash_and_says_when_it_has_no_more_room()
    {
        await using var site = await StaticSite.StartAsync();
        await using var context = await chromium.ContextAsync(new BrowserNewContextOptions { ViewportSize = Screens.Tablet, HasTouch = true, BaseURL = site.Url, ServiceWorkers = ServiceWorkerPolicy.Block });
        var page = await context.NewPageAsync();
        var complaints = new ConcurrentQueue<string>();
        page.Console += (_, m) => { if (m.Type == "error") complaints.Enqueue(m.Text); };
        await page.AddInitScriptAsync("""
            const put = IDBObjectStore.prototype.put;
            IDBObjectStore.prototype.put = function (...all) {
              if (window.noRoom) throw new DOMException("There is no room.", "QuotaExceededError");
              return put.apply(this, all);
            };
            """); // what a browser says that has no room left
        await page.GotoAsync("/#table");
        await OpenBench.StandsAsync(page);
        await RetitleAsync(page, "In the browser");
        await page.GetByText("Kept in this browser").WaitForAsync();

        await page.Locator("#tab-more:visible, .tool[aria-label^='More']:visible").First.ClickAsync();
        await page.Locator("#drawer:not([hidden])").WaitForAsync();
        if (await page.Locator(".drawer-sections").GetByText("Figures", new() { Exact = true }).CountAsync() > 0) await page.Locator(".drawer-sections").GetByText("Figures", new() { Exact = true }).ClickAsync();
        var keep = page.Locator("button[aria-label^='Keep ']").First;
        var box = (await keep.BoundingBoxAsync())!;
        Assert.True(box is { Width: >= 44, Height: >= 44 }, $"{box.Width} by {box.Height}");
        await keep.ClickAsync();
        await page.Locator(".own-figure img").First.WaitForAsync();
        Assert.Empty(complaints);

        await page.EvaluateAsync("window.noRoom = true");
        await RetitleAsync(page, "One too many");
        await page.Locator(".kept[data-state=trouble]").WaitForAsync();
        await Assertions.Expect(page.Locator(".kept")).ToContainTextAsync("no more room");
        await page.EvaluateAsync("window.noRoom = false");
        await RetitleAsync(page, "Room again");
        await SafeAsync(page);
        await page.GetByText("Kept in this browser").WaitForAsync();

        await page.EvaluateAsync("location.hash = 'stash'");
        await page.GetByText("Kept in this browser alone").WaitForAsync();
        await page.Locator(".stash-top input[type=file]:enabled").SetInputFilesAsync(new FilePayload { Name = "mine.csv", MimeType = "text/csv", Buffer = "name,colour,skeins\nloft red,#b3202c,2\n"u8.ToArray() });
        await Assertions.Expect(page.GetByLabel("Skeins left of loft red")).ToHaveValueAsync("2");

        await page.ReloadAsync();
        await Assertions.Expect(page.GetByLabel("Skeins left of loft red")).ToHaveValueAsync("2");
        await page.Locator(".need").Filter(new() { HasText = "sail red" }).GetByText("enough", new() { Exact = true }).WaitForAsync();
        Assert.Equal("Room again", await TitleAsync(page));
        await page.EvaluateAsync("location.hash = 'table'");
        await page.Locator(".own-figure img").First.WaitForAsync();
    }

    [Fact]
    public async Task A_tab_closed_in_the_middle_of_saving_loses_nothing()
    {
        await using var bench = await OpenBench.AtAsync(chromium);
        await RetitleAsync(bench.Page, "First");
        await SafeAsync(bench.Page);
        TaskCompletionSource caught = new(), over = new();
        await bench.Page.RouteAsync("**/api/**", async r =>
        {
            if (r.Request.Method != "PUT") { await r.ContinueAsync(); return; }
            caught.TrySetResult(); // the save is on its way and never comes there
            await over.Task;
        });
        await RetitleAsync(bench.Page, "Closed upon");
        await caught.Task.WaitAsync(TimeSpan.FromMilliseconds(Chromium.Patience));
        await bench.StopHostAsync(); // a browser may let what is held go on when the tab closes
        await bench.Page.CloseAsync();
        over.SetResult();
        Assert.Equal("First", TitleIn(Directory.GetFiles(bench.Folder, "*.piece.json").Single()));
        await bench.RestartHostAsync();
        var page = await bench.NewPageAsync();
        await page.GotoAsync(bench.AddressOf(""));
        await OpenBench.StandsAsync(page);
        Assert.Equal("Closed upon", await TitleAsync(page));
        await SafeAsync(page);
        Assert.Equal("Closed upon", TitleIn(Directory.GetFiles(bench.Folder, "*.piece.json").Single()));
    }
}
