using System.IO.Compression;
using Pleatwright.Files;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>Many pieces in one ZIP file, each with its place, and figures of the drawer, for keeping elsewhere and bringing back.</summary>
public static class Bundle
{
    /// <summary>What the names of such files end with.</summary>
    public const string Ending = ".zip";

    private const int MostPieces = 2000;

    /// <summary>Packs pieces by their names, and beside each its place where it has one; and figures by theirs.</summary>
    public static byte[] Pack(IEnumerable<(StoredPiece Piece, StoredPlace? Place)> pieces, IEnumerable<StoredPiece>? figures = null)
    {
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create))
        {
            foreach (var (piece, place) in pieces)
            {
                Put(piece.Name.FileName, piece.Text);
                if (place is not null) Put(piece.Name + FileShelf.PlaceEnding, place.Text);
            }

            foreach (var figure in figures ?? []) Put(Goods.Figures.FileOf(figure.Name), figure.Text);

            void Put(string name, byte[] text)
            {
                using var entry = zip.CreateEntry(name).Open();
                entry.Write(text);
            }
        }
        return file.ToArray();
    }

    /// <summary>Whether a file of this name holds a place.</summary>
    public static bool IsPlace(string name) => name.EndsWith(FileShelf.PlaceEnding, StringComparison.OrdinalIgnoreCase);

    /// <summary>Whether a file of this name holds a figure.</summary>
    public static bool IsFigure(string name) => name.EndsWith(FigureReader.Ending, StringComparison.OrdinalIgnoreCase);

    /// <summary>The files of pieces, places and figures in a ZIP file, whatever folders they lie in, each by its path there.</summary>
    /// <exception cref="InvalidDataException">It is no ZIP file, or unpacks to more than any shelf holds.</exception>
    public static IEnumerable<(string Path, byte[] Text)> Unpack(byte[] content)
    {
        using var zip = new ZipArchive(new MemoryStream(content), ZipArchiveMode.Read);
        var files = 0;
        foreach (var entry in zip.Entries.Where(e => e.Name.EndsWith(PieceName.Ending, StringComparison.OrdinalIgnoreCase) || IsPlace(e.Name) || IsFigure(e.Name)))
        {
            if (++files > 3 * MostPieces) throw new InvalidDataException($"it holds more than {MostPieces} pieces");
            if (entry.FullName.Contains(FileShelf.VersionsFolder + "/", StringComparison.Ordinal) || entry.FullName.Contains(Goods.Figures.VersionsFolder + "/", StringComparison.Ordinal)) continue; // a whole shelf was packed by hand
            using var text = new MemoryStream();
            using (var from = entry.Open()) CopyAtMost(from, text, IsPlace(entry.Name) ? TickLogReader.MostBytes : PieceReader.MostBytes); // what it says of its own size may be a lie
            yield return (entry.FullName, text.ToArray());
        }
    }

    private static void CopyAtMost(Stream from, MemoryStream to, int most)
    {
        var buffer = new byte[81920];
        for (int read; (read = from.Read(buffer)) > 0;)
        {
            if (to.Length + read > most) throw new InvalidDataException("one of its pieces is larger than any piece");
            to.Write(buffer, 0, read);
        }
    }
}
