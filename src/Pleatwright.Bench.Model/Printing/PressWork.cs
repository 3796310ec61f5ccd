using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Plate.Parts;
using Pleatwright.Plate.Writers;

namespace Pleatwright.Bench.Model.Printing;

/// <summary>A page of a print as it is shown.</summary>
/// <param name="Number">Its number, from 1.</param>
/// <param name="Of">How many there are.</param>
/// <param name="Name">What is on it.</param>
/// <param name="Width">Millimetres of its paper.</param>
/// <param name="Height">Millimetres of its paper.</param>
/// <param name="Address">Where its picture is.</param>
public sealed record PrintedPage(int Number, int Of, string Name, double Width, double Height, string Address)
{
    /// <summary>Of what media type its picture is.</summary>
    public const string MediaType = "image/svg+xml";

    /// <summary>Reads the words that <see cref="PressWork.Words"/> gives.</summary>
    internal static PrintedPage Read(string words, string address)
    {
        var w = words.Split(' ', 5);
        return new(int.Parse(w[0], CultureInfo.InvariantCulture), int.Parse(w[1], CultureInfo.InvariantCulture), w[4],
            double.Parse(w[2], CultureInfo.InvariantCulture), double.Parse(w[3], CultureInfo.InvariantCulture), address);
    }
}

/// <summary>A picture of the stitched piece that pages lack.</summary>
/// <param name="Piece">The piece file.</param>
/// <param name="Part">Its part; see <see cref="Portrait.PaintSoon"/>.</param>
/// <param name="Wide">Pixels across.</param>
public sealed record LackingPicture(string Piece, double[] Part, int Wide)
{
    private const char Between = '\f';

    internal static string Write(IEnumerable<LackingPicture> pictures) => string.Join(Between, pictures.Select(p =>
        p.Wide.ToString(CultureInfo.InvariantCulture) + " " + string.Join(' ', p.Part.Select(n => n.ToString("R", CultureInfo.InvariantCulture))) + "\n" + p.Piece));

    internal static ImmutableArray<LackingPicture> Read(string text) => text.Length == 0 ? [] : [.. text.Split(Between).Select(p =>
    {
        var end = p.IndexOf('\n', StringComparison.Ordinal);
        var n = p[..end].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return new LackingPicture(p[(end + 1)..], [.. n[1..].Select(x => double.Parse(x, CultureInfo.InvariantCulture))], int.Parse(n[0], CultureInfo.InvariantCulture));
    })];
}

/// <summary>The work of printing itself, a step at a time; the same wherever it is done, beside the page or in it.</summary>
public sealed class PressWork
{
    private (string Piece, Work Work)? laid; // a print is made again for every choice; the piece is the same, and so are its painted pictures
    private PrintAsk? ask;
    private Print? print;
    private ImmutableArray<StitchedPixels> lacking = [];

    /// <summary>How many pages there are.</summary>
    public int Pages => print?.Sheets.Length ?? 0;

    /// <summary>Lays a print out.</summary>
    /// <param name="text">What is asked for, as text.</param>
    /// <returns>Why there is none, as a sentence; empty when there is one.</returns>
    public string Make(string text)
    {
        Drop();
        ask = PrintAsk.Read(text);
        var piece = PieceWriter.Write(ask.Piece);
        if (laid?.Piece != piece) laid = (piece, Smocking.Lay(ask.Piece));
        (print, var fault) = Print.Make(ask, laid.Value.Work);
        lacking = print?.Lacking() ?? [];
        return fault;
    }

    /// <summary>What is told of a page, from 0.</summary>
    public string Words(int page)
    {
        var sheet = print!.Sheets[page];
        return string.Create(CultureInfo.InvariantCulture, $"{page + 1} {Pages} {sheet.Width:R} {sheet.Height:R} {sheet.Name}");
    }

    /// <summary>A page as a picture, SVG.</summary>
    public byte[] Picture(int page) => Encoding.UTF8.GetBytes(SvgWriter.Write(print!.Sheets[page].Name, [print.Sheets[page]]));

    /// <summary>The pictures that pages lack, as text.</summary>
    public string Lacking() => LackingPicture.Write(lacking.Select(p => new LackingPicture(PieceWriter.Write(p.Work.Piece), p.Frame is { } f ? [f.X, f.Y, f.Width, f.Height] : [], p.Wide)));

    /// <summary>Takes a picture that was lacking, a JPEG file.</summary>
    /// <returns>The pages that show it, from 0.</returns>
    public int[] Give(int picture, byte[] jpeg)
    {
        lacking[picture].Give([.. jpeg]);
        return [.. Enumerable.Range(0, Pages).Where(i => Print.Shows(print!.Sheets[i], lacking[picture]))];
    }

    /// <summary>Writes the print in a format.</summary>
    /// <exception cref="Plate.PlateTooLargeException">It cannot be written so.</exception>
    public byte[] Write(string ending) => ask!.Formats.First(f => f.Ending == ending).Write(print!);

    /// <summary>Lets the print go.</summary>
    public void Drop() => (ask, print, lacking) = (null, null, []);
}
