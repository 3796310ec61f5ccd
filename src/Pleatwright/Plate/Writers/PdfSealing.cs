using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using PdfSharp.Pdf;

namespace Pleatwright.Plate.Writers;

/// <summary>
/// Saves a PDF so that the same pages always give the same bytes. The library stamps the time of day and random names
/// into four kinds of object, and does not escape the title in its metadata; here, byte for byte in their places, the
/// times are blanked, the names are counted instead, and the metadata are written anew.
/// </summary>
internal static class PdfSealing
{
    private const int TagLength = 6; // "ABCDEF+" before the name of a font that is embedded in part

    private const int IdentityLength = 32;

    public static byte[] Save(PdfDocument document)
    {
        var title = document.Info.Title;
        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);
        var bytes = stream.ToArray();
        var tags = new Dictionary<string, string>();
        foreach (var start in ObjectStarts(bytes))
        {
            var body = bytes.AsSpan(start);
            if (body.StartsWith("<</CreationDate("u8)) Blank(body[2..], ")"u8);
            else if (body.StartsWith("<</Type/FontDescriptor"u8)) Retag(body, "/FontName/"u8, tags);
            else if (body.StartsWith("<</Type/Font/"u8)) Retag(body, "/BaseFont/"u8, tags);
            else if (body.StartsWith("<</Type/Metadata/"u8)) Describe(body, title);
        }
        Identify(bytes);
        return bytes;
    }

    // Offsets of the objects' contents, from the cross-reference table: one row of 20 bytes an object.
    private static List<int> ObjectStarts(byte[] bytes)
    {
        var tail = bytes.AsSpan().LastIndexOf("startxref"u8);
        Utf8Parser.TryParse(bytes.AsSpan(tail + 10), out int table, out _);
        var rows = table + bytes.AsSpan(table).IndexOf(" f"u8) - 16;
        List<int> starts = [];
        for (var row = rows; bytes[row] is >= (byte)'0' and <= (byte)'9'; row += 20)
        {
            if (bytes[row + 17] != 'n') continue;
            Utf8Parser.TryParse(bytes.AsSpan(row, 10), out int offset, out _);
            starts.Add(offset + bytes.AsSpan(offset).IndexOf((byte)'\n') + 1);
        }
        return starts;
    }

    private static void Retag(Span<byte> body, ReadOnlySpan<byte> key, Dictionary<string, string> tags)
    {
        var tag = body.Slice(body[..body.IndexOf("endobj"u8)].IndexOf(key) + key.Length, TagLength);
        var random = Encoding.ASCII.GetString(tag);
        if (!tags.TryGetValue(random, out var counted)) tags[random] = counted = "PLATE" + (char)('A' + tags.Count);
        Encoding.ASCII.GetBytes(counted, tag);
    }

    // Metadata by ISO 16684-1, as long as the library's own; the rest is padding, which the standard provides for.
    private static void Describe(Span<byte> body, string title)
    {
        var at = body.IndexOf("/Length "u8) + 8;
        Utf8Parser.TryParse(body[at..], out int length, out _);
        var place = body.Slice(body.IndexOf("stream\n"u8) + 7, length);
        var packet = Encoding.UTF8.GetBytes(Packet(Escaping.Xml(title)));
        while (packet.Length > length)
        {
            // a document read aloud is to have a title (ISO 14289-1, 7.1): as much of it as there is room for
            title = title[..(title.Length / 2)].TrimEnd() + "…";
            packet = Encoding.UTF8.GetBytes(Packet(Escaping.Xml(title)));
        }
        place.Fill((byte)' ');
        packet.CopyTo(place);
    }

    private static string Packet(string title) =>
        $"""
        <?xpacket begin="" id="W5M0MpCehiHzreSzNTczkc9d"?>
        <x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"><dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title><xmp:CreatorTool>Pleatwright</xmp:CreatorTool><pdfuaid:part>1</pdfuaid:part></rdf:Description></rdf:RDF></x:xmpmeta>
        <?xpacket end="r"?>
        """;

    // The identity of a document is a digest of all else that is in it.
    private static void Identify(byte[] bytes)
    {
        var first = bytes.AsSpan().LastIndexOf("/ID[<"u8) + 5;
        Span<int> places = [first, first + IdentityLength + 2];
        foreach (var place in places) bytes.AsSpan(place, IdentityLength).Fill((byte)'0');
        var digest = Convert.ToHexString(SHA256.HashData(bytes).AsSpan(0, IdentityLength / 2));
        foreach (var place in places) Encoding.ASCII.GetBytes(digest, bytes.AsSpan(place, IdentityLength));
    }

    private static void Blank(Span<byte> from, ReadOnlySpan<byte> upTo) => from[..(from.IndexOf(upTo) + upTo.Length)].Fill((byte)' ');
}
