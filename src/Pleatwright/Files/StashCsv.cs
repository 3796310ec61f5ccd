using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using CsvHelper;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.Files;

/// <summary>What a list in CSV names.</summary>
/// <param name="Threads">Its threads, in the order of its lines.</param>
/// <param name="Cloths">Its cloths.</param>
public sealed record StashList(ImmutableArray<StashThread> Threads, ImmutableArray<StashCloth> Cloths);

/// <summary>
/// A stash as CSV (RFC 4180) for spreadsheets: a line a thread or a cloth, under a first line that names the columns. Written with
/// commas, in UTF-8; read with commas, semicolons or tabs. A cell that a spreadsheet would take for a formula is
/// written with an apostrophe before it, as the OWASP page on CSV injection advises, and read without it.
/// </summary>
public static partial class StashCsv
{
    private static readonly string[] Columns = ["kind", "name", "colour", "skeins", "skein", "strands", "tex", "width", "left", "note"];

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Writes the threads and the cloths of a stash.</summary>
    public static byte[] Write(Stash stash)
    {
        using var stream = new MemoryStream();
        using (var csv = CsvWriter.Create(stream, new CsvWriterOptions { WriteByteOrderMark = true, Quoting = CsvQuoting.WhenNeededOrWhitespace }, true))
        {
            csv.WriteHeader(Columns);
            foreach (var t in stash.Threads)
                Record(csv, "thread", t.Name, t.Colour.ToString(), Text(t.Skeins), t.SkeinLength.ToString(), Text(t.StrandsInSkein), Text(t.TexPerStrand), "", "", t.Note);
            foreach (var c in stash.Cloths)
                Record(csv, "cloth", c.Name, c.Colour.ToString(), "", "", "", "", c.Width.ToString(), c.Left.ToString(), c.Note);
        }
        return stream.ToArray();
    }

    /// <summary>
    /// Reads a list. The columns name and colour must be there; a line without a kind is a thread; a thread without a count is one
    /// skein.
    /// </summary>
    /// <param name="utf8">The text.</param>
    /// <param name="forColours">
    /// Whether only the colours matter: then columns of other names are passed over, a name may be missing, and stray quotation marks
    /// are taken as they are. If not, each of these is an error, for something would be lost.
    /// </param>
    /// <exception cref="PieceFormatException">It cannot be read; says where and what would serve.</exception>
    public static StashList Read(ReadOnlySpan<byte> utf8, bool forColours = false)
    {
        if (utf8.Length > StashReader.MostBytes)
            throw new PieceFormatException(1, 1, $"the file is larger than {StashReader.MostBytes / 1024 / 1024} MB, which no stash needs.");
        MustBeText(utf8);
        var start = utf8.StartsWith(Encoding.UTF8.Preamble) ? 3 : 0;
        using var csv = CsvReader.Create(utf8[start..].ToArray(), new CsvReaderOptions
        {
            HasHeader = false, // read as a record, so that its cells have places too
            Separator = SeparatorOf(utf8[start..]),
            TrackLineNumbers = true,
            MalformedData = forColours ? CsvMalformedDataHandling.Recover : CsvMalformedDataHandling.Throw,
        });
        try
        {
            return new Reading(csv, forColours).List();
        }
        catch (CsvFormatException e)
        {
            throw new PieceFormatException((int)Math.Max(1, e.LineNumber), 1, $"its quotation marks do not pair: {e.Message.Split('\n')[0].TrimEnd('.')}.");
        }
    }

    // RFC 4180 asks for commas; spreadsheets of many countries write semicolons, and some tabs.
    private static char SeparatorOf(ReadOnlySpan<byte> text)
    {
        var end = text.IndexOfAny((byte)'\n', (byte)'\r');
        var first = end < 0 ? text : text[..end];
        return first.Contains((byte)',') ? ',' : first.Contains((byte)';') ? ';' : first.Contains((byte)'\t') ? '\t' : ',';
    }

    private static void MustBeText(ReadOnlySpan<byte> utf8)
    {
        try
        {
            Strict.GetCharCount(utf8);
        }
        catch (DecoderFallbackException e)
        {
            var before = utf8[..Math.Clamp(e.Index, 0, utf8.Length)];
            throw new PieceFormatException(before.Count((byte)'\n') + 1, 1 + Encoding.UTF8.GetCharCount(before[(before.LastIndexOf((byte)'\n') + 1)..]),
                "this is not valid UTF-8; save the list as CSV in UTF-8.");
        }
    }

    private static void Record(CsvWriter csv, params string[] cells) => csv.WriteRecord(Array.ConvertAll(cells, Harmless));

    private static string Text(double number) => number.ToString("R", CultureInfo.InvariantCulture);

    // What begins like a formula, with apostrophes before it or not, gets one apostrophe more; so reading can take one away. A cell may also begin within one of
    // ours, where it is opened with another separator; quotation marks do not hold there.
    private static string Harmless(string cell) => Beginning().Replace(cell, "$1'$2");

    private static string Plain(string cell) => Marked().Replace(cell, "$1$2");

    [GeneratedRegex(@"(^|[,;\t\r\n])('*)(?=[=+\-@\t\r\n＝＋－＠])", RegexOptions.CultureInvariant)]
    private static partial Regex Beginning();

    [GeneratedRegex(@"(^|[,;\t\r\n])'('*)(?=[=+\-@\t\r\n＝＋－＠])", RegexOptions.CultureInvariant)]
    private static partial Regex Marked();

