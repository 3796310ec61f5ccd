using Microsoft.Playwright;
using Pleatwright.Chart;
using Pleatwright.Files;

namespace Pleatwright.Browser.Tests;

/// <summary>The drawer of figures: out of one piece, found, into another, changed, offered to the first.</summary>
public class FigureDrawerTests(WarmBench warm) : IClassFixture<WarmBench>
{
    private static string Piece(string title, string threads, string more = "\"figures\": {}") =>
        $$"""{ "pleatwright": 1, "title": "{{title}}", "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 5 }, "threads": { {{threads}} }, {{more}} }""";

    private static readonly string Harbour = Piece("Harbour", """ "r": { "name": "sail red", "colour": "#b3202c" }, "b": { "name": "hull blue", "colour": "#1f4e79" } """,
        """ "figures": { "boat": { "rows": ["..r..", ".rrr.", "bbbbb"] } }, "place": [ { "figure": "boat", "centre": 20, "gatheringRow": 3, "figureRow": 2 } ] """);

    private static readonly string Quay = Piece("Quay", """ "r": { "name": "weed", "colour": "#2f6b3a" }, "x": { "name": "flag", "colour": "#b3202c" }, "n": { "name": "dusk", "colour": "#26557f" } """);

    private static void Fill(string folder)
    {
        File.WriteAllText(Path.Combine(folder, "Harbour.piece.json"), Harbour);
        File.WriteAllText(Path.Combine(folder, "Quay.piece.json"), Quay);
    }

    private static async Task OpenAsync(OpenBench bench, string name)
    {
        await bench.SeeAsync("shelf");
        await bench.Page.Locator("#piece-" + Convert.ToHexString(System.Text.Encoding.UTF8.GetBytes(name))).ClickAsync();
        await bench.Page.Locator(".bench[data-view=table] #table-cloth").FocusAsync();
    }

    private static ILocator Button(OpenBench bench, string name) => bench.Page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    private static Task<KeptFigure> InDrawerAsync(OpenBench bench, string file, Func<KeptFigure, bool> until) => bench.OnShelfAsync(file, text => FigureReader.Read(text), until);

    [Fact]
    public async Task Out_of_one_piece_found_into_another_with_other_letters_asked_where_in_doubt_and_its_change_is_offered_to_the_first()
    {
        await using var bench = await warm.AfreshAsync("shelf", fillShelf: Fill);
        await OpenAsync(bench, "Harbour");
        await AtTheTable.OpenAsync(bench, "Figures");
        await Button(bench, "Keep boat in your drawer").ClickAsync();
        await InDrawerAsync(bench, "boat.figure.json", f => f.Figure.Height == 3);
        var noted = await AtTheTable.OnShelfAsync(bench, p => p.Figure("boat")!.From is not null, "Harbour");
        await Button(bench, "Keep boat in your drawer").WaitForAsync(new() { State = WaitForSelectorState.Detached });

        // Found on the shelf by the word of a colour, and put into the piece on the table.
        await OpenAsync(bench, "Quay");
        await bench.SeeAsync("shelf");
        await bench.Page.Locator("#your-figures").ScrollIntoViewIfNeededAsync();
        await bench.Page.GetByLabel("Name or colour").FillAsync("gull");
        await bench.Page.GetByText("Nothing in the drawer is like that.").WaitForAsync();
        await bench.Page.GetByLabel("Name or colour").FillAsync("blue");
        await bench.Page.GetByText("1 figure found.").WaitForAsync();
        await bench.Page.Locator(".figure-card img").WaitForAsync();
        await bench.PictureAsync("figures-shelf");
        await bench.NoSeriousFaultAsync();
        await bench.Page.Locator(".figure-card .swatch-open").ClickAsync();

        // Its red is there as x and is taken without a word; its blue only nearly: that is asked.
        await bench.Page.Locator("#table-sheet[open] .match").WaitForAsync();
        Assert.Equal(1, await bench.Page.Locator(".match").CountAsync());
        Assert.Equal("hull blue, 4 strands", (await bench.Page.Locator(".match legend").TextContentAsync())!.Trim());
        await bench.PictureAsync("figures-match");
        await bench.NoSeriousFaultAsync();
        Assert.Empty(PieceReader.Read(await File.ReadAllBytesAsync(Path.Combine(bench.Folder, "Quay.piece.json"))).Figures);
        await bench.Page.GetByText("dusk (n): a near colour").ClickAsync();
        await Button(bench, "Lay it so").ClickAsync();
        var quay = await AtTheTable.OnShelfAsync(bench, p => p.Figures.Length == 1, "Quay");
        Assert.Equal(["..x..", ".xxx.", "nnnnn"], quay.Figures[0].Rows);
        Assert.Equal(3, quay.Threads.Length);

        // Changed here and put back.
        await bench.Page.Locator("#table-cloth").FocusAsync();
        await bench.Page.Keyboard.PressAsync("_"); // squares its ends
        await AtTheTable.OpenAsync(bench, "Figures");
        await Button(bench, "Put boat back into your drawer").ClickAsync();
        var back = await InDrawerAsync(bench, "boat.figure.json", f => f.Figure.Square);
        Assert.Equal(noted.Figure("boat")!.From!.Figure, back.Id);
        Assert.Equal(["#b3202c", "#1f4e79"], back.Threads.Select(t => t.Colour.ToString()).OrderDescending()); // what was only matched stays as it was

        // The first piece is offered it, not forced.
        await OpenAsync(bench, "Harbour");
        await bench.Page.Locator("#drawer [aria-label='Put away']").ClickAsync();
        await bench.Page.Locator(".newer-notice").WaitForAsync();
        await bench.PictureAsync("figures-notice");
        await bench.NoSeriousFaultAsync();
        Assert.False(PieceReader.Read(await File.ReadAllBytesAsync(Path.Combine(bench.Folder, "Harbour.piece.json"))).Figure("boat")!.Square);
        await bench.Page.Locator(".newer-notice").GetByText("Look").ClickAsync();
        await bench.Page.Locator("#table-sheet .side-by-side img").Nth(1).WaitForAsync();
        await bench.Page.Locator("#table-sheet .changes").GetByText("Its ends are squared off with half stitches.").WaitForAsync();
        foreach (var (name, size) in Screens.All)
        {
            await bench.LookAsync(size);
            await bench.PictureAsync($"figures-newer-{name}");
            await bench.NoSeriousFaultAsync();
            await bench.FitsTheScreenAsync();
        }
        await bench.LookAsync(Screens.Desktop);
        await Button(bench, "Take the drawer’s").ClickAsync();
        var harbour = await AtTheTable.OnShelfAsync(bench, p => p.Figure("boat")!.Square, "Harbour");
        Assert.Equal(noted.Placements, harbour.Placements);
        Assert.Equal(["..r..", ".rrr.", "bbbbb"], harbour.Figure("boat")!.Rows);
        await bench.Page.Locator(".newer-notice").WaitForAsync(new() { State = WaitForSelectorState.Detached });
    }

