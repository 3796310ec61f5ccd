using Microsoft.Playwright;
using Pleatwright.Cloth;

namespace Pleatwright.Browser.Tests;

/// <summary>
/// The cloth is the screen: how much of it is bare of all that lies over it, on every device, with a piece that the proof has much to
/// say of; what opens over it and how it is put away again; how near it opens.
/// </summary>
public class ScreenTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private const int Kinds = 40;

    // Lone specks, each a fault of its own, strewn over a panel.
    private static string Forty()
    {
        var rows = Enumerable.Range(0, 38).Select(_ => new char[120]).ToArray();
        foreach (var row in rows) Array.Fill(row, '.');
        for (var i = 0; i < Kinds; i++) rows[i % 10 * 4][3 + i / 10 * 29 + i % 10] = "rb"[i % 2];
        return $$"""
            { "pleatwright": 1, "title": "Tide",
              "cloth": { "form": "panel", "finishedWidth": "140 mm", "gauge": { "pitch": "1 mm", "takeUp": "4 mm", "rowSpacing": "9 mm", "cableRowsPerSpace": 5 }, "gatheringRows": 9 },
              "threads": { "b": { "name": "slate", "colour": "#3b5b7a", "strands": 4 }, "r": { "name": "sail red", "colour": "#b3202c", "strands": 4 } },
              "figures": { "specks": { "rows": [ {{string.Join(", ", rows.Select(r => $"\"{new string(r)}\""))}} ] } },
              "place": [ { "figure": "specks", "gatheringRow": 1, "figureRow": 0 } ], "back": "none" }
            """;
    }

    // The last is 1440 × 900 at 150 % zoom.
    private static readonly (int Width, int Height, double Least, bool Touch)[] Devices =
        [(1440, 900, 65, false), (1024, 768, 80, true), (768, 1024, 75, true), (390, 844, 65, true), (844, 390, 60, true), (960, 600, 55, false)];

    [Fact]
    public async Task The_cloth_has_the_screen_on_every_device_and_keeps_it_while_the_proof_grows()
    {
        foreach (var touch in new[] { false, true })
        {
            await using var bench = await warm.WithAsync(Forty(), new() { Width = 1440, Height = 900 }, touch: touch);
            await AtTheTable.PutAwayAsync(bench);
            await bench.Page.Locator(".proof-badge", new() { HasTextRegex = new("^[4-9][0-9]$") }).First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
            foreach (var (width, height, least, _) in Devices.Where(d => d.Touch == touch))
            {
                await bench.LookAsync(new() { Width = width, Height = height }, dark: false);
                await bench.LayAsync(Forty()); // opened at this size
                await bench.PaintedAsync();
                var screen = $"{width} × {height}";
                var bare = await AtTheTable.UncoveredAsync(bench);
                Assert.True(bare >= least, $"At {screen} {bare:0.0} % of the view is cloth; {least} % it should be.");
                await bench.FitsTheScreenAsync();
                await ReachedAsync(bench, touch ? 44 : 24, screen);
                Assert.True(await LineAsync(bench) >= (touch ? 18 : 12) - 1e-6, $"At {screen} a line is {await LineAsync(bench):0.0} px high.");
                foreach (var dark in new[] { false, true })
                {
                    await bench.LookAsync(dark: dark);
                    await bench.PictureAsync($"screen-{width}{(dark ? "-dark" : "")}");
                    await bench.NoSeriousFaultAsync();
                }
                // The proof grows and is opened, and the cloth lies where it lay.
                var place = await PlaceAsync(bench);
                await AtTheTable.PressAsync(bench, "Home", "r", "Space", "ArrowDown", "ArrowDown", "b", "Space");
                await AtTheTable.OpenAsync(bench, "Proof");
                await bench.Page.Locator(".finding").First.WaitForAsync();
                await bench.NoSeriousFaultAsync();
                await bench.PictureAsync($"screen-{width}-proof");
                Assert.Equal(place, await PlaceAsync(bench));
                await bench.Page.Locator("#drawer").GetByRole(AriaRole.Button, new() { Name = "Put away" }).ClickAsync();
                await AtTheTable.PressAsync(bench, "Control+z", "Control+z");
                Assert.Equal((place, bare), (await PlaceAsync(bench), await AtTheTable.UncoveredAsync(bench)));
            }
        }
    }

    [Fact]
    public async Task What_lies_over_the_cloth_opens_is_put_away_and_remembered()
    {
        await using var bench = await warm.WithAsync(Forty(), new() { Width = 1440, Height = 900 });
        await AtTheTable.PutAwayAsync(bench);
        var drawer = bench.Page.Locator("#drawer");
        await PressMapAsync(bench);
        await Assertions.Expect(bench.Page.Locator("#map")).ToBeHiddenAsync();
        await bench.Page.Locator("#tab-figures").ClickAsync();
        await Assertions.Expect(drawer).ToContainTextAsync("specks");
        await bench.ReloadAsync();
        await Assertions.Expect(drawer).ToContainTextAsync("specks"); // as it was left
        await Assertions.Expect(bench.Page.Locator("#map")).ToBeHiddenAsync();
        await bench.Page.Locator("#tab-figures").ClickAsync();
        await Assertions.Expect(drawer).ToBeHiddenAsync();
        await PressMapAsync(bench);
        await Assertions.Expect(bench.Page.Locator("#map")).ToBeVisibleAsync();
        await bench.Page.Locator("#tab-threads").ClickAsync();
        await bench.Page.GetByLabel("Change thread b").FocusAsync();
        await AtTheTable.PressAsync(bench, "Escape");
        await Assertions.Expect(drawer).ToBeHiddenAsync();
        await Assertions.Expect(bench.Page.Locator("#table-cloth")).ToBeFocusedAsync();
        // A form beside the cloth: its effect is seen at once, the cloth stays in use, and nothing is left of it when it is put away.
        var bare = await PaintedAsync(bench);
        await AtTheTable.OpenAsync(bench, "Bands");
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "A band", Exact = true }).ClickAsync();
        await AtTheTable.Field(bench, "Stitch").SelectOptionAsync("trellis");
        await bench.PaintedAsync();
        Assert.NotEqual(bare, await PaintedAsync(bench));
        await bench.PictureAsync("screen-form");
        await bench.NoSeriousFaultAsync();
        await bench.Page.Locator("#table-cloth").FocusAsync();
        await AtTheTable.PressAsync(bench, "Space");
        await AtTheTable.OnShelfAsync(bench, p => p.Bands.IsEmpty && p.Figures.Sum(f => f.Rows.Sum(r => r.Count(c => c != '.'))) == Kinds + 1);
        await AtTheTable.PressAsync(bench, "Control+z");
        await bench.Page.Locator("dialog[open]").GetByLabel("Put away").ClickAsync();
        await bench.PaintedAsync();
        Assert.Equal(bare, await PaintedAsync(bench));
        // A bare number in the unit shown.
        await AtTheTable.OpenAsync(bench, "Cloth");
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Change the cloth" }).ClickAsync();
        await bench.Page.GetByLabel("Finished width").FillAsync("150");
        await bench.Page.GetByLabel("Finished width").BlurAsync();
        await Assertions.Expect(bench.Page.GetByLabel("Finished width")).ToHaveValueAsync("150 mm");
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Lay this cloth" }).ClickAsync();
        await AtTheTable.OnShelfAsync(bench, p => p.Cloth.Form is Panel { Width.Millimetres: 150 });
    }

    [Fact]
    public async Task The_map_shows_where_one_is_and_leads_elsewhere()
    {
        await using var bench = await warm.WithAsync(Forty(), new() { Width = 1024, Height = 768 });
        await AtTheTable.PutAwayAsync(bench);
        var (x, y) = await AtTheTable.PlaceOfAsync(bench, 70, 20);
        var map = (await bench.Page.Locator("#map-cloth").BoundingBoxAsync())!;
        var here = (await bench.Page.Locator(".map-here").BoundingBoxAsync())!;
        Assert.True(here.Width < map.Width && here.Height < map.Height);
        await bench.Page.Mouse.ClickAsync(map.X + 4, map.Y + 4);
        await bench.PaintedAsync();
        var (x2, y2) = await AtTheTable.PlaceOfAsync(bench, 70, 20);
        Assert.True(x2 > x + 100 && y2 > y + 100);
        var there = (await bench.Page.Locator(".map-here").BoundingBoxAsync())!;
        Assert.True(there.X < here.X && there.Y < here.Y);
    }

    // Puts the map away, or back.
    private static Task PressMapAsync(OpenBench bench) => bench.Page.Locator(".map-switch").ClickAsync();

    private static Task<string> PaintedAsync(OpenBench bench) => bench.Page.Locator("#table-cloth canvas").First.EvaluateAsync<string>("c => c.toDataURL()");

    private static Task<string> PlaceAsync(OpenBench bench) =>
        bench.Page.EvaluateAsync<string>("(() => { const { x, y, width, height } = document.querySelector('#table-cloth').getBoundingClientRect(); return [x, y, width, height].join(); })()");

    // Pixels of a line of the cloth.
    private static Task<double> LineAsync(OpenBench bench) => bench.Page.EvaluateAsync<double>("""
        async () => {
          const { painterOf } = await import("/painter.js");
          for (let h = 1; h < 5000; h++) { const p = painterOf(h); if (p?.host.id === "table-cloth") return p.cloth.line * p.scale; }
        }
        """);

    // Nothing to hit is smaller than a finger, or a mouse, can hit (WCAG 2.2, 2.5.8: 24 CSS pixels; 2.5.5: 44).
    private static async Task ReachedAsync(OpenBench bench, int least, string screen)
    {
        var small = await bench.Page.EvaluateAsync<string[]>("""
            least => [...document.querySelectorAll("button, a[href], input, select, summary, [tabindex='0']")].filter(e => {
              const b = e.getBoundingClientRect();
              return e.checkVisibility({ visibilityProperty: true }) && b.width > 1 && b.height > 1 && b.bottom > 0 && (b.width < least - 0.5 || b.height < least - 0.5) && !e.matches(".skip");
            }).map(e => `${e.outerHTML.slice(0, 90)} is ${Math.round(e.getBoundingClientRect().width)} × ${Math.round(e.getBoundingClientRect().height)}`)
            """, least);
        Assert.True(small.Length == 0, $"At {screen} too small to hit: {string.Join(" | ", small)}");
    }
}
