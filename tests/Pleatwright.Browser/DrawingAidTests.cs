using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;

namespace Pleatwright.Browser.Tests;

/// <summary>What helps the hand at the table, as a maker uses it: the mirror, the gap between copies, the loupe, the steps.</summary>
public class DrawingAidTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private const string Bare = """
        { "pleatwright": 1, "title": "Tide",
          "cloth": { "form": "panel", "finishedWidth": "5 in", "gatheringRows": 5 },
          "threads": { "r": { "name": "sail red", "colour": "#b3202c" }, "b": { "name": "deep blue", "colour": "#1f3a5f" } } }
        """;

    private const string Repeated = """
        { "pleatwright": 1, "title": "Tide",
          "cloth": { "form": "panel", "finishedWidth": "5 in", "gatheringRows": 5 },
          "threads": { "r": { "name": "sail red", "colour": "#b3202c" } },
          "figures": { "gull": { "rows": ["rrr", "rrr"] } },
          "place": [ { "figure": "gull", "centre": "middle", "gatheringRow": 3, "figureRow": 0, "repeat": { "count": 2, "every": 10 } } ] }
        """;

    private static int[] Row(Piece piece, int row)
    {
        var work = Work.Lay(piece);
        return [.. Enumerable.Range(1, work.Valleys).Where(v => work.IsWorked(new Valley(v), new CableRow(row)))];
    }

    [Fact]
    public async Task With_the_mirror_on_a_stroke_lies_on_both_sides_and_goes_with_one_undo()
    {
        await using var bench = await warm.WithAsync(Bare);
        await AtTheTable.OpenAsync(bench, "Cloth");
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "About the centre" }).ClickAsync();
        await bench.Page.Locator("#here-words", new() { HasText = "mirrored about 30" }).WaitForAsync();
        await bench.NoSeriousFaultAsync();
        await bench.Page.Locator("#table-cloth").FocusAsync();
        var (a, b) = (await AtTheTable.PlaceOfAsync(bench, 33, 10), await AtTheTable.PlaceOfAsync(bench, 36, 10));
        await bench.Page.Mouse.MoveAsync(a.X, a.Y);
        await bench.Page.Mouse.DownAsync();
        await bench.Page.Mouse.MoveAsync(b.X, b.Y, new() { Steps = 4 });
        await bench.Page.Mouse.UpAsync();
        var piece = await AtTheTable.OnShelfAsync(bench, p => p.Figures.Length > 0 && Row(p, 10).Length == 8);
        Assert.Equal([24, 25, 26, 27, 33, 34, 35, 36], Row(piece, 10));
        await bench.PictureAsync("table-mirror");
        await AtTheTable.PressAsync(bench, "Control+z");
        await AtTheTable.OnShelfAsync(bench, p => p.Figures.IsEmpty);
        await AtTheTable.PressAsync(bench, ">");
        await bench.Page.Locator("#here-words", new() { HasNotText = "mirrored" }).WaitForAsync();
    }

    [Fact]
    public async Task The_gap_between_copies_is_dragged_by_its_handle_and_told()
    {
        await using var bench = await warm.WithAsync(Repeated);
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "Take hold" }).ClickAsync();
        await bench.Page.Locator("#table-cloth").FocusAsync();
        var piece = Pleatwright.Files.PieceReader.Read(Repeated);
        var gap = Gap.Of(Work.Lay(piece), 0)!.Value;
        var (left, right) = (await AtTheTable.PlaceOfAsync(bench, (int)gap.Across, 10), await AtTheTable.PlaceOfAsync(bench, (int)gap.Across + 1, 10));
        var pleat = right.X - left.X;
        var y = (await AtTheTable.PlaceOfAsync(bench, 30, 10)).Y;
        var x = left.X + (float)(gap.Across - (int)gap.Across) * pleat;
        await bench.Page.Mouse.MoveAsync(x, y);
        await bench.Page.Mouse.DownAsync();
        await bench.Page.Mouse.MoveAsync(x - 3.2f * pleat, y, new() { Steps = 6 });
        await bench.Page.Locator("#here-words", new() { HasText = "Gap 12 pleats, room for 2 more" }).WaitForAsync();
        await bench.PictureAsync("table-gap");
        await bench.Page.Mouse.UpAsync();
        Assert.Equal(16, (await AtTheTable.OnShelfAsync(bench, p => p.Placements[0].Repeat.Every != 10)).Placements[0].Repeat.Every);
    }

    [Fact]
    public async Task On_a_phone_a_run_is_laid_by_steps()
    {
        await using var bench = await warm.WithAsync(Bare, Screens.Phone, touch: true);
        await bench.Page.Locator(".tool[aria-label^='The hand']").TapAsync();
        await bench.Page.GetByText("By steps").TapAsync();
        var sheet = bench.Page.Locator("#table-sheet[open]");
        await sheet.GetByRole(AriaRole.Button, new() { Name = "Up a row" }).TapAsync();
        foreach (var _ in Enumerable.Range(0, 3)) await sheet.GetByRole(AriaRole.Button, new() { Name = "To one further right" }).TapAsync();
        await sheet.GetByText("4 cables over 5 pleats").WaitForAsync();
        foreach (var button in await sheet.GetByRole(AriaRole.Button).AllAsync())
            if (await button.BoundingBoxAsync() is { } box) Assert.True(box.Width >= 44 && box.Height >= 44, await button.InnerTextAsync());
        await bench.NoSeriousFaultAsync();
        await bench.FitsTheScreenAsync();
        await bench.PictureAsync("table-steps");
        await sheet.Locator(".form-foot").GetByRole(AriaRole.Button, new() { Name = "Lay it" }).TapAsync();
        var piece = await AtTheTable.OnShelfAsync(bench, p => p.Figures.Length > 0);
        Assert.Equal([30, 31, 32, 33], Row(piece, 9));
    }

    [Fact]
    public async Task A_finger_that_draws_sees_what_it_covers_in_the_loupe()
    {
        await using var bench = await warm.WithAsync(Bare, Screens.Phone, touch: true);
        var cdp = await bench.Context.NewCDPSessionAsync(bench.Page);
        var (x, y) = await AtTheTable.PlaceOfAsync(bench, 30, 12);
        Task TouchAsync(string type, params object[] points) => cdp.SendAsync("Input.dispatchTouchEvent", new() { ["type"] = type, ["touchPoints"] = points });
        var before = await LoupeAsync(bench);
        await TouchAsync("touchStart", new { x, y });
        await TouchAsync("touchMove", new { x = x + 14, y });
        await bench.Page.WaitForFunctionAsync("""
            async () => {
              const { painterOf } = await import("/painter.js");
              for (let h = 1; h < 5000; h++) { const p = painterOf(h); if (p?.host.id === "table-cloth") return p.loupe?.words.startsWith("Valley 30 · up · r sail red"); }
            }
            """);
        Assert.Null(before);
        await bench.PictureAsync("table-loupe");
        await TouchAsync("touchEnd");
        await AtTheTable.OnShelfAsync(bench, p => p.Figures.Length > 0);
        Assert.Null(await LoupeAsync(bench));
    }

    private static Task<string?> LoupeAsync(OpenBench bench) => bench.Page.EvaluateAsync<string?>("""
        async () => {
          const { painterOf } = await import("/painter.js");
          for (let h = 1; h < 5000; h++) { const p = painterOf(h); if (p?.host.id === "table-cloth") return p.loupe?.words ?? null; }
        }
        """);
}
