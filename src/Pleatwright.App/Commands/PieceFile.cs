using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Shelf;

namespace Pleatwright.App.Commands;

/// <summary>Pieces on disk.</summary>
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
}
