using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Cloth;

namespace Pleatwright.Browser.Tests;

/// <summary>Pieces of garments: what hangs on a panel of a bishop and follows it through its sizes, and a cuff from the first question to the plate.</summary>
public class GarmentTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private const string Tide = """
        { "pleatwright": 1, "title": "Tide",
          "cloth": { "form": "round", "neck": "10 in", "panels": [ { "name": "back", "cut": "14 in" }, { "name": "front", "cut": "18 in" }, { "name": "sleeve", "cut": "10 in" } ], "gatheringRows": 6 },
          "threads": { "r": { "name": "sail red", "colour": "#b3202c" } },
          "figures": { "boat": { "rows": ["..rrr..", ".rrrrr.", "rrrrrrr"] } },
          "place": [ { "figure": "boat", "centre": 70, "gatheringRow": 3, "figureRow": 2 } ],
          "sizes": [ { "name": "large", "neck": "12 in", "panels": [ { "name": "back", "cut": "16 in" }, { "name": "front", "cut": "22 in" }, { "name": "sleeve", "cut": "12 in" } ] } ] }
        """;

    private static int Away(Piece piece)
    {
        var pleating = new PleatingPlan(piece.Cloth);
        return piece.Placements[0].Centre.On(pleating).Number - Centre.Hung("front", CountedFrom.Centre, 0).On(pleating).Number;
    }

    [Fact]
    public async Task A_figure_is_hung_on_the_front_of_a_bishop_and_keeps_from_its_centre_in_every_size()
    {
        await using var bench = await warm.WithAsync(Tide);
        await AtTheTable.OpenAsync(bench, "Figures");
        await bench.Page.Locator("#drawer [title='Place and repeat']").First.ClickAsync();
        await AtTheTable.Field(bench, "Hangs on the panel").SelectOptionAsync("front");
        var hung = await AtTheTable.OnShelfAsync(bench, p => p.Placements[0].Centre.Panel == "front");
        Assert.Equal(70, hung.Placements[0].Centre.On(new PleatingPlan(hung.Cloth)).Number); // it stays where it lies
        await AtTheTable.NumberAsync(bench, "Valleys from there", 6);
        var moved = await AtTheTable.OnShelfAsync(bench, p => p.Placements[0].Centre is { Panel: "front", Valleys: 6 });
        Assert.Equal(6, Away(moved));
        Assert.Equal(6, Away(SizeTable.In(moved, moved.Sizes[0])));
        foreach (var (name, size) in Screens.All)
        {
            await bench.LookAsync(size);
            await bench.PictureAsync($"hung-{name}");
            await bench.FitsTheScreenAsync();
        }
        await bench.LookAsync(Screens.Desktop);
        await bench.NoSeriousFaultAsync();
        await AtTheTable.Field(bench, "Counted from").SelectOptionAsync(nameof(CountedFrom.Left));
        var edge = await AtTheTable.OnShelfAsync(bench, p => p.Placements[0].Centre.From == CountedFrom.Left);
        Assert.Equal(moved.Placements[0].Centre.On(new PleatingPlan(moved.Cloth)), edge.Placements[0].Centre.On(new PleatingPlan(edge.Cloth)));
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "To the panel’s centre" }).ClickAsync();
        await AtTheTable.OnShelfAsync(bench, p => Away(p) == 0);
    }

    [Fact]
    public async Task A_cuff_is_asked_for_drawn_on_and_printed()
    {
        await using var bench = await warm.AfreshAsync("shelf");
        var page = bench.Page;
        await page.GetByRole(AriaRole.Button, new() { Name = "New piece" }).ClickAsync();
        await page.GetByLabel("What shall it be called?").FillAsync("Shore cuff");
        await page.GetByLabel("A straight cuff or bonnet strip, sewn in at both edges").CheckAsync();
        await page.GetByLabel("Finished width").FillAsync("7 in");
        // 7 in at 4 to 1 of a fifth of an inch: 140 pleats.
        await Assertions.Expect(page.Locator(".comes-to")).ToContainTextAsync("140 pleats");
        await bench.NoSeriousFaultAsync();
        await bench.PictureAsync("new-cuff");
        await page.GetByRole(AriaRole.Button, new() { Name = "Lay it on the table" }).ClickAsync();
        await page.Locator(".bench[data-view=table] #table-cloth").FocusAsync();
        await page.Keyboard.PressAsync("a");
        for (var i = 0; i < 4; i++) await AtTheTable.PressAsync(bench, "Control+ArrowRight");
        var piece = await AtTheTable.OnShelfAsync(bench, p => p.Figures.Length == 1 && Work.Lay(p).Cables >= 4, "Shore cuff");
        Assert.IsType<Cuff>(piece.Cloth.Form);
        await bench.SeeAsync("plate");
        await page.GetByLabel("Pleating card").CheckAsync();
        await page.GetByAltText("Pleating card").First.WaitForAsync();
        await bench.PictureAsync("cuff-card");
        await page.GetByLabel("The plate", new() { Exact = true }).CheckAsync();
        await page.GetByAltText("Chart").First.WaitForAsync();
        var download = await AtThePlate.TakeAwayAsync(page, "PDF");
        Assert.Equal("Shore cuff.pdf", download.SuggestedFilename);
    }
}
