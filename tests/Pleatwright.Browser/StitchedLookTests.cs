using Microsoft.Playwright;
using Pleatwright.Thread;

namespace Pleatwright.Browser.Tests;

/// <summary>The stitched look as a graphics card draws it, beside the core's own picture; without one; and the picture to take away.</summary>
public class StitchedLookTests(Chromium chromium, WarmBench warm) : IClassFixture<WarmBench>
{
    // A block of thread on pale cloth, so that its middle is one colour. Small, and seen on a small screen: the tests' card is only made believe by the
    // processor, which takes a minute for what a card does in a frame.
    private const string Filled = """
        { "pleatwright": 1, "title": "Filled", "cloth": { "form": "panel", "finishedWidth": "3/2 in", "gauge": { "pleatsPerInch": 16, "takeUp": "1/4 in", "rowSpacing": "3/8 in", "cableRowsPerSpace": 6 }, "gatheringRows": 4, "colour": "#f4efe3" },
          "threads": { "r": { "name": "red", "colour": "#b3202c", "strands": 5 } },
          "figures": { "block": { "rows": ["rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr", "rrrrrrrrrrrrrrrrrrrrr"] } },
          "place": [ { "figure": "block", "centre": "middle", "gatheringRow": 2, "figureRow": 6 } ] }
        """;

    private static readonly ViewportSize Small = new() { Width = 320, Height = 480 };

    // Open at the table, where the browser says of its card what a script has it say.
    private async Task<OpenBench> AtAsync(string before)
    {
        var bench = await OpenBench.AtAsync(chromium, "shelf", Small, fillShelf: folder => File.WriteAllText(Path.Combine(folder, "filled.piece.json"), Filled), before: before);
        await bench.Page.Locator("#piece-" + Convert.ToHexString("filled"u8)).ClickAsync();
        await bench.Page.Locator(".bench[data-view=table] #table-cloth").FocusAsync();
        return bench;
    }

    // The mean colour of a part of the cloth's canvas, about its middle.
    private static async Task<Colour> MeanAsync(IPage page)
    {
        var mean = await page.EvaluateAsync<double[]>("""
            () => {
              const canvas = document.querySelector("#table-cloth canvas"), side = 60, g = canvas.getContext("2d");
              const { data } = g.getImageData(canvas.width / 2 - side, canvas.height / 2 - side, 2 * side, 2 * side), sum = [0, 0, 0];
              const light = (c) => { c /= 255; return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; };
              for (let i = 0; i < data.length; i += 4) for (let k = 0; k < 3; k++) sum[k] += light(data[i + k]);
              return sum.map((s) => s / (data.length / 4)).map((v) => Math.round(255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055)));
            }
            """);
        return new Colour((byte)mean[0], (byte)mean[1], (byte)mean[2]);
    }

    private static Task<string> CanvasAsync(IPage page) => page.EvaluateAsync<string>("document.querySelector('#table-cloth canvas').toDataURL()");

    [Fact]
    public async Task The_card_draws_thread_in_its_own_colour_and_the_look_keeps_its_place()
    {
        await using var bench = await AtAsync("globalThis.anyCard = true;"); // the tests' browser has only one made believe
        var chart = await CanvasAsync(bench.Page);
        await bench.Page.Keyboard.PressAsync("2");
        await bench.Page.Locator("#table-cloth[data-drawn=whole]").WaitForAsync();
        Assert.NotEqual(chart, await CanvasAsync(bench.Page));
        await bench.PictureAsync("stitched-look");
        // As the core's picture: near the thread's own colour, within what is told apart by looking.
        var thread = Colour.Parse("#b3202c");
        var lit = await MeanAsync(bench.Page);
        Assert.True(ColourDifference.Between(lit, thread) < 6, $"the middle of the block is {lit}, the thread {thread}");
        // An edit in this look is drawn, too.
        await bench.Page.Keyboard.PressAsync(".");
        var before = await CanvasAsync(bench.Page);
        await bench.Page.Keyboard.PressAsync("Space");
        await bench.Page.WaitForFunctionAsync("before => document.querySelector('#table-cloth').dataset.drawn === 'whole' && document.querySelector('#table-cloth canvas').toDataURL() !== before", before);
    }

    [Fact]
    public async Task Without_a_card_the_plain_look_serves_and_when_it_is_lost_too()
    {
        await using var bench = await AtAsync("const get = HTMLCanvasElement.prototype.getContext; HTMLCanvasElement.prototype.getContext = function (kind, ...more) { return kind === 'webgl2' ? null : get.call(this, kind, ...more); };");
        var chart = await CanvasAsync(bench.Page);
        await bench.Page.Keyboard.PressAsync("2");
        await bench.PaintedAsync();
        Assert.NotEqual(chart, await CanvasAsync(bench.Page));
        Assert.Null(await bench.Page.Locator("#table-cloth").GetAttributeAsync("data-drawn"));
    }

    [Fact]
    public async Task A_picture_is_taken_away_of_the_width_that_was_asked_for()
    {
        await using var bench = await warm.WithAsync(Filled);
        await AtTheTable.PressAsync(bench, "2");
        await bench.PaintedAsync();
        Assert.Null(await bench.Page.Locator("#table-cloth").GetAttributeAsync("data-drawn")); // a card that the processor makes believe is not taken
        await AtTheTable.PressAsync(bench, "1");
        await bench.SeeAsync("plate");
        var portrait = bench.Page.Locator(".portrait");
        await portrait.GetByLabel("Pixels across").FillAsync("320");
        await portrait.GetByLabel("Of").SelectOptionAsync("block");
        var download = await bench.Page.RunAndWaitForDownloadAsync(async () =>
        {
            await portrait.Locator("button.format").ClickAsync();
            await portrait.GetByRole(AriaRole.Status).Filter(new() { HasTextRegex = new("was handed|is ready") }).WaitForAsync();
            if (await portrait.GetByRole(AriaRole.Status).Filter(new() { HasText = "is ready" }).CountAsync() > 0) await portrait.Locator("button.main").ClickAsync();
        }, new() { Timeout = 2 * Chromium.Patience });
        Assert.Equal("Filled block.png", download.SuggestedFilename);
        var png = await File.ReadAllBytesAsync(await download.PathAsync());
        Assert.Equal([0x89, 0x50, 0x4e, 0x47], png[..4]);
        Assert.Equal(320, System.Buffers.Binary.BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)));
        // Stopped, it is as if it had not been asked for.
        await portrait.GetByLabel("Pixels across").FillAsync("4000");
        await portrait.Locator("button.format").ClickAsync();
        await portrait.GetByRole(AriaRole.Button, new() { Name = "Stop" }).ClickAsync();
        await Assertions.Expect(portrait.Locator("button.format")).ToBeVisibleAsync();
    }
}
