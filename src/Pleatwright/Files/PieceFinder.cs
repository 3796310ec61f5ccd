using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Pleatwright.Chart;
using Pleatwright.Files.Pdf;

namespace Pleatwright.Files;

/// <summary>A piece as it was found in a file.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Utf8">Its piece file: the very bytes, but from markup, where it cannot stand as it is, written anew.</param>
/// <param name="FileName">What the piece file is called within the plate that carries it; null where it is the file itself, or has no name.</param>
internal sealed record FoundPiece(Piece Piece, byte[] Utf8, string? FileName);

/// <summary>Finds the piece in whatever holds one: a piece file, or a plate that carries it. What it is, its content says, not its name.</summary>
internal static partial class PieceFinder
{
    private const int FarthestHeader = 1024; // ISO 32000-2, annex I, of files that begin with something else

    /// <summary>Reads the piece.</summary>
    /// <exception cref="PieceFormatException">There is none, more than one, or it is damaged; says where.</exception>
    public static FoundPiece Read(ReadOnlySpan<byte> content)
    {
        var text = content.StartsWith(Encoding.UTF8.Preamble) ? content[3..] : content;
        text = text.TrimStart(" \t\r\n"u8);
        if (content.Length > PieceReader.MostBytes || text.StartsWith("{"u8)) return new(PieceReader.Read(content), content.ToArray(), null);
        if (text.StartsWith("<"u8)) return InMarkup(content);
        var header = content[..Math.Min(content.Length, FarthestHeader)].IndexOf("%PDF-"u8);
        return header >= 0 ? InPdf(content[header..].ToArray(), header) : new(PieceReader.Read(content), content.ToArray(), null);
    }

    private static FoundPiece InPdf(byte[] bytes, int header)
    {
        string name;
        byte[] utf8;
        try
        {
            var file = PdfFile.Open(bytes);
            var attached = PdfAttachments.Of(file);
            var pieces = attached.Where(a => a.Value.EndsWith(PieceReader.Ending, StringComparison.OrdinalIgnoreCase)).ToList();
            if (pieces.Count == 0) throw None("this PDF");
            if (pieces.Count > 1) throw Many("this PDF", pieces.Select(p => p.Value));
            name = pieces[0].Value;
            utf8 = PdfAttachments.Read(file, pieces[0].Key, PieceReader.MostBytes);
        }
        catch (PdfFault fault)
        {
            throw new PieceFormatException(1, 1, string.Create(CultureInfo.InvariantCulture, $"{fault.Message}{(fault.At > 0 ? $" (near byte {fault.At + header})" : "")}, so that the piece in it cannot be had."));
        }
        try
        {
            return new(PieceReader.Read(utf8), utf8, name);
        }
        catch (PieceFormatException fault)
        {
            throw new PieceFormatException(fault.Line, fault.Column, $"in the piece attached, {JsonText.Quote(name)}: {fault.Message}");
        }
    }

    // Markup is searched, not read as XML: a page saved again by a browser is none. Bytes are searched as letters, so that none is lost.
    private static FoundPiece InMarkup(ReadOnlySpan<byte> bytes)
    {
        var text = Encoding.Latin1.GetString(bytes);
        var found = Opening().Matches(text).Where(m => Attribute(m.Value, "id") == CarriedPiece.Id).ToList();
        if (found.Count == 0) throw None("this page or drawing");
        if (found.Count > 1) throw Many("this page or drawing", found.Select(m => Attribute(m.Value, CarriedPiece.NameAttribute) ?? ""));
        var opening = found[0];
        var element = opening.Groups[1].Value;
        var from = opening.Index + opening.Length;
        var line = bytes[..from].Count((byte)'\n') + 1;
        var column = Encoding.UTF8.GetCharCount(bytes[(bytes[..from].LastIndexOf((byte)'\n') + 1)..from]) + 1;
        var to = text.IndexOf($"</{element}", from, StringComparison.OrdinalIgnoreCase);
        if (to < 0) throw new PieceFormatException(line, column, "this page or drawing breaks off within the piece that it carries.");
        var json = bytes[from..to];
        // A drawing saved by another program may write signs in its own way; in a page's script there is no other.
        if (element.Equals(CarriedPiece.InDrawing, StringComparison.OrdinalIgnoreCase) && json.Contains((byte)'&')) json = Encoding.UTF8.GetBytes(Unescaped(Encoding.UTF8.GetString(json)));
        try
        {
            var piece = PieceReader.Read(json);
            return new(piece, PieceWriter.WriteUtf8(piece), Attribute(opening.Value, CarriedPiece.NameAttribute));
        }
        catch (PieceFormatException fault)
        {
            throw new PieceFormatException(line + fault.Line - 1, fault.Line == 1 ? column + fault.Column - 1 : fault.Column, $"in the piece that it carries: {fault.Message}");
        }
    }

    private static PieceFormatException None(string what) =>
        new(1, 1, $"{what} carries no piece: it is no plate, or was made before plates carried theirs, or was changed since.");

    private static PieceFormatException Many(string what, IEnumerable<string> names) =>
        new(1, 1, $"{what} carries more than one piece ({string.Join(", ", names.Take(5).Select(JsonText.Quote))}); take the one you want out of it, and read that.");

    private static string? Attribute(string tag, string name) =>
        Attributes().Matches(tag).FirstOrDefault(a => a.Groups[1].Value == name) is { } found ? Unescaped(Encoding.UTF8.GetString(Encoding.Latin1.GetBytes(found.Groups[2].Value))) : null;

    private static string Unescaped(string text) => !text.Contains('&') ? text : Entity().Replace(text, e => e.Groups[1].Value switch
    {
        "lt" => "<",
        "gt" => ">",
        "amp" => "&",
        "quot" => "\"",
        "apos" => "'",
        ['#', 'x', .. var hex] when int.TryParse(hex, NumberStyles.HexNumber, CultureInfo.InvariantCulture, out var code) && Rune.IsValid(code) => new Rune(code).ToString(),
        ['#', .. var whole] when int.TryParse(whole, NumberStyles.None, CultureInfo.InvariantCulture, out var code) && Rune.IsValid(code) => new Rune(code).ToString(),
        _ => e.Value,
    });

    [GeneratedRegex($"<({CarriedPiece.InPage}|{CarriedPiece.InDrawing})\\s[^<>]{{0,4000}}>", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Opening();

    [GeneratedRegex("\\s([a-z-]+)\\s*=\\s*\"([^\"]*)\"", RegexOptions.CultureInvariant)]
    private static partial Regex Attributes();

    [GeneratedRegex("&(#?[a-zA-Z0-9]{1,8});", RegexOptions.CultureInvariant)]
    private static partial Regex Entity();
}
