using Pleatwright.Shelf;
using Pleatwright.Files;

namespace Pleatwright.App.Host;

/// <summary>
/// A folder of real files as a shelf's store. Nothing outside the folder is read or written: paths are made of checked
/// names only, are checked again here, and links are not followed.
/// </summary>
public sealed class FolderStore : IFileStore
{
    /// <summary>Writes a file whole or not at all, as <see cref="AtomicFile"/> does.</summary>
    internal delegate Task FileWriter(string path, ReadOnlyMemory<byte> content, CancellationToken cancel);

    private readonly string root;
    private readonly TimeProvider clock;
    private readonly FileWriter write;
    private readonly SemaphoreSlim oneWriter = new(1);

    /// <summary>A store in a folder, which is made when it is not there.</summary>
    /// <exception cref="ShelfException">It cannot be made or read.</exception>
    public FolderStore(string folder, TimeProvider clock) : this(folder, clock, AtomicFile.WriteAsync) { }

    /// <summary>A store that writes its files in a way of its own: so a disk's refusal can be put in its mouth.</summary>
    internal FolderStore(string folder, TimeProvider clock, FileWriter write)
    {
        if (string.IsNullOrWhiteSpace(folder) || folder.Contains('\0')) throw new ShelfException(ShelfTrouble.BadName, "The shelf needs the name of a folder.");
        root = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        this.clock = clock;
        this.write = write;
        Try(() =>
        {
            if (File.Exists(root)) throw new ShelfException(ShelfTrouble.Unavailable, $"The shelf {root} is a file; name a folder.");
            Directory.CreateDirectory(root);
            return Directory.EnumerateFileSystemEntries(root).Any();
        });
    }

    /// <inheritdoc/>
    public string Place => root;

    /// <inheritdoc/>
    /// <remarks>One writer in this process by a semaphore, one among processes by a locked file.</remarks>
    public async Task<IAsyncDisposable> HoldAsync(CancellationToken cancel)
    {
        await oneWriter.WaitAsync(cancel);
        try
        {
            return new Held(oneWriter, await LockFile.HoldAsync(Path.Combine(Try(HiddenFolder), ".lock"), passes: false, clock, cancel));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            oneWriter.Release();
            throw Trouble(e);
        }
        catch
        {
            oneWriter.Release();
            throw;
        }
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<StoredFile>> FilesAsync(string folder, CancellationToken cancel) => Task.FromResult(Try<IReadOnlyList<StoredFile>>(() =>
    {
        if (folder.Length == 0) MustStand();
        var path = Resolve(folder);
        if (!Directory.Exists(path)) return [];
        try { AtomicFile.SweepLeftovers(path, clock.GetUtcNow()); }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException) { } // sweeping can wait, listing cannot
        return [.. new DirectoryInfo(path).EnumerateFiles().Where(f => f.Name[0] != '.')
            .Select(f => f.LinkTarget is null
                ? new StoredFile(f.Name, f.Length, f.LastWriteTimeUtc)
                : new StoredFile(f.Name, 0, f.LastWriteTimeUtc, LinkWord))];
    }));

    /// <inheritdoc/>
    public Task<IReadOnlyList<string>> FoldersAsync(string folder, CancellationToken cancel) => Task.FromResult(Try<IReadOnlyList<string>>(() =>
    {
        var path = Resolve(folder);
        return Directory.Exists(path)
            ? [.. new DirectoryInfo(path).EnumerateDirectories().Where(d => d.LinkTarget is null && d.Name[0] != '.').Select(d => d.Name)]
            : [];
    }));

