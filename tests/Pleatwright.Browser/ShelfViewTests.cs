using System.IO.Compression;
using Microsoft.Playwright;
using Pleatwright.Files;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Shelf;

namespace Pleatwright.Browser.Tests;

public class ShelfViewTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private const string Gull = """{ "pleatwright": 1, "title": "Gull", "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 3 }, "threads": { "w": { "name": "white", "colour": "#ffffff", "strands": 4 } }, "figures": { "g": { "rows": ["www"] } }, "place": [ { "figure": "g", "centre": "middle", "gatheringRow": 2, "figureRow": 0 } ] }""";

    private static void Put(string folder, string name, string text) => File.WriteAllText(Path.Combine(folder, name + ".piece.json"), text);

    private static ILocator Swatch(OpenBench bench, string title) =>
        bench.Page.Locator("ul[aria-label='Your pieces'] .swatch").Filter(new() { Has = bench.Page.GetByText(title, new() { Exact = true }) });

    private static async Task DoAsync(OpenBench bench, string title, string verb)
    {
        var more = Swatch(bench, title).Locator("summary");
        if (await Swatch(bench, title).Locator("details[open]").CountAsync() == 0) await more.ClickAsync();
        await Swatch(bench, title).GetByRole(AriaRole.Button, new() { Name = verb }).ClickAsync();
    }

    [Fact]
    public async Task A_newcomer_goes_from_an_empty_shelf_to_a_printed_plate()
    {
        await using var bench = await warm.AfreshAsync("shelf");
        await bench.Page.GetByText("Nothing on the shelf yet").WaitForAsync();
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "New piece" }).ClickAsync();
        await bench.Page.GetByLabel("What shall it be called?").FillAsync("Lamp at the quay");
        await bench.Page.GetByLabel("Finished width").FillAsync("5 in");
        await bench.Page.GetByLabel("Finished width").BlurAsync();
        await bench.Page.GetByText("It comes to").WaitForAsync();
        await bench.PictureAsync("new-piece-desktop");
        await bench.NoSeriousFaultAsync();
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Lay it on the table" }).ClickAsync();
        await bench.Page.Locator(".bench[data-view=table]").WaitForAsync();
        Assert.Equal("Lamp at the quay", await bench.Page.Locator("#title").InputValueAsync());
        Assert.True(File.Exists(Path.Combine(bench.Folder, "Lamp at the quay.piece.json")));
        await bench.Page.Locator(".cloth").First.ClickAsync();
        await bench.Page.Locator(".kept[data-state=safe] .kept-plain").WaitForAsync();
        await AtThePlate.SeeAsync(bench);
        foreach (var (ending, begins) in new[] { ("PDF", "%PDF-"), ("SVG", "<?xml"), ("HTML", "<!DOCTYPE html>"), ("TXT", "L") })
        {
            var download = await AtThePlate.TakeAwayAsync(bench.Page, ending);
            Assert.Equal("Lamp at the quay." + ending.ToLowerInvariant(), download.SuggestedFilename);
            using var reader = new StreamReader(await download.CreateReadStreamAsync());
            var text = await reader.ReadToEndAsync();
            Assert.StartsWith(begins, text.TrimStart('\ufeff'), StringComparison.OrdinalIgnoreCase);
        }
        await bench.PictureAsync("newcomer-plate");
    }

    [Fact]
    public async Task A_plate_is_taken_in_by_its_button_and_by_dropping_and_opens_as_the_very_piece()
    {
        var gull = PieceReader.Read(Gull);
        byte[] Plate(PlateFormat format, string name) => format.Write(Smocking.Plate(Smocking.Plan(Smocking.Lay(gull)), [], new PlateOptions { Name = PieceName.Parse(name) }));
        await using var bench = await warm.AfreshAsync("shelf");
        await bench.Page.Locator("input[type=file]").SetInputFilesAsync(new FilePayload { Name = "plate.pdf", MimeType = "application/pdf", Buffer = Plate(PlateFormat.Pdf, "chosen") });
        await bench.Page.GetByText("1 piece brought in.").WaitForAsync();
        await bench.Page.EvaluateAsync(
            """
            ([svg, html]) => {
              const given = new DataTransfer(), file = (name, type, base64) => given.items.add(new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], name, { type }));
              file("a.svg", "image/svg+xml", svg);
              file("b.html", "text/html", html);
              const on = document.querySelector(".shelf h2");
              for (const type of ["dragover", "drop"]) on.dispatchEvent(new DragEvent(type, { bubbles: true, cancelable: true, dataTransfer: given }));
            }
            """, (string[])[Convert.ToBase64String(Plate(PlateFormat.Svg, "drawn")), Convert.ToBase64String(Plate(PlateFormat.Html, "read"))]);
        await bench.Page.GetByText("2 pieces brought in.").WaitForAsync();
        Assert.Equal(0, await bench.Page.Locator("[data-over]").CountAsync());
        foreach (var name in (string[])["chosen", "drawn", "read"])
            Assert.Equal(PieceWriter.WriteUtf8(gull), await File.ReadAllBytesAsync(Path.Combine(bench.Folder, name + ".piece.json")));
        await Swatch(bench, "Gull").First.Locator(".swatch-open").ClickAsync();
        await bench.Page.Locator(".bench[data-view=table]").WaitForAsync();
        Assert.Equal("Gull", await bench.Page.Locator("#title").InputValueAsync());
    }

    [Fact]
    public async Task Pieces_are_duplicated_renamed_taken_off_and_put_back()
    {
        await using var bench = await warm.AfreshAsync("shelf", fillShelf: f => Put(f, "Gull", Gull));
        await Swatch(bench, "Gull").Locator("img").WaitForAsync();
        await DoAsync(bench, "Gull", "Duplicate");
        await bench.Page.GetByText("Duplicated as “Gull copy”.").WaitForAsync();
        Assert.True(File.Exists(Path.Combine(bench.Folder, "Gull copy.piece.json")));

        var copy = bench.Page.Locator("ul[aria-label='Your pieces'] .swatch").Filter(new() { HasText = "Gull copy" });
        await copy.Locator("summary").ClickAsync();
        await copy.GetByRole(AriaRole.Button, new() { Name = "Rename…" }).ClickAsync();
        await bench.Page.GetByLabel("Title of the piece", new() { Exact = true }).Last.FillAsync("Tern");
        await bench.Page.Locator("dialog button.main").ClickAsync();
        await bench.Page.GetByText("Renamed to “Tern”.").WaitForAsync();
        Assert.Equal("Tern", PieceReader.Read(File.ReadAllBytes(Path.Combine(bench.Folder, "Tern.piece.json"))).Title);

        await DoAsync(bench, "Tern", "Take off the shelf");
        await bench.Page.GetByText("“Tern” was taken off the shelf.").WaitForAsync();
        Assert.False(File.Exists(Path.Combine(bench.Folder, "Tern.piece.json")));
        await bench.Page.Keyboard.PressAsync("Enter"); // the focus is on putting it back
        await bench.Page.GetByText("“Tern” is back on the shelf.").WaitForAsync();
        Assert.True(File.Exists(Path.Combine(bench.Folder, "Tern.piece.json")));
        await bench.PictureAsync("shelf-filled");
        await bench.NoSeriousFaultAsync();
    }

    [Fact]
    public async Task Files_come_in_and_go_out_one_by_one_and_all_together_and_broken_ones_are_told_with_their_place()
    {
        await using var bench = await warm.AfreshAsync("shelf", fillShelf: f => Put(f, "Broken", "{ \"pleatwright\": 1,\n \"cloth\": 3 }"));
        await bench.Page.GetByText("Cannot be read: line 2, column 11").WaitForAsync();
        await bench.NoSeriousFaultAsync();
        await bench.Page.Locator("input[type=file]").SetInputFilesAsync(
        [
            new FilePayload { Name = "Gull.piece.json", MimeType = "application/json", Buffer = System.Text.Encoding.UTF8.GetBytes(Gull) },
            new FilePayload { Name = "../../sly<b>.json", MimeType = "application/json", Buffer = System.Text.Encoding.UTF8.GetBytes(Gull.Replace("Gull", "<img src=x onerror=alert(1)>", StringComparison.Ordinal)) },
            new FilePayload { Name = "bad.json", MimeType = "application/json", Buffer = "{"u8.ToArray() },
        ]);
        await bench.Page.GetByText("2 pieces brought in.").WaitForAsync();
        Assert.Contains("bad.json:1:", await bench.Page.Locator(".shelf-note").TextContentAsync(), StringComparison.Ordinal);
        Assert.Equal(3, Directory.GetFiles(bench.Folder).Length);
        Assert.Equal(Gull, File.ReadAllText(Path.Combine(bench.Folder, "Gull.piece.json")));
        await bench.Page.GetByText("<img src=x onerror=alert(1)>").First.WaitForAsync(); // shown as the words it is

        var one = await bench.Page.RunAndWaitForDownloadAsync(() => DoAsync(bench, "Gull", "Export file"));
        Assert.Equal("Gull.piece.json", one.SuggestedFilename);
        using (var reader = new StreamReader(await one.CreateReadStreamAsync())) Assert.Equal(Gull, await reader.ReadToEndAsync());

        var all = await bench.Page.RunAndWaitForDownloadAsync(() => bench.Page.GetByText("Export all").ClickAsync());
        var path = await all.PathAsync();
        using (var zip = ZipFile.OpenRead(path)) Assert.Equal(3, zip.Entries.Count);
        foreach (var file in Directory.GetFiles(bench.Folder)) File.Delete(file);
        await bench.SeeAsync("table");
        await bench.SeeAsync("shelf");
        await bench.Page.Locator("input[type=file]").SetInputFilesAsync(new FilePayload { Name = "all.zip", MimeType = "application/zip", Buffer = File.ReadAllBytes(path) });
        await bench.Page.GetByText("2 pieces brought in.").WaitForAsync(); // the broken one stays out, and is told
        Assert.Equal(2, Directory.GetFiles(bench.Folder).Length);
    }

    [Fact]
    public async Task An_earlier_version_is_put_back_and_that_can_be_undone()
    {
        await using var bench = await warm.AfreshAsync("shelf", fillShelf: f => Put(f, "Gull", Gull));
        await Swatch(bench, "Gull").Locator("button.swatch-open").ClickAsync();
        await bench.Page.Locator(".bench[data-view=table]").WaitForAsync();
        await bench.Page.Locator("#title").FillAsync("Gull at dusk");
        await bench.Page.Locator("#title").PressAsync("Enter");
        await bench.Page.Locator(".kept[data-state=safe] .kept-plain").WaitForAsync();
        await bench.SeeAsync("shelf");
        await DoAsync(bench, "Gull at dusk", "Earlier versions…");
        await bench.Page.Locator(".versions img").First.WaitForAsync();
        await bench.NoSeriousFaultAsync();
        await bench.Page.GetByRole(AriaRole.Button, new() { Name = "Put back" }).First.ClickAsync();
        await bench.Page.GetByText("was put back").WaitForAsync();
        Assert.Equal("Gull", await bench.Page.Locator("#title").InputValueAsync());
        await bench.Page.Keyboard.PressAsync("Control+z");
        Assert.Equal("Gull at dusk", await bench.Page.Locator("#title").InputValueAsync());
    }

    [Fact]
    public async Task Everything_on_the_shelf_is_done_by_keyboard()
    {
        await using var bench = await warm.AfreshAsync("shelf", fillShelf: f => Put(f, "Gull", Gull));
        await Swatch(bench, "Gull").WaitForAsync();
        async Task ReachAsync(Func<Task<bool>> there)
        {
            for (var i = 0; i < 60; i++)
            {
                if (await there()) return;
                await bench.Page.Keyboard.PressAsync("Tab");
            }
            Assert.Fail("The keyboard does not get there.");
        }
        Task<bool> On(string words) => bench.Page.EvaluateAsync<bool>($"document.activeElement?.textContent?.includes('{words}') || document.activeElement?.ariaLabel?.includes('{words}')");
        await bench.Page.Locator("body").PressAsync("Tab");
        await ReachAsync(() => On("More for Gull"));
        await bench.Page.Keyboard.PressAsync("Enter");
        await ReachAsync(() => On("Duplicate"));
        await bench.Page.Keyboard.PressAsync("Enter");
        await bench.Page.GetByText("Duplicated as").WaitForAsync();
        await bench.Page.Locator("body").PressAsync("Alt+2");
        await bench.Page.Locator(".bench[data-view=table]").WaitForAsync();
    }
}
