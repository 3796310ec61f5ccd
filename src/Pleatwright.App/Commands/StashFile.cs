using System.Collections.Immutable;
using Pleatwright.Files;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.App.Commands;

/// <summary>A stash on disk: a stash file; for its threads alone also a piece file, or a list in CSV.</summary>
internal static class StashFile
{
    /// <summary>Reads a stash file.</summary>
    /// <exception cref="UsageException">It cannot be read; the message names file, line and column.</exception>
    public static Stash Read(string path) => Read(path, bytes => StashReader.Read(bytes));

    /// <summary>Reads the text of a stash file.</summary>
    /// <exception cref="UsageException">It cannot be read; the message names file, line and column.</exception>
    public static Stash Read(string path, byte[] text) => Read(path, bytes => StashReader.Read(bytes), text);

    /// <summary>Reads a list in CSV.</summary>
    /// <exception cref="UsageException">It cannot be read; the message names file, line and column.</exception>
    public static StashList ReadCsv(string path) => Read(path, bytes => StashCsv.Read(bytes));

    /// <summary>Reads threads to choose from: those of a stash with some left, those of a piece, or those a CSV names.</summary>
    /// <exception cref="UsageException">It cannot be read, or names none; the message names file, line and column.</exception>
    public static ImmutableArray<Floss> ReadThreads(string path)
    {
        var threads = Read(path, bytes => !path.EndsWith(".json", StringComparison.OrdinalIgnoreCase) ? Stash.Choice(StashCsv.Read(bytes, forColours: true).Threads)
            : StashReader.IsStash(bytes) ? Stash.Choice(StashReader.Read(bytes).Threads)
            : Smocking.Read(bytes).Threads);
        return threads.IsEmpty ? throw new UsageException($"{path}: it names no threads.") : threads;
    }

    private static T Read<T>(string path, Func<byte[], T> read) => Read(path, read, InputFile.Read(path, "a file", PieceReader.MostBytes));

    private static T Read<T>(string path, Func<byte[], T> read, byte[] text)
    {
        try
        {
            return read(text);
        }
        catch (PieceFormatException e)
        {
            throw new UsageException(e.Located(path));
        }
    }
}
