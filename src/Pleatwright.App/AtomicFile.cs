namespace Pleatwright.App;

/// <summary>
/// Writing a file whole or not at all: beside it under a passing name, flushed to the disk, then renamed over it. Whoever
/// reads it sees the old text or the new, never a part, and a kill leaves at most the passing file behind.
/// </summary>
public static class AtomicFile
{
    /// <summary>What passing files end with; they begin with a dot.</summary>
    public const string PassingEnding = ".pleatwright-passing";

    /// <summary>Younger than this, a passing file that nobody holds may be one that has only just been made.</summary>
    public static readonly TimeSpan LeftoverAge = TimeSpan.FromSeconds(2);

    /// <summary>Writes a file in place of any that stands there. A link is followed, and what it points to is replaced.</summary>
    public static Task WriteAsync(string path, ReadOnlyMemory<byte> content, CancellationToken cancel = default) => WriteAsync(path, content, over: true, cancel);

    /// <summary>Writes a file. A link is followed, and what it points to is replaced.</summary>
    /// <param name="path">Where.</param>
    /// <param name="content">All of it.</param>
    /// <param name="over">Whether one that stands there gives way; else it is refused, whenever it came.</param>
    /// <param name="cancel">Gives up; what stood there is untouched.</param>
    /// <exception cref="IOException">It could not be written; what stood there is untouched.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written; what stood there is untouched.</exception>
    public static async Task WriteAsync(string path, ReadOnlyMemory<byte> content, bool over, CancellationToken cancel)
    {
        path = Path.GetFullPath(path);
        if (new FileInfo(path).LinkTarget is not null && File.ResolveLinkTarget(path, returnFinalTarget: true) is { } target) path = target.FullName;
        if (IsDevice(path))
        {
            await using var device = new FileStream(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);
            await device.WriteAsync(content, cancel);
            return;
        }
        var passing = Path.Combine(Path.GetDirectoryName(path)!, $".{Guid.NewGuid():N}{PassingEnding}");
        try
        {
            await using (var file = new FileStream(passing, Options(path)))
            {
                await file.WriteAsync(content, cancel);
                await file.FlushAsync(cancel);
                file.Flush(flushToDisk: true);
                File.Move(passing, path, over); // still held, so that nobody takes it for a leftover
            }
        }
        catch
        {
            TryDelete(passing);
            throw;
        }
    }

    /// <summary>Removes what a kill left behind in a folder.</summary>
    public static void SweepLeftovers(string folder, DateTimeOffset now)
    {
        foreach (var file in new DirectoryInfo(folder).EnumerateFiles(".*" + PassingEnding))
            if (now - file.LastWriteTimeUtc > LeftoverAge && !IsHeld(file.FullName))
                TryDelete(file.FullName);
    }

    private static bool IsHeld(string path)
    {
        try
        {
            using var own = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None, bufferSize: 0);
            return false;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return true;
        }
    }

    /// <summary>Why a file could not be written, in a few words about the file that was wanted.</summary>
    public static string Why(Exception e) => e switch
    {
        UnauthorizedAccessException => "it may not be written here (read-only folder or file).",
        FileNotFoundException or DirectoryNotFoundException => "its folder takes no files.",
        PathTooLongException => "the name is too long.",
        _ when IsFull(e) => "there is no room left on the disk.",
        _ when IsReadOnly(e) => "the disk is read-only.",
        _ => e.Message,
    };

    /// <summary>Whether there was no room: the disk full, or the user's share of it.</summary>
    public static bool IsFull(Exception e) => Is(e, windows: [112, 39], linux: [28, 122], mac: [28, 69]);

    /// <summary>Whether the whole disk is read-only.</summary>
    public static bool IsReadOnly(Exception e) => Is(e, windows: [19], linux: [30], mac: [30]);

    // The operating systems' own numbers; one number means one thing here and another there.
    private static bool Is(Exception e, ReadOnlySpan<int> windows, ReadOnlySpan<int> linux, ReadOnlySpan<int> mac) =>
        (OperatingSystem.IsWindows() ? windows : OperatingSystem.IsMacOS() ? mac : linux).Contains(e.HResult & 0xffff);

    // A device is written to as it stands; renamed over, it would be gone for everyone.
    internal static bool IsDevice(string path) => !OperatingSystem.IsWindows() && path.StartsWith("/dev/", StringComparison.Ordinal) && File.Exists(path);

    private static FileStreamOptions Options(string path)
    {
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write, Share = FileShare.Delete, BufferSize = 0 };
        if (!OperatingSystem.IsWindows() && File.Exists(path)) options.UnixCreateMode = File.GetUnixFileMode(path) | UnixFileMode.UserWrite;
        return options;
    }

    private static void TryDelete(string path)
    {
        try { File.Delete(path); }
        catch (IOException) { } // it is a hidden leftover and will be swept another time
        catch (UnauthorizedAccessException) { }
    }
}
