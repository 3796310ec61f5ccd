using Microsoft.Playwright;
using Pleatwright.Chart;

namespace Pleatwright.Browser.Tests;

/// <summary>Bands put on and changed at the table, with every choice their stitch has.</summary>
public class BandTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private const string Tide = """
        { "pleatwright": 1, "title": "Tide",
          "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 6 },
          "threads": { "b": { "name": "slate", "colour": "#3b5b7a", "strands": 3 }, "r": { "name": "sail red", "colour": "#b3202c", "strands": 3 } },
          "back": "none" }
        """;

    private static ILocator Button(OpenBench bench, string words) => bench.Page.Locator("dialog[open]").GetByRole(AriaRole.Button, new() { Name = words, Exact = true });

    private static async Task AskAsync(OpenBench bench)
    {
        await AtTheTable.OpenAsync(bench, "Bands");
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "A band", Exact = true }).ClickAsync();
    }

    [Fact]
    public async Task A_band_is_put_on_with_all_it_can_choose_changed_and_taken_off()
    {
        await using var bench = await warm.WithAsync(Tide);
        await AskAsync(bench);
        await AtTheTable.Field(bench, "Stitch").SelectOptionAsync("outline");
        Assert.Equal(0, await AtTheTable.Field(bench, "Steps from turn to turn").CountAsync());
        Assert.Equal(0, await AtTheTable.Field(bench, "Quarter spaces high").CountAsync());
        Assert.Equal(0, await AtTheTable.Field(bench, "Ends").CountAsync());
        Assert.Equal(1, await AtTheTable.Field(bench, "Worked from").CountAsync());
        await AtTheTable.Field(bench, "Stitch").SelectOptionAsync("cable");
        Assert.Equal(0, await AtTheTable.Field(bench, "Worked from").CountAsync());
        await AtTheTable.Field(bench, "Stitch").SelectOptionAsync("trellis");
        await AtTheTable.NumberAsync(bench, "On gathering row", 2);
        await AtTheTable.Field(bench, "In").SelectOptionAsync("r");
        await AtTheTable.NumberAsync(bench, "Times, one under the other", 2);
        await AtTheTable.NumberAsync(bench, "Steps from turn to turn", 5);
        await AtTheTable.NumberAsync(bench, "Quarter spaces high", 6);
        await AtTheTable.NumberAsync(bench, "Quarter spaces lower", 1);
        await AtTheTable.NumberAsync(bench, "Cable rows lower still", -1);
        await AtTheTable.NumberAsync(bench, "First pleat", 5);
        await AtTheTable.NumberAsync(bench, "Last pleat", 44);
        await AtTheTable.Field(bench, "Ends").SelectOptionAsync("Whole");
        await AtTheTable.Field(bench, "Worked from").SelectOptionAsync("Side");
        await bench.Page.GetByLabel("Upside down").CheckAsync();
        await Assertions.Expect(bench.Page.Locator(".glimpse img")).ToBeVisibleAsync();
        await bench.PictureAsync("band-sheet");
        await bench.NoSeriousFaultAsync();
        await Button(bench, "Put it on").ClickAsync();
        var put = (await AtTheTable.OnShelfAsync(bench, p => p.Bands.Length == 1)).Bands[0];
        Assert.Equal(new Band("trellis", new GatheringRow(2), new('r'))
        {
            Rows = 2, Steps = 5, Height = 6, Offset = 1, Drop = -1, From = new Pleat(5), To = new Pleat(44), Ends = BandEnds.Whole, WorkFrom = WorkFrom.Side, UpsideDown = true,
        }, put);
        // what another stitch does not take is left out
        await bench.Page.GetByLabel("Change the trellis band on gathering row 2").ClickAsync();
        await AtTheTable.Field(bench, "Stitch").SelectOptionAsync("cable");
        await Button(bench, "Keep").ClickAsync();
        var changed = (await AtTheTable.OnShelfAsync(bench, p => p.Bands is [{ Stitch: "cable" }])).Bands[0];
        Assert.Equal((null, null, null, BandEnds.Cut), (changed.Steps, changed.Height, changed.WorkFrom, changed.Ends));
        await bench.Page.Locator("#table-cloth").FocusAsync();
        await AtTheTable.PressAsync(bench, "Control+z");
        await AtTheTable.OnShelfAsync(bench, p => p.Bands is [{ Stitch: "trellis" }]);
        await AtTheTable.PressAsync(bench, "Control+z");
        await AtTheTable.OnShelfAsync(bench, p => p.Bands.IsEmpty);
    }

    [Fact]
    public async Task The_band_under_the_hand_is_named_and_changed_by_key()
    {
        await using var bench = await warm.WithAsync(Tide.Replace("\"back\"", "\"bands\": [ { \"stitch\": \"outline\", \"gatheringRow\": 3, \"thread\": \"b\" } ], \"back\"", StringComparison.Ordinal));
        await AtTheTable.PressAsync(bench, "PageUp", "PageUp", "PageUp", "PageUp", "PageUp", "PageDown", "PageDown"); // to gathering row 3
        await Assertions.Expect(bench.Page.Locator("#here-words")).ToContainTextAsync("Outline, slate");
        await AtTheTable.PressAsync(bench, ";");
        await Assertions.Expect(bench.Page.Locator("dialog[open] h2")).ToHaveTextAsync("Change the band");
        await AtTheTable.Field(bench, "In").SelectOptionAsync("r");
        await Button(bench, "Keep").ClickAsync();
        await AtTheTable.OnShelfAsync(bench, p => p.Bands[0].Thread.Letter == 'r');
    }
}
