using System.Text;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Bench.Model.Pieces;
using Pleatwright.Files;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Shelf;
using Pleatwright.Tests.Keeping;

namespace Pleatwright.Tests.Pieces;

/// <summary>The shelf as it is looked at: what is done with it, and what is told of it.</summary>
public class BoardTests
{
    private readonly AShelf at = new() { WithDrawer = true };
    private readonly ABench bench;
    private readonly Board board;

    public BoardTests()
    {
        bench = at.Open();
        board = new Board(bench.Keeper, bench.Places, bench.Drawer);
        at.Thread.Do(() => bench.Keeper.NewAsync(ABench.Small("Gulls")));
        at.Thread.Do(board.LookAgainAsync);
    }

    private ShelfEntry Entry => Assert.Single(board.Contents!.Pieces);

    [Fact]
    public void A_piece_is_duplicated_renamed_taken_off_and_put_back_and_each_is_told()
    {
        Assert.True(at.Thread.Do(() => board.DuplicateAsync(Entry)));
        Assert.StartsWith("Duplicated as “", board.Note, StringComparison.Ordinal);
        var copy = board.Contents!.Pieces.Single(p => p.Name != bench.Keeper.Name!.Value.ToString());
        Assert.True(at.Thread.Do(() => board.RenameAsync(copy, "  Terns ")));
        Assert.Equal("Renamed to “Terns”.", board.Note);
        var terns = board.Contents!.Pieces.Single(p => p.Title == "Terns");
        Assert.True(at.Thread.Do(() => board.DeleteAsync(terns)));
        Assert.Equal("“Terns” was taken off the shelf.", board.Note);
        Assert.NotNull(board.TakenOff);
        Assert.True(at.Thread.Do(() => board.PutBackAsync(board.TakenOff!.Value.ToString())));
        Assert.Null(board.TakenOff);
        Assert.Equal(["Gulls", "Terns"], at.Titles);
    }

    [Fact]
    public void Of_files_brought_in_those_that_can_be_read_come_in_and_the_others_are_named()
    {
        var good = PieceWriter.WriteUtf8(ABench.Small("Crab"));
        Assert.True(at.Thread.Do(() => board.BringInAsync(
        [
            new HandedIn("crab.PIECE.json", () => Task.FromResult(good)), new HandedIn("torn.json", () => Task.FromResult(Encoding.UTF8.GetBytes("{ \"pleatwright\": 1 "))),
            new HandedIn("gone.json", () => throw new IOException("it is gone")), new HandedIn("no.zip", () => Task.FromResult(new byte[] { 1, 2, 3 })),
            new HandedIn("many.zip", () => Task.FromResult(Bundle.Pack([(new StoredPiece(PieceName.Parse("Kite"), PieceWriter.WriteUtf8(ABench.Small("Kite")), Pleatwright.Shelf.Edition.Of([1])), null)]))),
        ])));
        Assert.StartsWith("2 pieces brought in. Not brought in: torn.json", board.Note, StringComparison.Ordinal);
        Assert.Contains("gone.json: it is gone", board.Note, StringComparison.Ordinal);
        Assert.Contains("no.zip: ", board.Note, StringComparison.Ordinal);
        Assert.Equal(["Crab", "Gulls", "Kite"], at.Titles);
    }

    [Fact]
    public void A_plate_brought_in_is_the_very_piece_on_the_shelf_under_the_name_of_its_file_and_its_place_comes_along()
    {
        var terns = ABench.Small("Terns & “co” <3");
        foreach (var format in PlateFormat.All.Where(f => CarriedPiece.Endings.Contains(f.Ending)))
        {
            Assert.Contains(format.Ending, Board.Endings.Split(','));
            var name = $"terns at noon {format.Ending[1..]}";
            var made = format.Write(Smocking.Plate(Smocking.Plan(Smocking.Lay(terns)), [], new PlateOptions { Name = PieceName.Parse(name) }));
            // The name of the plate may be any, and says nothing of what it is.
            foreach (var (called, becomes) in new[] { ("plate (3)" + format.Ending, name), ("download", name + " 2") })
            {
                Assert.True(at.Thread.Do(() => board.BringInAsync([new HandedIn(called, () => Task.FromResult(made))])));
                Assert.Equal("1 piece brought in.", board.Note);
                Assert.Equal(PieceWriter.WriteUtf8(terns), at.Files.All.Single(f => f.Path == becomes + PieceName.Ending).Text);
            }
            Assert.True(at.Thread.Do(() => board.BringInAsync([new HandedIn("t" + format.Ending, () => Task.FromResult(made)), new HandedIn("t.place.json", () => Task.FromResult(Place("3..5")))])));
            Assert.Equal("1 piece brought in.", board.Note);
            Assert.Equal(TickLogReader.Read(Place("3..5")), TickLogReader.Read(PlaceOf(name + " 3")!));
        }
    }

