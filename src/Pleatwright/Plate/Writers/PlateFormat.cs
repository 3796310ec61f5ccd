using System.Collections.Immutable;
using System.Text;
using Pleatwright.Files;

namespace Pleatwright.Plate.Writers;

/// <summary>A format a plate is written in. To add one, write its writer and put it in <see cref="All"/>.</summary>
/// <param name="Ending">What its files end with, with the dot, lower case.</param>
/// <param name="MediaType">Its media type.</param>
/// <param name="Words">What it is good for, in a few words.</param>
/// <param name="Write">Writes a plate in it; in all of ours but plain text the plate carries its piece, which <see cref="Smocking.Read(ReadOnlySpan{byte})"/> finds.</param>
/// <example>
/// A format of one's own, from the pages or from anything else the plate holds:
/// <code>
/// using System.Text;
/// using Pleatwright;
/// using Pleatwright.Plate;
/// using Pleatwright.Plate.Writers;
///
/// var words = new PlateFormat(".words", "text/plain", "what is printed", plate => Encoding.UTF8.GetBytes(
///     string.Join('\n', plate.Sheets.SelectMany(sheet => sheet.Marks).OfType&lt;Lettering&gt;().Select(line => line.Text))));
/// var work = Smocking.Lay(Smocking.Read(File.ReadAllText("examples/first-pennant.piece.json")));
/// var written = words.Write(Smocking.Plate(Smocking.Plan(work), Smocking.Prove(work)));
/// Console.WriteLine(Encoding.UTF8.GetString(written).Contains("pennant"));
/// // prints:
/// // True
/// </code>
/// </example>
public sealed record PlateFormat(string Ending, string MediaType, string Words, Func<PlateDocument, byte[]> Write)
{
    /// <summary>
    /// Writes pages alone under a title, as for the sheets that prepare the cloth; null for a format that has no pages.
    /// </summary>
    public Func<string, ImmutableArray<Sheet>, byte[]>? WritePages { get; private init; }

    /// <summary>Whether letters come from the embedded typefaces alone; elsewhere the reader's own fill in. See <see cref="Typeface.Lacking"/>.</summary>
    public bool IsEmbeddedAlone { get; private init; }

    /// <summary>Printed pages.</summary>
    public static PlateFormat Pdf { get; } = OfPages(".pdf", "application/pdf", "for printing", PdfWriter.Write) with { IsEmbeddedAlone = true };

    /// <summary>Pages as one picture.</summary>
    public static PlateFormat Svg { get; } = OfPages(".svg", "image/svg+xml", "pictures to draw on or put in a page", (title, sheets, carried) => Encoding.UTF8.GetBytes(SvgWriter.Write(title, sheets, carried)));

    /// <summary>One page that needs no other file.</summary>
    public static PlateFormat Html { get; } = new(".html", "text/html", "for screens and screen readers", plate => Encoding.UTF8.GetBytes(HtmlWriter.Write(plate)));

    /// <summary>Words and a chart of letters.</summary>
    public static PlateFormat Text { get; } = new(".txt", "text/plain", "words alone", plate => Encoding.UTF8.GetBytes(PlainTextWriter.Write(plate)));

    /// <summary>Every format there is, in the order they are offered.</summary>
    public static ImmutableArray<PlateFormat> All { get; } = [Pdf, Svg, Html, Text];

    /// <summary>The format that a file's name asks for by its ending, or null.</summary>
    public static PlateFormat? OfFile(string name) =>
        All.FirstOrDefault(f => name.EndsWith(f.Ending, StringComparison.OrdinalIgnoreCase));

    private static PlateFormat OfPages(string ending, string mediaType, string words, Func<string, ImmutableArray<Sheet>, CarriedPiece?, byte[]> write) =>
        new(ending, mediaType, words, plate => write(plate.Title, plate.Sheets, plate.Carried)) { WritePages = (title, sheets) => write(title, sheets, null) };
}
