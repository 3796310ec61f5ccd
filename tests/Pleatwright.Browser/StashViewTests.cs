using System.Text;
using Microsoft.Playwright;
using Pleatwright.Files;
using Pleatwright.Shopping;
using SkiaSharp;

namespace Pleatwright.Browser.Tests;

/// <summary>The stash at the bench: put in, changed, undone, held against pieces, kept.</summary>
public class StashViewTests(Chromium chromium)
{
    private static string Example(string name) => Repository.Path("examples", name);

    private static void Filled(string folder)
    {
        File.Copy(Example("harbour.stash.json"), Path.Combine(folder, "stash.json"));
        File.Copy(Example("quay-yoke.piece.json"), Path.Combine(folder, "Quay yoke.piece.json"));
        File.Copy(Example("harbour-morning.piece.json"), Path.Combine(folder, "Harbour copy.piece.json"));
    }

    private static Stash Kept(OpenBench bench) => StashReader.Read(File.ReadAllBytes(Path.Combine(bench.Folder, "stash.json")));

    private static ILocator Button(OpenBench bench, string name, bool exact = false) => bench.Page.GetByRole(AriaRole.Button, new() { Name = name, Exact = exact });

    private static ILocator Needs(OpenBench bench, string name) => bench.Page.Locator(".need").Filter(new() { Has = bench.Page.Locator(".need-name", new() { HasTextString = name }) });

    // What the page shows is kept a moment later.
    private static Task UntilKeptAsync(OpenBench bench, Func<Stash, bool> holds) => bench.OnShelfAsync("stash.json", text => StashReader.Read(text), holds);

