using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

/// <summary>
/// The cloth lies still under the hand: whatever is done, and however long, wide or tall the words are that tell of it, its place on
/// the screen stays the same to the pixel. Looked at on every frame, so that no flicker passes.
/// </summary>
public class SteadyClothTests(Chromium chromium)
{
    private const string Tide = """
        { "pleatwright": 1, "title": "Tide",
          "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 6 },
          "threads": { "b": { "name": "slate of the harbour wall when the tide has just gone out", "colour": "#3b5b7a", "strands": 3 }, "r": { "name": "sail red", "colour": "#b3202c", "strands": 4 } },
          "figures": { "the old ferry with her mooring ropes out and a gull on the wheelhouse roof": { "rows": ["rrr.rrr", "rrrrrrr", ".bbbbb."] } },
          "place": [ { "figure": "the old ferry with her mooring ropes out and a gull on the wheelhouse roof", "gatheringRow": 4 } ],
          "bands": [ { "stitch": "cable", "gatheringRow": 1, "thread": "b" } ], "back": "none" }
        """;

    // The fonts of any machine: the page's own words in one of our fonts, made as wide, narrow or tall as others are (CSS Fonts 4, font descriptors).
    private static readonly (string Name, string Descriptors)[] Faces =
    [
        ("the machine's own", ""),
        ("wide", """{ "sizeAdjust": "128%" }"""),
        ("narrow", """{ "sizeAdjust": "78%" }"""),
        ("tall", """{ "ascentOverride": "130%", "descentOverride": "50%", "lineGapOverride": "40%" }"""),
    ];

    public static TheoryData<int, int> Screens => new()
    {
        { 1440, 900 }, { 1024, 768 }, { 820, 1180 }, { 768, 1024 }, { 390, 844 }, { 844, 390 },
    };

    [Theory, MemberData(nameof(Screens))]
    public async Task The_cloth_keeps_its_place_through_every_act_in_any_font(int width, int height)
    {
        await using var bench = await AtTheTable.WithAsync(chromium, Tide, new() { Width = width, Height = height });
        bench.Expected.AddRange(["Failed to load resource", "ERR_FAILED", "412"]);
        foreach (var (face, descriptors) in Faces)
        {
            await WearAsync(bench, face, descriptors);
            foreach (var act in Acts)
            {
                await AtTheTable.PressAsync(bench, act.Split(' '));
                await StillAsync(bench, $"{act}, {face}, {width} × {height}");
            }
            await SayAllAsync(bench, face);
            await StillAsync(bench, $"what is said by itself, {face}, {width} × {height}");
        }
        // What the shelf has to say about the piece: not kept, kept again, parted.
        await bench.Page.RouteAsync("**/api/**", r => r.AbortAsync());
        await RetitleAsync(bench, "Out of reach");
        await bench.Page.Locator(".kept[data-state=trouble]").WaitForAsync();
        await StillAsync(bench, "the shelf out of reach");
        await bench.PictureAsync($"steady-trouble-{width}");
        await bench.NoSeriousFaultAsync();
        await bench.Page.UnrouteAllAsync();
        await bench.Page.Locator(".kept[data-state=safe]").WaitForAsync();
        await StillAsync(bench, "the shelf in reach again");
        var file = Directory.GetFiles(bench.Folder, "*.piece.json").Single();
        File.WriteAllText(file, File.ReadAllText(file).Replace("Out of reach", "Elsewhere", StringComparison.Ordinal));
        await RetitleAsync(bench, "Here");
        await bench.Page.Locator(".kept[data-state=parted]").WaitForAsync();
        await StillAsync(bench, "parted from the shelf");
        await bench.PictureAsync($"steady-parted-{width}");
    }

    private static async Task RetitleAsync(OpenBench bench, string title)
    {
        await bench.Page.Locator("#title").FillAsync(title);
        await bench.Page.Locator("#title").PressAsync("Enter");
    }

    // By key, on the cloth: over bare cloth, figure and band; an accent put on, moved, taken off; marking, copying, filling; specks that the proof
    // has much to say of; every look; all undone. Each line ends where the next may begin.
    private static readonly string[] Acts =
    [
        "Control+Home ArrowUp ArrowUp ArrowUp PageUp PageUp Home End PageDown PageDown Control+Home",
        "b 5", "Alt+ArrowRight Alt+ArrowDown", "r $", "Enter", "!",
        "Shift+ArrowRight Shift+ArrowRight Shift+ArrowDown", "Control+c", "Escape", "PageUp PageUp Control+v", "\\ ^", "Delete Escape",
        "Home r Space ArrowDown ArrowDown b Space ArrowDown ArrowDown r Space ArrowDown ArrowDown b Space ArrowDown ArrowDown r Space",
        "End ArrowUp b Space ArrowUp ArrowUp r Space ArrowUp ArrowUp b Space", "x", "2", "3", "1", "Control+a", "Control+a Escape", ".",
        "Control+z Control+z Control+z Control+z Control+z Control+z Control+z Control+z Control+z Control+z Control+z Control+z Control+z Control+z Control+z Control+z",
        "Control+y Control+y Control+y Control+y Control+y Control+y",
    ];

    // By pointer: every station of the hand taken up, every look, a finding opened.
    private static async Task SayAllAsync(OpenBench bench, string face)
    {
        foreach (var word in new[] { "Fill", "Mark", "Take hold", "Accent", "Stitch" })
            await bench.Page.GetByRole(AriaRole.Radio, new() { Name = word, Exact = true }).EvaluateAsync("b => b.click()");
        foreach (var word in new[] { "Stitched", "Back", "Chart" })
            await bench.Page.GetByRole(AriaRole.Radio, new() { Name = word, Exact = true }).EvaluateAsync("b => b.click()");
        var findings = bench.Page.Locator(".finding-words");
        for (var i = 0; i < Math.Min(3, await findings.CountAsync()); i++) await findings.Nth(i).EvaluateAsync("b => b.click()");
        await bench.PictureAsync($"steady-{face.Split(' ')[0]}-{bench.Page.ViewportSize!.Width}");
        await bench.Page.Locator("#table-cloth").FocusAsync();
    }

    private static async Task WearAsync(OpenBench bench, string face, string descriptors)
    {
        var font = await File.ReadAllBytesAsync(Repository.Path("src", "Pleatwright", "Plate", "Fonts", "NunitoSans-Regular.ttf"));
        await bench.Page.EvaluateAsync("""
            async ([name, descriptors, font]) => {
              if (descriptors) {
                const face = new FontFace("Worn " + name, Uint8Array.from(atob(font), c => c.charCodeAt(0)), JSON.parse(descriptors));
                document.fonts.add(await face.load());
                for (const kind of ["--text", "--plain"]) document.documentElement.style.setProperty(kind, `"Worn ${name}"`);
              }
              await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
              const places = window.places = new Set(), turn = window.turn = (window.turn ?? 0) + 1;
              (function look() {
                if (window.turn !== turn) return;
                const { x, y, width, height } = document.querySelector("#table-cloth").getBoundingClientRect();
                places.add(`${width} × ${height} at ${x}, ${y}`);
                requestAnimationFrame(look);
              })();
            }
            """, new[] { face, descriptors, Convert.ToBase64String(font) });
    }

    private static async Task StillAsync(OpenBench bench, string after)
    {
        await bench.PaintedAsync();
        var places = await bench.Page.EvaluateAsync<string[]>("[...window.places]");
        Assert.True(places.Length == 1, $"After {after} the cloth lay {string.Join(", then ", places)}.");
    }
}
