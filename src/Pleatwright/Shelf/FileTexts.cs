using System.Collections.Concurrent;
using Pleatwright.Chart;
using Pleatwright.Files;

namespace Pleatwright.Shelf;

/// <summary>What lies on a shelf: pieces, or figures.</summary>
/// <param name="What">What one of them is called: "piece".</param>
/// <param name="Ending">What the names of their files end with.</param>
/// <param name="VersionsFolder">The folder kept out of sight beside them, for their versions.</param>
/// <param name="Read">Reads a text; throws <see cref="PieceFormatException"/> where it cannot be read.</param>
internal sealed record Goods(string What, string Ending, string VersionsFolder, Func<byte[], Told> Read)
{
    /// <summary>Pieces.</summary>
    public static Goods Pieces { get; } = new("piece", PieceName.Ending, ".versions", text => new Told(PieceReader.Read(text).Title));

    /// <summary>The figures of the maker's drawer: one of an identity is begun once.</summary>
    public static Goods Figures { get; } = new("figure", FigureReader.Ending, ".figures", text => FigureReader.Read(text) is var kept ? new Told(kept.Name, kept.Id) : default);

    /// <summary>The file in which one of a name is kept.</summary>
    public string FileOf(PieceName name) => name + Ending;
}

/// <summary>What a text tells the shelf of itself.</summary>
/// <param name="Title">Its title.</param>
/// <param name="Identity">By what it is known, whatever its file is called; null where its file's name is all.</param>
internal readonly record struct Told(string Title, string? Identity = null);

/// <summary>
/// Named texts as files in a store: the rules of <see cref="ITextShelf"/>, the same on disk and in the browser. They stand in the root; the versions of the piece
/// "Boat" in ".versions/Boat". A folder of versions whose file is gone is one that was deleted, however it was deleted, so no step of a deletion can lose anything.
/// </summary>
/// <param name="store">The store.</param>
/// <param name="clock">Tells when versions were kept, and when the next is due.</param>
/// <param name="goods">What they are.</param>
internal class FileTexts(IFileStore store, TimeProvider clock, Goods goods) : ITextShelf
{
    /// <summary>How often a save by the bench itself keeps a version.</summary>
    public static readonly TimeSpan AutoVersionEvery = TimeSpan.FromMinutes(2);

    /// <summary>The store they are in.</summary>
    protected IFileStore Store { get; } = store;

    private readonly ConcurrentDictionary<string, (StoredFile File, ShelfEntry Entry, string? Identity)> known = new();
    private readonly ConcurrentDictionary<string, string> versionTitles = new();
    private readonly Dictionary<PieceName, long> lastKept = []; // by the steady clock, which cannot be set back

    /// <inheritdoc/>
    public bool InBrowserOnly { get; init; }

    /// <inheritdoc/>
    public async Task<ShelfContents> ListAsync(CancellationToken cancel = default)
    {
        var pieces = new List<ShelfEntry>();
        foreach (var file in await Store.FilesAsync("", cancel))
            if (file.Name.EndsWith(goods.Ending, StringComparison.Ordinal))
                pieces.Add(await EntryAsync(file, cancel));
        foreach (var gone in known.Keys.Except(pieces.Select(p => p.Name + goods.Ending)).ToList()) known.TryRemove(gone, out _);
        var deleted = new List<DeletedPiece>();
        var standing = pieces.Select(p => p.Name).ToHashSet(FileNames.OneFile);
        foreach (var folder in await Store.FoldersAsync(goods.VersionsFolder, cancel))
        {
            if (!PieceName.TryParse(folder, out var name, out _)) continue;
            if (standing.Contains(folder)) continue;
            if (await VersionsAsync(name, cancel) is [var last, ..])
                deleted.Add(new DeletedPiece(folder, await TitleOfVersionAsync(name, last, cancel), last.Kept));
        }
        return new ShelfContents(Store.Place,
            [.. pieces.OrderByDescending(p => p.Modified).ThenBy(p => p.Name, StringComparer.OrdinalIgnoreCase)],
            [.. deleted.OrderByDescending(d => d.Kept).ThenBy(d => d.Name, StringComparer.OrdinalIgnoreCase)]);
    }

