using System.Security.Cryptography;
using System.Text.Json.Serialization;

namespace Pleatwright.Shelf;

/// <summary>Which state of a piece's text this is: told from the text itself, so that no clock can confuse it.</summary>
public readonly record struct Edition
{
    /// <summary>An edition from its letters, as a shelf gave them.</summary>
    [JsonConstructor]
    public Edition(string mark) => Mark = mark;

    /// <summary>32 hexadecimal digits.</summary>
    public string Mark { get; }

    /// <summary>The edition of a text.</summary>
    public static Edition Of(ReadOnlySpan<byte> text) => new(Convert.ToHexStringLower(SHA256.HashData(text).AsSpan(0, 16)));

    /// <inheritdoc/>
    public override string ToString() => Mark ?? "";
}

/// <summary>A piece as the shelf lists it.</summary>
/// <param name="Name">Its name; the key for everything else, unless <paramref name="Problem"/> says the name cannot be used.</param>
/// <param name="Title">The title written in it; its name when it cannot be read.</param>
/// <param name="Modified">When its file was last written, UTC; for show only.</param>
/// <param name="Bytes">Size of its file.</param>
/// <param name="Edition">Which edition stands there; null when it was not read.</param>
/// <param name="Problem">Why it cannot be read, with line and column where there is one; null when it can.</param>
/// <param name="Usable">Whether it can be opened, renamed or deleted by its name.</param>
public sealed record ShelfEntry(string Name, string Title, DateTimeOffset Modified, long Bytes, Edition? Edition, string? Problem, bool Usable = true);

/// <summary>A piece that was deleted and can be put back.</summary>
/// <param name="Name">The name it had.</param>
/// <param name="Title">The title it had.</param>
/// <param name="Kept">When its last version was kept, UTC.</param>
public sealed record DeletedPiece(string Name, string Title, DateTimeOffset Kept);

/// <summary>What is on a shelf.</summary>
/// <param name="Place">Where the shelf is, in words.</param>
/// <param name="Pieces">The pieces, newest first.</param>
/// <param name="Deleted">What can be put back, newest first.</param>
public sealed record ShelfContents(string Place, IReadOnlyList<ShelfEntry> Pieces, IReadOnlyList<DeletedPiece> Deleted);

/// <summary>The text of a piece and which edition it is.</summary>
public sealed record StoredPiece(PieceName Name, byte[] Text, Edition Edition);

/// <summary>The text of a piece's place, which stitches of it are worked, and which edition it is.</summary>
public sealed record StoredPlace(byte[] Text, Edition Edition);

/// <summary>Why a version was kept.</summary>
public enum KeptBecause
{
    /// <summary>A save took its place.</summary>
    Saved,

    /// <summary>The piece was deleted.</summary>
    Deleted,

    /// <summary>An older version was put back in its place.</summary>
    Restored,

    /// <summary>It came second: another bench had changed the piece meanwhile.</summary>
    Conflict,
}

/// <summary>An earlier state of a piece.</summary>
/// <param name="Number">Its number; larger is later.</param>
/// <param name="Kept">When it was kept, UTC; for show only.</param>
/// <param name="Because">Why it was kept.</param>
/// <param name="Bytes">Its size.</param>
public sealed record PieceVersion(int Number, DateTimeOffset Kept, KeptBecause Because, long Bytes);

/// <summary>What a save is.</summary>
public enum SaveKind
{
    /// <summary>The maker saved: the text replaced is always kept as a version.</summary>
    Kept,

    /// <summary>The bench saved by itself: a version is kept at most every two minutes, so that they reach back further.</summary>
    Auto,
}
