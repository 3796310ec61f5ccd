namespace Pleatwright.Shelf;

/// <summary>
/// Where named texts of the maker's are kept: pieces, or the figures of the drawer. Everything that replaces or removes a text keeps the old one as a version first.
/// Each member throws <see cref="ShelfException"/> with a plain word when it cannot be done; the shelf is then as it was.
/// </summary>
public interface ITextShelf
{
    /// <summary>Versions kept of each.</summary>
    const int MostVersions = 50;

    /// <summary>Whether they live in this browser alone, so that the maker should be reminded to export them.</summary>
    bool InBrowserOnly { get; }

    /// <summary>Everything on the shelf, unreadable files too.</summary>
    Task<ShelfContents> ListAsync(CancellationToken cancel = default);

    /// <summary>The text of one, readable or not.</summary>
    Task<StoredPiece> LoadAsync(PieceName name, CancellationToken cancel = default);

    /// <summary>Puts a new one on the shelf, under this name or the next free one.</summary>
    /// <exception cref="ShelfException">The text is no such file, or cannot be written.</exception>
    Task<StoredPiece> CreateAsync(PieceName wanted, byte[] text, CancellationToken cancel = default);

    /// <summary>Saves one over the edition it came from.</summary>
    /// <exception cref="ShelfException">
    /// Another edition stands there now, or none: the text was kept as a version, and the one on the shelf is untouched.
    /// </exception>
    Task<Edition> SaveAsync(PieceName name, byte[] text, Edition over, SaveKind kind, CancellationToken cancel = default);

    /// <summary>Gives one another name; its versions and what lies beside it follow it.</summary>
    Task RenameAsync(PieceName name, PieceName to, CancellationToken cancel = default);

    /// <summary>Takes one off the shelf; it can be put back.</summary>
    Task DeleteAsync(PieceName name, CancellationToken cancel = default);

    /// <summary>Puts a deleted one back under its name, with its versions and what lay beside it.</summary>
    /// <exception cref="ShelfException">Another has that name now, or none of it was deleted.</exception>
    Task<PieceName> UndoDeleteAsync(PieceName name, CancellationToken cancel = default);

    /// <summary>The versions of one, latest first.</summary>
    Task<IReadOnlyList<PieceVersion>> VersionsAsync(PieceName name, CancellationToken cancel = default);

    /// <summary>The text of a version.</summary>
    Task<byte[]> LoadVersionAsync(PieceName name, int number, CancellationToken cancel = default);

    /// <summary>Puts a version back in its place; what stood there becomes a version.</summary>
    Task<Edition> RestoreAsync(PieceName name, int number, CancellationToken cancel = default);
}

/// <summary>Where the maker's pieces are kept, each with its place beside it.</summary>
public interface IShelf : ITextShelf
{
    /// <summary>The place of a piece, which stitches of it are worked, readable or not; null when there is none yet.</summary>
    Task<StoredPlace?> LoadPlaceAsync(PieceName name, CancellationToken cancel = default);

    /// <summary>Saves the place of a piece over the edition it came from; over null when there was none.</summary>
    /// <exception cref="ShelfException">
    /// The text is no place file, or the piece is not on the shelf; or another edition stands there now, and is untouched: whoever saves brings the two
    /// together and saves again, for no tick of either is lost so.
    /// </exception>
    Task<Edition> SavePlaceAsync(PieceName name, byte[] text, Edition? over, CancellationToken cancel = default);

    /// <summary>Copies a piece under the next free name, without its versions and its place: the copy is not worked yet.</summary>
    Task<PieceName> DuplicateAsync(PieceName name, CancellationToken cancel = default);
}
