using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Perf;

namespace Pleatwright.BenchPerf;

/// <summary>
/// From the key that makes or clears a cable until the last of cloth, proof, order and amounts has been painted for it. The
/// clock starts at the time the browser gives the key event, and stops when nothing on the table changes any more: at the
/// last canvas or page change, and again when the frame that shows it has been handed on.
/// </summary>
internal static class Edits
{
    private const int Count = 200, Warm = 40;

    private const string Watch = """
        window.edit = { key: 0, last: 0, shown: 0, idle: 0 };
        addEventListener("keydown", (e) => { edit.key = e.timeStamp; edit.last = edit.shown = 0; }, { capture: true });
        const touched = () => {
          const at = performance.now();
          if (at - edit.key > 300) return; // the longer search when the hand rests
          edit.last = at;
          requestAnimationFrame(() => { const c = new MessageChannel(); c.port1.onmessage = () => { edit.shown = performance.now(); }; c.port2.postMessage(0); });
        };
        for (const name of ["restore", "clearRect", "stroke", "fill", "drawImage"]) {
          const does = CanvasRenderingContext2D.prototype[name];
          CanvasRenderingContext2D.prototype[name] = function (...all) { const r = does.apply(this, all); edit.painted = performance.now(); return r; };
        }
        window.watchTable = () => {
          const seen = new MutationObserver(touched);
          for (const part of document.querySelectorAll(".tape, .rail, .tabs, .here")) seen.observe(part, { subtree: true, childList: true, characterData: true, attributes: true });
        };
        """;

    public static async Task MeasureAsync(IBrowser browser, string published, int about)
    {
        using var served = new Served(published);
        var piece = Pictures.Scene(about);
        await File.WriteAllTextAsync(Path.Combine(served.Shelf, "scene.piece.json"), PieceWriter.Write(piece));
        await using var context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 1440, Height = 900 } });
        var page = await context.NewPageAsync();
        await page.AddInitScriptAsync(Watch);
        await page.GotoAsync(served.Url + "#shelf");
        await page.GetByRole(AriaRole.Button, new() { Name = "Scene" }).First.ClickAsync();
        await page.Locator("#tab-cloth").ClickAsync(); // the amounts are told there
        await page.Locator("#table-cloth").FocusAsync();
        await page.EvaluateAsync("watchTable()");
        List<double> painted = [], shown = [];
        var random = new Random(5);
        for (var i = 0; i < Warm + Count; i++)
        {
            for (var steps = i % 2 == 0 ? random.Next(1, 5) : 0; steps > 0; steps--)
                await page.Keyboard.PressAsync((random.Next(4)) switch { 0 => "ArrowLeft", 1 => "ArrowRight", 2 => "ArrowUp", _ => "ArrowDown" });
            if (i % 2 == 0) await page.Keyboard.PressAsync(".abcd".Substring(random.Next(5), 1));
            await page.WaitForTimeoutAsync(40);
            await page.Keyboard.PressAsync(i % 2 == 0 ? "Space" : "Control+z"); // and undone, so that the piece stays what it is
            await page.WaitForTimeoutAsync(250);
            var times = await page.EvaluateAsync<double[]>("[Math.max(edit.last, edit.painted) - edit.key, edit.shown - edit.key]");
            if (i < Warm || times[0] < 0) continue; // nothing was there to clear, or the same thread already
            painted.Add(times[0]);
            shown.Add(times[1]);
        }
        painted.Sort();
        shown.Sort();
        Console.WriteLine($"edit on {Work.Lay(piece).Cables} cables: all repainted after median {painted[painted.Count / 2]:0.0} ms of 16, 95th {painted[painted.Count * 95 / 100]:0.0} of 50, most {painted[^1]:0.0}; frame handed on after median {shown[shown.Count / 2]:0.0} ms, 95th {shown[shown.Count * 95 / 100]:0.0}; {painted.Count} edits");
    }
}
