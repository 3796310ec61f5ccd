using Microsoft.Playwright;
using Pleatwright.Files;

namespace Pleatwright.Browser.Tests;

/// <summary>Heavy work is done beside the page, which answers meanwhile; it can be stopped and begun again.</summary>
public class WorkshopTests(Chromium chromium, WarmBench warm) : IClassFixture<WarmBench>
{
    // Six rows of seven boats, some seven thousand cables: a plate that takes its time.
    private static string Large()
    {
        var boats = string.Join(", ", Enumerable.Range(1, 6).Select(n => $$"""{ "figure": "skiff", "centre": "middle", "gatheringRow": {{2 * n + 1}}, "figureRow": 4, "repeat": { "count": 7, "every": 35 } }"""));
        return $$"""
            { "pleatwright": 1, "title": "Large", "cloth": { "form": "panel", "finishedWidth": "16 in", "gauge": { "pleatsPerInch": 16, "takeUp": "1/4 in", "rowSpacing": "3/8 in", "cableRowsPerSpace": 5 }, "gatheringRows": 15 },
              "threads": { "h": { "name": "hull red", "colour": "#a8322f" }, "w": { "name": "sail cloth", "colour": "#6b8fae" } },
              "figures": { "skiff": { "rows": ["......wwwwww......", ".....wwwwwwww.....", "....wwwwwwwwww....", "...wwwwwwwwwwww...", "hhhhhhhhhhhhhhhhhh", ".hhhhhhhhhhhhhhhh.", "..hhhhhhhhhhhhhh.."] } },
              "place": [ {{boats}} ] }
            """;
    }

    private static ILocator Pages(OpenBench bench, bool busy) => bench.Page.Locator($".plate-pages[aria-busy={(busy ? "true" : "false")}]");

    [Fact]
    public async Task A_large_plate_is_begun_and_stopped_while_the_page_answers_and_made_again()
    {
        await using var bench = await warm.WithAsync(Large());
        await bench.SeeAsync("plate");
        var page = bench.Page;
        // While it is laid out the page does what it is told.
        await Pages(bench, busy: true).GetByRole(AriaRole.Button, new() { Name = "Stop" }).WaitForAsync();
        await page.GetByLabel("Large print").CheckAsync();
        await bench.SeeAsync("shelf");
        await bench.SeeAsync("plate");
        await bench.PictureAsync("plate-under-way");
        await Pages(bench, busy: true).GetByRole(AriaRole.Button, new() { Name = "Stop" }).ClickAsync();
        await page.GetByText("It was stopped.").WaitForAsync();
        Assert.Equal(0, await page.Locator(".plate-pages img").CountAsync()); // nothing is left of it
        await Assertions.Expect(page.Locator("button.format.main")).ToBeDisabledAsync();
        await bench.PictureAsync("plate-stopped");
        await bench.NoSeriousFaultAsync();
        // Begun again, stopped by key wherever the focus is, and made.
        await page.GetByLabel("Paper").SelectOptionAsync("Letter");
        await Pages(bench, busy: true).GetByRole(AriaRole.Button, new() { Name = "Stop" }).WaitForAsync();
        await page.GetByLabel("Paper").FocusAsync();
        await page.Keyboard.PressAsync("Escape");
        await page.GetByText("It was stopped.").WaitForAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Lay the pages out" }).ClickAsync();
        await Pages(bench, busy: false).Locator("img[alt*='Cover']").WaitForAsync();
        await Assertions.Expect(page.Locator(".plate-pages img").First).ToHaveAttributeAsync("style", new System.Text.RegularExpressions.Regex("215.9 / 279.4"));
        var download = await AtThePlate.TakeAwayAsync(page, "TXT");
        using var reader = new StreamReader(await download.CreateReadStreamAsync());
        Assert.StartsWith("Large", await reader.ReadToEndAsync(), StringComparison.Ordinal);
        await page.GetByLabel("Large print").UncheckAsync();
        await page.GetByLabel("Paper").SelectOptionAsync("A4");
    }

    [Fact]
    public async Task Where_no_worker_can_be_had_the_page_prints_and_traces_itself()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "table", before: "globalThis.noPainter = globalThis.noWorker = true;");
        bench.Expected.Add("Failed to load");
        await AtThePlate.SeeAsync(bench);
        var download = await AtThePlate.TakeAwayAsync(bench.Page, "PDF");
        Assert.Equal("Harbour morning.pdf", download.SuggestedFilename);
        Assert.NotNull(PieceFinder.Read(await File.ReadAllBytesAsync(await download.PathAsync())));
        await bench.SeeAsync("picture");
        await bench.Page.Locator("#picture-file:enabled").WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await bench.Page.SetInputFilesAsync("#picture-file", Repository.Path("src", "Pleatwright.Bench", "wwwroot", "icons", "pleatwright-192.png"));
        await bench.Page.Locator(".tracing-words small").WaitForAsync();
    }

    [Fact]
    public async Task What_is_traced_and_what_is_printed_take_their_turns()
    {
        await using var bench = await warm.ExampleAsync();
        await bench.SeeAsync("picture");
        await bench.Page.Locator("#picture-file:enabled").WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await bench.Page.SetInputFilesAsync("#picture-file", Repository.Path("src", "Pleatwright.Bench", "wwwroot", "icons", "pleatwright-512.png"));
        await bench.Page.Locator(".tracing-words [class=plain]").WaitForAsync(); // it is under way
        await AtThePlate.SeeAsync(bench);
        await bench.SeeAsync("picture");
        await bench.Page.Locator(".tracing-words small").WaitForAsync();
    }
}
