using System.Runtime.InteropServices;
using Microsoft.Playwright;
using Pleatwright.Tests.Picture;
using SkiaSharp;

namespace Pleatwright.Browser.Tests;

/// <summary>From a picture to a figure on the table, in the browser.</summary>
public class TraceViewTests(Chromium chromium, WarmBench warm) : IClassFixture<WarmBench>
{
    private static FilePayload Payload(string name)
    {
        var raster = TestPictures.All[name]();
        using var bitmap = new SKBitmap(new SKImageInfo(raster.Width, raster.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul));
        Marshal.Copy(raster.Rgba.ToArray(), 0, bitmap.GetPixels(), raster.Rgba.Length);
        using var png = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return new FilePayload { Name = $"{name}.png", MimeType = "image/png", Buffer = png.ToArray() };
    }

    private static async Task<string> TracedAsync(OpenBench bench)
    {
        await bench.Page.Locator(".tracing-words small").WaitForAsync();
        return (await bench.Page.Locator(".tracing-words").TextContentAsync())!;
    }

    private static async Task ChooseAsync(OpenBench bench, string name)
    {
        await TakeAsync(bench, Payload(name));
        await Assertions.Expect(bench.Page.Locator("#picture-title")).ToHaveTextAsync(name, new() { IgnoreCase = true }); // no longer the one before
    }

    private static async Task TakeAsync(OpenBench bench, FilePayload file)
    {
        await bench.Page.Locator("#picture-file:enabled").WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await bench.Page.SetInputFilesAsync("#picture-file", file);
    }

    // With the example on the table.
    private async Task<OpenBench> AtAsync()
    {
        var bench = await warm.ExampleAsync();
        await bench.SeeAsync("picture");
        return bench;
    }

    [Fact]
    public async Task A_picture_becomes_a_new_piece_on_the_table()
    {
        await using var bench = await warm.AtAsync("shelf");
        await bench.Page.GetByRole(AriaRole.Link, new() { Name = "From a picture" }).ClickAsync();
        await ChooseAsync(bench, "boat");
        Assert.Contains("0 errors", await TracedAsync(bench), StringComparison.Ordinal);
        await bench.PictureAsync("picture-boat");
        await bench.NoSeriousFaultAsync();
        await bench.Page.GetByText("Put it on the table as a new piece").ClickAsync();
        await bench.Page.Locator(".table").WaitForAsync();
        Assert.Equal("Boat", await bench.Page.Locator("#title").InputValueAsync());
        await bench.PictureAsync("picture-boat-on-table");
        Assert.Contains(Directory.GetFiles(bench.Folder, "*", SearchOption.AllDirectories), f => f.EndsWith(".piece.json", StringComparison.Ordinal));
    }

    [Fact]
    public async Task It_can_be_added_to_the_piece_on_the_table_and_taken_back()
    {
        await using var bench = await AtAsync();
        await ChooseAsync(bench, "kite");
        await TracedAsync(bench);
        await bench.Page.GetByLabel("Valleys across").FillAsync("21");
        await bench.Page.GetByLabel("Valleys across").BlurAsync();
        await bench.Page.Locator(".tracing-words b", new() { HasTextString = "21" }).WaitForAsync();
        await bench.Page.GetByText("Add it to Harbour morning").ClickAsync();
        await bench.Page.GetByText("There is no room for kite").WaitForAsync(); // a full piece: it is asked first
        await bench.Page.GetByText("Add it all the same").ClickAsync();
        await bench.Page.Locator("#table-cloth").WaitForAsync();
        await AtTheTable.OpenAsync(bench, "Figures");
        await bench.Page.Locator(".slip").GetByText("kite").First.WaitForAsync();
        await bench.Page.Keyboard.PressAsync("Control+z");
        await bench.Page.Locator(".slip").GetByText("kite").First.WaitForAsync(new() { State = WaitForSelectorState.Detached });
    }

