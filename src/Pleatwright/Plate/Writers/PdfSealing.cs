using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using PdfSharp.Pdf;

namespace Pleatwright.Plate.Writers;

/// <summary>
/// Saves a PDF so that the same pages always give the same bytes. The library stamps the time of day and random names
/// into four kinds of object; here the times are blanked, and the names are made from the contents instead.
/// </summary>
internal static class PdfSealing
{
    private const int TagLength = 6; // "ABCDEF+" before the name of a font that is embedded in part

    public static byte[] Save(PdfDocument document)
    {
        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);
        var bytes = stream.ToArray();
        var tags = new Dictionary<string, string>();
        List<Range> identities = [];
        foreach (var start in ObjectStarts(bytes))
        {
            var body = bytes.AsSpan(start);
            if (body.StartsWith("<</CreationDate("u8)) Blank(body[2..], ")"u8);
            else if (body.StartsWith("<</Type/FontDescriptor"u8)) Retag(body, "/FontName/"u8, tags);
            else if (body.StartsWith("<</Type/Font/"u8)) Retag(body, "/BaseFont/"u8, tags);
            else if (body.StartsWith("<</Type/Metadata/"u8)) SealMetadata(bytes, start, identities);
        }
        SealTrailer(bytes, identities);
        return bytes;
    }

    // Offsets of the objects' contents, from the cross-reference table.
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
        var at = body[..body.IndexOf("endobj"u8)].IndexOf(key) + key.Length;
        var tag = body.Slice(at, TagLength);
        var random = Encoding.ASCII.GetString(tag);
        if (!tags.TryGetValue(random, out var plain)) tags[random] = plain = "PLATE" + (char)('A' + tags.Count);
        Encoding.ASCII.GetBytes(plain, tag);
    }

    private static void SealMetadata(byte[] bytes, int start, List<Range> identities)
    {
        var end = start + bytes.AsSpan(start).IndexOf("endobj"u8);
        // Titles stand escaped before these elements, so the last ones of their name are the library's own.
        foreach (var element in (string[])["xmp:CreateDate", "xmp:ModifyDate"])
        {
            var at = bytes.AsSpan(start, end - start).LastIndexOf(Encoding.ASCII.GetBytes($"<{element}>"));
            if (at >= 0) Blank(bytes.AsSpan(start + at), Encoding.ASCII.GetBytes($"</{element}>"));
        }
        foreach (var element in (string[])["xmpMM:DocumentID", "xmpMM:InstanceID"])
        {
            var name = Encoding.ASCII.GetBytes($"<{element}>uuid:");
            var at = bytes.AsSpan(start, end - start).LastIndexOf(name);
            if (at >= 0) identities.Add((start + at + name.Length)..(start + at + name.Length + 36));
        }
        foreach (var identity in identities) bytes.AsSpan()[identity].Fill((byte)'0');
    }

    // The identity of a document is a digest of all else that is in it.
    private static void SealTrailer(byte[] bytes, List<Range> identities)
    {
        var first = bytes.AsSpan().LastIndexOf("/ID[<"u8) + 5;
        foreach (var at in (int[])[first, first + 34])
        {
            identities.Add(at..(at + 32));
            bytes.AsSpan(at, 32).Fill((byte)'0');
        }
        var digest = Convert.ToHexString(SHA256.HashData(bytes).AsSpan(0, 16));
        var hyphenated = new Guid(Convert.FromHexString(digest), bigEndian: true).ToString();
        foreach (var identity in identities)
        {
            var place = bytes.AsSpan()[identity];
            Encoding.ASCII.GetBytes(place.Length == 32 ? digest : hyphenated, place);
        }
    }

    private static void Blank(Span<byte> from, ReadOnlySpan<byte> upTo) => from[..(from.IndexOf(upTo) + upTo.Length)].Fill((byte)' ');
}
