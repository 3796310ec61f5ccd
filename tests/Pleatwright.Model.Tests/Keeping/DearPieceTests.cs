using System.Text;
using Pleatwright.Bench.Model.Pieces;
using Pleatwright.Chart;
using Pleatwright.Files;

namespace Pleatwright.Tests.Keeping;

/// <summary>A piece that would cost much is asked for before it is opened, and hides no other.</summary>
public class DearPieceTests
{
    private readonly AShelf at = new();

    private static Piece Dear(string title) => ABench.Small(title) with
    {
        Figures = [new Figure("speckle", [.. Enumerable.Repeat("a.a.a.a.a.a.a.a", 4)])],
        Placements = [.. Enumerable.Range(0, 20).Select(i => new Placement("speckle", Centre.Middle, new GatheringRow(1), 0) { Repeat = new Repeat(100, 1) })],
    };

    [Fact]
    public void A_dear_piece_is_opened_only_when_the_maker_says_so()
    {
        Assert.NotNull(Outlay.Of(Dear("Speckles")));
        at.Files.Put("Speckles.piece.json", PieceWriter.WriteUtf8(Dear("Speckles")));
        var bench = at.Open();
        bench.New("Boat");
        at.Thread.Pass(5);
        var board = new Board(bench.Keeper, bench.Places, bench.Drawer);
        at.Thread.Do(board.LookAgainAsync);
        var entry = board.Contents!.Pieces.Single(p => p.Name == "Speckles");
        at.Thread.Do(() => board.OpenAsync(entry));
        Assert.Equal(("Boat", entry), (bench.Title, board.Dear));
        Assert.Contains("stretches of thread", board.Trouble, StringComparison.Ordinal);
        at.Thread.Do(() => board.OpenLargeAsync(entry));
        Assert.Equal(("Speckles", null, ""), (bench.Title, board.Dear, board.Trouble));
    }

    [Fact]
    public void No_edit_makes_a_piece_dear_unasked()
    {
        var bench = at.Open();
        bench.New("Boat");
        at.Thread.Do(() => bench.Desk.Edit("copies", _ => Dear("Boat")));
        Assert.Empty(bench.Desk.Piece.Placements);
        Assert.Contains(bench.Said, s => s.Contains("stretches of thread", StringComparison.Ordinal));
    }

    [Fact]
    public void A_very_large_file_is_listed_by_its_title_without_being_read_and_opened_only_when_asked()
    {
        var large = "{ \"pleatwright\": 1, \"title\": \"Wide sea\", " + new string(' ', Outlay.MostBytes) + "never read";
        at.Files.Put("sea.piece.json", Encoding.UTF8.GetBytes(large));
        at.Files.Put("boat.piece.json", PieceWriter.WriteUtf8(ABench.Small("Boat")));
        var bench = at.Open();
        var board = new Board(bench.Keeper, bench.Places, bench.Drawer);
        at.Thread.Do(board.LookAgainAsync);
        Assert.Equal(["Boat", "Wide sea"], board.Contents!.Pieces.Select(p => p.Title).Order(StringComparer.Ordinal));
        var entry = board.Contents.Pieces.Single(p => p.Name == "sea");
        at.Thread.Do(() => board.OpenAsync(entry));
        Assert.Equal(entry, board.Dear);
        at.Thread.Do(() => board.OpenLargeAsync(entry));
        Assert.Contains("cannot be read", board.Trouble, StringComparison.Ordinal); // now it was
    }
}
