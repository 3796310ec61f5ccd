namespace Pleatwright.App;

/// <summary>
/// Writing a file whole or not at all: beside it under a passing name, flushed to the disk, then renamed over it. Whoever
/// reads it sees the old text or the new, never a part, and a kill leaves at most the passing file behind.
/// </summary>
public static class AtomicFile
{
    /// <summary>What passing files end with; they begin with a dot.</summary>
    public const string PassingEnding = ".pleatwright-passing";

    /// <summary>Older than this, a passing file is a leftover: no write takes so long between its steps.</summary>
    public static readonly TimeSpan LeftoverAge = TimeSpan.FromMinutes(2);

    /// <summary>Writes a file in place of any that stands there. A link is followed, and what it points to is replaced.</summary>
    /// <exception cref="IOException">It could not be written; what stood there is untouched.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written; what stood there is untouched.</exception>
    public static async Task WriteAsync(string path, ReadOnlyMemory<byte> content, CancellationToken cancel = default)
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
            }
            File.Move(passing, path, overwrite: true);
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
            if (now - file.LastWriteTimeUtc > LeftoverAge)
                TryDelete(file.FullName);
    }

    // A device is written to as it stands; renamed over, it would be gone for everyone.
    private static bool IsDevice(string path) => !OperatingSystem.IsWindows() && path.StartsWith("/dev/", StringComparison.Ordinal) && File.Exists(path);

    private static FileStreamOptions Options(string path)
    {
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write, Share = FileShare.None, BufferSize = 0 };
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