    [Fact]
    public async Task A_figure_file_is_dropped_renamed_taken_out_put_back_and_asked_about_where_it_lies_there_otherwise()
    {
        const string Kite = """{ "figure": 1, "name": "kite", "id": "0123456789abcdef0123456789abcdef", "threads": { "y": { "name": "lamp", "colour": "#e0b030" } }, "rows": [".y.", "yyy", ".y."] }""";
        await using var bench = await warm.AfreshAsync("shelf");
        async Task DropAsync(string name, string text) => await bench.Page.EvaluateAsync(
            """
            ([name, text]) => {
              const given = new DataTransfer();
              given.items.add(new File([text], name, { type: "application/json" }));
              const on = document.querySelector(".shelf h2");
              for (const type of ["dragover", "drop"]) on.dispatchEvent(new DragEvent(type, { bubbles: true, cancelable: true, dataTransfer: given }));
            }
            """, (string[])[name, text]);
        var card = bench.Page.Locator(".figure-card");
        await DropAsync("kite.figure.json", Kite);
        await bench.Page.GetByText("1 figure brought in.").WaitForAsync();
        await card.Locator("img").WaitForAsync();
        await bench.Page.GetByText("3 valleys wide, 3 rows high; lamp.").WaitForAsync();

        await card.Locator("summary").ClickAsync();
        await card.GetByText("Rename…").ClickAsync();
        await bench.Page.GetByLabel("Name of the figure", new() { Exact = true }).FillAsync("Box kite");
        await bench.Page.Locator("dialog button.main").ClickAsync();
        await bench.Page.GetByText("Renamed to “Box kite”.").WaitForAsync();
        Assert.True(File.Exists(Path.Combine(bench.Folder, "Box kite.figure.json")));

        // The same file once more is nothing new; in another state it is asked about.
        await DropAsync("again.json", Kite.Replace(".y.\"]", "yyy\"]", StringComparison.Ordinal));
        await bench.Page.GetByText("lies in your drawer otherwise than in the file brought in").WaitForAsync();
        await bench.PictureAsync("figures-doubt");
        await bench.NoSeriousFaultAsync();
        await Button(bench, "Put the file’s in its place").ClickAsync();
        var placed = await InDrawerAsync(bench, "Box kite.figure.json", f => f.Figure.Rows[2] == "yyy");
        Assert.Equal("Box kite", placed.Name);

        if (await card.Locator("details[open]").CountAsync() == 0) await card.Locator("summary").ClickAsync();
        await card.GetByText("Earlier versions…").ClickAsync();
        await bench.Page.Locator(".versions img").First.WaitForAsync();
        await bench.Page.Keyboard.PressAsync("Escape");

        if (await card.Locator("details[open]").CountAsync() == 0) await card.Locator("summary").ClickAsync();
        await card.GetByText("Take out of the drawer").ClickAsync();
        await bench.Page.GetByText("Pieces that use it keep theirs.").WaitForAsync();
        Assert.False(File.Exists(Path.Combine(bench.Folder, "Box kite.figure.json")));
        await bench.Page.Keyboard.PressAsync("Enter"); // the focus is on putting it back
        await card.Locator("img").WaitForAsync();
        Assert.True(File.Exists(Path.Combine(bench.Folder, "Box kite.figure.json")));
        var taken = await bench.Page.RunAndWaitForDownloadAsync(async () =>
        {
            if (await card.Locator("details[open]").CountAsync() == 0) await card.Locator("summary").ClickAsync();
            await card.GetByText("Export file").ClickAsync();
        });
        Assert.Equal("Box kite.figure.json", taken.SuggestedFilename);
    }
}
