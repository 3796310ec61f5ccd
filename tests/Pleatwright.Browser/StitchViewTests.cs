using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

public class StitchViewTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private static readonly string Tide = """
        { "pleatwright": 1, "title": "Tide",
          "cloth": { "form": "panel", "finishedWidth": "2 in", "gatheringRows": 4 },
          "threads": { "b": { "name": "slate", "colour": "#3b5b7a", "strands": 3 } },
          "bands": [ { "stitch": "baby wave", "gatheringRow": 2, "thread": "b" } ],
          "accents": [ { "accent": "knot", "gatheringRow": 3, "thread": "b", "repeat": { "count": 3, "every": 6 } } ],
          "back": "none" }
        """;

    private static ILocator Line(OpenBench bench) => bench.Page.Locator(".chair-line b").First;

    private static ILocator Button(OpenBench bench, string name) => bench.Page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    private static Task KindAsync(OpenBench bench, string kind) => bench.Page.Locator($".chair-run[data-kind={kind}]").WaitForAsync();

    // What is worked of the item, and of how many stitches.
    private static Task TallyAsync(OpenBench bench, string of) => Assertions.Expect(bench.Page.Locator(".chair-tally")).ToHaveTextAsync(new System.Text.RegularExpressions.Regex($"^{of}$"));

    private static Task WordAsync(OpenBench bench, string word) => Assertions.Expect(bench.Page.Locator(".held-word text")).ToHaveTextAsync(word);

    // Past the backsmocking and any bands to the first run of cables.
    private static async Task<int> ToCablesAsync(OpenBench bench)
    {
        await bench.Page.Locator("#tick").WaitForAsync();
        await bench.Page.Locator("#chair-cloth canvas").First.WaitForAsync();
        var items = 0;
        for (; await bench.Page.Locator(".chair-run:not([data-kind=cables])").CountAsync() > 0; items++)
        {
            var before = await bench.Page.Locator(".chair-line").InnerTextAsync();
            await Button(bench, "Run done").ClickAsync();
            await Assertions.Expect(bench.Page.Locator(".chair-line")).Not.ToHaveTextAsync(before, new() { UseInnerText = true });
        }
        await Assertions.Expect(Line(bench)).ToHaveTextAsync(new System.Text.RegularExpressions.Regex("^Step 1 of [0-9]+$"));
        return items;
    }

    private async Task<OpenBench> AtChairAsync(ViewportSize? size = null)
    {
        var bench = await warm.ExampleAsync(size: size);
        await bench.SeeAsync("stitch");
        return bench;
    }

    private static async Task MoreAsync(OpenBench bench)
    {
        if (await bench.Page.Locator(".chair-more[open]").CountAsync() == 0) await bench.Page.Locator(".chair-more summary").ClickAsync();
        await bench.Page.Locator(".chair-choices").WaitForAsync();
    }

    [Fact]
    public async Task Ticks_count_can_be_undone_and_place_and_hold_are_kept_through_a_reload()
    {
        await using var bench = await warm.ExampleAsync(size: Screens.Tablet, touch: true);
        await bench.SeeAsync("stitch");
        await bench.PictureAsync("stitch-back");
        Assert.True(await ToCablesAsync(bench) > 0); // the example needs backsmocking, which comes first
        await bench.Page.Locator("#tick").TapAsync();
        await TallyAsync(bench, "1 of .*");
        await bench.Page.Locator("#held").TapAsync(); // the picture ticks wherever it is touched
        await TallyAsync(bench, "2 of .*");
        await bench.Page.Locator("#held").TapAsync(new() { Position = new() { X = 30, Y = 30 } });
        await TallyAsync(bench, "3 of .*");
        await Button(bench, "Undo a tick").TapAsync();
        await TallyAsync(bench, "2 of .*");
        await MoreAsync(bench);
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "Sideways" }).TapAsync();
        await WordAsync(bench, "left");
        await bench.ReloadAsync();
        await TallyAsync(bench, "2 of .*");
        await WordAsync(bench, "left");
        await MoreAsync(bench);
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "Upright" }).TapAsync();
        await WordAsync(bench, "up");

        var all = int.Parse((await bench.Page.Locator(".chair-tally").InnerTextAsync()).Split(' ')[^1], System.Globalization.CultureInfo.InvariantCulture);
        await Button(bench, "Run done").TapAsync();
        await Assertions.Expect(Line(bench)).ToHaveTextAsync(new System.Text.RegularExpressions.Regex("^Step 2 of"));
        await Button(bench, "Undo a tick").TapAsync();
        await Assertions.Expect(Line(bench)).ToHaveTextAsync(new System.Text.RegularExpressions.Regex("^Step 1 of"));
        await TallyAsync(bench, FormattableString.Invariant($"{all - 1} of {all}")); // back to the last stitch of the run
        await bench.PictureAsync("stitch-near-the-end");
        await bench.NoSeriousFaultAsync();
    }

    [Fact]
    public async Task Keys_do_what_the_buttons_do_to_the_last_stitch_of_the_piece()
    {
        await using var bench = await AtChairAsync();
        await ToCablesAsync(bench);
        await bench.Page.Locator("#tick").FocusAsync();
        await bench.Page.Keyboard.PressAsync("ArrowRight");
        await bench.Page.Keyboard.PressAsync("ArrowRight");
        await bench.Page.Keyboard.PressAsync("Backspace");
        await TallyAsync(bench, "1 of .*");
        await bench.Page.Keyboard.PressAsync("Enter"); // the focus is on the tick
        await TallyAsync(bench, "2 of .*");
        for (var i = 0; i < 500 && await bench.Page.GetByText("All stitched").CountAsync() == 0; i++) await bench.Page.Keyboard.PressAsync("PageDown");
        await bench.Page.GetByText("All stitched").WaitForAsync();
        await bench.PictureAsync("stitch-done");
    }

    [Fact]
    public async Task Held_sideways_the_words_are_left_and_right_and_a_left_hand_goes_the_other_way()
    {
        await using var bench = await AtChairAsync(Screens.Tablet);
        await ToCablesAsync(bench);
        await WordAsync(bench, "up");
        var before = await bench.Page.Locator(".chair-line").InnerTextAsync();
        await MoreAsync(bench);
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "Sideways" }).ClickAsync();
        await WordAsync(bench, "left");
        await Assertions.Expect(bench.Page.Locator(".chair-line")).ToContainTextAsync("the first left");
        await bench.PictureAsync("stitch-sideways");
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "Upright" }).ClickAsync();
        await WordAsync(bench, "up");
        await bench.Page.GetByLabel("Left-handed").ClickAsync();
        await Assertions.Expect(bench.Page.Locator(".chair-line")).Not.ToHaveTextAsync(before, new() { UseInnerText = true }); // it begins at the other end
        await bench.PictureAsync("stitch-left-handed");
        await bench.Page.GetByLabel("Left-handed").ClickAsync();
        await Assertions.Expect(bench.Page.Locator(".chair-line")).ToHaveTextAsync(before, new() { UseInnerText = true });
    }

    [Fact]
    public async Task Stitches_ticked_that_the_piece_no_longer_has_ask_to_be_looked_at()
    {
        await using var bench = await warm.WithAsync(Tide);
        await bench.SeeAsync("stitch");
        await KindAsync(bench, "band");
        await bench.Page.Locator("#tick").ClickAsync();
        await TallyAsync(bench, "1 of 12");
        await bench.SeeAsync("table");
        await AtTheTable.OpenAsync(bench, "Bands");
        await bench.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Take off the baby wave band") }).ClickAsync();
        await AtTheTable.OnShelfAsync(bench, p => p.Bands.IsEmpty);
        await bench.SeeAsync("stitch");
        await bench.Page.GetByText("you had ticked").WaitForAsync();
        await Button(bench, "It is right").ClickAsync();
        await Assertions.Expect(bench.Page.GetByText("you had ticked")).ToHaveCountAsync(0);
        await TallyAsync(bench, "0 of 3");
    }

    [Fact]
    public async Task Stitches_of_bands_are_ticked_one_by_one_and_accents_one_by_one()
    {
        await using var bench = await warm.WithAsync(Tide, Screens.Tablet);
        await bench.SeeAsync("stitch");
        await KindAsync(bench, "band");
        // 24 pleats: from pleat 12 to 24 there are twelve stitches, the first the centre's up cable
        await TallyAsync(bench, "0 of 12");
        await WordAsync(bench, "up");
        await bench.Page.Locator("#tick").ClickAsync();
        await TallyAsync(bench, "1 of 12");
        await WordAsync(bench, "step down");
        await Assertions.Expect(bench.Page.Locator(".held-line.done")).ToHaveCountAsync(1);
        await bench.NoSeriousFaultAsync();
        await bench.PictureAsync("stitch-band");
        // the other half is turned, and goes on from the centre with a step up as held
        await bench.Page.Locator("#tick").FocusAsync();
        for (var i = 0; i < 11; i++) await bench.Page.Keyboard.PressAsync("ArrowRight");
        await bench.Page.GetByText("turned, bottom edge up").WaitForAsync();
        await TallyAsync(bench, "0 of 11");
        await WordAsync(bench, "step up");
        await bench.PictureAsync("stitch-band-turned");
        await bench.Page.Keyboard.PressAsync("PageDown");
        await KindAsync(bench, "accents");
        await TallyAsync(bench, "0 of 3");
        for (var i = 0; i < 3; i++) await bench.Page.Keyboard.PressAsync("ArrowRight");
        await bench.Page.GetByText("All stitched").WaitForAsync();
    }
}