    private static FilePayload Photo()
    {
        using var bitmap = new SKBitmap(new SKImageInfo(200, 100, SKColorType.Rgba8888, SKAlphaType.Unpremul));
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(new SKColor(0x1f, 0x4e, 0x79));
            using var red = new SKPaint { Color = new SKColor(0xb3, 0x20, 0x2c) };
            canvas.DrawRect(0, 0, 100, 100, red);
        }
        using var png = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return new FilePayload { Name = "reels.png", MimeType = "image/png", Buffer = png.ToArray() };
    }

    [Fact]
    public async Task A_thread_is_put_in_from_a_photo_by_keyboard_changed_taken_out_and_undone()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "stash");
        await bench.Page.GetByText("Nothing in it yet").WaitForAsync();
        await Button(bench, "Add a thread").FocusAsync();
        await bench.Page.Keyboard.PressAsync("Enter");
        await bench.Page.GetByLabel("Your name for it").FillAsync("loft red");
        await bench.Page.GetByLabel("Skeins left", new() { Exact = true }).FillAsync("1.5");
        await bench.Page.Locator("#spot-file:enabled").WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await bench.Page.SetInputFilesAsync("#spot-file", Photo());
        await bench.Page.Locator(".spot-ring").WaitForAsync();
        var canvas = bench.Page.Locator("#spot-host canvas");
        await canvas.ClickAsync(new() { Position = new() { X = 20, Y = 20 } });
        var colour = bench.Page.GetByLabel("Colour as #rrggbb");
        await Assertions.Expect(colour).ToHaveValueAsync("#b3202c");
        await bench.Page.Locator(".spot-fit").FocusAsync();
        for (var i = 0; i < 14; i++) await bench.Page.Keyboard.PressAsync("Shift+ArrowRight");
        await Assertions.Expect(colour).ToHaveValueAsync("#1f4e79");
        for (var i = 0; i < 14; i++) await bench.Page.Keyboard.PressAsync("Shift+ArrowLeft");
        await Assertions.Expect(colour).ToHaveValueAsync("#b3202c");
        await bench.PictureAsync("stash-photo");
        await bench.NoSeriousFaultAsync();
        await Button(bench, "Add the thread").PressAsync("Enter");
        await UntilKeptAsync(bench, s => s.Threads is [{ Name: "loft red", Skeins: 1.5 }] && s.Threads[0].Colour.ToString() == "#b3202c");
        await Needs(bench, "sail red").GetByText("enough", new() { Exact = true }).WaitForAsync(); // the same colour: it serves the piece

        await bench.Page.GetByLabel("Skeins left of loft red").FillAsync("0");
        await bench.Page.GetByLabel("Skeins left of loft red").PressAsync("Enter");
        await Needs(bench, "sail red").GetByText("buy 1 skein").WaitForAsync();
        await Button(bench, "Take loft red out of the stash").ClickAsync();
        await bench.Page.GetByText("Nothing in it yet").WaitForAsync();
        await bench.Page.Locator("#stash-title").ClickAsync();
        await bench.Page.Keyboard.PressAsync("Control+z");
        await bench.Page.Keyboard.PressAsync("Control+z");
        await Assertions.Expect(bench.Page.GetByLabel("Skeins left of loft red")).ToHaveValueAsync("1.5");
        await bench.Page.Keyboard.PressAsync("Control+y");
        await Assertions.Expect(bench.Page.GetByLabel("Skeins left of loft red")).ToHaveValueAsync("0");
        await UntilKeptAsync(bench, s => s.Threads is [{ Skeins: 0 }]);
        Assert.NotEmpty(Directory.GetFiles(Path.Combine(bench.Folder, ".stash")));
        await bench.Page.GetByText("File and earlier stashes").ClickAsync();
        await bench.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("number 1$") }).ClickAsync();
        await Assertions.Expect(bench.Page.GetByLabel("Skeins left of loft red")).ToHaveValueAsync("1.5");
    }

    [Fact]
    public async Task It_is_looked_at_on_every_screen_held_against_pieces_shopped_for_exchanged_and_put_in_order()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "stash", fillShelf: Filled);
        await LookedAtAsync(bench);
        await SubstitutedAsync(bench);
        await ShoppedForAsync(bench);
        await ExchangedAsync(bench);
        await PutInOrderAsync(bench);
    }

    private static async Task LookedAtAsync(OpenBench bench)
    {
        await bench.Page.Locator(".need").First.WaitForAsync();
        foreach (var sheet in new[] { "", "-cloth" })
        {
            if (sheet.Length > 0)
            {
                await Button(bench, "Add a cloth").ClickAsync();
                await bench.Page.Locator("dialog[open]").WaitForAsync();
            }
            foreach (var (screen, size) in Screens.All)
                foreach (var dark in new[] { false, true })
                {
                    await bench.LookAsync(size, dark);
                    await bench.PictureAsync($"stash{sheet}-{screen}{(dark ? "-dark" : "")}");
                    await bench.NoSeriousFaultAsync();
                    await bench.FitsTheScreenAsync();
                }
        }
        await bench.LookAsync(Screens.Desktop, dark: false);
        await bench.ClearAsync();
    }

    // A substitute at one press is one edit of the piece.
    private static async Task SubstitutedAsync(OpenBench bench)
    {
        var sea = Needs(bench, "sea green");
        await sea.GetByText("buy 1 skein").WaitForAsync();
        await sea.Locator("summary").ClickAsync();
        await sea.GetByText("near").First.WaitForAsync();
        Assert.Equal(1, await sea.Locator(".instead li").CountAsync()); // what is near, and no blue for a green
        await bench.NoSeriousFaultAsync();
        await Button(bench, "weed green instead of sea green").ClickAsync();
        await Needs(bench, "weed green").GetByText("enough", new() { Exact = true }).WaitForAsync();
        Assert.Equal(0, await sea.CountAsync());
        await bench.Page.Locator("#stash-title").ClickAsync();
        await bench.Page.Keyboard.PressAsync("Control+z");
        await sea.GetByText("buy 1 skein").WaitForAsync();
        Assert.Equal(7, Kept(bench).Threads.Length);
    }

    // For several pieces together, bought, and worked.
    private static async Task ShoppedForAsync(OpenBench bench)
    {
        await bench.Page.Locator(".sums", new() { HasTextString = "2 skeins to buy" }).WaitForAsync();
        await bench.Page.GetByLabel("Harbour morning (Harbour copy)").CheckAsync();
        await bench.Page.Locator(".need-words", new() { HasTextString = "Harbour morning (Harbour copy): 6" }).First.WaitForAsync();
        await bench.Page.Locator(".sums", new() { HasTextString = "2 skeins to buy" }).WaitForAsync(); // half-used skeins are shared
        await bench.Page.GetByLabel("Quay yoke").CheckAsync();
        await Needs(bench, "plum").WaitForAsync();
        await bench.Page.Locator(".cost").GetByText("crowns").First.WaitForAsync();
        await bench.PictureAsync("stash-shopping");
        var download = await bench.Page.RunAndWaitForDownloadAsync(() => Button(bench, "Take the list along").ClickAsync());
        using (var reader = new StreamReader(await download.CreateReadStreamAsync())) Assert.Contains("plum", await reader.ReadToEndAsync(), StringComparison.Ordinal);
        await Button(bench, "I have bought it").ClickAsync();
        await bench.Page.Locator(".sums", new() { HasTextString = "No skein to buy, no cloth" }).WaitForAsync();
        await UntilKeptAsync(bench, s => s.Threads.Any(t => t.Name == "plum" && t.Skeins == 1));
        await Button(bench, "It is worked").ClickAsync();
        await UntilKeptAsync(bench, s => s.Threads.Any(t => t.Name == "plum" && t.Skeins is > 0 and < 1));
        await Button(bench, "Undo what was used").ClickAsync();
        await UntilKeptAsync(bench, s => s.Threads.Any(t => t.Name == "plum" && t.Skeins == 1));
    }

    // Lists come in and go out, and faults are told with their place.
    private static async Task ExchangedAsync(OpenBench bench)
    {
        var input = bench.Page.Locator(".stash-top input[type=file]:enabled");
        FilePayload Csv(string text) => new() { Name = "mine.csv", MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(text) };
        await input.SetInputFilesAsync(Csv("name,colour\nrope,brown\n"));
        await bench.Page.GetByText("Nothing was brought in. mine.csv:2:6").WaitForAsync();
        await input.SetInputFilesAsync(Csv("name;colour;skeins\nSail red;#b3202c;2,5\n'=rope;#8a6d3b;1\n"));
        await bench.Page.GetByText("2 lines brought in: 1 new").WaitForAsync();
        await Assertions.Expect(bench.Page.GetByLabel("Skeins left of Sail red")).ToHaveValueAsync("2.5");
        await UntilKeptAsync(bench, s => s.Threads.Any(t => t.Name == "Sail red" && t.Skeins == 2.5) && s.Threads[^1].Name == "=rope");
        var list = await bench.Page.RunAndWaitForDownloadAsync(() => Button(bench, "Export list").ClickAsync());
        Assert.Equal("Stash.csv", list.SuggestedFilename);
        Assert.Equal(Kept(bench).Threads.AsEnumerable(), StashCsv.Read(File.ReadAllBytes(await list.PathAsync())).Threads);
        await bench.Page.GetByText("File and earlier stashes").ClickAsync();
        var file = await bench.Page.RunAndWaitForDownloadAsync(() => Button(bench, "Export the stash file").ClickAsync());
        Assert.Equal(Kept(bench), StashReader.Read(File.ReadAllBytes(await file.PathAsync())));
    }

    // A long one is searched, put in order, and serves the table.
    private static async Task PutInOrderAsync(OpenBench bench)
    {
        var csv = "name,colour\n" + string.Concat(Enumerable.Range(0, 9).Select(i => $"tide {i},#2{i}60a{i}\n"));
        var names = bench.Page.Locator(".stash-list").First.Locator("li b");
        var before = await names.CountAsync();
        await bench.Page.Locator(".stash-top input[type=file]:enabled").SetInputFilesAsync(new FilePayload { Name = "more.csv", MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(csv) });
        await Assertions.Expect(names).ToHaveCountAsync(before + 9);
        await bench.Page.GetByLabel("In order").SelectOptionAsync("ByName");
        await Assertions.Expect(names.First).ToHaveTextAsync("=rope");
        await bench.Page.GetByLabel("In order").SelectOptionAsync("ByColour");
        await Assertions.Expect(names.First).ToHaveTextAsync("slate");
        await bench.PictureAsync("stash-long");
        await bench.Page.GetByLabel("Find").FillAsync("LOFT"); // in the note
        await Assertions.Expect(names).ToHaveTextAsync(["brick"]);
        await bench.Page.GetByLabel("Skeins left of brick").FillAsync("7");
        await bench.Page.GetByLabel("Skeins left of brick").BlurAsync();
        await UntilKeptAsync(bench, s => s.Threads[1].Skeins == 7);

        await bench.GoAsync("table");
        await Button(bench, "Another thread").ClickAsync();
        await bench.Page.GetByLabel("From your stash").SelectOptionAsync("1");
        await Assertions.Expect(bench.Page.GetByLabel("Your name for it")).ToHaveValueAsync("brick");
        await bench.NoSeriousFaultAsync();
        await Button(bench, "Add the thread").ClickAsync();
        await bench.Page.Locator(".reels [data-tip=brick]").WaitForAsync();
    }

    [Fact]
    public async Task Two_benches_keep_both_and_a_stopped_host_loses_nothing()
    {
        await using var bench = await OpenBench.AtAsync(chromium, "stash", fillShelf: Filled);
        await bench.Page.GetByLabel("Skeins left of brick").WaitForAsync();
        var path = Path.Combine(bench.Folder, "stash.json");
        File.WriteAllText(path, File.ReadAllText(path).Replace("old rope", "new rope", StringComparison.Ordinal));
        bench.Expected.Add("412");
        await bench.Page.GetByLabel("Skeins left of brick").FillAsync("9");
        await bench.Page.GetByLabel("Skeins left of brick").BlurAsync();
        await bench.Page.GetByLabel("Skeins left of new rope").WaitForAsync();
        await Assertions.Expect(bench.Page.GetByLabel("Skeins left of brick")).ToHaveValueAsync("3");
        await bench.Page.Locator("#stash-title").ClickAsync();
        await bench.Page.Keyboard.PressAsync("Control+z"); // back to ours, over theirs
        await UntilKeptAsync(bench, s => s.Threads[1].Skeins == 9 && s.Threads[3].Name == "old rope");

        bench.Expected.AddRange(["ERR_CONNECTION_REFUSED", "Failed to fetch", "net::ERR"]);
        await bench.StopHostAsync();
        await bench.Page.GetByLabel("Skeins left of brick").FillAsync("5");
        await bench.Page.GetByLabel("Skeins left of brick").BlurAsync();
        await bench.Page.Locator(".stash .remind.wrong").WaitForAsync();
        await bench.RestartHostAsync();
        await bench.Page.RouteAsync("**/api/stash", r => r.AbortAsync("connectionrefused")); // the page comes up, the stash does not
        await bench.ReloadAsync();
        await Assertions.Expect(bench.Page.GetByLabel("Skeins left of brick")).ToHaveValueAsync("5");
        await bench.Page.GetByLabel("Skeins left of weed green").FillAsync("2"); // and work goes on
        await bench.Page.GetByLabel("Skeins left of weed green").BlurAsync();
        await bench.Page.Locator(".stash .remind.wrong").WaitForAsync();
        await bench.Page.UnrouteAsync("**/api/stash"); // it is tried again by itself
        await UntilKeptAsync(bench, s => s.Threads[1].Skeins == 5 && s.Threads[6].Skeins == 2);
    }
}
