using System.IO.Compression;

namespace Pleatwright.Files.Pdf;

/// <summary>
/// A PDF, of which an object is read when it is asked for and no sooner (ISO 32000-2, 7.5). Whatever is in it, the reading ends soon and takes no more
/// memory than it says: references may run in rings, brackets nest without end, and a stream unpack to a thousand times its size.
/// </summary>
internal sealed class PdfFile
{
    private const int MostSections = 1000, MostObjects = 1_000_000, MostDeep = 32, MostFilters = 2;
    private const int MostStructure = 16 * 1024 * 1024, MostSteps = 24 * 1024 * 1024; // bytes unpacked, and read, to find where things stand

    private readonly byte[] bytes;
    private readonly Dictionary<int, Standing> objects = [];
    private readonly Dictionary<int, (byte[] Unpacked, int First, Dictionary<int, int> Offsets)> packed = [];
    private readonly PdfPatience patience = new(MostSteps);
    private int left = MostStructure, told, deep;

    // Where an object stands: at a byte of the file, or in a stream of objects; in none it is free.
    private readonly record struct Standing(int At, int InStream);

    private PdfFile(byte[] bytes) => this.bytes = bytes;

    /// <summary>The trailer, the newest where the file was added to.</summary>
    public PdfTable Trailer { get; private set; } = new([]);

    /// <summary>Opens a file and finds where its objects stand.</summary>
    /// <param name="bytes">The file, from its header on.</param>
    /// <exception cref="PdfFault">It is damaged, breaks off, or is locked with a password.</exception>
    public static PdfFile Open(byte[] bytes)
    {
        var file = new PdfFile(bytes);
        var end = bytes.AsSpan().LastIndexOf("startxref"u8);
        if (end < 0) throw new PdfFault(bytes.Length, "the PDF breaks off");
        file.ReadSections(file.Syntax(bytes, end + "startxref".Length).ReadWhole());
        if (file.Trailer.Entries.ContainsKey("Encrypt")) throw new PdfFault(end, "the PDF is locked with a password or against changes, and must be saved unlocked first");
        return file;
    }

    /// <summary>What stands under a key; null when nothing does.</summary>
    public PdfValue? Get(PdfTable table, string key) => table.Entries.TryGetValue(key, out var value) ? Get(value) : null;

    /// <summary>A value, or what stands where it points; null where nothing does.</summary>
    public PdfValue? Get(PdfValue value)
    {
        for (var steps = 0; value is PdfReference reference; steps++)
        {
            if (steps > MostDeep) throw new PdfFault(0, "the PDF is damaged");
            if (Object(reference.Number) is not { } found) return null;
            value = found;
        }
        return value is PdfWord { Text: "null" } ? null : value;
    }

    /// <summary>A stream unpacked.</summary>
    /// <param name="stream">The stream.</param>
    /// <param name="most">The most bytes it may unpack to.</param>
    /// <exception cref="PdfFault">It is damaged, larger, or packed in a way not known here.</exception>
    public byte[] Unpack(PdfStream stream, int most)
    {
        if (Get(stream.Table, "Length") is not PdfNumber { Value: >= 0 } length || length.Value > bytes.Length - stream.From) throw new PdfFault(stream.From, "the PDF breaks off or is damaged");
        var end = stream.From + (int)length.Value;
        if (!Syntax(bytes, end).Takes("endstream"u8)) throw new PdfFault(end, "the PDF is damaged");
        var filters = ListOf(stream.Table, "Filter");
        var ways = ListOf(stream.Table, "DecodeParms");
        if (filters.Count > MostFilters) throw new PdfFault(stream.From, "the PDF is packed more often than any plate");
        if (filters.Count == 0) return length.Value <= most ? bytes[stream.From..end] : throw TooLarge(stream.From);
        var unpacked = new ArraySegment<byte>(bytes, stream.From, end - stream.From);
        foreach (var (i, filter) in filters.Index())
        {
            if (filter is not PdfName { Text: "FlateDecode" or "Fl" }) throw new PdfFault(stream.From, $"the PDF is packed in a way not known here{(filter is PdfName { Text: var name } ? " (" + JsonText.Quote(name) + ")" : "")}");
            unpacked = Inflate(unpacked, most, stream.From);
            if (i < ways.Count && ways[i] is PdfTable way) unpacked = Unpredict([.. unpacked], way, stream.From);
        }
        return [.. unpacked];
    }

    private static PdfFault TooLarge(int at) => new(at, "the PDF unpacks to more than any piece needs");

