using System.Net;
using System.Text;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Shelf;

namespace Pleatwright.Tests.Host;

/// <summary>The drawer of figures over the wire, as the bench speaks.</summary>
public class FigureTests
{
    private static byte[] Figure(string name, string row, string? id = null) => Encoding.UTF8.GetBytes(
        $$"""{ "figure": 1, "name": "{{name}}", "id": "{{id ?? "0123456789abcdef0123456789abcdef"}}", "threads": { "r": { "colour": "#b3202c" } }, "rows": ["{{row}}"] }""");

    private static async Task<ShelfTrouble> TroubleAsync(Func<Task> act) => (await Assert.ThrowsAsync<ShelfException>(act)).Trouble;

    [Fact]
    public async Task Figures_are_plain_files_beside_the_pieces_by_the_same_rules_and_no_pieces()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var figures = HostTexts.Figures(shelf.Client);
        var made = await figures.CreateAsync(PieceName.Parse("boat"), Figure("boat", "r"));
        Assert.Equal(Figure("boat", "r"), File.ReadAllBytes(Path.Combine(shelf.Folder, "boat.figure.json")));
        Assert.Equal("boat", Assert.Single((await figures.ListAsync()).Pieces).Title);
        Assert.Contains("\"pieces\":[]", await shelf.Client.GetStringAsync("/api/shelf"), StringComparison.Ordinal);

        // Over the edition it came from; else both are kept.
        var second = await figures.SaveAsync(made.Name, Figure("boat", "rr"), made.Edition, SaveKind.Kept);
        Assert.Equal(ShelfTrouble.Conflict, await TroubleAsync(() => figures.SaveAsync(made.Name, Figure("boat", "rrr"), made.Edition, SaveKind.Kept)));
        Assert.Equal(second, (await figures.LoadAsync(made.Name)).Edition);
        var versions = await figures.VersionsAsync(made.Name);
        Assert.Equal([KeptBecause.Conflict, KeptBecause.Saved], versions.Select(v => v.Because));
        Assert.Equal(Figure("boat", "rrr"), await figures.LoadVersionAsync(made.Name, versions[0].Number));

        // One identity is begun once, under whatever name; another of the same name stands beside it.
        Assert.Equal(ShelfTrouble.Taken, await TroubleAsync(() => figures.CreateAsync(PieceName.Parse("other"), Figure("other", "r"))));
        Assert.Equal("boat 2", (await figures.CreateAsync(PieceName.Parse("boat"), Figure("boat", "r", "fedcba9876543210fedcba9876543210"))).Name.ToString());

        await figures.RenameAsync(made.Name, PieceName.Parse("little boat"));
        await figures.DeleteAsync(PieceName.Parse("little boat"));
        Assert.False(File.Exists(Path.Combine(shelf.Folder, "little boat.figure.json")));
        Assert.Equal("little boat", Assert.Single((await figures.ListAsync()).Deleted).Name);
        await figures.UndoDeleteAsync(PieceName.Parse("little boat"));
        Assert.Equal(Figure("boat", "rr"), File.ReadAllBytes(Path.Combine(shelf.Folder, "little boat.figure.json")));
        await figures.RestoreAsync(PieceName.Parse("little boat"), versions[0].Number);
        Assert.Equal(Figure("boat", "rrr"), (await figures.LoadAsync(PieceName.Parse("little boat"))).Text);
    }

    [Fact]
    public async Task What_is_no_figure_is_refused_with_its_place_and_a_broken_file_is_listed_and_left()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var figures = HostTexts.Figures(shelf.Client);
        var refused = await Assert.ThrowsAsync<ShelfException>(() => figures.CreateAsync(PieceName.Parse("gull"), Encoding.UTF8.GetBytes(ServedShelf.Piece)));
        Assert.Contains("This is no figure file: line 1, column 1", refused.Message, StringComparison.Ordinal);
        File.WriteAllText(Path.Combine(shelf.Folder, "torn.figure.json"), "{ \"figure\": 1,\n");
        File.WriteAllText(Path.Combine(shelf.Folder, "later.figure.json"), "{ \"figure\": 2 }");
        var listed = (await figures.ListAsync()).Pieces.ToDictionary(p => p.Name, p => p.Problem);
        Assert.Contains("line 2", listed["torn"], StringComparison.Ordinal);
        Assert.Contains("newer than this program reads", listed["later"], StringComparison.Ordinal);
        Assert.Equal("{ \"figure\": 1,\n", File.ReadAllText(Path.Combine(shelf.Folder, "torn.figure.json")));
        Assert.Equal(HttpStatusCode.NotFound, (await shelf.Client.GetAsync("/api/figures/boat/place")).StatusCode); // a figure has no place
    }
}
