using System.Collections.Concurrent;
using Pleatwright.Files;

namespace Pleatwright.Shelf;

/// <summary>
/// A shelf of piece files in a store: the rules of <see cref="IShelf"/>, the same on disk and in the browser.
/// Pieces stand in the root, each with its place beside it; the versions of "Boat" in ".versions/Boat". A folder of versions whose piece is gone is a
/// deleted piece, however it was deleted, so no step of a deletion can lose anything.
/// </summary>
internal sealed class FileShelf(IFileStore store, TimeProvider clock) : IShelf
{
    /// <summary>The folder kept out of sight beside the pieces.</summary>
    public const string VersionsFolder = ".versions";

    /// <summary>How often a save by the bench itself keeps a version.</summary>
    public static readonly TimeSpan AutoVersionEvery = TimeSpan.FromMinutes(2);

    /// <summary>What the name of a place's file ends with.</summary>
    public const string PlaceEnding = ".place.json";

    private readonly ConcurrentDictionary<string, (StoredFile File, ShelfEntry Entry)> known = new();
    private readonly ConcurrentDictionary<string, string> versionTitles = new();
    private readonly Dictionary<PieceName, long> lastKept = []; // by the steady clock, which cannot be set back

    /// <inheritdoc/>
    public bool InBrowserOnly { get; init; }