    private List<PdfValue?> ListOf(PdfTable table, string key) => Get(table, key) switch
    {
        null => [],
        PdfList list => [.. list.Items.Select(Get)],
        var one => [one],
    };

    private PdfSyntax Syntax(byte[] of, int at) => new(of, at, patience);

    private static byte[] Inflate(ArraySegment<byte> from, int most, int at)
    {
        try
        {
            using var inflated = new ZLibStream(new MemoryStream(from.Array!, from.Offset, from.Count), CompressionMode.Decompress);
            using var to = new MemoryStream();
            var chunk = new byte[81920];
            for (int read; (read = inflated.Read(chunk)) > 0;)
            {
                if (to.Length + read > most) throw TooLarge(at);
                to.Write(chunk, 0, read);
            }
            return to.ToArray();
        }
        catch (InvalidDataException) { throw new PdfFault(at, "the PDF is damaged"); }
    }

    // Undoes what makes rows alike, for better packing: the predictors of PNG (ISO/IEC 15948, 9.2), which ISO 32000-2 takes over.
    private byte[] Unpredict(byte[] rows, PdfTable way, int at)
    {
        int Whole(string key, int usual) => Get(way, key) is PdfNumber { Value: >= 1 and <= 1_000_000 } n ? (int)n.Value : usual;
        var predictor = Whole("Predictor", 1);
        if (predictor == 1) return rows;
        if (predictor < 10) throw new PdfFault(at, "the PDF is packed in a way not known here");
        var bits = Whole("Colors", 1) * (long)Whole("BitsPerComponent", 8);
        var each = (int)Math.Min((bits + 7) / 8, int.MaxValue);
        var width = (bits * Whole("Columns", 1) + 7) / 8;
        if (width >= rows.Length) return rows.Length == 0 ? rows : throw new PdfFault(at, "the PDF is damaged");
        var row = (int)width;
        var plain = new byte[rows.Length / (row + 1) * row];
        for (int from = 0, to = 0; to < plain.Length; from += row + 1, to += row)
            for (var i = 0; i < row; i++)
            {
                int left = i >= each ? plain[to + i - each] : 0, up = to > 0 ? plain[to + i - row] : 0, both = i >= each && to > 0 ? plain[to + i - row - each] : 0;
                plain[to + i] = (byte)(rows[from + 1 + i] + rows[from] switch { 0 => 0, 1 => left, 2 => up, 3 => (left + up) / 2, 4 => Paeth(left, up, both), _ => throw new PdfFault(at, "the PDF is damaged") });
            }
        return plain;
    }

    private static int Paeth(int left, int up, int both)
    {
        var guess = left + up - both;
        int toLeft = Math.Abs(guess - left), toUp = Math.Abs(guess - up), toBoth = Math.Abs(guess - both);
        return toLeft <= toUp && toLeft <= toBoth ? left : toUp <= toBoth ? up : both;
    }

    // The newest first: what an older one says of the same object no longer holds.
    private void ReadSections(int newest)
    {
        HashSet<int> seen = [];
        for (int? at = newest; at is { } here;)
        {
            if (!seen.Add(here) || seen.Count > MostSections) throw new PdfFault(here, "the PDF is damaged");
            var trailer = ReadSection(here);
            if (seen.Count == 1) Trailer = trailer;
            at = trailer.Entries.GetValueOrDefault("Prev") is PdfNumber { Value: >= 0 and <= int.MaxValue } older ? (int)older.Value : null;
        }
    }

    private PdfTable ReadSection(int at)
    {
        if (at >= bytes.Length) throw new PdfFault(at, "the PDF breaks off or is damaged");
        var syntax = Syntax(bytes, at);
        if (!syntax.Takes("xref"u8)) return ReadStreamSection(at);
        List<(int Number, Standing Standing)> found = [];
        while (!syntax.Takes("trailer"u8))
        {
            int first = syntax.ReadWhole(), count = syntax.ReadWhole();
            for (var i = 0; i < count; i++)
            {
                var standing = new Standing(syntax.ReadWhole(), 0);
                syntax.ReadWhole();
                var used = syntax.Takes("n"u8);
                if (!used && !syntax.Takes("f"u8)) throw new PdfFault(syntax.At, "the PDF is damaged");
                found.Add((first + i, used ? standing : default));
                if (++told > MostObjects) throw new PdfFault(at, "the PDF holds more than any plate");
            }
        }
        if (syntax.Read() is not PdfTable trailer) throw new PdfFault(syntax.At, "the PDF is damaged");
        // Where readers that know no streams of objects are served too, those objects are listed as free here.
        if (trailer.Entries.GetValueOrDefault("XRefStm") is PdfNumber { Value: >= 0 and <= int.MaxValue } beside) ReadStreamSection((int)beside.Value);
        foreach (var (number, standing) in found) objects.TryAdd(number, standing);
        return trailer;
    }