    private sealed class Reading(CsvReader csv, bool forColours)
    {
        private readonly int[] at = new int[Columns.Length]; // where each column stands; -1 for nowhere
        private readonly ImmutableArray<StashThread>.Builder threads = ImmutableArray.CreateBuilder<StashThread>();
        private readonly ImmutableArray<StashCloth>.Builder cloths = ImmutableArray.CreateBuilder<StashCloth>();
        private int columns;

        public StashList List()
        {
            if (!csv.Read()) throw new PieceFormatException(1, 1, "the list is empty; its first line names the columns, name and colour among them.");
            Header();
            while (csv.Read())
            {
                if (csv.FieldCount == 1 && csv.GetString(0).Trim().Length == 0) continue;
                if (csv.FieldCount > columns && !forColours) throw Error(columns, $"this line has {csv.FieldCount} cells under {columns} columns.");
                Line();
            }
            return new StashList(threads.ToImmutable(), cloths.ToImmutable());
        }

        private void Header()
        {
            Array.Fill(at, -1);
            columns = csv.FieldCount;
            for (var i = 0; i < columns; i++)
            {
                var name = csv.GetString(i).Trim();
                var column = Array.FindIndex(Columns, c => string.Equals(c, name, StringComparison.OrdinalIgnoreCase));
                if (column < 0 && !forColours && name.Length > 0) throw Error(i, $"no column is called {JsonText.Quote(name)}; there are {string.Join(", ", Columns)}.");
                if (column < 0) continue;
                if (at[column] >= 0) throw Error(i, $"the column {Columns[column]} stands here a second time; keep one.");
                at[column] = i;
            }
            foreach (var needed in new[] { "name", "colour" })
                if (at[Array.IndexOf(Columns, needed)] < 0) throw Error(0, "a stash has a first line that names its columns, name and colour among them.");
        }

        private void Line()
        {
            var name = Cell("name");
            if (name.Length == 0 && !forColours) throw Wrong("name", "the name you call it by");
            if (name.Length > Stash.LongestName) throw Wrong("name", $"no longer than {Stash.LongestName} characters");
            if (!Colour.TryParse(Cell("colour"), out var colour)) throw Wrong("colour", "a colour written as #rrggbb");
            var note = Cell("note");
            if (note.Length > Stash.LongestNote) throw Wrong("note", $"no longer than {Stash.LongestNote} characters");
            switch (Cell("kind").ToLowerInvariant())
            {
                case "" or "thread":
                    var usual = new StashThread(name, colour, 1);
                    if (threads.Count == Stash.MostOfAKind) throw Error(0, $"more than {Stash.MostOfAKind} threads.");
                    threads.Add(usual with
                    {
                        Skeins = Number("skeins", 0, StashThread.MostSkeins, usual.Skeins),
                        SkeinLength = Measured("skein", usual.SkeinLength, allowZero: false),
                        StrandsInSkein = Number("strands", 1, Floss.MostStrandsInSkein, usual.StrandsInSkein) is var s && s == Math.Floor(s) ? (int)s : throw Wrong("strands", $"a whole number from 1 to {Floss.MostStrandsInSkein}"),
                        TexPerStrand = Number("tex", Floss.LeastTex, Floss.MostTex, usual.TexPerStrand),
                        Note = note,
                    });
                    break;
                case "cloth":
                    if (cloths.Count == Stash.MostOfAKind) throw Error(0, $"more than {Stash.MostOfAKind} cloths.");
                    cloths.Add(new StashCloth(name, colour, Measured("width", null, allowZero: false), Measured("left", null, allowZero: true)) { Note = note });
                    break;
                default:
                    throw Wrong("kind", "“thread” or “cloth”");
            }
        }

        private string Cell(string column) => Field(column) is { } i ? KeyReader.OneLine(Plain(csv.GetString(i))).Trim() : "";

        private int? Field(string column) => at[Array.IndexOf(Columns, column)] is >= 0 and var i && i < csv.FieldCount ? i : null;

        private double Number(string column, double from, double to, double otherwise)
        {
            var cell = Cell(column);
            if (cell.Length == 0) return otherwise;
            // A comma for the point, where it does not part the cells.
            return double.TryParse(cell.Replace(',', '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out var number)
                && number >= from && number <= to
                ? number
                : throw Wrong(column, FormattableString.Invariant($"a number from {from} to {to}"));
        }

        private Length Measured(string column, Length? otherwise, bool allowZero)
        {
            var cell = Cell(column);
            if (cell.Length == 0 && otherwise is { } usual) return usual;
            return Length.TryParse(cell, out var length) && (length > Length.Zero || (allowZero && length == Length.Zero))
                ? length
                : throw Wrong(column, "a length with its unit, such as 8 m or 44 in");
        }

        private PieceFormatException Wrong(string column, string wanted) => Field(column) is { } i
            ? Error(i, $"“{column}” must be {wanted}, but {(csv.GetString(i).Length == 0 ? "nothing" : JsonText.Quote(csv.GetString(i)))} was found.")
            : Error(0, $"“{column}” must be {wanted}, but this line has none.");

        // Line and column of a cell: a quoted one may begin lines below its record.
        private PieceFormatException Error(int field, string message)
        {
            var record = csv.RawRecord;
            var offset = 0;
            if (field < csv.FieldCount && csv.GetRawSpan(field) is { Length: > 0 } raw) record.Overlaps(raw, out offset);
            else if (field > 0) offset = record.Length;
            var before = record[..Math.Clamp(offset, 0, record.Length)];
            return new PieceFormatException((int)csv.LineNumber + before.Count((byte)'\n'),
                1 + Encoding.UTF8.GetCharCount(before[(before.LastIndexOf((byte)'\n') + 1)..]), message);
        }
    }
}
