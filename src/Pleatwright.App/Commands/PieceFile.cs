using Pleatwright.Chart;
using Pleatwright.Files;

namespace Pleatwright.App.Commands;

/// <summary>Pieces and outputs on disk.</summary>
internal static class PieceFile
{
    /// <summary>Reads a piece and lays it out.</summary>
    /// <exception cref="UsageException">It cannot be read; the message names file, line and column.</exception>
    public static Work Lay(string path)
    {
        var piece = Read(path);
        try
        {
            return Smocking.Lay(piece);
        }
        catch (ArgumentException e)
        {
            throw UsageException.Of($"{path}:1:1", e);
        }
    }

    /// <summary>Reads a piece.</summary>
    /// <exception cref="UsageException">It cannot be read; the message names file, line and column.</exception>
    public static Piece Read(string path)
    {
        try
        {
            return Smocking.Read(InputFile.Read(path, "a piece file", PieceReader.MostBytes));
        }
        catch (PieceFormatException e)
        {
            throw new UsageException(e.Located(path));
        }
    }

    /// <summary>Writes a whole file or nothing.</summary>
    /// <exception cref="UsageException">It cannot be written; what stood there is untouched and nothing is left behind.</exception>
    public static async Task WriteWhole(string path, ReadOnlyMemory<byte> contents, CancellationToken cancel)
    {
        CheckWritable(path);
        try
        {
            await AtomicFile.WriteAsync(path, contents, cancel);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new UsageException($"{path}: it cannot be written: {AtomicFile.Why(e)}");
        }
    }

    /// <summary>Refuses, before any long work, a path that no file can be written to.</summary>
    /// <exception cref="UsageException">It names a folder, or lies in a folder that is not there.</exception>
    public static void CheckWritable(string path)
    {
        if (path.Length == 0 || path.Contains('\0')) throw new UsageException("the file to write has no usable name.");
        if (Directory.Exists(path)) throw new UsageException($"{path}: this is a folder; name a file to write.");
        var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        if (!Directory.Exists(folder)) throw new UsageException($"{path}: there is no folder {folder}.");
    }
}
