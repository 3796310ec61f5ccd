using Pleatwright.Tests.Endurance;
using System.Text;
using System.Xml.Linq;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Shelf;
using Pleatwright.Tests.Chart;
using Pleatwright.Tests.Plate;

namespace Pleatwright.Tests.Files;

/// <summary>A plate carries its piece, and opens as it.</summary>
public sealed class PieceFinderTests : IDisposable
{
    private static readonly PlateFormat[] Carrying = [.. PlateFormat.All.Where(f => CarriedPiece.Endings.Contains(f.Ending))];

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public void What_is_read_from_a_plate_is_the_very_piece() => Gen.Select(PieceGen.Pieces, Gen.String).Sample((piece, title) =>
    {
        piece = piece with { Title = title };
        var file = PieceWriter.WriteUtf8(piece);
        var plate = Plates.Of(Work.Lay(piece));
        foreach (var format in Carrying)
        {
            var made = format.Write(plate);
            Assert.Equal(made, format.Write(Plates.Of(Work.Lay(piece))));
            var found = PieceFinder.Read(made);
            Assert.Equal(file, found.Utf8);
            Assert.Equal(file, PieceWriter.WriteUtf8(found.Piece));
            Assert.Equal(PieceName.Nearest(plate.Title).FileName, found.FileName);
        }
    }, iter: Long.Of(5, 100));

    [Theory, MemberData(nameof(HostileNameTests.Names), MemberType = typeof(HostileNameTests))]
    public void Whatever_it_is_called_it_is_carried_whole_and_upsets_nothing(string name)
    {
        var work = SomeWorks.Of(true, ".rr.", "bbbb");
        var plate = Plates.Of(Plates.Titled(work, name + " <!-- <script> </script> </metadata> ]]> & &lt; \\u003c"));
        var again = PieceWriter.WriteUtf8(PieceReader.Read(plate.Carried!.Utf8)); // half a pair of letters is written as another sign, once
        foreach (var format in Carrying) Assert.Equal(format == PlateFormat.Pdf ? plate.Carried!.Utf8 : again, PieceFinder.Read(format.Write(plate)).Utf8);
        var drawing = XDocument.Parse(Encoding.UTF8.GetString(PlateFormat.Svg.Write(plate))).Descendants().Single(e => e.Name.LocalName == "metadata");
        Assert.Equal(again, PieceWriter.WriteUtf8(PieceReader.Read(drawing.Value)));
        var page = Encoding.UTF8.GetString(PlateFormat.Html.Write(plate));
        Assert.DoesNotContain('<', page[(page.IndexOf("<script", StringComparison.Ordinal) + 1)..page.LastIndexOf("</script>", StringComparison.Ordinal)]);
        Assert.Single(XDocument.Parse(page).Descendants("script"));
    }

    [Fact]
    public void Each_format_that_carries_a_piece_and_no_other_is_listed_by_its_ending()
    {
        var plate = Plates.OfExample("first-pennant");
        foreach (var format in PlateFormat.All)
            if (CarriedPiece.Endings.Contains(format.Ending)) Assert.Equal(plate.Carried!.Utf8, PieceFinder.Read(format.Write(plate)).Utf8);
            else Assert.Throws<PieceFormatException>(() => PieceFinder.Read(format.Write(plate)));
    }

    [Fact]
    public void A_plate_made_of_what_a_plate_carries_is_the_same_plate()
    {
        var made = PlateFormat.Pdf.Write(Plates.OfExample("net-float"));
        Assert.Equal(made, PlateFormat.Pdf.Write(Plates.Of(Smocking.Lay(Smocking.Read(made)))));
    }

    [Fact]
    public void Sheets_that_are_no_plate_carry_nothing()
    {
        var plate = Plates.OfExample("first-pennant");
        foreach (var format in Carrying.Where(f => f.WritePages is not null))
            Assert.Contains("carries no piece", Assert.Throws<PieceFormatException>(() => PieceFinder.Read(format.WritePages!(plate.Title, plate.Sheets))).Message, StringComparison.Ordinal);
    }

