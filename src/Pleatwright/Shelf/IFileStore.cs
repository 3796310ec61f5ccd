namespace Pleatwright.Shelf;

/// <summary>A file in a store.</summary>
/// <param name="Name">Its name within its folder.</param>
/// <param name="Bytes">Its size.</param>
/// <param name="Modified">When it was last written, UTC.</param>
/// <param name="Problem">Why it must not be read (a link out of the shelf, say); null when it may.</param>
public sealed record StoredFile(string Name, long Bytes, DateTimeOffset Modified, string? Problem = null);

/// <summary>
/// The little that a shelf needs to stand on: files by path, two deep at most, '/' between. A real folder is one, the
/// browser's storage another. Each call is whole or not at all, and a write is on the disk when it returns.
/// Trouble is thrown as <see cref="ShelfException"/>.
/// </summary>
public interface IFileStore
{
    /// <summary>Where it is, in words.</summary>
    string Place { get; }

    /// <summary>Holds the store against every other writer until disposed; another bench may be one.</summary>
    Task<IAsyncDisposable> HoldAsync(CancellationToken cancel);

    /// <summary>The files directly in a folder ("" is the root); none when there is no such folder.</summary>
    Task<IReadOnlyList<StoredFile>> FilesAsync(string folder, CancellationToken cancel);

    /// <summary>The folders directly in a folder.</summary>
    Task<IReadOnlyList<string>> FoldersAsync(string folder, CancellationToken cancel);

    /// <summary>The content of a file, or null when there is none. One with a <see cref="StoredFile.Problem"/> is refused.</summary>
    Task<byte[]?> ReadAsync(string path, CancellationToken cancel);

    /// <summary>Writes a file, in place of any that stands there.</summary>
    Task WriteAsync(string path, byte[] content, CancellationToken cancel);

    /// <summary>Moves a file or a whole folder to a free path.</summary>
    Task MoveAsync(string from, string to, CancellationToken cancel);

    /// <summary>Removes a file; nothing when there is none.</summary>
    Task DeleteAsync(string path, CancellationToken cancel);
}
