using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Cloth;

namespace Pleatwright.Browser.Tests;

/// <summary>The cloth in the bench: a new piece of every form, sizes, swatches, and the sheets that prepare it.</summary>
public class ClothTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private static async Task AskAsync(OpenBench bench, string button)
    {
        await AtTheTable.OpenAsync(bench, "Cloth");
        await bench.Page.Locator("#drawer").GetByRole(AriaRole.Button, new() { Name = button }).ClickAsync();
    }

    private static Task<Piece> KeptAsync(OpenBench bench, Func<Piece, bool> until, string? name = null) => AtTheTable.OnShelfAsync(bench, until, name);

    private static IPage P(OpenBench bench) => bench.Page;

    [Fact]
    public async Task A_bishop_is_asked_for_by_keyboard_alone_and_leads_to_its_card()
    {
        await using var bench = await warm.AtAsync("shelf");
        await P(bench).GetByRole(AriaRole.Button, new() { Name = "New piece" }).FocusAsync();
        var keys = P(bench).Keyboard;
        await keys.PressAsync("Enter");
        await P(bench).GetByLabel("What shall it be called?").FocusAsync();
        await keys.TypeAsync("Small bishop");
        await keys.PressAsync("Tab");
        await keys.PressAsync("ArrowDown"); // from the panel to the bishop
        await Assertions.Expect(P(bench).GetByLabel("A round yoke: a bishop")).ToBeCheckedAsync();
        await keys.PressAsync("Tab");
        await keys.PressAsync("Control+a");
        await keys.TypeAsync("10 in");
        // 10 in at 4 to 1 of a fifth of an inch, packed for pictures: 200 pleats, said while it is typed.
        await Assertions.Expect(P(bench).Locator(".comes-to")).ToContainTextAsync("200 pleats");
        await Assertions.Expect(P(bench).Locator(".comes-to")).ToContainTextAsync("4 to 1 at the neck");
        await P(bench).GetByRole(AriaRole.Button, new() { Name = "Give the panels as they are cut" }).FocusAsync();
        await keys.PressAsync("Enter");
        var cuts = P(bench).GetByLabel("Cut width");
        await Assertions.Expect(cuts).ToHaveCountAsync(5);
        for (var i = 0; i < 5; i++) await cuts.Nth(i).FillAsync("10 in");
        // 50 in of cloth hold 250 pleats of a fifth of an inch, less three seam pleats at each side.
        await Assertions.Expect(P(bench).Locator(".comes-to")).ToContainTextAsync("244 pleats");
        await Assertions.Expect(P(bench).Locator(".comes-to")).ToContainTextAsync("2 widths of cloth");
        await P(bench).Locator("summary").Filter(new() { HasText = "Rows" }).ClickAsync();
        await P(bench).GetByLabel("Gathered on a pleater").CheckAsync();
        await P(bench).GetByLabel("Rows it takes in one pass").FillAsync("8");
        await Assertions.Expect(P(bench).Locator(".comes-to")).ToContainTextAsync("11 rows to gather, 3 in deep, in 2 passes");
        await bench.NoSeriousFaultAsync();
        await bench.PictureAsync("new-bishop-desktop");
        await P(bench).GetByLabel("Round the neck").FillAsync("ten");
        await P(bench).GetByRole(AriaRole.Button, new() { Name = "Prepare the cloth first" }).ClickAsync();
        Assert.Equal("shelf", await P(bench).Locator(".bench").GetAttributeAsync("data-view")); // kept back by the length that is none
        await P(bench).GetByLabel("Round the neck").FillAsync("10 in");
        await P(bench).GetByRole(AriaRole.Button, new() { Name = "Prepare the cloth first" }).ClickAsync();
        await P(bench).Locator(".bench[data-view=plate]").WaitForAsync();
        await Assertions.Expect(P(bench).GetByLabel("Pleating card")).ToBeCheckedAsync();
        await P(bench).GetByAltText("Pleating card").First.WaitForAsync();
        var piece = await KeptAsync(bench, _ => true, "Small bishop");
        Assert.Equal((244, 5, new Pleater(8, 1)), (new PleatingPlan(piece.Cloth).Pleats, ((Round)piece.Cloth.Form).Panels.Length, piece.Cloth.Pleater));
    }

    [Fact]
    public async Task Sizes_are_added_told_where_they_fail_kept_printed_and_undone()
    {
        await using var bench = await warm.ExampleAsync(size: Screens.Tablet);
        await AskAsync(bench, "Sizes");
        await P(bench).GetByRole(AriaRole.Button, new() { Name = "Another size" }).ClickAsync();
        await P(bench).GetByLabel("Name of the size").FillAsync("narrow");
        await P(bench).GetByLabel("Finished width").FillAsync("1 in");
        await Assertions.Expect(P(bench).Locator(".size-table tbody tr").Nth(1)).ToContainTextAsync("off the side");
        await P(bench).GetByLabel("Finished width").FillAsync("14 in");
        var row = P(bench).Locator(".size-table tbody tr").Nth(1);
        await Assertions.Expect(row).ToContainTextAsync("224");
        await Assertions.Expect(row).ToContainTextAsync("yes");
        await bench.NoSeriousFaultAsync();
        await bench.PictureAsync("sizes-tablet");
        await P(bench).GetByLabel("Name of the size").FillAsync("wide");
        await P(bench).GetByRole(AriaRole.Button, new() { Name = "Print it" }).ClickAsync();
        await P(bench).Locator(".bench[data-view=plate]").WaitForAsync();
        Assert.Equal("wide", await P(bench).GetByLabel("In size").InputValueAsync());
        await P(bench).GetByLabel("Dot sheet").CheckAsync();
        await P(bench).GetByAltText("Dot sheet").First.WaitForAsync();
        await Assertions.Expect(P(bench).Locator(".plate-formats button, .plate-take > button.format")).ToHaveCountAsync(2);
        var download = await AtThePlate.TakeAwayAsync(P(bench), "PDF");
        Assert.Equal("Harbour morning wide dots.pdf", download.SuggestedFilename);
        using (var reader = new StreamReader(await download.CreateReadStreamAsync())) Assert.StartsWith("%PDF-", await reader.ReadToEndAsync(), StringComparison.Ordinal);
        await KeptAsync(bench, p => p.Sizes is [{ Name: "wide" }]);
        await P(bench).GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await KeptAsync(bench, p => p.Sizes.IsEmpty);
        await Assertions.Expect(P(bench).GetByLabel("In size")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Every_sheet_of_every_form_is_shown()
    {
        foreach (var example in (string[])["quay-bishop", "net-float"])
        {
            await using var bench = await warm.ExampleAsync(example);
            await AskAsync(bench, "Sheets to prepare it by");
            await P(bench).GetByLabel("Pleating card").CheckAsync(); // it is what was printed last, whatever that was
            await P(bench).GetByAltText("Pleating card").First.WaitForAsync();
            await P(bench).GetByLabel("Blocking guide").CheckAsync();
            await P(bench).GetByAltText("Blocking guide").First.WaitForAsync();
            await bench.NoSeriousFaultAsync();
            await bench.PictureAsync("blocking-" + example);
        }
    }
}
