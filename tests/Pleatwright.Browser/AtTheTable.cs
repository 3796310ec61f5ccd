using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Files;

namespace Pleatwright.Browser.Tests;

/// <summary>What tests at the table share: what the shelf has, and where things lie on the screen.</summary>
internal static class AtTheTable
{
    /// <summary>The piece as the shelf has it, once it satisfies a test.</summary>
    public static Task<Piece> OnShelfAsync(OpenBench bench, Func<Piece, bool> until, string? name = null) =>
        bench.OnShelfAsync((name ?? bench.Name) + ".piece.json", text => PieceReader.Read(text), until);

    /// <summary>Where the middle of a brick is on the screen.</summary>
    public static async Task<(float X, float Y)> PlaceOfAsync(OpenBench bench, int valley, int row)
    {
        var at = await bench.Page.EvaluateAsync<float[]>("""
            async ([valley, row]) => {
              const [{ painterOf }, { brickBox }] = await Promise.all([import("/painter.js"), import("/painting/over.js")]);
              for (let h = 1; h < 5000; h++) {
                const p = painterOf(h);
                if (p?.host.id !== "table-cloth") continue;
                const box = p.host.getBoundingClientRect(), [x, y, w, tall] = brickBox(p, valley, row);
                return [box.left + x + w / 2, box.top + y + tall / 2];
              }
            }
            """, new[] { valley, row });
        return (at[0], at[1]);
    }

    /// <summary>Presses keys one after the other.</summary>
    public static async Task PressAsync(OpenBench bench, params string[] keys)
    {
        foreach (var key in keys) await bench.Page.Keyboard.PressAsync(key);
    }

    /// <summary>Opens a section of the drawer, unless it lies open.</summary>
    public static async Task OpenAsync(OpenBench bench, string section)
    {
        if (await bench.Page.Locator("#drawer-title", new() { HasTextRegex = new($"^{section}$") }).CountAsync() > 0) return;
        if (section == "Proof") { await bench.Page.Locator(".tab-proof:visible, .proof-tool:visible").First.ClickAsync(); return; }
        var tab = bench.Page.Locator($"#tab-{section.ToLowerInvariant()}:visible");
        if (await tab.CountAsync() > 0) { await tab.ClickAsync(); return; }
        // One tab stands for all: from what it opens the section is chosen. Where that lies open already, the tab would shut it.
        if (await bench.Page.Locator(".drawer-sections button").CountAsync() == 0) await bench.Page.Locator("#tab-more:visible, .tool[aria-label^='More']:visible").First.ClickAsync();
        await bench.Page.Locator("#drawer:not([hidden])").WaitForAsync();
        var other = bench.Page.Locator(".drawer-sections").GetByText(section, new() { Exact = true });
        if (await other.CountAsync() > 0) await other.ClickAsync();
        await bench.Page.Locator("#drawer-title", new() { HasTextRegex = new($"^{section}$") }).WaitForAsync();
    }

    /// <summary>How much of the screen is cloth with nothing over it, of 100: looked at in a grid of points.</summary>
    public static Task<double> UncoveredAsync(OpenBench bench) => bench.Page.EvaluateAsync<double>("""
        () => {
          const cloth = document.querySelector("#table-cloth");
          let bare = 0, all = 0;
          for (let x = 2; x < innerWidth; x += 4) for (let y = 2; y < innerHeight; y += 4) { all++; if (cloth.contains(document.elementFromPoint(x, y))) bare++; }
          return 100 * bare / all;
        }
        """);

    /// <summary>A field of the sheet that is open, by the words above it.</summary>
    public static ILocator Field(OpenBench bench, string words) =>
        bench.Page.Locator("dialog[open] label.field", new() { Has = bench.Page.Locator("span", new() { HasTextRegex = new($"^{words}$") }) }).Locator("input, select");

    /// <summary>Fills a number and leaves its field.</summary>
    public static async Task NumberAsync(OpenBench bench, string words, int number)
    {
        await Field(bench, words).FillAsync(number.ToString(System.Globalization.CultureInfo.InvariantCulture));
        await Field(bench, words).BlurAsync();
    }

    /// <summary>Puts the drawer away, if it lies open.</summary>
    public static async Task PutAwayAsync(OpenBench bench)
    {
        if (await bench.Page.Locator("#drawer:not([hidden])").CountAsync() > 0) await bench.Page.Locator("#drawer").GetByRole(AriaRole.Button, new() { Name = "Put away" }).ClickAsync();
        await bench.Page.Locator("#drawer[hidden]").WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await bench.Page.Locator("#table-cloth").FocusAsync();
    }
}