    /// <inheritdoc/>
    public async Task<StoredPiece> LoadAsync(PieceName name, CancellationToken cancel = default)
    {
        var text = await ReadAsync(name, cancel) ?? throw Missing(name);
        return new StoredPiece(name, text, Edition.Of(text));
    }

    /// <inheritdoc/>
    public async Task<StoredPiece> CreateAsync(PieceName wanted, byte[] text, CancellationToken cancel = default)
    {
        MustBeReadable(text);
        var identity = goods.Read(text).Identity;
        await using var held = await Store.HoldAsync(cancel);
        if (identity is not null && await OfIdentityAsync(identity, cancel) is { } twin)
            throw new ShelfException(ShelfTrouble.Taken, $"This {goods.What} is there already, as “{twin}”; nothing was changed.");
        var name = await FreeNameAsync(wanted, cancel);
        await Store.WriteAsync(goods.FileOf(name), text, cancel);
        return new StoredPiece(name, text, Edition.Of(text));
    }

    /// <inheritdoc/>
    public async Task<Edition> SaveAsync(PieceName name, byte[] text, Edition over, SaveKind kind, CancellationToken cancel = default)
    {
        MustBeReadable(text);
        await using var held = await Store.HoldAsync(cancel);
        var edition = Edition.Of(text);
        var standing = await ReadAsync(name, cancel);
        if (standing is not null && Edition.Of(standing) == edition) return edition; // said twice
        if (standing is null || Edition.Of(standing) != over)
        {
            await VersionsOf(name).KeepAsync(text, KeptBecause.Conflict, cancel);
            throw standing is null
                ? new ShelfException(ShelfTrouble.NotFound, $"“{name}” was deleted or renamed while you worked on it. Your copy was kept: it waits among the deleted {goods.What}s.")
                : new ShelfException(ShelfTrouble.Conflict, $"“{name}” was changed by another bench or program while you worked on it. Both were kept: the other stands on the shelf, yours is the latest among its versions.");
        }
        if (kind == SaveKind.Kept || VersionIsDue(name))
        {
            await VersionsOf(name).KeepAsync(standing, KeptBecause.Saved, cancel);
            lastKept[name] = clock.GetTimestamp();
        }
        await Store.WriteAsync(goods.FileOf(name), text, cancel);
        return edition;
    }

    /// <inheritdoc/>
    public async Task RenameAsync(PieceName name, PieceName to, CancellationToken cancel = default)
    {
        if (name == to) return;
        await using var held = await Store.HoldAsync(cancel);
        var names = await FileNamesAsync(cancel);
        if (!names.Contains(goods.FileOf(name), StringComparer.Ordinal)) throw Missing(name);
        if (!name.SameFile(to) && (names.Contains(goods.FileOf(to), FileNames.OneFile) || await ReadAsync(to, cancel) is not null))
            throw new ShelfException(ShelfTrouble.Taken, $"There is a {goods.What} called “{to}” already; nothing was changed.");
        if (!name.SameFile(to)) await MakeWayAsync(to, cancel);
        await Store.MoveAsync(goods.FileOf(name), goods.FileOf(to), cancel);
        await RenamedAsync(name, to, names, cancel);
        if ((await Store.FoldersAsync(goods.VersionsFolder, cancel)).Contains(name.ToString()))
            await Store.MoveAsync(FolderOf(name), FolderOf(to), cancel);
    }

    /// <inheritdoc/>
    public async Task DeleteAsync(PieceName name, CancellationToken cancel = default)
    {
        await using var held = await Store.HoldAsync(cancel);
        var text = await ReadAsync(name, cancel) ?? throw Missing(name);
        await VersionsOf(name).KeepAsync(text, KeptBecause.Deleted, cancel);
        var gone = await DeletingAsync(name, cancel);
        await Store.DeleteAsync(goods.FileOf(name), cancel);
        await gone();
    }

