using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

public class OrderTests(Chromium chromium)
{
    [Fact]
    public async Task The_order_is_stepped_through_by_key_button_slide_and_directions()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "order");
        var words = bench.Page.Locator("#step-words");
        await Assertions.Expect(words).ToContainTextAsync("Before the first");
        await bench.Page.Locator("#order-cloth").FocusAsync();
        await bench.Page.Keyboard.PressAsync("ArrowRight");
        await bench.Page.Keyboard.PressAsync("ArrowRight");
        await Assertions.Expect(words).ToContainTextAsync("Step 2 of");
        await Assertions.Expect(bench.Page.Locator(".directions-list [aria-current=step] b")).ToHaveTextAsync("2");
        await bench.Page.GetByLabel("A step back").ClickAsync();
        await Assertions.Expect(words).ToContainTextAsync("Step 1 of");
        await bench.Page.GetByLabel("Step", new() { Exact = true }).FillAsync("10");
        await Assertions.Expect(words).ToContainTextAsync("Step 10 of");
        await bench.Page.Locator(".directions-list button", new() { HasText = "12" }).First.ClickAsync();
        await Assertions.Expect(words).ToContainTextAsync("Step 12 of");
        await bench.Page.Locator("#order-cloth").FocusAsync();
        await bench.Page.Keyboard.PressAsync("End");
        await Assertions.Expect(bench.Page.GetByLabel("A step on", new() { Exact = true })).ToBeDisabledAsync();
    }

    [Fact]
    public async Task The_place_in_the_order_is_kept_while_the_maker_looks_elsewhere()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "order");
        await bench.Page.Locator("#order-cloth").FocusAsync();
        for (var i = 0; i < 5; i++) await bench.Page.Keyboard.PressAsync("ArrowRight");
        await bench.Page.Keyboard.PressAsync("Alt+2");
        await Assertions.Expect(bench.Page.Locator("#table-cloth")).ToBeVisibleAsync();
        await bench.Page.Keyboard.PressAsync("Alt+3");
        await Assertions.Expect(bench.Page.Locator("#step-words")).ToContainTextAsync("Step 5 of");
    }

    [Fact]
    public async Task Left_hand_and_words_change_the_directions()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "order");
        var list = bench.Page.Locator(".directions-list");
        var right = await list.InnerTextAsync();
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "Left, right" }).ClickAsync();
        await Assertions.Expect(list).Not.ToHaveTextAsync(right);
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "How you work" }).ClickAsync();
        await bench.NoSeriousFaultAsync();
        await bench.Page.GetByLabel("the left hand").CheckAsync();
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Keep", Exact = true }).ClickAsync();
        await bench.Page.GetByRole(AriaRole.Radio, new() { Name = "Up, down" }).ClickAsync();
        await Assertions.Expect(list).Not.ToHaveTextAsync(right);
    }
}
