using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using CsCheck;
using Pleatwright.App;
using Pleatwright.App.Host;
using Pleatwright.Shelf;

namespace Pleatwright.Tests.Host;

public class ShelfTests
{
    private static Task<ShelfContents?> ListAsync(ServedShelf shelf) => shelf.Client.GetFromJsonAsync("/api/shelf", ShelfJson.Default.ShelfContents);

    private static async Task<List<PieceVersion>> VersionsAsync(ServedShelf shelf, string name) =>
        [.. (await shelf.Client.GetFromJsonAsync(ServedShelf.Address(name) + "/versions", ShelfJson.Default.IReadOnlyListPieceVersion))!];

    [Fact]
    public async Task A_piece_is_a_plain_file_of_the_very_text_sent()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var tag = await shelf.CreateAsync("Möwe über dem Hafen");
        Assert.Equal(ServedShelf.Piece, File.ReadAllText(shelf.FileOf("Möwe über dem Hafen")));
        using var got = await shelf.Client.GetAsync(ServedShelf.Address("Möwe über dem Hafen"));
        Assert.Equal(ServedShelf.Piece, await got.Content.ReadAsStringAsync());
        Assert.Equal(tag, got.Headers.ETag);
        var entry = Assert.Single((await ListAsync(shelf))!.Pieces);
        Assert.Equal(("Möwe über dem Hafen", "Gull", null), (entry.Name, entry.Title, entry.Problem));
    }

    [Fact]
    public async Task A_name_that_is_taken_gives_the_next_free_one_whatever_its_case()
    {
        await using var shelf = await ServedShelf.StartAsync();
        await shelf.CreateAsync("Gull");
        await shelf.CreateAsync("gull");
        await shelf.CreateAsync("Gull");
        Assert.Equal(["Gull", "Gull 3", "gull 2"], (await ListAsync(shelf))!.Pieces.Select(p => p.Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task The_last_fifty_versions_are_kept_and_any_can_be_restored()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var tag = await shelf.CreateAsync("Gull", ServedShelf.Titled("Gull 0"));
        for (var i = 1; i <= 60; i++)
        {
            using var saved = await shelf.SaveAsync("Gull", ServedShelf.Titled($"Gull {i}"), tag);
            Assert.Equal(HttpStatusCode.NoContent, saved.StatusCode);
            tag = saved.Headers.ETag!;
        }
        var versions = await VersionsAsync(shelf, "Gull");
        Assert.Equal(IShelf.MostVersions, versions.Count);
        Assert.Equal(Enumerable.Range(11, 50).Reverse(), versions.Select(v => v.Number));
        Assert.Equal(ServedShelf.Titled("Gull 59"), await shelf.Client.GetStringAsync(ServedShelf.Address("Gull") + "/versions/60"));

        using var restored = await shelf.Client.PostAsync(ServedShelf.Address("Gull") + "/versions/30/restore", null);
        Assert.Equal(HttpStatusCode.NoContent, restored.StatusCode);
        Assert.Equal(ServedShelf.Titled("Gull 29"), File.ReadAllText(shelf.FileOf("Gull")));
        Assert.Equal(ServedShelf.Titled("Gull 60"), await shelf.Client.GetStringAsync(ServedShelf.Address("Gull") + "/versions/61"));
        Assert.Equal(KeptBecause.Restored, (await VersionsAsync(shelf, "Gull"))[0].Because);
    }

    [Fact]
    public async Task Saves_by_the_bench_itself_keep_a_version_only_now_and_then()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var tag = await shelf.CreateAsync("Gull", ServedShelf.Titled("Gull 0"));
        for (var i = 1; i <= 20; i++) tag = (await shelf.SaveAsync("Gull", ServedShelf.Titled($"Gull {i}"), tag, "?by=bench")).Headers.ETag!;
        Assert.Single(await VersionsAsync(shelf, "Gull"));
        Assert.Equal(ServedShelf.Titled("Gull 0"), await shelf.Client.GetStringAsync(ServedShelf.Address("Gull") + "/versions/1"));
    }

    [Fact]
    public async Task Two_benches_on_one_piece_lose_nothing()
    {
        await using var one = await ServedShelf.StartAsync();
        await using var two = await ServedShelf.StartAsync(one.Folder); // another host on the same folder
        var tag = await one.CreateAsync("Gull");
        using var first = await one.SaveAsync("Gull", ServedShelf.Titled("First"), tag);
        using var second = await two.SaveAsync("Gull", ServedShelf.Titled("Second"), tag);
        Assert.Equal(HttpStatusCode.NoContent, first.StatusCode);
        Assert.Equal(HttpStatusCode.PreconditionFailed, second.StatusCode);
        Assert.Contains("Both were kept", await second.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(ServedShelf.Titled("First"), File.ReadAllText(one.FileOf("Gull")));
        var newest = (await VersionsAsync(one, "Gull"))[0];
        Assert.Equal(KeptBecause.Conflict, newest.Because);
        Assert.Equal(ServedShelf.Titled("Second"), await one.Client.GetStringAsync($"{ServedShelf.Address("Gull")}/versions/{newest.Number}"));
        using var again = await two.SaveAsync("Gull", ServedShelf.Titled("First"), tag); // what stands there already is no quarrel
        Assert.Equal(HttpStatusCode.NoContent, again.StatusCode);
    }

    [Fact]
    public async Task Of_many_saves_at_once_one_wins_and_every_other_is_kept()
    {
        await using var one = await ServedShelf.StartAsync();
        await using var two = await ServedShelf.StartAsync(one.Folder);
        var tag = await one.CreateAsync("Gull", ServedShelf.Titled("Start"));
        var answers = await Task.WhenAll(Enumerable.Range(0, 24).Select(i => (i % 2 == 0 ? one : two).SaveAsync("Gull", ServedShelf.Titled($"Copy {i}"), tag)));
        Assert.Equal(1, answers.Count(a => a.StatusCode == HttpStatusCode.NoContent));
        Assert.Equal(23, answers.Count(a => a.StatusCode == HttpStatusCode.PreconditionFailed));
        var kept = new HashSet<string> { File.ReadAllText(one.FileOf("Gull")) };
        foreach (var version in await VersionsAsync(one, "Gull"))
            kept.Add(await one.Client.GetStringAsync($"{ServedShelf.Address("Gull")}/versions/{version.Number}"));
        Assert.Equal(25, kept.Count);
    }

    [Fact]
    public async Task A_save_over_a_piece_deleted_meanwhile_is_kept_and_can_be_put_back()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var tag = await shelf.CreateAsync("Gull");
        File.Delete(shelf.FileOf("Gull")); // by hand
        using var refused = await shelf.SaveAsync("Gull", ServedShelf.Titled("Mine"), tag);
        Assert.Equal(HttpStatusCode.NotFound, refused.StatusCode);
        Assert.Equal("Mine", Assert.Single((await ListAsync(shelf))!.Deleted).Title);
        (await shelf.Client.PostAsync(ServedShelf.Address("Gull") + "/undelete", null)).EnsureSuccessStatusCode();
        Assert.Equal(ServedShelf.Titled("Mine"), File.ReadAllText(shelf.FileOf("Gull")));
    }

    [Fact]
    public async Task A_save_must_name_the_edition_it_replaces()
    {
        await using var shelf = await ServedShelf.StartAsync();
        await shelf.CreateAsync("Gull");
        using var refused = await shelf.Client.PutAsync(ServedShelf.Address("Gull"), ServedShelf.Json(ServedShelf.Titled("Other")));
        Assert.Equal(HttpStatusCode.PreconditionRequired, refused.StatusCode);
        Assert.Equal(ServedShelf.Piece, File.ReadAllText(shelf.FileOf("Gull")));
    }

    [Fact]
    public async Task What_is_no_piece_is_refused_with_its_place()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var tag = await shelf.CreateAsync("Gull");
        using var refused = await shelf.SaveAsync("Gull", "{ \"pleatwright\": 1,\n  \"cloth\": 3 }", tag);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("line 2, column 12", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(ServedShelf.Piece, File.ReadAllText(shelf.FileOf("Gull")));
    }

    [Fact]
    public async Task Deleting_can_be_undone_and_the_versions_come_back_with_it()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var tag = await shelf.CreateAsync("Gull");
        await shelf.SaveAsync("Gull", ServedShelf.Titled("Later"), tag);
        (await shelf.Client.DeleteAsync(ServedShelf.Address("Gull"))).EnsureSuccessStatusCode();
        var list = (await ListAsync(shelf))!;
        Assert.Empty(list.Pieces);
        Assert.Equal(("Gull", "Later"), (list.Deleted[0].Name, list.Deleted[0].Title));
        await shelf.CreateAsync("Gull", ServedShelf.Titled("New")); // takes the name; the deleted piece steps aside
        Assert.Empty(await VersionsAsync(shelf, "Gull"));
        (await shelf.Client.PostAsync(ServedShelf.Address("Gull 2") + "/undelete", null)).EnsureSuccessStatusCode();
        Assert.Equal(ServedShelf.Titled("Later"), File.ReadAllText(shelf.FileOf("Gull 2")));
        Assert.Equal(2, (await VersionsAsync(shelf, "Gull 2")).Count);
        Assert.Equal(ServedShelf.Titled("New"), File.ReadAllText(shelf.FileOf("Gull")));
    }

    [Fact]
    public async Task Renaming_takes_the_versions_along_and_never_covers_another_piece()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var tag = await shelf.CreateAsync("Gull");
        await shelf.SaveAsync("Gull", ServedShelf.Titled("Later"), tag);
        await shelf.CreateAsync("Crab", ServedShelf.Titled("Crab"));
        using var taken = await shelf.Client.PostAsync(ServedShelf.Address("Gull") + "/rename?to=crab", null);
        Assert.Equal(HttpStatusCode.Conflict, taken.StatusCode);
        (await shelf.Client.PostAsync(ServedShelf.Address("Gull") + "/rename?to=Kite", null)).EnsureSuccessStatusCode();
        Assert.Single(await VersionsAsync(shelf, "Kite"));
        (await shelf.Client.PostAsync(ServedShelf.Address("Kite") + "/rename?to=kite", null)).EnsureSuccessStatusCode();
        Assert.Single(await VersionsAsync(shelf, "kite"));
        Assert.Equal(["Crab", "kite"], (await ListAsync(shelf))!.Pieces.Select(p => p.Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task A_duplicate_stands_on_its_own()
    {
        await using var shelf = await ServedShelf.StartAsync();
        await shelf.CreateAsync("Gull");
        foreach (var expected in new[] { "Gull copy", "Gull copy 2" })
        {
            var answer = await shelf.Client.PostAsync(ServedShelf.Address("Gull") + "/duplicate", null);
            Assert.Equal(expected, (await answer.Content.ReadFromJsonAsync(ShelfJson.Default.ShelfName))!.Name);
            Assert.Equal(ServedShelf.Piece, File.ReadAllText(shelf.FileOf(expected)));
        }
    }

    [Fact]
    public async Task A_folder_edited_by_hand_is_shown_as_it_is_and_nothing_in_it_is_touched()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var outside = Path.GetTempFileName();
        File.WriteAllText(outside, ServedShelf.Titled("Outside"));
        File.WriteAllText(shelf.FileOf("Good"), ServedShelf.Piece);
        File.WriteAllText(shelf.FileOf("Broken"), "{ \"pleatwright\": 1,\n");
        File.WriteAllText(shelf.FileOf("Newer"), """{ "pleatwright": 9 }""");
        File.WriteAllText(shelf.FileOf("Empty"), "");
        File.WriteAllText(Path.Combine(shelf.Folder, "notes.txt"), "mine");
        if (!OperatingSystem.IsWindows())
        {
            File.WriteAllText(shelf.FileOf("a:b"), ServedShelf.Piece);
            File.CreateSymbolicLink(shelf.FileOf("Link"), outside);
        }
        var before = Directory.GetFiles(shelf.Folder).ToDictionary(f => f, File.ReadAllBytes);
        var listed = (await ListAsync(shelf))!.Pieces.ToDictionary(p => p.Name);
        Assert.Null(listed["Good"].Problem);
        Assert.Contains("line 2, column 1", listed["Broken"].Problem, StringComparison.Ordinal);
        Assert.Contains("newer", listed["Newer"].Problem, StringComparison.Ordinal);
        Assert.NotNull(listed["Empty"].Problem);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Contains("Rename", listed["a:b"].Problem, StringComparison.Ordinal);
            Assert.Contains("link", listed["Link"].Problem, StringComparison.Ordinal);
            using var link = await shelf.Client.GetAsync(ServedShelf.Address("Link"));
            Assert.Equal(HttpStatusCode.UnprocessableEntity, link.StatusCode);
            using var over = await shelf.SaveAsync("Link", ServedShelf.Piece, new EntityTagHeaderValue("\"x\""));
            Assert.Equal(HttpStatusCode.UnprocessableEntity, over.StatusCode);
        }
        Assert.Equal(before.Keys.Order(), Directory.GetFiles(shelf.Folder).Order());
        foreach (var (file, content) in before) Assert.Equal(content, File.ReadAllBytes(file));
        Assert.Equal(ServedShelf.Titled("Outside"), File.ReadAllText(outside));
        File.WriteAllText(shelf.FileOf("Broken"), ServedShelf.Titled("Mended")); // and the list follows the hand
        Assert.Equal("Mended", (await ListAsync(shelf))!.Pieces.Single(p => p.Name == "Broken").Title);
        File.Delete(outside);
    }

    [Fact]
    public async Task A_versions_folder_that_leads_elsewhere_is_not_followed()
    {
        if (OperatingSystem.IsWindows()) return;
        await using var shelf = await ServedShelf.StartAsync();
        var outside = Directory.CreateTempSubdirectory("outside").FullName;
        Directory.CreateSymbolicLink(Path.Combine(shelf.Folder, ".versions"), outside);
        File.WriteAllText(shelf.FileOf("Gull"), ServedShelf.Piece);
        using var answer = await shelf.Client.DeleteAsync(ServedShelf.Address("Gull"));
        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Empty(Directory.GetFileSystemEntries(outside));
        Assert.True(File.Exists(shelf.FileOf("Gull")));
        Directory.Delete(outside);
    }

    [Fact]
    public async Task What_a_kill_left_behind_is_swept_and_never_listed()
    {
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        string Leftover(string name, TimeSpan age)
        {
            var path = Path.Combine(folder, name + AtomicFile.PassingEnding);
            File.WriteAllText(path, "{ \"pleatwr");
            File.SetLastWriteTimeUtc(path, DateTime.UtcNow - age);
            return path;
        }
        var old = Leftover(".0123", TimeSpan.FromMinutes(5));
        var young = Leftover(".4567", TimeSpan.FromMinutes(5)); // a bench is writing it this moment
        await using (new FileStream(young, FileMode.Open, FileAccess.Write, FileShare.Delete))
        await using (var shelf = await ServedShelf.StartAsync(folder))
        {
            await shelf.CreateAsync("Gull");
            Assert.Single((await ListAsync(shelf))!.Pieces);
        }
        Assert.False(File.Exists(old));
        Assert.True(File.Exists(young));
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_shelf_whose_folder_is_gone_says_so_and_is_not_made_anew()
    {
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        await using var shelf = await ServedShelf.StartAsync(folder);
        Directory.Delete(folder);
        using var list = await shelf.Client.GetAsync("/api/shelf");
        Assert.Equal(HttpStatusCode.ServiceUnavailable, list.StatusCode);
        using var create = await shelf.Client.PostAsync("/api/shelf/pieces?name=Gull", ServedShelf.Json(ServedShelf.Piece));
        Assert.Equal(HttpStatusCode.ServiceUnavailable, create.StatusCode);
        Assert.False(Directory.Exists(folder));
    }

    [Fact]
    public void Every_name_that_is_accepted_stays_on_the_shelf_and_every_nearest_name_is_accepted()
    {
        var folder = Path.GetFullPath(Path.Combine(Path.GetTempPath(), "shelf"));
        string[] bits = ["..", ".", "/", "\\", "con", "NUL", "lpt1", "COM¹", ":", "%2e", "\0", " ", "é", "🦀", "a", "\ud800", "\n", "~", "aux.b", new string('x', 100)];
        Gen.Int[0, bits.Length - 1].Select(i => bits[i]).Array[0, 8].Select(string.Concat).Sample(text =>
        {
            if (PieceName.TryParse(text, out var name, out var problem))
            {
                Assert.Equal(folder, Path.GetDirectoryName(Path.GetFullPath(Path.Combine(folder, name.FileName))));
                Assert.True(System.Text.Encoding.UTF8.GetByteCount(name.FileName) <= 255);
                Assert.True(PieceName.TryParseFile(name.Numbered(1234).FileName, out _, out _));
            }
            else
            {
                Assert.NotEmpty(problem);
            }
            var nearest = PieceName.Nearest(text);
            Assert.True(PieceName.TryParse(nearest.ToString(), out _, out _), nearest.ToString());
            Assert.Equal(nearest, PieceName.Nearest(nearest.ToString()));
        }, iter: 20_000);
        foreach (var reserved in new[] { "CON", "con", "nul.x", "AUX ", "COM1", "lpt9.piece", "COM²", "CONIN$", "..", ".", ".hidden", "a.", "a/b", "a\\b", "a:b", "" })
            Assert.False(PieceName.TryParse(reserved, out _, out _), reserved);
        foreach (var fine in new[] { "console", "Com", "COM10", "100% wool", "Grandma's hat", "nulls" })
            Assert.True(PieceName.TryParse(fine, out _, out _), fine);
    }

    [Fact]
    public async Task A_port_that_is_taken_is_said_at_the_start()
    {
        await using var shelf = await ServedShelf.StartAsync();
        await Assert.ThrowsAnyAsync<IOException>(() => BenchHost.StartAsync(shelf.Folder, shelf.Host.Url.Port));
    }
}