    /// <inheritdoc/>
    public async Task<PieceName> UndoDeleteAsync(PieceName name, CancellationToken cancel = default)
    {
        await using var held = await Store.HoldAsync(cancel);
        if (await ReadAsync(name, cancel) is not null)
            throw new ShelfException(ShelfTrouble.Taken, $"“{name}” stands on the shelf already; nothing was changed.");
        if (await VersionsAsync(name, cancel) is not [var last, ..]) throw Missing(name);
        await PuttingBackAsync(name, cancel);
        await Store.WriteAsync(goods.FileOf(name), await LoadVersionAsync(name, last.Number, cancel), cancel);
        return name;
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<PieceVersion>> VersionsAsync(PieceName name, CancellationToken cancel = default) => VersionsOf(name).ListAsync(cancel);

    /// <inheritdoc/>
    public async Task<byte[]> LoadVersionAsync(PieceName name, int number, CancellationToken cancel = default) =>
        await VersionsOf(name).LoadAsync(number, cancel) ?? throw new ShelfException(ShelfTrouble.NotFound, $"“{name}” has no version {number}.");

    /// <inheritdoc/>
    public async Task<Edition> RestoreAsync(PieceName name, int number, CancellationToken cancel = default)
    {
        await using var held = await Store.HoldAsync(cancel);
        var text = await LoadVersionAsync(name, number, cancel);
        if (await ReadAsync(name, cancel) is { } standing) await VersionsOf(name).KeepAsync(standing, KeptBecause.Restored, cancel);
        await Store.WriteAsync(goods.FileOf(name), text, cancel);
        return Edition.Of(text);
    }

    /// <summary>It has just been given another name; what lies beside it follows.</summary>
    protected virtual Task RenamedAsync(PieceName name, PieceName to, List<string> names, CancellationToken cancel) => Task.CompletedTask;

    /// <summary>It is about to be deleted; what lies beside it is put where it can be found again.</summary>
    /// <returns>What is to be done once it is gone.</returns>
    protected virtual Task<Func<Task>> DeletingAsync(PieceName name, CancellationToken cancel) => Task.FromResult(() => Task.CompletedTask);

    /// <summary>It is about to be put back; what lay beside it comes back before it.</summary>
    protected virtual Task PuttingBackAsync(PieceName name, CancellationToken cancel) => Task.CompletedTask;

    /// <summary>Its name is wanted anew; what lies under it of one that is no more makes way.</summary>
    protected virtual Task MakingWayAsync(PieceName name, CancellationToken cancel) => Task.CompletedTask;

    /// <summary>The folder of its versions.</summary>
    protected string FolderOf(PieceName name) => $"{goods.VersionsFolder}/{name}";

    private VersionFolder VersionsOf(PieceName name) => new(Store, clock, FolderOf(name), goods.Ending);

    /// <summary>It is not there.</summary>
    protected static ShelfException Missing(PieceName name) =>
        new(ShelfTrouble.NotFound, $"“{name}” is not on the shelf; another bench or program may have renamed or deleted it.");

    private void MustBeReadable(byte[] text)
    {
        if (ProblemIn(text, out _) is { } problem) throw new ShelfException(ShelfTrouble.Unreadable, $"This is no {goods.What} file: {problem}");
    }

    private string? ProblemIn(byte[] text, out Told told)
    {
        told = default;
        try
        {
            told = goods.Read(text);
            return null;
        }
        catch (PieceFormatException e)
        {
            return e.Placed;
        }
    }

    private bool VersionIsDue(PieceName name) =>
        !lastKept.TryGetValue(name, out var then) || clock.GetElapsedTime(then) >= AutoVersionEvery;

    /// <summary>Its text, or null.</summary>
    protected Task<byte[]?> ReadAsync(PieceName name, CancellationToken cancel) => Store.ReadAsync(goods.FileOf(name), cancel);

    private async Task<ShelfEntry> EntryAsync(StoredFile file, CancellationToken cancel)
    {
        if (known.TryGetValue(file.Name, out var was) && was.File == file) return was.Entry;
        var (entry, identity) = await ReadEntryAsync(file, cancel);
        known[file.Name] = (file, entry, identity);
        return entry;
    }

    private async Task<string?> OfIdentityAsync(string identity, CancellationToken cancel)
    {
        foreach (var file in await Store.FilesAsync("", cancel))
            if (file.Name.EndsWith(goods.Ending, StringComparison.Ordinal) && await EntryAsync(file, cancel) is { } entry && known.TryGetValue(file.Name, out var of) && of.Identity == identity)
                return entry.Name;
        return null;
    }

    private async Task<(ShelfEntry Entry, string? Identity)> ReadEntryAsync(StoredFile file, CancellationToken cancel)
    {
        var plain = file.Name[..^goods.Ending.Length];
        (ShelfEntry, string?) Unreadable(string problem, bool usable) => (new(plain, plain, file.Modified, file.Bytes, null, problem, usable), null);
        if (!PieceName.TryParse(plain, out _, out var badName))
            return Unreadable($"its name cannot be used here ({badName}) Rename the file.", false);
        if (file.Problem is { } problem) return Unreadable(problem, false);
        if (file.Bytes > PieceReader.MostBytes)
            return Unreadable($"it is larger than {PieceReader.MostBytes / 1024 / 1024} MB, which no {goods.What} needs.", false);
        if (await Store.ReadAsync(file.Name, cancel) is not { } text) return Unreadable("it was removed just now.", false);
        if (Outlay.OfFile(text.Length) is not null) // read when it is opened: no other waits for it
            return (new ShelfEntry(plain, PieceReader.TitleIn(text) ?? plain, file.Modified, file.Bytes, Edition.Of(text), null), null);
        var found = ProblemIn(text, out var told);
        return (new ShelfEntry(plain, told.Title ?? plain, file.Modified, file.Bytes, Edition.Of(text), found), told.Identity);
    }

    private async Task<string> TitleOfVersionAsync(PieceName name, PieceVersion version, CancellationToken cancel)
    {
        var path = VersionsOf(name).PathOf(version);
        if (versionTitles.TryGetValue(path, out var was)) return was;
        Told told = default;
        if (await Store.ReadAsync(path, cancel) is { } text)
        {
            if (Outlay.OfFile(text.Length) is null) ProblemIn(text, out told);
            else told = new Told(PieceReader.TitleIn(text) ?? name.ToString());
        }
        return versionTitles[path] = told.Title ?? name.ToString();
    }

    /// <summary>The names of all files.</summary>
    protected async Task<List<string>> FileNamesAsync(CancellationToken cancel) =>
        [.. (await Store.FilesAsync("", cancel)).Select(f => f.Name)];

    /// <summary>The name, or the next free one.</summary>
    protected async Task<PieceName> FreeNameAsync(PieceName wanted, CancellationToken cancel)
    {
        var taken = new HashSet<string>(await FileNamesAsync(cancel), FileNames.OneFile);
        var name = wanted;
        for (var number = 2; taken.Contains(goods.FileOf(name)) || await ReadAsync(name, cancel) is not null; number++) name = wanted.Numbered(number);
        await MakeWayAsync(name, cancel);
        return name;
    }

    // A deleted piece whose name is wanted again steps aside, so that two histories never mix.
    private async Task MakeWayAsync(PieceName name, CancellationToken cancel)
    {
        await MakingWayAsync(name, cancel);
        var folders = await Store.FoldersAsync(goods.VersionsFolder, cancel);
        if (folders.FirstOrDefault(f => FileNames.OneFile.Equals(f, name.ToString())) is not { } standing) return;
        var taken = new HashSet<string>(folders, FileNames.OneFile);
        taken.UnionWith((await FileNamesAsync(cancel)).Select(f => f.EndsWith(goods.Ending, StringComparison.Ordinal) ? f[..^goods.Ending.Length] : f));
        var aside = name.Numbered(2);
        for (var number = 3; taken.Contains(aside.ToString()); number++) aside = name.Numbered(number);
        await Store.MoveAsync($"{goods.VersionsFolder}/{standing}", FolderOf(aside), cancel);
    }
}
