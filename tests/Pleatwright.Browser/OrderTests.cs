using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Order;

namespace Pleatwright.Browser.Tests;

public class OrderTests(WarmBench warm) : IClassFixture<WarmBench>
{
    // The example laid anew, and a view of it.
    private async Task<OpenBench> AtAsync(string view)
    {
        var bench = await warm.ExampleAsync();
        await bench.SeeAsync(view);
        return bench;
    }

    [Fact]
    public async Task The_order_is_stepped_through_by_key_button_slide_and_directions()
    {
        await using var bench = await AtAsync("order");
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
        await bench.Page.Locator(".directions-list button", new() { Has = bench.Page.Locator("b", new() { HasTextRegex = new("^12$") }) }).First.ClickAsync();
        await Assertions.Expect(words).ToContainTextAsync("Step 12 of");
        await bench.Page.Locator("#order-cloth").FocusAsync();
        await bench.Page.Keyboard.PressAsync("End");
        await Assertions.Expect(bench.Page.GetByLabel("A step on", new() { Exact = true })).ToBeDisabledAsync();
    }

    private static string Tangled(int seed)
    {
        var random = new Random(seed);
        var rows = Enumerable.Range(0, 7).Select(_ => new string([.. Enumerable.Range(0, 15).Select(_ => ".ab"[random.Next(3)])]));
        return $$"""
            { "pleatwright": 1, "title": "Tangled",
              "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 5 },
              "threads": { "a": { "name": "slate", "colour": "#3b5b7a", "strands": 3 }, "b": { "name": "rust", "colour": "#8c4a2f", "strands": 3 } },
              "figures": { "tangle": { "rows": [ {{string.Join(", ", rows.Select(r => $"\"{r}\""))}} ] } },
              "place": [ { "figure": "tangle", "centre": "middle", "gatheringRow": 2, "figureRow": 0 } ],
              "working": { "way": "fewest starts", "workingLength": "30 cm", "parkedThreads": 1 }, "back": "none" }
            """;
    }

    [Fact]
    public async Task The_order_at_the_bench_is_the_one_that_the_commands_give_in_every_view()
    {
        // a piece of which the quick order, shown meanwhile, has more starts
        var (piece, steps, starts) = Enumerable.Range(0, 200).Select(Tangled).Select(text => (Text: text, Work: Smocking.Lay(Smocking.Read(text))))
            .Select(p => (p.Text, Quick: Smocking.Plan(p.Work, Effort.Drawing), Careful: Smocking.Plan(p.Work)))
            .Where(p => p.Quick.Starts > p.Careful.Starts).Select(p => (p.Text, p.Careful.Steps.Length, p.Careful.Starts)).First();
        await using var bench = await warm.WithAsync(piece);
        await bench.SeeAsync("stitch");
        await bench.Page.Locator("#tick").WaitForAsync();
        for (var i = 0; i < 100 && await bench.Page.Locator(".chair-run:not([data-kind=cables])").CountAsync() > 0; i++) await bench.Page.Keyboard.PressAsync("PageDown");
        await Assertions.Expect(bench.Page.Locator(".chair-line b").First).ToHaveTextAsync(FormattableString.Invariant($"Step 1 of {steps}"));
        await bench.SeeAsync("order");
        await Assertions.Expect(bench.Page.Locator(".seeking")).ToHaveCountAsync(0); // planned once
        await Assertions.Expect(bench.Page.Locator(".order-sums div", new() { HasTextRegex = new("^starts of runs") }).Locator("dd")).ToHaveTextAsync(FormattableString.Invariant($"{starts}"));
    }

    [Fact]
    public async Task The_base_row_is_pinned_at_the_table_and_every_habit_in_the_sheet()
    {
        await using var bench = await AtAsync("table");
        await bench.Page.Locator("#table-cloth").FocusAsync();
        await AtTheTable.PressAsync(bench, ","); // the hand begins in the middle row, 20
        await AtTheTable.OnShelfAsync(bench, p => p.Working.BaseRow?.Index == 20);
        await AtTheTable.PressAsync(bench, ",");
        await AtTheTable.OnShelfAsync(bench, p => p.Working.BaseRow is null);
        await bench.Page.Keyboard.PressAsync("Alt+3");
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "How you work", Exact = true }).ClickAsync();
        await bench.Page.GetByLabel("fewest starts").CheckAsync();
        await AtTheTable.NumberAsync(bench, "Cable row to begin on", 15);
        await AtTheTable.NumberAsync(bench, "Threads left hanging meanwhile", 1);
        await AtTheTable.NumberAsync(bench, "Thread your stitches take, times what is reckoned", 2);
        await bench.Page.GetByLabel("Turn the work top to bottom").UncheckAsync();
        await bench.Page.GetByLabel("Change the thread within a run").UncheckAsync();
        await bench.PictureAsync("working-sheet");
        await bench.NoSeriousFaultAsync();
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Keep", Exact = true }).ClickAsync();
        await AtTheTable.OnShelfAsync(bench, p => p.Working is { Way: WayOfWorking.FewestStarts, BaseRow.Index: 15, ParkedThreads: 1, ThreadFactor: 2, MayTurn: false, SplitRuns: false });
        await Assertions.Expect(bench.Page.Locator(".directions-list")).ToContainTextAsync("on gathering row 4");
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "How you work", Exact = true }).ClickAsync();
        await bench.Page.GetByLabel("the widest row").CheckAsync();
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Keep", Exact = true }).ClickAsync();
        await AtTheTable.OnShelfAsync(bench, p => p.Working.BaseRow is null);
    }

    [Fact]
    public async Task A_run_is_fixed_to_a_place_in_the_order_and_let_go()
    {
        await using var bench = await AtAsync("order");
        await bench.Page.Locator("#order-cloth").FocusAsync();
        for (var i = 0; i < 4; i++) await bench.Page.Keyboard.PressAsync("ArrowRight");
        var place = bench.Page.Locator(".pinning input");
        await Assertions.Expect(place).ToHaveValueAsync("2"); // the first run takes three steps
        await place.FillAsync("1");
        await place.BlurAsync();
        var pinned = await AtTheTable.OnShelfAsync(bench, p => p.Working.Places is [{ Place: 1 }]);
        await Assertions.Expect(bench.Page.Locator(".pinning")).ToContainTextAsync("fixed to place 1");
        await Assertions.Expect(place).ToHaveValueAsync("1");
        await bench.NoSeriousFaultAsync();
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "How you work", Exact = true }).ClickAsync();
        await Assertions.Expect(bench.Page.GetByLabel("Let run 1 go where it is best")).ToBeVisibleAsync();
        await bench.Page.Keyboard.PressAsync("Escape");
        await bench.Page.Locator(".pinning").GetByRole(AriaRole.Button, new() { Name = "Let it go" }).ClickAsync();
        await AtTheTable.OnShelfAsync(bench, p => p.Working.Places.IsEmpty);
        Assert.Single(pinned.Working.Places);
    }
}
