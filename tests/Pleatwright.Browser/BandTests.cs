using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Cloth;

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
    public async Task Bands_that_lie_alike_one_over_the_other_leave_the_proof_standing()
    {
        const string wave = """{ "stitch": "wave", "gatheringRow": 2, "thread": "b", "height": 2, "offset": -8 }""";
        await using var bench = await warm.WithAsync(Tide.Replace("\"back\"", $"\"bands\": [ {wave}, {wave} ], \"back\"", StringComparison.Ordinal));
        await AtTheTable.OpenAsync(bench, "Proof");
        await Assertions.Expect(bench.Page.Locator(".proof")).ToContainTextAsync("lie over each other");
        await bench.Page.Locator("#table-cloth").FocusAsync();
        // a lone cable above them, and out again: the margin is put in order anew
        await AtTheTable.PressAsync(bench, "b", "Space");
        await Assertions.Expect(bench.Page.Locator(".proof")).ToContainTextAsync("A lone cable");
        await AtTheTable.PressAsync(bench, "Control+z");
        await Assertions.Expect(bench.Page.Locator(".proof")).Not.ToContainTextAsync("A lone cable");
        await Assertions.Expect(bench.Page.Locator(".finding", new() { HasText = "reaches" })).ToHaveCountAsync(2);
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
    public async Task Where_the_repeats_do_not_come_out_a_press_makes_them()
    {
        await using var bench = await warm.WithAsync(Tide);
        await AskAsync(bench);
        await AtTheTable.Field(bench, "Stitch").SelectOptionAsync("trellis");
        // 48 pleats hold four repeats of ten valleys and six pleats more
        await Assertions.Expect(bench.Page.Locator(".comes-to")).ToContainTextAsync("4 whole repeats take 42 of 48 pleats");
        await Button(bench, "3 pleats bare at each side").ClickAsync();
        await Assertions.Expect(AtTheTable.Field(bench, "Ends")).ToHaveValueAsync("Whole");
        await Button(bench, "Cloth of 52 pleats").ClickAsync();
        await Assertions.Expect(bench.Page.Locator(".comes-to")).ToContainTextAsync("5 whole repeats take all 52 pleats");
        await Assertions.Expect(bench.Page.Locator("dialog[open] [role=group] button")).ToHaveCountAsync(0);
        await Button(bench, "Put it on").ClickAsync();
        var piece = await AtTheTable.OnShelfAsync(bench, p => p.Bands.Length == 1);
        Assert.Equal(52, new PleatingPlan(piece.Cloth).Pleats);
        await AtTheTable.OpenAsync(bench, "Cloth");
        await Assertions.Expect(bench.Page.Locator(".tape")).ToContainTextAsync("52");
        // one press, one undo: the band and the cloth together
        await bench.Page.Locator("#table-cloth").FocusAsync();
        await AtTheTable.PressAsync(bench, "Control+z");
        var back = await AtTheTable.OnShelfAsync(bench, p => p.Bands.IsEmpty);
        Assert.Equal(48, new PleatingPlan(back.Cloth).Pleats);
    }

    [Fact]
    public async Task A_fault_is_said_and_cannot_be_put_on()
    {
        await using var bench = await warm.WithAsync(Tide, Screens.Phone, dark: true);
        await AskAsync(bench);
        await AtTheTable.NumberAsync(bench, "First pleat", 40);
        await AtTheTable.NumberAsync(bench, "Last pleat", 40);
        await Assertions.Expect(bench.Page.Locator(".comes-to")).ToHaveTextAsync("A band needs two pleats at least.");
        await Assertions.Expect(Button(bench, "Put it on")).ToBeDisabledAsync();
        await AtTheTable.Field(bench, "Last pleat").FillAsync("");
        await AtTheTable.Field(bench, "Last pleat").BlurAsync();
        await Assertions.Expect(Button(bench, "Put it on")).ToBeEnabledAsync();
        await bench.PictureAsync("band-sheet-phone");
        await bench.NoSeriousFaultAsync();
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
