using CsCheck;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Preparation;
using Pleatwright.Plate.Teaching;
using Pleatwright.Plate.Writers;
using Pleatwright.Tests.Endurance;
using Pleatwright.Tests.Files;
using Pleatwright.Tests.ReadBack;

namespace Pleatwright.Tests.Plate;

/// <summary>Whatever is printed can be read aloud: tagged by the rules of PDF/UA-1 (ISO 14289-1), in the order it is to be read.</summary>
public class TaggedPdfTests
{
    public static TheoryData<string> Examples => ReadBackTests.Examples;

    private static readonly PlateOptions[] Options =
    [
        new(),
        new() { Edition = Edition.Learner, TrueScaleChart = true, Paper = Paper.Letter },
        new() { LargePrint = true, Levels = LevelWords.LeftRight },
    ];

    private static byte[] Write(PlateDocument plate) => PdfWriter.Write(plate.Title, plate.Sheets, plate.Carried);

    // The words of the directions in the order of the tags: after their heading and what stands beside it.
    private static string Directions(TaggedPdf pdf)
    {
        var section = pdf.Document.Parts.Single(p => p.Type == "Sect" && p.Parts[0].Words.Trim() == "Directions");
        return string.Join(" ", section.Parts.Skip(2).Select(p => p.Words));
    }

    private static void Gives(PlateDocument plate, string words)
    {
        var differences = PrintedWords.Differences(words, plate.Order);
        Assert.True(differences.Count == 0, $"{string.Join('\n', differences)}\n{words}");
    }

    [Theory, MemberData(nameof(Examples))]
    public void Every_edition_of_the_examples_keeps_the_rules_and_says_the_very_piece(string example)
    {
        // The plate of each, and one of its other editions by turns; under endurance all.
        foreach (var options in Options.Where((o, i) => i == 0 || Long.IsWhole || i == 1 + example.Length % 2))
        {
            var plate = Plates.OfExample(example[..^".piece.json".Length], options);
            using var pdf = new TaggedPdf(Write(plate));
            Assert.Equal(plate.Title, pdf.Document.Parts[0].Words.Trim());
            Assert.Equal("H1", pdf.Document.Parts[0].Type);
            Gives(plate, Directions(pdf));
            // section after section, wherever they stand on the pages; those that stand on the cover come first
            var sections = pdf.Document.Parts.Where(p => p.Type == "Sect").Select(p => p.Parts[0]).ToList();
            Assert.All(sections, s => Assert.Equal("H2", s.Type));
            var declared = Pleatwright.Plate.Sections.PlateSections.Of(plate);
            var headings = sections.ConvertAll(s => s.Words.Split('·')[0].Split(" pleats ")[0].Trim());
            var fronts = headings.TakeWhile(h => plate.Sheets[0].Name.Contains(h, StringComparison.Ordinal)).ToHashSet();
            Assert.All(fronts, f => Assert.True(declared.Single(s => s.Heading == f).Front));
            Assert.Equal(declared.Select(s => s.Heading).Where(headings.Contains).OrderBy(h => !fronts.Contains(h)), headings);
            foreach (var section in Pleatwright.Plate.Sections.PlateSections.Of(plate).Where(s => !s.Spare))
                Assert.Contains(section.Heading, sections.Select(s => s.Words.Split('·')[0].Split(" pleats ")[0].Trim()));
            // the chart's drawings are read with the chart
            var chart = pdf.Document.Parts.SingleOrDefault(p => p.Type == "Sect" && p.Parts[0].Words.Trim() is "Chart");
            if (chart is not null) Assert.All(pdf.Document.All.Where(e => e.String("Alt")?.Contains("Every run with its step", StringComparison.Ordinal) == true), f => Assert.Contains(f, chart.Parts));
            if (options.Edition == Edition.Plate)
                foreach (var block in plate.Table.Blocks.Where(b => b.Lines.Length > 0))
                    Assert.Contains(pdf.Document.All, p => p.Type == "Table" && p.Parts.Count == block.Lines.Length + 1
                        && p.Parts[1].Parts.Select(c => c.Words.Trim()).SequenceEqual(block.Lines[0].Cells));
        }
    }

    [Fact]
    public void Any_work_keeps_the_rules_and_says_the_very_piece_and_the_same_bytes() =>
        SomeWorks.Any.Sample(work =>
        {
            var plate = Plates.Of(work);
            var bytes = Write(plate);
            using var pdf = new TaggedPdf(bytes);
            if (plate.HasDirections) Gives(plate, Directions(pdf));
            Assert.Equal(bytes, Write(Plates.Of(work)));
        }, iter: Long.Of(3, 100));

