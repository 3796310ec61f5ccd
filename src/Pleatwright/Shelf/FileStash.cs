using System.Globalization;
using Pleatwright.Files;

namespace Pleatwright.Shelf;

/// <summary>
/// The stash as a file in a store, "stash.json" beside the pieces: the rules of <see cref="IStashShelf"/>, the same on disk and in the
/// browser. Its versions stand in ".stash".
/// </summary>
public sealed class FileStash(IFileStore store, TimeProvider clock) : IStashShelf
{
    /// <summary>The stash's own file.</summary>
    public const string FileName = "stash.json";

    /// <summary>The folder kept out of sight beside it.</summary>
    public const string VersionsFolder = ".stash";

    private const string Ending = ".json";

    /// <inheritdoc/>
    public async Task<StoredStash?> LoadStashAsync(CancellationToken cancel = default) =>
        await store.ReadAsync(FileName, cancel) is { } text ? new StoredStash(text, Edition.Of(text)) : null;

    /// <inheritdoc/>
    public async Task<Edition> SaveStashAsync(byte[] text, Edition? over, CancellationToken cancel = default)
    {
        try
        {
            StashReader.Read(text);
        }
        catch (PieceFormatException e)
        {
            throw new ShelfException(ShelfTrouble.Unreadable, string.Create(CultureInfo.InvariantCulture, $"This is no stash file: line {e.Line}, column {e.Column}: {e.Message}"));
        }
        await using var held = await store.HoldAsync(cancel);
        var edition = Edition.Of(text);
        var standing = await store.ReadAsync(FileName, cancel);
        Edition? stands = standing is null ? null : Edition.Of(standing);
        if (stands == edition) return edition; // said twice
        if (stands != over)
        {
            await KeepAsync(text, KeptBecause.Conflict, cancel);
            throw new ShelfException(ShelfTrouble.Conflict, "The stash was changed by another bench or program meanwhile. Both were kept: the other stands, yours is the latest among the earlier ones.");
        }
        if (standing is not null) await KeepAsync(standing, KeptBecause.Saved, cancel);
        await store.WriteAsync(FileName, text, cancel);
        return edition;
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<PieceVersion>> StashVersionsAsync(CancellationToken cancel = default)
    {
        var versions = new List<PieceVersion>();
        foreach (var file in await store.FilesAsync(VersionsFolder, cancel))
            if (file.Problem is null && VersionFile.TryRead(file, Ending) is { } version)
                versions.Add(version);
        return [.. versions.OrderByDescending(v => v.Number)];
    }

    /// <inheritdoc/>
    public async Task<byte[]> LoadStashVersionAsync(int number, CancellationToken cancel = default)
    {
        var version = (await StashVersionsAsync(cancel)).FirstOrDefault(v => v.Number == number);
        return (version is null ? null : await store.ReadAsync(PathOf(version), cancel))
            ?? throw new ShelfException(ShelfTrouble.NotFound, $"There is no earlier stash {number}.");
    }

    private static string PathOf(PieceVersion version) => $"{VersionsFolder}/{VersionFile.NameOf(version, Ending)}";

    private async Task KeepAsync(byte[] text, KeptBecause because, CancellationToken cancel)
    {
        var versions = await StashVersionsAsync(cancel);
        var number = versions is [var last, ..] ? last.Number + 1 : 1;
        await store.WriteAsync(PathOf(new PieceVersion(number, clock.GetUtcNow(), because, text.Length)), text, cancel);
        foreach (var old in versions.Skip(IShelf.MostVersions - 1)) await store.DeleteAsync(PathOf(old), cancel);
    }
}