    [Fact]
    public void A_plate_without_a_piece_and_one_cut_off_are_refused_by_name_and_the_others_come_in()
    {
        var plate = Smocking.Plate(Smocking.Plan(Smocking.Lay(ABench.Small("Terns"))), []);
        var made = PlateFormat.Pdf.Write(plate);
        Assert.True(at.Thread.Do(() => board.BringInAsync(
        [
            new HandedIn("bare.pdf", () => Task.FromResult(PlateFormat.Pdf.WritePages!("t", plate.Sheets))), new HandedIn("cut.pdf", () => Task.FromResult(made[..(made.Length / 2)])),
            new HandedIn("page.html", () => Task.FromResult("<!DOCTYPE html><p>A page</p>"u8.ToArray())), new HandedIn("whole.pdf", () => Task.FromResult(made)),
        ])));
        Assert.StartsWith("1 piece brought in. Not brought in: bare.pdf:1:1: this PDF carries no piece", board.Note, StringComparison.Ordinal);
        Assert.Contains("cut.pdf:1:1: the PDF breaks off", board.Note, StringComparison.Ordinal);
        Assert.Contains("page.html:1:1: this page or drawing carries no piece", board.Note, StringComparison.Ordinal);
        Assert.Equal(["Gulls", "Terns"], at.Titles);
    }

    private static byte[] Place(string stretch) => Encoding.UTF8.GetBytes($$"""{ "place": 1, "worked": { "c2": [ "{{stretch}} 2026-03-02T10:15Z" ] } }""");

    private string? PlaceOf(string name) => at.Files.All.FirstOrDefault(f => f.Path == name + FileShelf.PlaceEnding).Text is { } text ? Encoding.UTF8.GetString(text) : null;

    [Fact]
    public void What_is_taken_away_in_one_file_comes_in_again_with_every_place()
    {
        var gulls = Entry.Name;
        at.Files.Put(gulls + FileShelf.PlaceEnding, Place("3..5"));
        at.Thread.Do(() => bench.Keeper.NewAsync(ABench.Small("Kite")));
        at.Thread.Do(board.LookAgainAsync);
        var all = at.Thread.Do(board.ExportAllAsync)!.Value;
        Assert.Equal(3, Bundle.Unpack(all.Content).Count());
        Assert.True(at.Thread.Do(() => board.BringInAsync([new HandedIn("shelf.zip", () => Task.FromResult(all.Content))])));
        Assert.Equal("2 pieces brought in.", board.Note);
        var copies = board.Contents!.Pieces.Where(p => p.Title == "Gulls").Select(p => p.Name).ToList();
        Assert.Equal(2, copies.Count);
        Assert.All(copies, c => Assert.Equal(TickLogReader.Read(Place("3..5")), TickLogReader.Read(PlaceOf(c)!)));
        Assert.Equal(2, at.Files.All.Count(f => f.Path.EndsWith(FileShelf.PlaceEnding, StringComparison.Ordinal)));
    }

