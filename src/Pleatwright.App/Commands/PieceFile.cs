using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Shelf;

namespace Pleatwright.App.Commands;

/// <summary>Pieces and outputs on disk.</summary>
internal static class PieceFile
{
    /// <summary>Reads a piece, from its own file or a plate that carries it, and lays it out.</summary>
    /// <exception cref="UsageException">It cannot be read; the message names file, line and column.</exception>
    public static Work Lay(string path) => Open(path).Work;

    /// <summary>Reads a piece, from its own file or a plate that carries it, and lays it out; and says what its file is called.</summary>
    /// <exception cref="UsageException">It cannot be read; the message names file, line and column.</exception>
    public static (Work Work, PieceName Name) Open(string path)
    {
        var found = Read(path);
        try
        {
            return (Smocking.Lay(found.Piece), PieceName.Nearest(PieceName.StemOf(found.FileName ?? Path.GetFileName(path))));
        }
        catch (ArgumentException e)
        {
            throw UsageException.Of($"{path}:1:1", e);
        }
    }

    private static FoundPiece Read(string path)
    {
        try
        {
            return PieceFinder.Read(InputFile.Read(path, "a piece file", PieceReader.MostBytes));
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
