using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

/// <summary>A name typed at the table, shown on the cloth while it is typed, and put on.</summary>
public class LettersTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private const string Bib = """
        { "pleatwright": 1, "title": "Bib",
          "cloth": { "form": "panel", "finishedWidth": "12 in", "gatheringRows": 9 },
          "threads": { "r": { "name": "sail red", "colour": "#b3202c" }, "b": { "name": "hull blue", "colour": "#1f4e79" } } }
        """;

    [Fact]
    public async Task A_name_is_typed_seen_on_the_cloth_and_put_on()
    {
        await using var bench = await warm.WithAsync(Bib);
        await AtTheTable.OpenAsync(bench, "Figures");
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "A name in letters" }).ClickAsync();
        var sheet = bench.Page.Locator("dialog[open]");
        var status = sheet.GetByRole(AriaRole.Status);
        await Assertions.Expect(status).ToHaveTextAsync("Type what is to be stitched.");
        await sheet.Locator("textarea").FillAsync("Жan");
        await Assertions.Expect(status).ToContainTextAsync("“Ж” (character 1, U+0416)");
        await Assertions.Expect(sheet.GetByRole(AriaRole.Button, new() { Name = "Put it on" })).ToBeDisabledAsync();
        await sheet.Locator("textarea").FillAsync("Øya");
        await Assertions.Expect(status).ToContainTextAsync("“Øya”: ");
        // a font of the maker's own; one that is none is refused, and what there was stays
        await sheet.Locator("input[type=file]").SetInputFilesAsync(new FilePayload { Name = "none.ttf", MimeType = "font/ttf", Buffer = [1, 2, 3] });
        await Assertions.Expect(sheet.GetByRole(AriaRole.Alert)).ToContainTextAsync("none.ttf: this is no font that can be read here");
        await sheet.Locator("input[type=file]").SetInputFilesAsync(Repository.Path("src", "Pleatwright.Typefaces", "Fraunces-Regular.ttf"));
        await Assertions.Expect(AtTheTable.Field(bench, "Letters")).ToHaveValueAsync("font");
        await Assertions.Expect(status).ToContainTextAsync("“Øya”: ");
        await sheet.Locator("textarea").FillAsync("漢");
        await Assertions.Expect(status).ToContainTextAsync("is not among the letters of Fraunces-Regular");
        await sheet.Locator("textarea").FillAsync("Øya");
        await AtTheTable.Field(bench, "Letters").SelectOptionAsync("roman");
        await sheet.GetByText("A border round it").ClickAsync();
        await AtTheTable.Field(bench, "Border in").SelectOptionAsync("b");
        await Assertions.Expect(status).ToContainTextAsync("“Øya”: ");
        await bench.NoSeriousFaultAsync();
        await sheet.GetByRole(AriaRole.Button, new() { Name = "Put it on" }).ClickAsync();
        var piece = await AtTheTable.OnShelfAsync(bench, p => p.Figures is [{ Letters: "Øya" }]);
        Assert.Equal("Øya", Assert.Single(piece.Placements).Figure);
        Assert.Contains(piece.Figures[0].Rows, r => r.Contains('b'));
        Assert.Contains(piece.Figures[0].Rows, r => r.Contains('r'));
        await bench.Page.Locator("#table-cloth").FocusAsync();
        await AtTheTable.PressAsync(bench, "Control+z");
        await AtTheTable.OnShelfAsync(bench, p => p.Figures.IsEmpty); // one press takes it off again
    }
}
