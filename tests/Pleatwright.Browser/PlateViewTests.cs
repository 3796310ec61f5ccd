using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

/// <summary>The plate: chosen, looked through and taken away without a pointer.</summary>
public class PlateViewTests(WarmBench warm) : IClassFixture<WarmBench>
{
    [Fact]
    public async Task Every_choice_is_made_and_the_plate_taken_away_by_keyboard()
    {
        await using var bench = await warm.AfreshAsync("table");
        await AtThePlate.SeeAsync(bench);
        await ReachAsync(bench, "The plate");
        await ReachAsync(bench, "Paper");
        await ChooseAsync(bench, "let");
        await Assertions.Expect(bench.Page.GetByLabel("Paper")).ToHaveValueAsync("Letter");
        await ReachAsync(bench, "Lengths in");
        await ChooseAsync(bench, "inc");
        await ReachAsync(bench, "Edition");
        await ChooseAsync(bench, "learner");
        await ReachAsync(bench, "Levels are called");
        await ChooseAsync(bench, "left");
        await ReachAsync(bench, "Written for");
        await ChooseAsync(bench, "a left");
        await ReachAsync(bench, "Large print");
        await bench.Page.Keyboard.PressAsync("Space");
        await ReachAsync(bench, "Chart at the size");
        await bench.Page.Keyboard.PressAsync("Space");
        await Assertions.Expect(bench.Page.Locator("button.format").Filter(new() { HasText = "TXT" })).ToBeEnabledAsync(); // the pages are laid out
        await ReachAsync(bench, "TXT");
        await bench.Page.Locator(".plate-pages[aria-busy=false] img").First.WaitForAsync();
        await Assertions.Expect(bench.Page.Locator(".plate-pages[aria-busy=false] img").First).ToHaveAttributeAsync("style", new System.Text.RegularExpressions.Regex("215.9 / 279.4"));
        var download = await AtThePlate.TakeAwayAsync(bench.Page, () => bench.Page.Keyboard.PressAsync("Enter"));
        using var reader = new StreamReader(await download.CreateReadStreamAsync());
        var text = await reader.ReadToEndAsync();
        Assert.Contains("the first left", text, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("Keep the thread for the next step", text, StringComparison.Ordinal);
        Assert.DoesNotContain(" cm", text, StringComparison.Ordinal);
        await ReachAsync(bench, "Size of the paper");
        await bench.Page.Keyboard.PressAsync("Enter");
        await bench.Page.Locator(".plate-pages[data-size=true]").WaitForAsync();
    }

    // Tabs on until what has the focus says so.
    private static async Task ReachAsync(OpenBench bench, string words)
    {
        for (var i = 0; i < 60; i++)
        {
            var says = await bench.Page.EvaluateAsync<string>("(document.activeElement.labels?.[0] ?? document.activeElement).innerText ?? ''");
            if (says.Contains(words, StringComparison.OrdinalIgnoreCase) && await bench.Page.EvaluateAsync<bool>("document.activeElement.matches('button, input, select')")) return;
            await bench.Page.Keyboard.PressAsync("Tab");
        }
        Assert.Fail($"“{words}” is not reached by the Tab key.");
    }

    // Down a select until what is chosen begins so. (Letters typed would do too, but a browser takes them for one word only when they come fast.)
    private static async Task ChooseAsync(OpenBench bench, string begins)
    {
        await bench.Page.Keyboard.PressAsync("Home");
        for (var passed = ""; ; await bench.Page.Keyboard.PressAsync("ArrowDown"))
        {
            var chosen = await bench.Page.EvaluateAsync<string>("document.activeElement.selectedOptions[0].text");
            if (chosen.StartsWith(begins, StringComparison.OrdinalIgnoreCase)) return;
            Assert.True(chosen != passed, $"Nothing that begins with “{begins}” is come to by the arrow keys.");
            passed = chosen;
        }
    }
}