    // The names are of files on a disk; whoever takes a file out of a plate gets it by its own.
    [Theory]
    [InlineData("harbour-morning", "morning 2")]
    [InlineData("quay-bishop", "港の朝 Möwe")]
    public void Another_reader_finds_the_very_file_by_its_name_and_knows_it_for_the_source(string example, string name)
    {
        var plate = Plates.OfExample(example, new PlateOptions { Name = PieceName.Parse(name) });
        var pdf = Path.Combine(folder.FullName, "plate.pdf");
        var bytes = PlateFormat.Pdf.Write(plate);
        File.WriteAllBytes(pdf, bytes);
        Assert.Equal(["1 embedded files", $"1: {name}.piece.json"], Poppler.Run("pdfdetach", "-enc", "UTF-8", "-list", pdf).Trim().Split('\n'));
        var saved = Path.Combine(folder.FullName, "saved.json");
        Poppler.Run("pdfdetach", "-save", "1", "-o", saved, pdf);
        Assert.Equal(PieceWriter.WriteUtf8(plate.Work.Piece), File.ReadAllBytes(saved));
        using var read = UglyToad.PdfPig.PdfDocument.Open(bytes);
        Assert.True(read.Advanced.TryGetEmbeddedFiles(out var files));
        Assert.Equal(PieceWriter.WriteUtf8(plate.Work.Piece), Assert.Single(files!).Memory.ToArray());
        var catalog = read.Structure.Catalog.CatalogDictionary;
        Assert.True(catalog.Data.ContainsKey("AF"));
        var plain = Encoding.Latin1.GetString(bytes);
        Assert.Contains("/AFRelationship/Source", plain);
        Assert.Contains("/Subtype/application#2Fjson", plain);
        Assert.Contains($"/Size {PieceWriter.WriteUtf8(plate.Work.Piece).Length}", plain);
        Assert.StartsWith("%PDF-1.7", plain);
    }

    // A designer who sells plates need not hand over the piece.
    [Fact]
    public void A_plate_that_is_not_to_carry_its_piece_does_not()
    {
        var plate = Plates.OfExample("first-pennant", new Pleatwright.Plate.PlateOptions { CarriesPiece = false });
        foreach (var format in PlateFormat.All)
        {
            var written = format.Write(plate);
            Assert.ThrowsAny<Exception>(() => PieceFinder.Read(written));
            Assert.DoesNotContain("\"pleatwright\"", Encoding.Latin1.GetString(written));
        }
    }

    // A page that a browser saved again is no XML any more: void elements are left open, attributes are quoted anew.
    [Fact]
    public void A_page_saved_by_a_browser_and_a_drawing_saved_by_another_program_still_open()
    {
        var plate = Plates.Of(Plates.Titled(Plates.Example("first-pennant"), "Möwe & “Quay” <3"));
        var page = Encoding.UTF8.GetString(PlateFormat.Html.Write(plate)).Replace("<meta charset=\"utf-8\"/>", "<meta charset=\"utf-8\">").Replace("<input type=\"checkbox\"/>", "<input type=\"checkbox\">");
        Assert.Equal(plate.Carried!.Utf8, PieceFinder.Read(Encoding.UTF8.GetBytes("<!-- saved -->\r\n" + page)).Utf8);
        var drawing = XDocument.Parse(Encoding.UTF8.GetString(PlateFormat.Svg.Write(plate)));
        using var saved = new MemoryStream();
        using (var writer = System.Xml.XmlWriter.Create(saved, new() { Encoding = new UTF8Encoding(true), Indent = true })) drawing.WriteTo(writer);
        Assert.Equal(plate.Carried!.Utf8, PieceFinder.Read(saved.ToArray()).Utf8);
        using var plain = new MemoryStream();
        using (var writer = System.Xml.XmlWriter.Create(plain, new() { Encoding = Encoding.ASCII })) drawing.WriteTo(writer);
        Assert.Equal(plate.Carried!.Utf8, PieceFinder.Read(plain.ToArray()).Utf8);
    }

