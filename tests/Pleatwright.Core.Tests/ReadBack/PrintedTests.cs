using System.Text;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Teaching;
using Pleatwright.Plate.Writers;
using Pleatwright.Tests.Endurance;
using Pleatwright.Tests.Order;
using Pleatwright.Tests.Plate;
using UglyToad.PdfPig;

namespace Pleatwright.Tests.ReadBack;

/// <summary>Whatever words leave the program are read back: every format, edition, frame, hand and size; and what they do not bear out is not claimed.</summary>
public class PrintedTests
{
    public static TheoryData<string> Examples => ReadBackTests.Examples;

    private static readonly PlateOptions[] Options =
    [
        .. from edition in Enum.GetValues<Edition>()
           from levels in Enum.GetValues<LevelWords>()
           from large in new[] { false, true }
           select new PlateOptions { Edition = edition, Levels = levels, LargePrint = large, Paper = large ? Paper.Letter : Paper.A4, TrueScaleChart = false },
    ];

    [Theory, MemberData(nameof(Examples))]
    public void Every_format_and_edition_of_the_examples_says_the_very_piece(string example)
    {
        var name = example[..^".piece.json".Length];
        foreach (var (i, options) in Options.Index())
        {
            if (Long.Of(0, 1) == 0 && i is (1 or 2 or 4 or 7)) continue; // of every pair one
            var plate = Plates.OfExample(name, options);
            var clean = plate.Verdict is not { Errors: > 0 };
            Says(PrintedWords.OfSheets(plate.Sheets), plate, clean, string.Join(' ', plate.Sheets.SelectMany(s => s.Marks).OfType<Lettering>().Select(l => l.Text)));
            var text = PlainTextWriter.Write(plate);
            Says(PrintedWords.OfText(text), plate, clean, text);
            if (options.LargePrint) continue; // words alone, the same
            var html = HtmlWriter.Write(plate);
            Says(PrintedWords.OfHtml(html), plate, clean, html);
            if (i == 0) Says(OfPdf(plate), plate, clean, text);
        }
    }

    // The bytes of the PDF, read by a library that had no part in writing them: what stands on the paper where the directions lie.
    private static string OfPdf(PlateDocument plate)
    {
        using var read = PdfDocument.Open(PdfWriter.Write(plate.Title, plate.Sheets));
        var text = new StringBuilder();
        const double points = 72 / 25.4;
        foreach (var (page, sheet) in read.GetPages().Zip(plate.Sheets))
        {
            var lines = page.GetWords().ToLookup(w => Math.Round(w.Letters[0].StartBaseLine.Y, 0));
            foreach (var place in sheet.Marks.OfType<Lettering>().Where(l => l.Part == "directions"))
            {
                var (y, width) = (Math.Round((sheet.Height - place.At.Y) * points, 0), Typeface.Width(place.Text, place.Style));
                var left = place.At.X - (place.Anchor == Anchor.End ? width : 0);
                text.AppendJoin(' ', lines[y].Concat(lines[y - 1]).Concat(lines[y + 1]).Where(w => w.Letters[0].StartBaseLine.X > (left - 0.3) * points && w.Letters[0].StartBaseLine.X < (left + width) * points)
                    .OrderBy(w => w.BoundingBox.Left).Select(w => w.Text)).Append(' ');
            }
        }
        return text.ToString();
    }

    private static void Says(string words, PlateDocument plate, bool clean, string where)
    {
        var differences = PrintedWords.Differences(words, plate.Order);
        Assert.True(differences.Count == 0, $"{plate.Options}\n{string.Join('\n', differences.Take(5))}\n{words[..Math.Min(3000, words.Length)]}");
        Assert.Equal(clean, where.Contains(PrintedWords.Proved, StringComparison.Ordinal));
    }

    [Theory, InlineData("quay-yoke"), InlineData("harbour-wall"), InlineData("quay-bishop")]
    public void The_students_page_says_the_very_piece_for_either_hand_upright_and_sideways(string name)
    {
        var pack = ClassPack.Make(Plates.OfExample(name), new ClassOptions(2));
        var page = StudentPage.Write(pack);
        Assert.Equal(4, PrintedWords.OfStudentPage(page).Count());
        foreach (var (hand, words) in PrintedWords.OfStudentPage(page)) Assert.Empty(PrintedWords.Differences(words, pack.OrderOf(hand)));
        Assert.Contains(PrintedWords.Proved, page);
    }

    [Fact]
    public void Every_size_says_its_own_piece()
    {
        foreach (var path in Repository.Examples)
        {
            var piece = PieceReader.Read(File.ReadAllBytes(path));
            foreach (var size in piece.Sizes) ReadBackTests.Gives_the_piece(Planner.Plan(Work.Lay(SizeTable.In(piece, size)), Effort.Drawing));
        }
    }

    [Fact]
    public void Words_that_do_not_give_the_chart_are_printed_with_a_warning_and_no_claim()
    {
        var plate = Plates.OfExample("first-pennant");
        var block = plate.Table.Blocks.Single(b => b.Lines.Any(l => l.Step is { Number: 2 }));
        var wrong = block with { Lines = block.Lines.SetItem(1, block.Lines[1] with { Cells = block.Lines[1].Cells.SetItem(8, block.Lines[1].Cells[8] == "up" ? "down" : "up") }) };
        var made = new PlateDocument
        {
            Work = plate.Work, Order = plate.Order, Options = plate.Options, Title = plate.Title, Summary = plate.Summary, Facts = plate.Facts, Threads = plate.Threads, Signs = plate.Signs,
            Materials = plate.Materials, Verdict = plate.Verdict, Cautions = plate.Cautions, IsProved = true, Table = plate.Table with { Blocks = plate.Table.Blocks.Replace(block, wrong) },
        };
        foreach (var printed in new[] { PlainTextWriter.Write(made), HtmlWriter.Write(made), string.Join(' ', made.Sheets.Take(2).SelectMany(s => s.Marks).OfType<Lettering>().Select(l => l.Text)) })
        {
            Assert.DoesNotContain(PrintedWords.Proved, printed);
            Assert.Contains("Not fit to stitch yet", printed);
            Assert.Contains("do not give the chart", printed.ReplaceLineEndings(" "));
        }
    }

    // The middle row last, by the maker's own will.
    [Fact]
    public void A_row_that_a_pin_squeezes_is_told_and_the_plate_does_not_pass_as_clean()
    {
        var work = Work.Lay(OrderGen.PieceOf(["aaaaa", "aaaaa", "aaaaa"], new Working { Places = [new(new CableRow(6), new Valley(30), 3)] }));
        var plate = Plates.Of(work, findings: []);
        var text = PlainTextWriter.Write(plate);
        Assert.Empty(PrintedWords.Differences(PrintedWords.OfText(text), plate.Order));
        Assert.DoesNotContain(PrintedWords.Proved, text);
        Assert.Contains("Step 3 is squeezed between two finished rows", text.Replace('\n', ' '));
        Assert.Empty(PrintedWords.Differences(PrintedWords.OfText(text), plate.Order));
        Assert.Contains(Directions.Write(plate.Order, LevelWords.UpDown), d => d.Text.StartsWith("This run is squeezed", StringComparison.Ordinal));
    }
}