    /// <inheritdoc/>
    public async Task<ShelfContents> ListAsync(CancellationToken cancel = default)
    {
        var pieces = new List<ShelfEntry>();
        foreach (var file in await store.FilesAsync("", cancel))
            if (file.Name.EndsWith(PieceName.Ending, StringComparison.Ordinal))
                pieces.Add(await EntryAsync(file, cancel));
        foreach (var gone in known.Keys.Except(pieces.Select(p => p.Name + PieceName.Ending)).ToList()) known.TryRemove(gone, out _);
        var deleted = new List<DeletedPiece>();
        foreach (var folder in await store.FoldersAsync(VersionsFolder, cancel))
        {
            if (!PieceName.TryParse(folder, out var name, out _)) continue;
            if (pieces.Any(p => string.Equals(p.Name, folder, StringComparison.OrdinalIgnoreCase))) continue;
            if (await VersionsAsync(name, cancel) is [var last, ..])
                deleted.Add(new DeletedPiece(folder, await TitleOfVersionAsync(name, last, cancel), last.Kept));
        }
        return new ShelfContents(store.Place,
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
        MustBePiece(text);
        await using var held = await store.HoldAsync(cancel);
        var name = await FreeNameAsync(wanted, cancel);
        await store.WriteAsync(name.FileName, text, cancel);
        return new StoredPiece(name, text, Edition.Of(text));
    }

    /// <inheritdoc/>
    public async Task<Edition> SaveAsync(PieceName name, byte[] text, Edition over, SaveKind kind, CancellationToken cancel = default)
    {
        MustBePiece(text);
        await using var held = await store.HoldAsync(cancel);
        var edition = Edition.Of(text);
        var standing = await ReadAsync(name, cancel);
        if (standing is not null && Edition.Of(standing) == edition) return edition; // said twice
        if (standing is null || Edition.Of(standing) != over)
        {
            await VersionsOf(name).KeepAsync(text, KeptBecause.Conflict, cancel);
            throw standing is null
                ? new ShelfException(ShelfTrouble.NotFound, $"“{name}” was deleted or renamed while you worked on it. Your copy was kept: it waits among the deleted pieces.")
                : new ShelfException(ShelfTrouble.Conflict, $"“{name}” was changed by another bench or program while you worked on it. Both were kept: the other stands on the shelf, yours is the latest among its versions.");
        }
        if (kind == SaveKind.Kept || VersionIsDue(name))
        {
            await VersionsOf(name).KeepAsync(standing, KeptBecause.Saved, cancel);
            lastKept[name] = clock.GetTimestamp();
        }
        await store.WriteAsync(name.FileName, text, cancel);
        return edition;
    }

    /// <inheritdoc/>
    public async Task<StoredPlace?> LoadPlaceAsync(PieceName name, CancellationToken cancel = default) =>
        await store.ReadAsync(PlaceOf(name), cancel) is { } text ? new StoredPlace(text, Edition.Of(text)) : null;

    /// <inheritdoc/>
    public async Task<Edition> SavePlaceAsync(PieceName name, byte[] text, Edition? over, CancellationToken cancel = default)
    {
        try
        {
            TickLogReader.Read(text);
        }
        catch (PieceFormatException e)
        {
            throw new ShelfException(ShelfTrouble.Unreadable, $"This is no place file: {e.Placed}");
        }
        await using var held = await store.HoldAsync(cancel);
        if (!(await FileNamesAsync(cancel)).Contains(name.FileName, StringComparer.Ordinal)) throw Missing(name);
        var edition = Edition.Of(text);
        var standing = await store.ReadAsync(PlaceOf(name), cancel);
        Edition? stands = standing is null ? null : Edition.Of(standing);
        if (stands == edition) return edition; // said twice
        if (stands != over) throw new ShelfException(ShelfTrouble.Conflict, $"“{name}” was ticked on another device meanwhile.");
        await store.WriteAsync(PlaceOf(name), text, cancel);
        return edition;
    }

    /// <inheritdoc/>
    public async Task RenameAsync(PieceName name, PieceName to, CancellationToken cancel = default)
    {
        if (name == to) return;
        await using var held = await store.HoldAsync(cancel);
        var names = await FileNamesAsync(cancel);
        if (!names.Contains(name.FileName, StringComparer.Ordinal)) throw Missing(name);
        if (!name.SameFile(to) && names.Contains(to.FileName, StringComparer.OrdinalIgnoreCase))
            throw new ShelfException(ShelfTrouble.Taken, $"There is a piece called “{to}” already; nothing was changed.");
        if (!name.SameFile(to)) await MakeWayAsync(to, cancel);
        await store.MoveAsync(name.FileName, to.FileName, cancel);
        if (names.Contains(PlaceOf(name), StringComparer.Ordinal)) await store.MoveAsync(PlaceOf(name), PlaceOf(to), cancel);
        if ((await store.FoldersAsync(VersionsFolder, cancel)).Contains(name.ToString()))
            await store.MoveAsync(FolderOf(name), FolderOf(to), cancel);
    }

    /// <inheritdoc/>
    public async Task<PieceName> DuplicateAsync(PieceName name, CancellationToken cancel = default)
    {
        await using var held = await store.HoldAsync(cancel);
        var text = await ReadAsync(name, cancel) ?? throw Missing(name);
        var copy = await FreeNameAsync(PieceName.Nearest($"{name} copy"), cancel);
        await store.WriteAsync(copy.FileName, text, cancel);
        return copy;
    }

    /// <inheritdoc/>
    public async Task DeleteAsync(PieceName name, CancellationToken cancel = default)
    {
        await using var held = await store.HoldAsync(cancel);
        var text = await ReadAsync(name, cancel) ?? throw Missing(name);
        await VersionsOf(name).KeepAsync(text, KeptBecause.Deleted, cancel);
        var place = await store.ReadAsync(PlaceOf(name), cancel);
        if (place is not null) await store.WriteAsync(PlaceAside(name), place, cancel);
        await store.DeleteAsync(name.FileName, cancel);
        if (place is null) return;
        try { await store.DeleteAsync(PlaceOf(name), cancel); }
        catch (ShelfException) { } // the piece is gone; its place makes way when the name is wanted again
    }

    /// <inheritdoc/>
    public async Task<PieceName> UndoDeleteAsync(PieceName name, CancellationToken cancel = default)
    {
        await using var held = await store.HoldAsync(cancel);
        if (await ReadAsync(name, cancel) is not null)
            throw new ShelfException(ShelfTrouble.Taken, $"“{name}” stands on the shelf already; nothing was changed.");
        if (await VersionsAsync(name, cancel) is not [var last, ..]) throw Missing(name);
        if (await store.ReadAsync(PlaceAside(name), cancel) is not null && await store.ReadAsync(PlaceOf(name), cancel) is null)
            await store.MoveAsync(PlaceAside(name), PlaceOf(name), cancel);
        await store.WriteAsync(name.FileName, await LoadVersionAsync(name, last.Number, cancel), cancel);
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
        await using var held = await store.HoldAsync(cancel);
        var text = await LoadVersionAsync(name, number, cancel);
        if (await ReadAsync(name, cancel) is { } standing) await VersionsOf(name).KeepAsync(standing, KeptBecause.Restored, cancel);
        await store.WriteAsync(name.FileName, text, cancel);
        return Edition.Of(text);
    }

    private static string PlaceOf(PieceName name) => name + PlaceEnding;

    private static string PlaceAside(PieceName name) => $"{FolderOf(name)}/{PlaceEnding[1..]}";

    // The place of a piece that is no more waits among its versions, so that no other of its name finds it.
    private async Task PutPlaceAsideAsync(PieceName name, CancellationToken cancel)
    {
        if (await store.ReadAsync(PlaceOf(name), cancel) is not { } place) return;
        await store.WriteAsync(PlaceAside(name), place, cancel);
        await store.DeleteAsync(PlaceOf(name), cancel);
    }

    private static string FolderOf(PieceName name) => $"{VersionsFolder}/{name}";

    private VersionFolder VersionsOf(PieceName name) => new(store, clock, FolderOf(name), PieceName.Ending);

    private static ShelfException Missing(PieceName name) =>
        new(ShelfTrouble.NotFound, $"“{name}” is not on the shelf; another bench or program may have renamed or deleted it.");

    private static void MustBePiece(byte[] text)
    {
        if (ProblemIn(text, out _) is { } problem) throw new ShelfException(ShelfTrouble.Unreadable, $"This is no piece file: {problem}");
    }

    private static string? ProblemIn(byte[] text, out string? title)
    {
        title = null;
        try
        {
            title = PieceReader.Read(text).Title;
            return null;
        }
        catch (PieceFormatException e)
        {
            return e.Placed;
        }
    }

    private bool VersionIsDue(PieceName name) =>
        !lastKept.TryGetValue(name, out var then) || clock.GetElapsedTime(then) >= AutoVersionEvery;

    private Task<byte[]?> ReadAsync(PieceName name, CancellationToken cancel) => store.ReadAsync(name.FileName, cancel);

    private async Task<ShelfEntry> EntryAsync(StoredFile file, CancellationToken cancel)
    {
        if (known.TryGetValue(file.Name, out var was) && was.File == file) return was.Entry;
        var entry = await ReadEntryAsync(file, cancel);
        known[file.Name] = (file, entry);
        return entry;
    }

    private async Task<ShelfEntry> ReadEntryAsync(StoredFile file, CancellationToken cancel)
    {
        var plain = file.Name[..^PieceName.Ending.Length];
        ShelfEntry Unreadable(string problem, bool usable) => new(plain, plain, file.Modified, file.Bytes, null, problem, usable);
        if (!PieceName.TryParseFile(file.Name, out _, out var badName))
            return Unreadable($"its name cannot be used here ({badName}) Rename the file.", false);
        if (file.Problem is { } problem) return Unreadable(problem, false);
        if (file.Bytes > PieceReader.MostBytes)
            return Unreadable($"it is larger than {PieceReader.MostBytes / 1024 / 1024} MB, which no piece needs.", false);
        if (await store.ReadAsync(file.Name, cancel) is not { } text) return Unreadable("it was removed just now.", false);
        var found = ProblemIn(text, out var title);
        return new ShelfEntry(plain, title ?? plain, file.Modified, file.Bytes, Edition.Of(text), found);
    }

    private async Task<string> TitleOfVersionAsync(PieceName name, PieceVersion version, CancellationToken cancel)
    {
        var path = VersionsOf(name).PathOf(version);
        if (versionTitles.TryGetValue(path, out var was)) return was;
        string? title = null;
        if (await store.ReadAsync(path, cancel) is { } text) ProblemIn(text, out title);
        return versionTitles[path] = title ?? name.ToString();
    }

    private async Task<List<string>> FileNamesAsync(CancellationToken cancel) =>
        [.. (await store.FilesAsync("", cancel)).Select(f => f.Name)];

    private async Task<PieceName> FreeNameAsync(PieceName wanted, CancellationToken cancel)
    {
        var taken = new HashSet<string>(await FileNamesAsync(cancel), StringComparer.OrdinalIgnoreCase);
        var name = wanted;
        for (var number = 2; taken.Contains(name.FileName); number++) name = wanted.Numbered(number);
        await MakeWayAsync(name, cancel);
        return name;
    }

    // A deleted piece whose name is wanted again steps aside, so that two histories never mix.
    private async Task MakeWayAsync(PieceName name, CancellationToken cancel)
    {
        await PutPlaceAsideAsync(name, cancel);
        var folders = await store.FoldersAsync(VersionsFolder, cancel);
        if (folders.FirstOrDefault(f => string.Equals(f, name.ToString(), StringComparison.OrdinalIgnoreCase)) is not { } standing) return;
        var taken = new HashSet<string>(folders, StringComparer.OrdinalIgnoreCase);
        taken.UnionWith((await FileNamesAsync(cancel)).Select(f => f.EndsWith(PieceName.Ending, StringComparison.Ordinal) ? f[..^PieceName.Ending.Length] : f));
        var aside = name.Numbered(2);
        for (var number = 3; taken.Contains(aside.ToString()); number++) aside = name.Numbered(number);
        await store.MoveAsync($"{VersionsFolder}/{standing}", FolderOf(aside), cancel);
    }
}
