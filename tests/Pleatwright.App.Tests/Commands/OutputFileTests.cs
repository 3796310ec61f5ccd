using System.Diagnostics;
using Pleatwright.App;
using Pleatwright.App.Commands;
using Pleatwright.App.Host;
using Pleatwright.Shelf;

namespace Pleatwright.Tests.Commands;

/// <summary>What commands write: never over what they were not told to, whole or not at all, with what stood on a shelf kept.</summary>
public sealed class OutputFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("output").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string In(string name) => Path.Combine(folder, name);

    private string Holding(string name, string text)
    {
        File.WriteAllText(In(name), text);
        return In(name);
    }

    private static string Refusal(string path, Replaces replaces, bool force = false, params string[] inputs) =>
        Assert.Throws<UsageException>(() => OutputFile.Named(path, force, replaces, inputs)).Message;

    [Theory]
    [InlineData("kept.piece.json", "{ \"pleatwright\": 1 }")]
    [InlineData("stash.json", "{ \"stash\": 1, \"made\": \"Pleatwright\" }")]
    [InlineData("list.csv", "name,colour\nrose,#cc2233\n")]
    [InlineData("photo.png", "\u0089PNG and so on")]
    [InlineData("letter.pdf", "%PDF-1.7 somebody's letter")]
    [InlineData("notes.txt", "Buy floss.\nCall the class.\n")]
    public void What_a_maker_made_is_never_written_over_unasked(string name, string text)
    {
        var path = Holding(name, text);
        foreach (var replaces in Enum.GetValues<Replaces>()) Assert.Contains("--force", Refusal(path, replaces), StringComparison.Ordinal);
        OutputFile.Named(path, force: true, Replaces.Nothing);
        Assert.Equal(text, File.ReadAllText(path));
    }

    // Between the last look and the rename there is always an instant; here it is when what is to be written is made.
    [Fact]
    public async Task What_comes_there_in_the_last_instant_stays()
    {
        var path = In("new.piece.json");
        foreach (var force in (bool[])[false, true])
        {
            var output = OutputFile.Named(path, force, Replaces.Nothing);
            var writing = output.ChangeAsync(_ =>
            {
                File.WriteAllText(path, "came meanwhile");
                return "ours"u8.ToArray();
            }, default);
            if (force) await writing; // which says that it may be written over, whenever it came
            else await Assert.ThrowsAsync<UsageException>(() => writing);
            Assert.Equal(force ? "ours" : "came meanwhile", File.ReadAllText(path));
            Assert.Equal([path], Directory.GetFiles(folder)); // and nothing is left beside it
            File.Delete(path);
        }
    }

    [Theory]
    [InlineData("pdf")]
    [InlineData("svg")]
    [InlineData("html")]
    [InlineData("txt")]
    public void A_plate_is_made_again_over_itself_but_not_over_what_it_is_made_from(string ending)
    {
        var path = In("pennant." + ending);
        for (var go = 0; go < 2; go++) Assert.Equal(0, (Program.Run("plate", Program.Example("first-pennant"), "-o", path)).Exit);
        if (ending == "txt") return; // it carries no piece
        var from = Program.Run("plate", path, "-o", path);
        Assert.Equal(2, from.Exit);
        Assert.Contains("this is what it is made from", from.Error, StringComparison.Ordinal);
        Assert.Equal(0, (Program.Run("plate", path, "-o", path, "--force")).Exit);
    }

    [Theory]
    [InlineData("pdf")]
    [InlineData("html")]
    [InlineData("zip")]
    public void A_class_pack_is_made_again_over_itself_but_not_over_a_piece(string ending)
    {
        var path = In("class." + ending);
        for (var go = 0; go < 2; go++) Assert.Equal(0, (Program.Run("class", Program.Example("first-pennant"), "--students", "2", "-o", path)).Exit);
        File.Copy(Program.Example("first-pennant"), path, overwrite: true);
        Assert.Equal(2, (Program.Run("class", Program.Example("first-pennant"), "--students", "2", "-o", path)).Exit);
        Assert.Equal(File.ReadAllBytes(Program.Example("first-pennant")), File.ReadAllBytes(path));
    }

    [Fact]
    public void A_sheet_is_made_again_over_itself()
    {
        foreach (var ending in (string[])["pdf", "svg"])
            for (var go = 0; go < 2; go++) Assert.Equal(0, (Program.Run("plate", Program.Example("first-pennant"), "--sheet", "dots", "-o", In("dots." + ending))).Exit);
    }

    [Fact]
    public void What_may_only_be_read_and_what_is_no_file_is_never_written_over_even_when_told_to()
    {
        if (OperatingSystem.IsWindows()) return;
        var kept = Holding("kept.pdf", "%PDF Pleatwright");
        File.SetUnixFileMode(kept, UnixFileMode.UserRead);
        Assert.Contains("may only be read", Refusal(kept, Replaces.WhatCommandsMade, force: true), StringComparison.Ordinal);
        using (var made = Process.Start("mkfifo", In("pipe.pdf"))) made.WaitForExit();
        using var listening = new System.Net.Sockets.Socket(System.Net.Sockets.AddressFamily.Unix, System.Net.Sockets.SocketType.Stream, System.Net.Sockets.ProtocolType.Unspecified);
        listening.Bind(new System.Net.Sockets.UnixDomainSocketEndPoint(In("socket.pdf")));
        foreach (var name in (string[])["pipe.pdf", "socket.pdf"]) Assert.Contains("no plain file", Refusal(In(name), Replaces.WhatCommandsMade, force: true), StringComparison.Ordinal);
        File.CreateSymbolicLink(In("link.pdf"), In("pipe.pdf"));
        Assert.Contains("no plain file", Refusal(In("link.pdf"), Replaces.WhatCommandsMade, force: true), StringComparison.Ordinal);
        File.CreateSymbolicLink(In("nowhere.pdf"), In("none.pdf"));
        Assert.Contains("leads nowhere", Refusal(In("nowhere.pdf"), Replaces.WhatCommandsMade, force: true), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("boat\u202Efdp.exe.pdf", "U+202E")]
    [InlineData("bo\u200Bat.pdf", "U+200B")]
    [InlineData("boat\u3164.pdf", "U+3164")]
    public void A_name_that_hides_something_is_refused(string name, string told)
    {
        var refusal = Refusal(In(name), Replaces.Nothing);
        Assert.Contains(told, refusal, StringComparison.Ordinal);
        Assert.DoesNotContain(name, refusal, StringComparison.Ordinal); // the terminal is not turned round either
        Assert.False(PieceName.TryParse(Path.GetFileNameWithoutExtension(name), out _, out var problem));
        Assert.Contains(told, problem, StringComparison.Ordinal);
        Assert.DoesNotContain(PieceName.Nearest(name).ToString(), c => c is '\u202E' or '\u200B' or '\u3164');
    }

    [Fact]
    public async Task What_came_there_during_the_work_is_not_written_over()
    {
        var output = OutputFile.Named(In("late.piece.json"), force: false, Replaces.Nothing);
        Holding("late.piece.json", "another's");
        await Assert.ThrowsAsync<UsageException>(() => output.WriteAsync("mine"u8.ToArray(), TestContext.Current.CancellationToken));
        Assert.Equal("another's", File.ReadAllText(In("late.piece.json")));
    }

    [Fact]
    public async Task On_a_shelf_what_is_written_over_is_kept_as_a_version()
    {
        var clock = TimeProvider.System;
        var shelf = new FileShelf(new FolderStore(folder, clock), clock);
        var was = File.ReadAllBytes(Program.Example("first-pennant"));
        var stored = await shelf.CreateAsync(PieceName.Parse("Pennant"), was, TestContext.Current.CancellationToken);
        await OutputFile.Named(In("Pennant.piece.json"), force: true, Replaces.Nothing).WriteAsync(File.ReadAllBytes(Program.Example("gulls-turning")), TestContext.Current.CancellationToken);
        var versions = await shelf.VersionsAsync(stored.Name, TestContext.Current.CancellationToken);
        Assert.Equal(was, await shelf.LoadVersionAsync(stored.Name, Assert.Single(versions).Number, TestContext.Current.CancellationToken));
        Assert.Equal(File.ReadAllBytes(Program.Example("gulls-turning")), File.ReadAllBytes(In("Pennant.piece.json")));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Lists_taken_in_at_once_all_land(bool onShelf)
    {
        if (onShelf) Directory.CreateDirectory(In(".versions"));
        var stash = In("stash.json");
        var lists = Enumerable.Range(0, 8).Select(i => Holding($"list{i}.csv", $"name,colour,skeins\nthread {i},#1020{i:x}0,1\n")).ToList();
        var ran = await Task.WhenAll(lists.Select(l => Task.Run(() => Program.Run("stash", stash, "--import", l))));
        Assert.All(ran, r => Assert.Equal(0, r.Exit));
        var kept = await File.ReadAllTextAsync(stash, TestContext.Current.CancellationToken);
        Assert.All(Enumerable.Range(0, 8), i => Assert.Contains($"thread {i}", kept, StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_a_killed_write_left_is_gone_after_the_next_and_what_another_is_writing_stays()
    {
        var left = Holding(".0123" + AtomicFile.PassingEnding, "half");
        var held = Holding(".89ab" + AtomicFile.PassingEnding, "being written");
        foreach (var old in (string[])[left, held]) File.SetLastWriteTimeUtc(old, DateTime.UtcNow - TimeSpan.FromMinutes(1));
        await using (new FileStream(held, FileMode.Open, FileAccess.Write, FileShare.Delete))
            await OutputFile.Named(In("a.csv"), force: false, Replaces.Nothing).WriteAsync("x"u8.ToArray(), TestContext.Current.CancellationToken);
        Assert.False(File.Exists(left));
        Assert.True(File.Exists(held));
    }

    [Fact]
    public void A_lock_that_is_a_link_is_not_followed()
    {
        if (OperatingSystem.IsWindows()) return;
        Directory.CreateDirectory(In(".versions"));
        var outside = Path.Combine(Path.GetTempPath(), Guid.NewGuid().ToString("N"));
        File.CreateSymbolicLink(In(".versions/.lock"), outside);
        var told = Assert.Throws<AggregateException>(() => new FolderStore(folder, TimeProvider.System).HoldAsync(TestContext.Current.CancellationToken).Wait(TestContext.Current.CancellationToken));
        Assert.Contains("link", told.InnerException!.Message, StringComparison.Ordinal);
        Assert.False(File.Exists(outside));
    }

    [Fact]
    public async Task Names_that_are_one_file_to_the_disk_are_one_name_on_its_shelf()
    {
        var text = File.ReadAllBytes(Program.Example("first-pennant"));
        var shelf = new FileShelf(new ComposingStore(new FolderStore(folder, TimeProvider.System)), TimeProvider.System);
        await shelf.CreateAsync(PieceName.Parse("Café"), text, TestContext.Current.CancellationToken);
        var gulls = File.ReadAllBytes(Program.Example("gulls-turning"));
        var second = await shelf.CreateAsync(PieceName.Parse("Cafe\u0301"), gulls, TestContext.Current.CancellationToken);
        Assert.Equal("Cafe\u0301 2", second.Name.ToString());
        await Assert.ThrowsAsync<ShelfException>(() => shelf.RenameAsync(second.Name, PieceName.Parse("Cafe\u0301"), TestContext.Current.CancellationToken));
        Assert.Equal(text, (await shelf.LoadAsync(PieceName.Parse("Café"), TestContext.Current.CancellationToken)).Text);
        await shelf.CreateAsync(PieceName.Parse("Boat"), text, TestContext.Current.CancellationToken);
        Assert.Equal("boat 2", (await shelf.CreateAsync(PieceName.Parse("boat"), text, TestContext.Current.CancellationToken)).Name.ToString());
    }

    // A disk to which a letter with its accent and the two apart are one name.
    private sealed class ComposingStore(FolderStore disk) : IFileStore
    {
        private static string One(string path) => path.Replace("e\u0301", "é", StringComparison.Ordinal);

        public string Place => disk.Place;
        public Task<IAsyncDisposable> HoldAsync(CancellationToken cancel) => disk.HoldAsync(cancel);
        public Task<IReadOnlyList<StoredFile>> FilesAsync(string folder, CancellationToken cancel) => disk.FilesAsync(One(folder), cancel);
        public Task<IReadOnlyList<string>> FoldersAsync(string folder, CancellationToken cancel) => disk.FoldersAsync(One(folder), cancel);
        public Task<byte[]?> ReadAsync(string path, CancellationToken cancel) => disk.ReadAsync(One(path), cancel);
        public Task WriteAsync(string path, byte[] content, CancellationToken cancel) => disk.WriteAsync(One(path), content, cancel);
        public Task MoveAsync(string from, string to, CancellationToken cancel) => disk.MoveAsync(One(from), One(to), cancel);
        public Task DeleteAsync(string path, CancellationToken cancel) => disk.DeleteAsync(One(path), cancel);
    }
}