    [Fact]
    public void Figures_go_out_and_come_in_with_the_pieces_and_one_that_lies_there_otherwise_is_asked_about()
    {
        byte[] Kite(string row, string id = "0123456789abcdef0123456789abcdef") => Encoding.UTF8.GetBytes($$"""{ "figure": 1, "name": "kite", "id": "{{id}}", "threads": { "y": { "colour": "#e0b030" } }, "rows": ["{{row}}"] }""");
        bool BringIn(string name, byte[] text) => at.Thread.Do(() => board.BringInAsync([new HandedIn(name, () => Task.FromResult(text))]));
        string[] InDrawer() => [.. at.Files.All.Where(f => !f.Path.StartsWith('.') && f.Path.EndsWith(".figure.json", StringComparison.Ordinal)).Select(f => $"{f.Path} {FigureReader.Read(f.Text).Figure.Rows[0]}")];

        Assert.True(BringIn("a kite.json", Kite("y"))); // by what it holds, whatever it is called
        Assert.Equal("1 figure brought in.", board.Note);
        Assert.Equal(["kite.figure.json y"], InDrawer());
        var all = at.Thread.Do(board.ExportAllAsync)!.Value;
        Assert.Equal("1 piece and 1 figure exported.", board.Note);
        Assert.True(BringIn("all.zip", all.Content));
        Assert.Equal(["kite.figure.json y"], InDrawer()); // the same figure is there once
        Assert.Empty(board.Doubts);

        Assert.True(BringIn("kite.figure.json", Kite("yy")));
        Assert.Equal(["kite.figure.json y"], InDrawer());
        Assert.True(at.Thread.Do(() => board.KeepAsAnotherAsync(Assert.Single(board.Doubts))));
        Assert.Empty(board.Doubts);
        Assert.Equal(["kite 2.figure.json yy", "kite.figure.json y"], InDrawer());
        Assert.True(BringIn("kite.figure.json", Kite("yyy")));
        Assert.True(at.Thread.Do(() => board.PutInPlaceAsync(board.Doubts[0])));
        Assert.Equal(["kite 2.figure.json yy", "kite.figure.json yyy"], InDrawer());
        Assert.True(BringIn("torn.figure.json", "{ \"figure\": 1 }"u8.ToArray()));
        Assert.Contains("torn.figure.json:1:1: a figure lacks the key “name”", board.Note, StringComparison.Ordinal);

        at.Thread.Do(() => board.TakeOutAsync(bench.Drawer.All.First(f => f.Name == "kite 2")));
        Assert.Equal(["kite.figure.json yyy"], InDrawer());
        Assert.True(at.Thread.Do(() => board.PutFigureBackAsync(board.FigureTakenOut!)));
        Assert.Equal(2, InDrawer().Length);
    }

    [Fact]
    public void A_place_comes_in_with_its_piece_alone_and_one_that_cannot_be_read_is_named()
    {
        var text = PieceWriter.WriteUtf8(ABench.Small("Crab"));
        Assert.True(at.Thread.Do(() => board.BringInAsync(
        [
            new HandedIn("crab.place.json", () => Task.FromResult(Place("7"))), new HandedIn("crab.piece.json", () => Task.FromResult(text)),
            new HandedIn("lost.place.json", () => Task.FromResult(Place("8"))), new HandedIn("torn.piece.json", () => Task.FromResult(text)), new HandedIn("torn.place.json", () => Task.FromResult(Place("x"))),
        ])));
        Assert.StartsWith("2 pieces brought in. Not brought in: lost.place.json: a place comes in with its piece", board.Note, StringComparison.Ordinal);
        Assert.Contains("torn.place.json", board.Note, StringComparison.Ordinal);
        Assert.Equal(1, at.Files.All.Count(f => f.Path.EndsWith(FileShelf.PlaceEnding, StringComparison.Ordinal)));
    }

    [Fact]
    public void Everything_is_taken_away_in_one_file_and_a_piece_in_its_own()
    {
        var all = at.Thread.Do(board.ExportAllAsync)!.Value;
        Assert.Equal("1 piece exported.", board.Note);
        Assert.Single(Bundle.Unpack(all.Content));
        var one = at.Thread.Do(() => board.ExportAsync(Entry))!.Value;
        Assert.Equal("Gulls", PieceReader.Read(one.Content).Title);
        Assert.EndsWith(PieceName.Ending, one.Name, StringComparison.Ordinal);
    }
}