    // Other programs save a PDF by adding to its end, and put its objects into packed streams; a rope of rows packs better by differences.
    [Theory]
    [InlineData(1)]
    [InlineData(12)]
    public void A_plate_packed_anew_or_added_to_still_opens(int predictor)
    {
        var piece = PieceWriter.WriteUtf8(PieceReader.Read(File.ReadAllBytes(Repository.Path("examples", "gulls-turning.piece.json"))));
        Assert.Equal(piece, PieceFinder.Read(new MadePdf().With("gulls.piece.json", piece).Packed(predictor)).Utf8);
        Assert.Equal(piece, PieceFinder.Read(new MadePdf().With("gulls.piece.json", [1, 2, 3]).Plain(then: new MadePdf().With("gulls.piece.json", piece))).Utf8);
        Assert.Equal(piece, PieceFinder.Read(new MadePdf().With("gulls.piece.json", piece).WithNote()).Utf8);
        var plate = PlateFormat.Pdf.Write(Plates.OfExample("gulls-turning"));
        Assert.Equal(piece, PieceFinder.Read([.. "some letter\r\n\r\n"u8, .. plate]).Utf8);
    }

    private static PieceFormatException Fault(byte[] content)
    {
        var fault = Assert.Throws<PieceFormatException>(() => PieceFinder.Read(content));
        Assert.True(fault.Line >= 1 && fault.Column >= 1);
        Assert.EndsWith(".", fault.Message);
        return fault;
    }

