using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

public class StitchViewTests(Chromium chromium)
{
    private static Task<string?> StepAsync(OpenBench bench) => bench.Page.Locator(".chair-count").First.TextContentAsync();

    private static Task<string?> TallyAsync(OpenBench bench) => bench.Page.Locator(".chair-tally").TextContentAsync();

    // Past the backsmocking, which is ticked row by row, and any bands, to the first run of cables.
    private static async Task<int> ToCablesAsync(OpenBench bench)
    {
        await bench.Page.Locator("#tick").WaitForAsync();
        var step = 1;
        for (; await bench.Page.Locator(".chair-run:not([data-kind=cables])").CountAsync() > 0; step++)
        {
            Assert.StartsWith($"Step {step} of", await StepAsync(bench), StringComparison.Ordinal);
            await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Run done" }).ClickAsync();
        }
        return step;
    }

    [Fact]
    public async Task Ticks_count_can_be_undone_and_the_place_is_kept_through_a_reload()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "stitch", Screens.Tablet, touch: true);
        await bench.PictureAsync("stitch-back");
        var first = await ToCablesAsync(bench);
        Assert.True(first > 1); // the example needs backsmocking, which comes first
        for (var i = 0; i < 3; i++) await bench.Page.Locator("#tick").TapAsync();
        Assert.StartsWith("3 of", await TallyAsync(bench), StringComparison.Ordinal);
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Undo a tick" }).TapAsync();
        Assert.StartsWith("2 of", await TallyAsync(bench), StringComparison.Ordinal);
        await bench.ReloadAsync();
        await bench.Page.Locator("#tick").WaitForAsync();
        Assert.StartsWith("2 of", await TallyAsync(bench), StringComparison.Ordinal);

        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Run done" }).TapAsync();
        Assert.StartsWith($"Step {first + 1} of", await StepAsync(bench), StringComparison.Ordinal);
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Undo a tick" }).TapAsync();
        Assert.StartsWith($"Step {first} of", await StepAsync(bench), StringComparison.Ordinal);
        Assert.Equal("50 of 51", await TallyAsync(bench)); // back to the last stitch of the run
        await bench.PictureAsync("stitch-near-the-end");
        await bench.NoSeriousFaultAsync();
    }

    [Fact]
    public async Task Keys_do_what_the_buttons_do_to_the_last_stitch_of_the_piece()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "stitch");
        await ToCablesAsync(bench);
        await bench.Page.Locator("#tick").FocusAsync();
        await bench.Page.Keyboard.PressAsync("ArrowRight");
        await bench.Page.Keyboard.PressAsync("ArrowRight");
        await bench.Page.Keyboard.PressAsync("Backspace");
        Assert.StartsWith("1 of", await TallyAsync(bench), StringComparison.Ordinal);
        await bench.Page.Keyboard.PressAsync("Enter"); // the focus is on the tick
        Assert.StartsWith("2 of", await TallyAsync(bench), StringComparison.Ordinal);
        for (var i = 0; i < 60; i++) await bench.Page.Keyboard.PressAsync("PageDown");
        await bench.Page.GetByText("All stitched").WaitForAsync();
        await bench.PictureAsync("stitch-done");
    }

    [Fact]
    public async Task Held_sideways_the_words_are_left_and_right_and_a_left_hand_goes_the_other_way()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "stitch", Screens.Tablet);
        await ToCablesAsync(bench);
        Assert.Equal("up", await bench.Page.Locator(".held-word").TextContentAsync());
        var before = await bench.Page.Locator(".held-stitch.now").BoundingBoxAsync();
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "Sideways" }).ClickAsync();
        Assert.Equal("left", await bench.Page.Locator(".held-word").TextContentAsync());
        Assert.Contains("the first left", await bench.Page.Locator(".chair-say").TextContentAsync(), StringComparison.Ordinal);
        await bench.PictureAsync("stitch-sideways");
        await bench.ReloadAsync();
        Assert.Equal("left", await bench.Page.Locator(".held-word").TextContentAsync());
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "Upright" }).ClickAsync();
        await bench.Page.GetByLabel("Left-handed").CheckAsync();
        var after = await bench.Page.Locator(".held-stitch.now").BoundingBoxAsync();
        Assert.True(before!.X < 300 && after!.X > 400, $"{before.X} {after!.X}");
        await bench.PictureAsync("stitch-left-handed");
    }

    [Fact]
    public async Task A_place_ticked_before_the_piece_was_changed_asks_to_be_looked_at()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "stitch");
        await bench.Page.Locator("#tick").ClickAsync();
        await bench.Page.GetByLabel("Left-handed").CheckAsync();
        await bench.Page.GetByText("The piece has changed since you last ticked").WaitForAsync();
        await bench.Page.GetByText("It is right").ClickAsync();
        Assert.Equal(0, await bench.Page.GetByText("The piece has changed since").CountAsync());
        Assert.StartsWith("Step 2", await StepAsync(bench), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stitches_of_bands_are_ticked_one_by_one_and_accents_one_by_one()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "shelf", Screens.Tablet, fillShelf: folder => File.WriteAllText(Path.Combine(folder, "tide.piece.json"), """
            { "pleatwright": 1, "title": "Tide",
              "cloth": { "form": "panel", "finishedWidth": "2 in", "gatheringRows": 4 },
              "threads": { "b": { "name": "slate", "colour": "#3b5b7a", "strands": 3 } },
              "bands": [ { "stitch": "baby wave", "gatheringRow": 2, "thread": "b" } ],
              "accents": [ { "accent": "knot", "gatheringRow": 3, "thread": "b", "repeat": { "count": 3, "every": 6 } } ],
              "back": "none" }
            """));
        await bench.Page.GetByText("Tide", new() { Exact = true }).First.ClickAsync();
        await bench.Page.Locator("#table-cloth").WaitForAsync();
        await bench.GoAsync("stitch");
        await bench.Page.Locator(".chair-run[data-kind=band]").WaitForAsync();
        // 24 pleats: from pleat 12 to 24 there are twelve stitches, the first the centre's up cable
        Assert.Equal("0 of 12", await TallyAsync(bench));
        Assert.Equal("up", await bench.Page.Locator(".held-word").TextContentAsync());
        await bench.Page.Locator("#tick").ClickAsync();
        Assert.Equal("1 of 12", await TallyAsync(bench));
        Assert.Equal("step down", await bench.Page.Locator(".held-word").TextContentAsync());
        Assert.Equal(1, await bench.Page.Locator(".held-line.done").CountAsync());
        await bench.NoSeriousFaultAsync();
        await bench.PictureAsync("stitch-band");
        await bench.ReloadAsync();
        await bench.Page.Locator(".chair-run[data-kind=band]").WaitForAsync();
        Assert.Equal("1 of 12", await TallyAsync(bench));
        // the other half is turned, and goes on from the centre with a step up as held
        await bench.Page.Locator("#tick").FocusAsync();
        for (var i = 0; i < 11; i++) await bench.Page.Keyboard.PressAsync("ArrowRight");
        await bench.Page.GetByText("Work turned, bottom edge up").WaitForAsync();
        Assert.Equal("0 of 11", await TallyAsync(bench));
        Assert.Equal("step up", await bench.Page.Locator(".held-word").TextContentAsync());
        await bench.PictureAsync("stitch-band-turned");
        await bench.Page.Keyboard.PressAsync("PageDown");
        await bench.Page.Locator(".chair-run[data-kind=accents]").WaitForAsync();
        Assert.Equal("0 of 3", await TallyAsync(bench));
        for (var i = 0; i < 3; i++) await bench.Page.Keyboard.PressAsync("ArrowRight");
        await bench.Page.GetByText("All stitched").WaitForAsync();
    }
}