    [Fact]
    public async Task What_is_no_picture_is_refused_in_words_and_nothing_is_lost()
    {
        await using var bench = await AtAsync();
        byte[] bomb = [0x89, .. "PNG\r\n\x1a\n"u8, 0, 0, 0, 13, .. "IHDR"u8, 0, 0, 0xea, 0x60, 0, 0, 0xea, 0x60, 8, 2, 0, 0, 0, 0, 0, 0, 0];
        foreach (var (name, bytes, word) in new (string, byte[], string)[]
        {
            ("words.png", "no picture"u8.ToArray(), "use PNG, JPEG, WebP or GIF"),
            ("bomb.png", bomb, "60000 × 60000"),
            ("cut.png", Payload("boat").Buffer[..200], "broken"),
            ("empty.gif", [], "use PNG"),
        })
        {
            await TakeAsync(bench, new FilePayload { Name = name, MimeType = "image/png", Buffer = bytes });
            await bench.Page.Locator(".tracing-trouble", new() { HasTextString = word }).WaitForAsync();
        }
        await ChooseAsync(bench, "ring");
        await TracedAsync(bench);
        Assert.Equal(0, await bench.Page.Locator(".tracing-trouble").CountAsync());
        await TakeAsync(bench, new FilePayload { Name = "words.png", MimeType = "image/png", Buffer = [1, 2, 3] });
        await bench.Page.Locator(".tracing-trouble").WaitForAsync();
        Assert.Contains("Traced in", await TracedAsync(bench), StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_is_looked_at_on_every_screen_and_every_ask_traces_anew()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "picture"); // with no picture yet
        await bench.Page.GetByText("Choose a picture").WaitForAsync();
        foreach (var (screen, size) in Screens.All)
        {
            await bench.LookAsync(size);
            await bench.FitsTheScreenAsync();
            await bench.PictureAsync($"picture-empty-{screen}");
        }
        await ChooseAsync(bench, "crab");
        await TracedAsync(bench);
        foreach (var (screen, size) in Screens.All)
            foreach (var dark in new[] { false, true })
            {
                await bench.LookAsync(size, dark);
                await bench.FitsTheScreenAsync();
                await bench.PictureAsync($"picture-crab-{screen}{(dark ? "-dark" : "")}");
                await bench.NoSeriousFaultAsync();
            }

        await bench.LookAsync(Screens.Desktop, dark: false);
        Assert.Contains("80 valleys", await TracedAsync(bench), StringComparison.Ordinal);

        await bench.Page.GetByLabel("Valleys across").FillAsync("50");
        await bench.Page.GetByLabel("Valleys across").BlurAsync();
        await bench.Page.Locator(".tracing-words").GetByText("50").First.WaitForAsync();
        await bench.Page.GetByLabel("The same left and right").CheckAsync();
        await bench.Page.GetByLabel("Fidelity").FillAsync("0");
        await bench.Page.GetByLabel("Those of Harbour morning").CheckAsync();
        await TracedAsync(bench);
        await bench.Page.Locator(".traced-threads").GetByText("sail red").WaitForAsync();
        await bench.Page.GetByLabel("Only what is transparent").CheckAsync();
        Assert.Contains("0 errors", await TracedAsync(bench), StringComparison.Ordinal);

        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Turn" }).ClickAsync();
        await TracedAsync(bench);
        var box = (await bench.Page.Locator("#picture-canvas").BoundingBoxAsync())!;
        Assert.True(box.Height > box.Width);
        await bench.Page.Mouse.MoveAsync(box.X + box.Width * 0.25f, box.Y + box.Height * 0.25f);
        await bench.Page.Mouse.DownAsync();
        await bench.Page.Mouse.MoveAsync(box.X + box.Width * 0.75f, box.Y + box.Height * 0.5f, new() { Steps = 4 });
        await bench.Page.Mouse.UpAsync();
        await bench.Page.Locator(".crop-frame").WaitForAsync();
        Assert.Equal("110", await bench.Page.GetByLabel("Wide", new() { Exact = true }).InputValueAsync());
        await TracedAsync(bench);
        await bench.PictureAsync("picture-crop");
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Whole picture" }).ClickAsync();
        await bench.Page.Locator(".crop-frame").WaitForAsync(new() { State = WaitForSelectorState.Hidden });
    }
}
