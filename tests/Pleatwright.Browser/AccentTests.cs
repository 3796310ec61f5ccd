using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;

namespace Pleatwright.Browser.Tests;

/// <summary>Accents put on, moved, recoloured and taken off at the table, by key and by pointer.</summary>
public class AccentTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private const string Tide = """
        { "pleatwright": 1, "title": "Tide",
          "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 6 },
          "threads": { "b": { "name": "slate", "colour": "#3b5b7a", "strands": 3 }, "r": { "name": "sail red", "colour": "#b3202c", "strands": 3 } },
          "bands": [ { "stitch": "cable", "gatheringRow": 1, "thread": "b" } ], "back": "none" }
        """;

    private static (int Valley, int Row) PlaceOf(Piece piece, int accent)
    {
        var work = Work.Lay(piece);
        var laid = work.Accents.First(a => a.Index == accent);
        return (laid.Valley.Number, Accenting.RowOf(work, laid).Index);
    }

    [Fact]
    public async Task Accents_are_put_on_dragged_recoloured_and_taken_off_by_pointer()
    {
        await using var bench = await warm.WithAsync(Tide);
        var mouse = bench.Page.Mouse;
        await AtTheTable.OpenAsync(bench, "Accents");
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "flowerette" }).ClickAsync();
        var (x, y) = await AtTheTable.PlaceOfAsync(bench, 12, 10);
        await mouse.ClickAsync(x, y);
        await AtTheTable.OnShelfAsync(bench, p => p.Accents is [{ Accent: "flowerette", Thread.Letter: 'b' }] && PlaceOf(p, 0) == (12, 10));
        var (x2, y2) = await AtTheTable.PlaceOfAsync(bench, 30, 15);
        await mouse.MoveAsync(x, y);
        await mouse.DownAsync();
        await mouse.MoveAsync(x2, y2, new() { Steps = 6 });
        await mouse.UpAsync();
        await AtTheTable.OnShelfAsync(bench, p => PlaceOf(p, 0) == (30, 15));
        // shown in all three looks
        var plain = await LooksAsync(bench);
        await bench.Page.Keyboard.PressAsync("Control+z");
        await bench.Page.Keyboard.PressAsync("Control+z");
        await AtTheTable.OnShelfAsync(bench, p => p.Accents.IsEmpty);
        foreach (var (with, without) in plain.Zip(await LooksAsync(bench))) Assert.NotEqual(with, without);
        await bench.Page.Keyboard.PressAsync("Control+y");
        await bench.Page.Keyboard.PressAsync("Control+y");
        await AtTheTable.OnShelfAsync(bench, p => p.Accents.Length == 1 && PlaceOf(p, 0) == (30, 15));
        // a touch in another thread works it in that thread; the seam ripper takes it off
        await bench.Page.Locator("#table-cloth").FocusAsync();
        await AtTheTable.PressAsync(bench, "r");
        await mouse.ClickAsync(x2, y2);
        await AtTheTable.OnShelfAsync(bench, p => p.Accents is [{ Thread.Letter: 'r' }]);
        await AtTheTable.PressAsync(bench, ".");
        await mouse.ClickAsync(x2, y2);
        await AtTheTable.OnShelfAsync(bench, p => p.Accents.IsEmpty);
        await bench.NoSeriousFaultAsync();
    }

    // What is painted of the cloth in each look, the hand's own mark apart.
    private static async Task<string[]> LooksAsync(OpenBench bench)
    {
        var looks = new List<string>();
        foreach (var look in new[] { "1", "2", "3" })
        {
            await bench.Page.Locator("#table-cloth").FocusAsync();
            await bench.Page.Keyboard.PressAsync(look);
            await bench.PaintedAsync();
            looks.Add(await bench.Page.Locator("#table-cloth canvas").First.EvaluateAsync<string>("c => c.toDataURL()"));
            await bench.PictureAsync("accent-look-" + look + "-" + looks.Count);
        }
        await bench.Page.Keyboard.PressAsync("1");
        return [.. looks];
    }
}