    private PdfTable ReadStreamSection(int at)
    {
        if (At(at).Value is not PdfStream { Table: var table } stream || Get(table, "Type") is not PdfName { Text: "XRef" }) throw new PdfFault(at, "the PDF breaks off or is damaged");
        var rows = UnpackStructure(stream);
        var widths = ListOf(table, "W").Select(w => w is PdfNumber { Value: >= 0 and <= 8 } n ? (int)n.Value : throw new PdfFault(at, "the PDF is damaged")).ToArray();
        if (widths.Length < 3 || widths.Sum() is not (> 0 and var width)) throw new PdfFault(at, "the PDF is damaged");
        int[] starts = [0, widths[0], widths[0] + widths[1]];
        var index = ListOf(table, "Index");
        if (index.Count == 0) index = [new PdfNumber(0), Get(table, "Size")];
        var from = 0;
        foreach (var stretch in index.Chunk(2))
        {
            if (stretch is not [PdfNumber { Value: >= 0 and <= MostObjects } first, PdfNumber { Value: >= 0 and <= MostObjects } count]) throw new PdfFault(at, "the PDF is damaged");
            for (var i = 0; i < count.Value && from + width <= rows.Length; i++, from += width)
            {
                long Field(int which, long usual)
                {
                    if (widths[which] == 0) return usual;
                    long value = 0;
                    foreach (var b in rows.AsSpan(from + starts[which], widths[which])) value = (value << 8) | b;
                    return value;
                }
                var where = Field(1, 0);
                if (where is < 0 or > int.MaxValue) throw new PdfFault(at, "the PDF is damaged");
                objects.TryAdd((int)first.Value + i, Field(0, 1) switch { 1 => new Standing((int)where, 0), 2 => new Standing(0, (int)where), _ => default });
                if (++told > MostObjects) throw new PdfFault(at, "the PDF holds more than any plate");
            }
        }
        return table;
    }

    private byte[] UnpackStructure(PdfStream stream)
    {
        var unpacked = Unpack(stream, left);
        left -= unpacked.Length;
        return unpacked;
    }

    private PdfValue? Object(int number)
    {
        var standing = objects.GetValueOrDefault(number);
        if (standing == default) return null;
        if (++deep > MostDeep) throw new PdfFault(standing.At, "the PDF is damaged"); // a length that stands in its own stream
        try
        {
            if (standing.InStream > 0) return InStream(number, standing.InStream);
            var (found, value) = At(standing.At);
            return found == number ? value : throw new PdfFault(standing.At, "the PDF is damaged");
        }
        finally { deep--; }
    }

    private (int Number, PdfValue Value) At(int at)
    {
        var syntax = Syntax(bytes, Math.Min(at, bytes.Length));
        var number = syntax.ReadWhole();
        syntax.ReadWhole();
        if (!syntax.Takes("obj"u8)) throw new PdfFault(at, "the PDF is damaged");
        var value = syntax.Read();
        if (value is not PdfTable table || !syntax.Takes("stream"u8)) return (number, value);
        syntax.TakeLineBreak();
        return (number, new PdfStream(table, syntax.At));
    }

    private PdfValue? InStream(int number, int stream)
    {
        if (!packed.TryGetValue(stream, out var opened))
        {
            // A stream of objects never stands in another.
            if (objects.GetValueOrDefault(stream) is not { At: > 0, InStream: 0 } || Object(stream) is not PdfStream { Table: var table } found
                || Get(table, "First") is not PdfNumber { Value: >= 0 and <= int.MaxValue } first || Get(table, "N") is not PdfNumber { Value: >= 0 and <= MostObjects } count)
                throw new PdfFault(0, "the PDF is damaged");
            var unpacked = UnpackStructure(found);
            var head = Syntax(unpacked, 0);
            Dictionary<int, int> offsets = [];
            for (var i = 0; i < count.Value; i++) offsets[head.ReadWhole()] = head.ReadWhole();
            packed[stream] = opened = (unpacked, (int)first.Value, offsets);
        }
        if (!opened.Offsets.TryGetValue(number, out var offset)) return null;
        return Syntax(opened.Unpacked, (int)Math.Min((long)opened.First + offset, opened.Unpacked.Length)).Read();
    }
}