    [Fact]
    public void A_plate_with_no_piece_two_pieces_or_a_lock_says_so()
    {
        var piece = PieceWriter.WriteUtf8(Plates.Example("first-pennant").Piece);
        Assert.Contains("carries no piece", Fault(new MadePdf().Plain()).Message, StringComparison.Ordinal);
        Assert.Contains("carries no piece", Fault(new MadePdf().With("invoice.xml", piece).Plain()).Message, StringComparison.Ordinal);
        Assert.Contains("more than one piece (“a.piece.json”, “b.PIECE.json”)", Fault(new MadePdf().With("a.piece.json", piece).With("b.PIECE.json", piece).Plain()).Message, StringComparison.Ordinal);
        Assert.Contains("locked", Fault(new MadePdf { Trailer = "/Encrypt<</Filter/Standard/V 2/R 3>>" }.With("a.piece.json", piece).Plain()).Message, StringComparison.Ordinal);
        Assert.Equal(piece, PieceFinder.Read(new MadePdf().With("a.piece.json", piece).With("notes.txt", [1]).Plain()).Utf8);
        foreach (var format in (PlateFormat[])[PlateFormat.Svg, PlateFormat.Html])
        {
            var text = Encoding.UTF8.GetString(format.Write(Plates.OfExample("first-pennant")));
            Assert.Contains("more than one piece", Fault(Encoding.UTF8.GetBytes(text + text)).Message, StringComparison.Ordinal);
            Assert.Contains("carries no piece", Fault(Encoding.UTF8.GetBytes(text.Replace("piece-file", "another"))).Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_fault_in_the_piece_is_told_where_it_stands()
    {
        var piece = Encoding.UTF8.GetString(PieceWriter.WriteUtf8(Plates.Example("first-pennant").Piece)).Replace("\"title\"", "\"tilte\"");
        var fault = Fault(new MadePdf().With("kite.piece.json", Encoding.UTF8.GetBytes(piece)).Plain());
        Assert.Equal((3, 3), (fault.Line, fault.Column));
        Assert.StartsWith("in the piece attached, “kite.piece.json”: a piece has no key “tilte”", fault.Message, StringComparison.Ordinal);
        foreach (var format in (PlateFormat[])[PlateFormat.Svg, PlateFormat.Html])
        {
            var text = Encoding.UTF8.GetString(format.Write(Plates.OfExample("first-pennant"))).Replace("\"title\": \"First", "\"tilte\": \"First");
            fault = Fault(Encoding.UTF8.GetBytes(text));
            Assert.StartsWith("\"tilte\"", text.Split('\n')[fault.Line - 1][(fault.Column - 1)..], StringComparison.Ordinal);
            // On the line where the piece begins, too.
            text = text.Replace(">{\n  \"pleatwright\": 1", " title=\"ä🪡\">{ \"pleatwright\": 2");
            fault = Fault(Encoding.UTF8.GetBytes(text));
            Assert.StartsWith("2", text.Split('\n')[fault.Line - 1][(fault.Column - 1)..], StringComparison.Ordinal);
        }
    }

    [Fact]
    public void However_much_of_a_plate_is_cut_off_it_is_the_piece_or_a_fault()
    {
        foreach (var format in Carrying)
        {
            var made = format.Write(Plates.OfExample("first-pennant"));
            var whole = PieceFinder.Read(made).Utf8;
            for (var length = 0; length < made.Length; length += length > made.Length - 300 ? 1 : 2999)
                try { Assert.Equal(whole, PieceFinder.Read(made.AsSpan(0, length)).Utf8); }
                catch (PieceFormatException fault) { Assert.True(fault.Message.Length > 0 && fault.Line >= 1 && fault.Column >= 1); }
        }
    }

    [Fact]
    public void What_is_damaged_inside_is_never_taken_for_the_piece()
    {
        var piece = PieceWriter.WriteUtf8(Plates.Example("first-pennant").Piece);
        Assert.Contains("damaged", Fault(new MadePdf { Missing = 1 }.With("a.piece.json", piece).Plain()).Message, StringComparison.Ordinal);
        var made = new MadePdf().With("a.piece.json", piece).Plain();
        var from = made.AsSpan().IndexOf("/EmbeddedFile/"u8);
        var to = from + made.AsSpan(from).IndexOf("endobj"u8);
        for (var at = from; at < to; at++)
        {
            var bad = (byte[])made.Clone();
            bad[at] ^= 0x10;
            try { Assert.Equal(piece, PieceFinder.Read(bad).Utf8); }
            catch (PieceFormatException) { }
        }
    }

    [Fact]
    public void What_unpacks_without_end_is_refused_in_little_time_and_memory()
    {
        foreach (var (content, words) in Bombs())
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            Assert.Contains(words, Fault(content).Message, StringComparison.Ordinal);
            Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 256L * 1024 * 1024);
        }
    }

    private static IEnumerable<(byte[] Content, string Words)> Bombs()
    {
        const string unpacks = "unpacks to more", deep = "nests deeper", damaged = "damaged", much = "holds more", none = "carries no piece";
        var blank = new byte[PieceReader.MostBytes + 1];
        blank.AsSpan().Fill((byte)' ');
        yield return (new MadePdf().With("a.piece.json", blank).Plain(), unpacks); // an attachment
        yield return (new MadePdf { Padding = PieceReader.MostBytes }.With("a.piece.json", [1]).Packed(1), unpacks); // a stream of objects
        yield return (new MadePdf { Trailer = $"/X{string.Concat(Enumerable.Repeat("[", 100_000))}" }.Plain(), deep);
        yield return (new MadePdf { Trailer = $"/X{string.Concat(Enumerable.Repeat("<</X", 100_000))}" }.Plain(), deep);
        yield return (new MadePdf { Trailer = "/Prev SELF" }.Plain(), damaged); // a ring of sections
        yield return (new MadePdf { Names = "1 0 R" }.Plain(), none); // rings of objects
        yield return (new MadePdf { Names = "3 0 R", Third = "3 0 R" }.Plain(), damaged);
        yield return (new MadePdf { Names = "<</EmbeddedFiles 3 0 R>>", Third = "<</Kids[3 0 R 3 0 R 3 0 R]>>" }.Plain(), "more is attached");
        // The same object come back to from everywhere.
        yield return (new MadePdf { Names = "<</EmbeddedFiles 3 0 R>>", Third = $"<</Kids[{string.Concat(Enumerable.Repeat("3 0 R ", 900))}]/Names[{string.Concat(Enumerable.Repeat("1 ", 500_000))}]>>" }.Plain(), much);
        yield return ([.. "<svg>"u8, .. Encoding.ASCII.GetBytes(string.Concat(Enumerable.Repeat("<metadata id=\"", 1_000_000)))], none);
        yield return ([.. "<svg>"u8, .. Encoding.ASCII.GetBytes("<metadata " + new string('a', 8_000_000))], none);
    }
}
