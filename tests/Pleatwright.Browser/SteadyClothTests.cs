using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

/// <summary>
/// The cloth lies still under the hand: whatever is done, and however long, wide or tall the words are that tell of it, its place on
/// the screen stays the same to the pixel. Looked at on every frame, so that no flicker passes.
/// </summary>
public class SteadyClothTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private const string Tide = """
        { "pleatwright": 1, "title": "Tide",
          "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 6 },
          "threads": { "b": { "name": "slate of the harbour wall when the tide has just gone out", "colour": "#3b5b7a", "strands": 3 }, "r": { "name": "sail red", "colour": "#b3202c", "strands": 4 } },
          "figures": { "the old ferry with her mooring ropes out and a gull on the wheelhouse roof": { "rows": ["rrr.rrr", "rrrrrrr", ".bbbbb."] } },
          "place": [ { "figure": "the old ferry with her mooring ropes out and a gull on the wheelhouse roof", "gatheringRow": 4 } ],
          "bands": [ { "stitch": "cable", "gatheringRow": 1, "thread": "b" } ], "back": "none" }
        """;

    // The fonts of any machine: the page's own words in one of our fonts, made as wide or tall as others are (CSS Fonts 4, font descriptors).
    private static readonly (string Name, string Descriptors)[] Faces =
    [
        ("the machine's own", ""),
        ("wide", """{ "sizeAdjust": "128%" }"""),
        ("tall", """{ "ascentOverride": "130%", "descentOverride": "50%", "lineGapOverride": "40%" }"""),
    ];

    // One of each layout: margin beside the cloth, below it, and all in one column.
    [Theory]
    [InlineData(1440, 900)]
    [InlineData(820, 1180)]
    [InlineData(390, 844)]
    public async Task The_cloth_keeps_its_place_through_every_act_in_any_font(int width, int height)
    {
        await using var bench = await warm.WithAsync(Tide, new() { Width = width, Height = height });
        await AtTheTable.PutAwayAsync(bench);
        bench.Expected.AddRange(["Failed to load resource", "ERR_FAILED", "412"]);
        foreach (var (face, descriptors) in Faces)
        {
            await WearAsync(bench, face, descriptors);
            foreach (var act in Acts)
            {
                await AtTheTable.PressAsync(bench, act.Split(' '));
                await StillAsync(bench, $"{act}, {face}");
            }
            await TakeUpAllAsync(bench, face);
            await StillAsync(bench, $"every button of the bar, {face}");
        }
        // What the shelf has to say about the piece: not kept, kept again, parted.
        await bench.Page.RouteAsync("**/api/**", r => r.AbortAsync());
        await RetitleAsync(bench, "Out of reach");
        await bench.Page.Locator(".kept[data-state=trouble]").WaitForAsync();
        await StillAsync(bench, "the shelf out of reach");
        await bench.PictureAsync($"steady-trouble-{width}");
        await bench.NoSeriousFaultAsync();
        await bench.Page.UnrouteAllAsync();
        await bench.Page.Locator(".kept[data-state=safe] .kept-plain").WaitForAsync();
        await StillAsync(bench, "the shelf in reach again");
        var file = Path.Combine(bench.Folder, bench.Name + ".piece.json");
        File.WriteAllText(file, File.ReadAllText(file).Replace("Out of reach", "Elsewhere", StringComparison.Ordinal));
        await RetitleAsync(bench, "Here");
        await bench.Page.Locator(".kept[data-state=parted]").WaitForAsync();
        await StillAsync(bench, "parted from the shelf");
        await bench.PictureAsync($"steady-parted-{width}");
        await bench.Page.GetByText("Take the one on the shelf").ClickAsync();
        await bench.Page.Locator(".kept[data-state=safe] .kept-plain").WaitForAsync();
        await AsItWasAsync(bench);
    }

    [Fact]
    public async Task The_cloth_of_the_order_keeps_its_place_from_step_to_step()
    {
        await using var bench = await warm.ExampleAsync(size: new() { Width = 1024, Height = 768 });
        await bench.SeeAsync("order");
        await bench.Page.Locator("#order-cloth").FocusAsync();
        await WearAsync(bench, "wide", Faces[1].Descriptors, "#order-cloth");
        foreach (var key in new[] { "ArrowRight", "2", "3", "1", "End", "Home" })
        {
            await AtTheTable.PressAsync(bench, key);
            await StillAsync(bench, key);
        }
        await AsItWasAsync(bench);
    }

    // Its own fonts again, and looked at no longer.
    private static Task AsItWasAsync(OpenBench bench) => bench.Page.EvaluateAsync("""
        () => {
          window.turn++;
          for (const kind of ["--text", "--plain"]) document.documentElement.style.removeProperty(kind);
          for (const face of [...document.fonts]) if (face.family.includes("Worn")) document.fonts.delete(face);
        }
        """);

    private static async Task RetitleAsync(OpenBench bench, string title)
    {
        await bench.Page.Locator("#title").FillAsync(title);
        await bench.Page.Locator("#title").PressAsync("Enter");
    }

    // By key: over bare cloth, figure and band; an accent put on, moved, taken off; an area marked, copied and laid; specks that the
    // proof has much to say of; every look; all undone.
    private static readonly string[] Acts =
    [
        "Control+Home PageUp Home End Control+Home ArrowUp ArrowUp ArrowUp", "b 5", "Alt+ArrowRight", "r $ Enter", "!",
        "Shift+ArrowRight Shift+ArrowDown", "Control+c", "Escape PageUp Control+v", "Delete",
        "Home r Space ArrowDown ArrowDown b Space ArrowDown ArrowDown r Space", "x", "2", "3", "1", "Control+a", "Escape .",
        "Control+z Control+z Control+z Control+z Control+z Control+z Control+z Control+z", "Control+y Control+y",
    ];

    // By pointer: whatever the hand takes up, every look, a finding opened.
    private static async Task TakeUpAllAsync(OpenBench bench, string face)
    {
        foreach (var word in new[] { "Fill", "Mark", "Take hold", "Accent", "Stitch", "Stitched", "Back", "Chart" })
            await bench.Page.GetByRole(AriaRole.Radio, new() { Name = word, Exact = true, IncludeHidden = true }).EvaluateAsync("b => b.click()");
        await AtTheTable.OpenAsync(bench, "Proof");
        await bench.Page.Locator(".finding-words").First.EvaluateAsync("b => b.click()");
        await bench.PictureAsync($"steady-{face.Split(' ')[0]}-{bench.Page.ViewportSize!.Width}");
        await bench.Page.Locator(".tab-proof:visible, .proof-tool:visible").First.EvaluateAsync("b => b.click()");
        await bench.Page.Locator("#drawer[hidden]").WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await bench.Page.Locator("#table-cloth").FocusAsync();
    }

    private static async Task WearAsync(OpenBench bench, string face, string descriptors, string cloth = "#table-cloth")
    {
        var font = await File.ReadAllBytesAsync(Repository.Path("src", "Pleatwright.Typefaces", "NunitoSans-Regular.ttf"));
        await bench.Page.EvaluateAsync("""
            async ([name, descriptors, font, cloth]) => {
              if (descriptors) {
                const face = new FontFace("Worn " + name, Uint8Array.from(atob(font), c => c.charCodeAt(0)), JSON.parse(descriptors));
                document.fonts.add(await face.load());
                for (const kind of ["--text", "--plain"]) document.documentElement.style.setProperty(kind, `"Worn ${name}"`);
              }
              await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
              const places = window.places = new Set(), turn = window.turn = (window.turn ?? 0) + 1;
              (function look() {
                if (window.turn !== turn) return;
                const { x, y, width, height } = document.querySelector(cloth).getBoundingClientRect();
                places.add(`${width} × ${height} at ${x}, ${y}`);
                requestAnimationFrame(look);
              })();
            }
            """, new[] { face, descriptors, Convert.ToBase64String(font), cloth });
    }

    private static async Task StillAsync(OpenBench bench, string after)
    {
        await bench.PaintedAsync();
        var places = await bench.Page.EvaluateAsync<string[]>("[...window.places]");
        Assert.True(places.Length == 1, $"After {after} the cloth lay {string.Join(", then ", places)}.");
    }
}
