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
    public async Task Accents_are_put_on_moved_recoloured_and_taken_off_by_key()
    {
        await using var bench = await warm.WithAsync(Tide);
        // the hand begins on the centre valley, 24, in the middle row, 13
        await AtTheTable.PressAsync(bench, "b", "5");
        var put = await AtTheTable.OnShelfAsync(bench, p => p.Accents is [{ Accent: "knot" }]);
        Assert.Equal((24, 13), PlaceOf(put, 0));
        await Assertions.Expect(bench.Page.Locator("#here-words")).ToContainTextAsync("Knot, slate, over bare pleats");
        await AtTheTable.PressAsync(bench, "Alt+ArrowRight", "Alt+ArrowDown", "Alt+ArrowDown");
        var moved = await AtTheTable.OnShelfAsync(bench, p => PlaceOf(p, 0) == (25, 15));
        Assert.Equal((new GatheringRow(4), 0), (moved.Accents[0].GatheringRow, moved.Accents[0].Drop));
        await AtTheTable.PressAsync(bench, "r", "$");
        await AtTheTable.OnShelfAsync(bench, p => p.Accents[0].Thread.Letter == 'r');
        await AtTheTable.PressAsync(bench, "Control+z");
        await AtTheTable.OnShelfAsync(bench, p => p.Accents[0].Thread.Letter == 'b');
        // its sheet: larger, upright, in three copies
        await AtTheTable.PressAsync(bench, "@");
        await AtTheTable.Field(bench, "Accent").SelectOptionAsync("bullion");
        await AtTheTable.NumberAsync(bench, "Pleats long", 6);
        await bench.Page.GetByLabel("Upright, along the valley").CheckAsync();
        await AtTheTable.NumberAsync(bench, "Copies", 3);
        await AtTheTable.NumberAsync(bench, "Valleys from one to the next", 10);
        await Assertions.Expect(bench.Page.Locator(".glimpse img")).ToBeVisibleAsync();
        await bench.PictureAsync("accent-sheet");
        await bench.NoSeriousFaultAsync();
        await bench.Page.Locator("dialog[open]").GetByRole(AriaRole.Button, new() { Name = "Keep", Exact = true }).ClickAsync();
        await AtTheTable.OnShelfAsync(bench, p => p.Accents[0] is { Accent: "bullion", Size: 6, Upright: true, Repeat: { Count: 3, Every: 10 } });
        await bench.Page.Locator("#table-cloth").FocusAsync();
        await AtTheTable.PressAsync(bench, "Delete");
        await AtTheTable.OnShelfAsync(bench, p => p.Accents.IsEmpty && p.Bands.Length == 1);
        await AtTheTable.PressAsync(bench, "Control+z", "!");
        await AtTheTable.OnShelfAsync(bench, p => p.Accents.IsEmpty);
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
