using System.CommandLine;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Shelf;

namespace Pleatwright.App.Commands;

/// <summary>Pieces on disk.</summary>
internal static class PieceFile
{
    /// <summary>The option, of every command, that takes on a piece that is dear.</summary>
    public static Option<bool> Large { get; } = new("--large") { Description = "Take on a piece so large that it may need many minutes and much memory.", Recursive = true };

    /// <summary>Reads a piece, from its own file or a plate that carries it, and lays it out.</summary>
    /// <param name="parsed">The command line, which says whether it may be dear.</param>
    /// <param name="path">Its file.</param>
    /// <param name="deed">What is to be done with it.</param>
    /// <exception cref="UsageException">It cannot be read, or is dear; the message names file, line and column.</exception>
    public static Work Lay(ParseResult parsed, string path, Deed deed = Deed.Opened) => Open(parsed, path, deed).Work;

    /// <summary>Reads a piece, from its own file or a plate that carries it, and lays it out; and says what its file is called.</summary>
    /// <inheritdoc cref="Lay" path="/param"/>
    /// <inheritdoc cref="Lay" path="/exception"/>
    public static (Work Work, PieceName Name) Open(ParseResult parsed, string path, Deed deed = Deed.Opened)
    {
        try
        {
            var file = InputFile.Read(path, "a piece file", PieceReader.MostBytes);
            var large = parsed.GetValue(Large);
            if (!large && Outlay.OfFile(file.Length) is { } heavy) throw new UsageException($"{path}:1:1: {heavy.Words}; {Remedy}.");
            var found = PieceFinder.Read(file);
            if (!large && Outlay.Of(found.Piece, deed) is { } dear) throw new UsageException(PieceReader.Located(found.Utf8, dear, Remedy).Located(path));
            return (Smocking.Lay(found.Piece), PieceName.Nearest(PieceName.StemOf(found.FileName ?? Path.GetFileName(path))));
        }
        catch (PieceFormatException e)
        {
            throw new UsageException(e.Located(path));
        }
        catch (ArgumentException e)
        {
            throw UsageException.Of($"{path}:1:1", e);
        }
    }

    private static string Remedy => $"{Large.Name} takes it on";
}
