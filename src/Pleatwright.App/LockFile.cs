using System.Diagnostics.CodeAnalysis;
using Pleatwright.Shelf;

namespace Pleatwright.App;

/// <summary>One writer among programs, by a file that one of them holds open at a time: the one loop that waits for it.</summary>
internal static class LockFile
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10), Pause = TimeSpan.FromMilliseconds(15);

    /// <summary>Waits until the lock is free and takes it. A kill sets it free, too.</summary>
    /// <param name="path">The file, whose folder stands; made when it is not there. No link is followed.</param>
    /// <param name="passes">Whether the file goes with the lock.</param>
    /// <param name="clock">Tells how long it has been waited.</param>
    /// <param name="cancel">Gives up.</param>
    /// <exception cref="ShelfException">It is a link, or another held it too long.</exception>
    /// <exception cref="IOException">It cannot be made.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be made.</exception>
    public static async Task<IAsyncDisposable> HoldAsync(string path, bool passes, TimeProvider clock, CancellationToken cancel)
    {
        var start = clock.GetTimestamp();
        for (; ; )
        {
            if (new FileInfo(path).LinkTarget is not null) throw new ShelfException(ShelfTrouble.Unavailable, $"{path} is a link to another place, which is not followed.");
            try
            {
                if (TryHold(path, passes, out var held)) return held;
                continue; // it went with the one before
            }
            catch (IOException e) when (IsHeldElsewhere(e))
            {
                if (clock.GetElapsedTime(start) > Patience) throw new ShelfException(ShelfTrouble.Busy, "Another bench or command has been writing here for a while; nothing was changed. Try again.", e);
            }
            await Task.Delay(Pause, cancel);
        }
    }

    /// <summary>Removes lock files that programs of another time left behind, and that nobody holds.</summary>
    /// <param name="folder">Where they lie.</param>
    /// <param name="pattern">What they are called.</param>
    /// <param name="before">When they were last held, at the latest.</param>
    public static void Sweep(string folder, string pattern, DateTimeOffset before)
    {
        foreach (var file in new DirectoryInfo(folder).EnumerateFiles(pattern))
        {
            try
            {
                if (file.LinkTarget is null && file.LastWriteTimeUtc < before && TryHold(file.FullName, passes: true, out var held)) held.Dispose();
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException) { } // somebody's, or in use
        }
    }

    // Whoever waited for a file that passes may have opened it just before it went: then it holds what nobody else will look at. So each marks its own by a time, and
    // sees whether what stands under the name has it.
    private static bool TryHold(string path, bool passes, [NotNullWhen(true)] out Held? held)
    {
        held = null;
        var file = new FileStream(path, new FileStreamOptions { Mode = FileMode.OpenOrCreate, Access = FileAccess.ReadWrite, Share = passes && OperatingSystem.IsWindows() ? FileShare.Delete : FileShare.None, BufferSize = 0 });
        try
        {
            if (passes)
            {
                var mark = DateTime.UtcNow.AddMilliseconds(-Random.Shared.Next(1_000_000));
                File.SetLastWriteTimeUtc(file.SafeFileHandle, mark);
                if (File.GetLastWriteTimeUtc(path) != File.GetLastWriteTimeUtc(file.SafeFileHandle))
                {
                    file.Dispose();
                    return false;
                }
            }
            held = new Held(file, passes);
            return true;
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    // The operating systems' own numbers: would block on Unix (two of them), held and locked on Windows.
    private static bool IsHeldElsewhere(IOException e) =>
        e is not (FileNotFoundException or DirectoryNotFoundException or PathTooLongException) && (e.HResult & 0xffff) is 11 or 35 or 32 or 33;

    private sealed class Held(FileStream file, bool passes) : IAsyncDisposable, IDisposable
    {
        public void Dispose()
        {
            try
            {
                if (passes) File.Delete(file.Name); // before it is set free
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException) { } // it is swept another time
            file.Dispose();
        }

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
