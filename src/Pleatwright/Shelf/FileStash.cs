using Pleatwright.Files;

namespace Pleatwright.Shelf;

/// <summary>
/// The stash as a file in a store, "stash.json" beside the pieces: the rules of <see cref="IStashShelf"/>, the same on disk and in the
/// browser. Its versions stand in ".stash".
/// </summary>
internal sealed class FileStash(IFileStore store, TimeProvider clock) : IStashShelf
{
    /// <summary>The stash's own file.</summary>
    public const string FileName = "stash.json";

    /// <summary>The folder kept out of sight beside it.</summary>
    public const string VersionsFolder = ".stash";

    private readonly VersionFolder versions = new(store, clock, VersionsFolder, ".json");

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
            throw new ShelfException(ShelfTrouble.Unreadable, $"This is no stash file: {e.Placed}");
        }
        await using var held = await store.HoldAsync(cancel);
        var edition = Edition.Of(text);
        var standing = await store.ReadAsync(FileName, cancel);
        Edition? stands = standing is null ? null : Edition.Of(standing);
        if (stands == edition) return edition; // said twice
        if (stands != over)
        {
            await versions.KeepAsync(text, KeptBecause.Conflict, cancel);
            throw new ShelfException(ShelfTrouble.Conflict, "The stash was changed by another bench or program meanwhile. Both were kept: the other stands, yours is the latest among the earlier ones.");
        }
        if (standing is not null) await versions.KeepAsync(standing, KeptBecause.Saved, cancel);
        await store.WriteAsync(FileName, text, cancel);
        return edition;
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<PieceVersion>> StashVersionsAsync(CancellationToken cancel = default) => versions.ListAsync(cancel);

    /// <inheritdoc/>
    public async Task<byte[]> LoadStashVersionAsync(int number, CancellationToken cancel = default) =>
        await versions.LoadAsync(number, cancel) ?? throw new ShelfException(ShelfTrouble.NotFound, $"There is no earlier stash {number}.");
}
