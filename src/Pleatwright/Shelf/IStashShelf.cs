namespace Pleatwright.Shelf;

/// <summary>The text of a stash and which edition it is.</summary>
public sealed record StoredStash(byte[] Text, Edition Edition);

/// <summary>
/// Where the maker's stash is kept, beside the pieces. Whatever replaces a text keeps the old one as a version first. Each member
/// throws <see cref="ShelfException"/> with a plain word when it cannot be done; the stash is then as it was.
/// </summary>
public interface IStashShelf
{
    /// <summary>The stash, readable or not; null when there is none yet.</summary>
    Task<StoredStash?> LoadStashAsync(CancellationToken cancel = default);

    /// <summary>Saves the stash over the edition it came from; over null when there was none.</summary>
    /// <exception cref="ShelfException">
    /// The text is no stash file; or another edition stands there now: the text was kept as a version, and the one there is untouched.
    /// </exception>
    Task<Edition> SaveStashAsync(byte[] text, Edition? over, CancellationToken cancel = default);

    /// <summary>Earlier stashes, latest first.</summary>
    Task<IReadOnlyList<PieceVersion>> StashVersionsAsync(CancellationToken cancel = default);

    /// <summary>The text of an earlier stash.</summary>
    Task<byte[]> LoadStashVersionAsync(int number, CancellationToken cancel = default);
}