    [Fact]
    public void Another_reader_finds_title_tables_and_the_words_for_drawings()
    {
        var path = Path.Combine(Directory.CreateTempSubdirectory("tagged").FullName, "plate.pdf");
        File.WriteAllBytes(path, Write(Plates.OfExample("harbour-morning")));
        Assert.Matches("(?m)^Tagged: +yes$", Poppler.Run("pdfinfo", path));
        var text = Poppler.Run("pdfinfo", "-struct-text", path).ReplaceLineEndings("\n");
        Assert.Contains("\n  H1 (block)\n    \"Harbour morning", text);
        Assert.Contains("H2 (block)\n      \"Directions", text);
        Assert.Contains(" Table", text);
        Assert.Contains(" TR", text);
        Assert.Contains(" Figure", text);
        Directory.Delete(Path.GetDirectoryName(path)!, recursive: true);
    }

    [Fact]
    public void A_paragraph_broken_over_pages_is_one()
    {
        var long_ = string.Join(' ', Enumerable.Range(1, 1500).Select(n => $"word{n}"));
        List<Page> pages = [];
        var flow = new Flow(new PlateOptions(), pages, "Section", null, 2);
        flow.Paragraph(long_, flow.Look.Body);
        Assert.True(pages.Count > 1);
        using var pdf = new TaggedPdf(PdfWriter.Write("t", [.. pages.Select((p, i) => p.Finish("t", i + 1, pages.Count))]));
        var paragraph = pdf.Document.All.Single(p => p.Type == "P" && p.Words.StartsWith("word1 ", StringComparison.Ordinal));
        Assert.Equal(long_, paragraph.Words.Trim());
        Assert.Equal(pages.Count, paragraph.Own.Count);
    }

    [Theory]
    [InlineData("Title Subheading Heading Subheading", "H1 H2 H2 H3")]
    [InlineData("Subheading Heading Subheading", "H1 H1 H2")]
    [InlineData("Subheading Subheading", "H1 H1")]
    public void Headings_begin_with_the_first_level_and_leave_out_none(string roles, string types)
    {
        var page = new Page("p", Paper.A4, Look.Booklet);
        foreach (var (i, role) in roles.Split(' ').Index()) page.Text(new Tag(Enum.Parse<Role>(role)), 20, 20 + 10 * i, "words", Look.Booklet.Body);
        using var pdf = new TaggedPdf(PdfWriter.Write("t", [page.Finish("t", 1, 1)]));
        Assert.Equal(types, string.Join(' ', pdf.Document.Parts.Select(p => p.Type)));
    }

    [Fact]
    public void What_stands_elsewhere_is_read_with_its_section()
    {
        var page = new Page("p", Paper.A4, Look.Booklet);
        var (one, other) = (new Tag(Role.Section), new Tag(Role.Section));
        foreach (var (i, section) in new[] { one, other, one }.Index())
        {
            page.Section = section;
            page.Text(20, 20 + 10 * i, $"line {i}", Look.Booklet.Body);
        }
        using var pdf = new TaggedPdf(PdfWriter.Write("t", [page.Finish("t", 1, 1)]));
        Assert.Equal(["line 0", "line 2", "line 1"], pdf.Document.All.Where(e => e.Type == "P").Select(e => e.Words.Trim()));
    }

    [Fact]
    public void Class_packs_and_sheets_of_preparation_keep_the_rules()
    {
        var plate = Plates.OfExample("quay-yoke");
        var pack = ClassPack.Make(plate, new ClassOptions(2));
        foreach (var sheets in new[] { pack.Sheets, pack.TeacherSheets, pack.LabelSheets, pack.HandoutSheets })
            using (new TaggedPdf(PdfWriter.Write(pack.Title, sheets))) { }
        foreach (var kind in Enum.GetValues<PreparationKind>())
            foreach (var example in ((string[])["quay-yoke", "net-float", "harbour-morning"]).Where((_, i) => Long.IsWhole || i == (int)kind % 3))
                using (new TaggedPdf(PdfWriter.Write("t", PreparationSheets.Make(Plates.Example(example).Piece, kind, new PlateOptions())))) { }
    }

    [Fact]
    public void Part_of_the_sheets_is_tagged_by_itself()
    {
        var plate = Plates.OfExample(Long.IsWhole ? "harbour-wall" : "harbour-morning");
        foreach (var sheet in plate.Sheets)
            using (new TaggedPdf(PdfWriter.Write(plate.Title, [sheet]))) { }
    }
}