    /// <inheritdoc/>
    public async Task<byte[]?> ReadAsync(string path, CancellationToken cancel)
    {
        var full = Resolve(path);
        try
        {
            MustStand();
            var info = new FileInfo(full);
            if (!info.Exists) return null;
            if (info.LinkTarget is not null) throw new ShelfException(ShelfTrouble.Unreadable, $"“{info.Name}” cannot be opened: {LinkWord}");
            if (info.Length == 0) return []; // an empty file, or a pipe put there by hand, which would never end
            if (info.Length > PieceReader.MostBytes) throw new ShelfException(ShelfTrouble.Unreadable, $"“{info.Name}” is larger than any piece.");
            return await File.ReadAllBytesAsync(full, cancel);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw Trouble(e);
        }
    }

    /// <inheritdoc/>
    public async Task WriteAsync(string path, byte[] content, CancellationToken cancel)
    {
        var full = Resolve(path);
        try
        {
            MustStand();
            Directory.CreateDirectory(Path.GetDirectoryName(full)!);
            await write(full, content, cancel);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw Trouble(e);
        }
    }

    /// <inheritdoc/>
    public Task MoveAsync(string from, string to, CancellationToken cancel)
    {
        string source = Resolve(from), target = Resolve(to);
        Try(() =>
        {
            if (Directory.Exists(source)) Directory.Move(source, target);
            else File.Move(source, target, overwrite: false);
            return true;
        });
        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    public Task DeleteAsync(string path, CancellationToken cancel)
    {
        var full = Resolve(path);
        Try(() =>
        {
            File.Delete(full);
            return true;
        });
        return Task.CompletedTask;
    }

    private const string LinkWord = "it is a link to another place. Copy the file itself onto the shelf.";

    private string HiddenFolder()
    {
        MustStand();
        var folder = Directory.CreateDirectory(Resolve(FileShelf.VersionsFolder));
        if (OperatingSystem.IsWindows()) folder.Attributes |= FileAttributes.Hidden;
        return folder.FullName;
    }

    // Made anew it would be empty, and a shelf on a drive not plugged in would seem lost.
    private void MustStand()
    {
        if (!Directory.Exists(root))
            throw new ShelfException(ShelfTrouble.Unavailable, $"The shelf's folder {root} is not there any more; nothing was changed. Bring it back (a drive unplugged?) and try again.");
    }

    private string Resolve(string path)
    {
        var full = root;
        if (path.Length == 0) return full;
        foreach (var part in path.Split('/'))
        {
            if (part.Length == 0 || part is "." or ".." || part.AsSpan().ContainsAny(Path.DirectorySeparatorChar, Path.AltDirectorySeparatorChar, '\0'))
                throw new ShelfException(ShelfTrouble.BadName, "That path is not on the shelf.");
            full = Path.Combine(full, part);
            var folder = new DirectoryInfo(full);
            if (folder.Exists && folder.LinkTarget is not null)
                throw new ShelfException(ShelfTrouble.Unavailable, $"{full} is a link to another place; the shelf does not follow it.");
        }
        return full;
    }

    private static T Try<T>(Func<T> act)
    {
        try { return act(); }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw Trouble(e);
        }
    }

    private static ShelfException Trouble(Exception e) => e switch
    {
        UnauthorizedAccessException => new ShelfException(ShelfTrouble.ReadOnly,
            "The shelf may not be written here (read-only folder or file); nothing was changed. Allow writing, or open the bench on another shelf.", e),
        _ when AtomicFile.IsFull(e) => new ShelfException(ShelfTrouble.Full,
            "There is no room left on the shelf's disk. What stood on the shelf is untouched; make room and save again.", e),
        _ when AtomicFile.IsReadOnly(e) => new ShelfException(ShelfTrouble.ReadOnly,
            "The shelf's disk is read-only; nothing was changed. Open the bench on another shelf.", e),
        _ => new ShelfException(ShelfTrouble.Unavailable, $"The shelf's folder could not be used: {e.Message} Nothing was changed.", e),
    };

    private sealed class Held(SemaphoreSlim writer, IAsyncDisposable file) : IAsyncDisposable
    {
        public async ValueTask DisposeAsync()
        {
            await file.DisposeAsync();
            writer.Release();
        }
    }
}
