using System.IO.Compression;
using System.Text;

namespace Pleatwright.Tests.Files;

/// <summary>A small PDF made by hand, as other programs might.</summary>
internal sealed class MadePdf
{
    private readonly List<(string Name, byte[] Content)> attached = [];

    public string Trailer { get; init; } = "";
    public string? Names { get; init; }
    public string Third { get; init; } = "null";
    public int Padding { get; init; }
    public int Missing { get; init; }

    public MadePdf With(string name, byte[] content)
    {
        attached.Add((name, content));
        return this;
    }

    // 1 the catalogue, 2 the pages, 3 what a test wants, then for each file its specification and its stream.
    private List<(string Head, byte[]? Stream)> Objects()
    {
        var tree = Names ?? $"<</EmbeddedFiles<</Names[{string.Concat(attached.Select((a, i) => $"({a.Name}){4 + 2 * i} 0 R "))}]>>>>";
        List<(string, byte[]?)> objects = [($"<</Type/Catalog/Pages 2 0 R/Names {tree}>>", null), ("<</Type/Pages/Kids[]/Count 0>>", null), (Third, null)];
        foreach (var (i, file) in attached.Index())
        {
            objects.Add(($"<</Type/Filespec/F({file.Name})/EF<</F {5 + 2 * i} 0 R>>>>", null));
            var packed = Pack(file.Content);
            objects.Add(($"<</Type/EmbeddedFile/Filter/FlateDecode/Length {packed.Length}/Params<</Size {file.Content.Length + Missing}>>>>", packed));
        }
        return objects;
    }

    public byte[] Plain(MadePdf? then = null)
    {
        using var file = new MemoryStream();
        Write(file, "%PDF-1.7\n% made by hand\n");
        var end = Section(file, this, null);
        if (then is not null) Section(file, then, end);
        return file.ToArray();
    }

    // Added to: one object is another now, and all else stands where it stood.
    public byte[] WithNote()
    {
        using var file = new MemoryStream();
        file.Write(Plain());
        var older = Encoding.Latin1.GetString(file.ToArray()).Split('\n')[^3];
        var at = file.Position;
        Write(file, "3 0 obj\n(a note)\nendobj\n");
        var table = file.Position;
        Write(file, $"xref\n3 1\n{at:D10} 00000 n \ntrailer\n<</Size 9/Root 1 0 R/Prev {older}>>\nstartxref\n{table}\n%%EOF\n");
        return file.ToArray();
    }

    private static long Section(MemoryStream file, MadePdf from, long? older)
    {
        List<long> at = [];
        foreach (var (head, stream) in from.Objects()) Object(file, at, head, stream);
        var table = file.Position;
        Write(file, $"xref\n0 1\n0000000000 65535 f \n1 {at.Count}\n{string.Concat(at.Select(a => $"{a:D10} 00000 n \n"))}");
        Write(file, $"trailer\n<</Size {at.Count + 1}/Root 1 0 R{(older is null ? "" : $"/Prev {older}")}{from.Trailer.Replace("SELF", $"{table}")}>>\nstartxref\n{table}\n%%EOF\n");
        return table;
    }

    // All but the streams in a stream of objects, and where they stand in another (ISO 32000-2, 7.5.7 and 7.5.8).
    public byte[] Packed(int predictor)
    {
        using var file = new MemoryStream();
        Write(file, "%PDF-2.0\n");
        var objects = Objects();
        var plain = objects.Index().Where(o => o.Item.Stream is null).ToList();
        StringBuilder heads = new(), bodies = new();
        foreach (var (i, one) in plain)
        {
            heads.Append($"{i + 1} {bodies.Length} ");
            bodies.Append(one.Head).Append('\n');
        }
        var body = Pack(Encoding.Latin1.GetBytes($"{heads}{bodies}{new string(' ', Padding)}"));
        var rows = new List<byte[]> { Row(0, 0, 0) };
        var number = objects.Count + 1;
        foreach (var (i, one) in objects.Index())
            if (one.Stream is null) rows.Add(Row(2, number, plain.FindIndex(p => p.Index == i)));
            else
            {
                rows.Add(Row(1, file.Position, 0));
                Write(file, $"{i + 1} 0 obj\n{one.Head}\nstream\r\n");
                file.Write(one.Stream);
                Write(file, "\nendstream\nendobj\n");
            }
        rows.Add(Row(1, file.Position, 0));
        Write(file, $"{number} 0 obj\n<</Type/ObjStm/N {plain.Count}/First {heads.Length}/Filter[/FlateDecode]/Length {body.Length}>>\nstream\n");
        file.Write(body);
        Write(file, "\nendstream\nendobj\n");
        var table = file.Position;
        rows.Add(Row(1, table, 0));
        var packed = Pack([.. rows.Select((r, i) => predictor == 1 ? r : [2, .. r.Select((b, c) => (byte)(b - (i > 0 ? rows[i - 1][c] : 0)))]).SelectMany(r => r)]);
        Write(file, $"{number + 1} 0 obj\n<</Type/XRef/Size {rows.Count}/W[1 4 1]/Root 1 0 R/Filter/FlateDecode/DecodeParms<</Predictor {predictor}/Columns 6>>/Length {packed.Length}>>\nstream\n");
        file.Write(packed);
        Write(file, $"\nendstream\nendobj\nstartxref\n{table}\n%%EOF\n");
        return file.ToArray();

        static byte[] Row(byte kind, long where, int index) => [kind, (byte)(where >> 24), (byte)(where >> 16), (byte)(where >> 8), (byte)where, (byte)index];
    }

    private static void Object(MemoryStream file, List<long> at, string head, byte[]? stream)
    {
        at.Add(file.Position);
        Write(file, $"{at.Count} 0 obj\n{head}\n");
        if (stream is not null)
        {
            Write(file, "stream\n");
            file.Write(stream);
            Write(file, "\nendstream\n");
        }
        Write(file, "endobj\n");
    }

    private static byte[] Pack(byte[] content)
    {
        using var packed = new MemoryStream();
        using (var zip = new ZLibStream(packed, CompressionLevel.Fastest, leaveOpen: true)) zip.Write(content);
        return packed.ToArray();
    }

    private static void Write(MemoryStream file, string text) => file.Write(Encoding.Latin1.GetBytes(text));
}
