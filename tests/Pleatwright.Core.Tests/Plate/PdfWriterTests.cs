using System.Globalization;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using UglyToad.PdfPig;
using Page = UglyToad.PdfPig.Content.Page;

namespace Pleatwright.Tests.Plate;

public class PdfWriterTests
{
    private static readonly PlateOptions Letter = new() { Paper = Paper.Letter, LargePrint = true };

    private static byte[] Write(PlateDocument plate) => PdfWriter.Write(plate.Title, plate.Sheets);

    private static string TextOf(Page page) => string.Join(" ", page.GetWords().Select(w => w.Text));

    [Fact]
    public void The_same_piece_gives_the_same_bytes() =>
        Assert.Equal(Write(Plates.Of(Plates.Example("gulls-turning"))), Write(Plates.Of(Plates.Example("gulls-turning"))));

    [Fact]
    public void No_time_of_day_is_in_the_file()
    {
        var bytes = System.Text.Encoding.Latin1.GetString(Write(Plates.OfExample("first-pennant")));
        Assert.DoesNotContain("/CreationDate", bytes);
        Assert.DoesNotContain("/ModDate", bytes);
        Assert.DoesNotContain("xmp:CreateDate", bytes);
        Assert.DoesNotContain("xmp:ModifyDate", bytes);
    }

    [Fact]
    public void Other_pages_have_another_identity()
    {
        string Identity(string example)
        {
            var bytes = System.Text.Encoding.Latin1.GetString(Write(Plates.OfExample(example)));
            return bytes.Substring(bytes.LastIndexOf("/ID[<", StringComparison.Ordinal) + 5, 32);
        }
        Assert.NotEqual(Identity("first-pennant"), Identity("quay-banner"));
        Assert.DoesNotMatch("^0+$", Identity("quay-banner"));
    }

    [Theory]
    [InlineData("harbour-morning")]
    [InlineData("quay-banner")]
    [InlineData("quay-bishop")]
    [InlineData("net-float")]
    [InlineData("flawed-kite")]
    public void An_independent_reader_finds_every_page_thread_and_step(string example)
    {
        foreach (var options in (PlateOptions[])[new PlateOptions(), Letter])
        {
            var plate = Plates.OfExample(example, options);
            using var read = PdfDocument.Open(Write(plate));
            Assert.Equal(plate.Title, read.Information.Title);
            Assert.Equal(plate.Sheets.Length, read.NumberOfPages);
            var pages = read.GetPages().ToList();
            var steps = new List<string>();
            foreach (var (i, page) in pages.Index())
            {
                Assert.Equal(plate.Sheets[i].Width, page.Width / 72 * 25.4, 2);
                Assert.Equal(plate.Sheets[i].Height, page.Height / 72 * 25.4, 2);
                Assert.EndsWith($"{i + 1} of {pages.Count}", TextOf(page));
                steps.AddRange(page.GetWords().Where(w => w.Letters[0].FontName!.Contains("Bold") && w.Text.All(char.IsAsciiDigit)).Select(w => w.Text));
            }
            var text = string.Join(" ", pages.Select(TextOf));
            foreach (var thread in plate.Threads) Assert.Contains(thread.Name, text);
            foreach (var line in plate.Table.Lines.Where(l => l.Step is not null))
                Assert.Contains(line.Step!.Number.ToString(CultureInfo.InvariantCulture), steps);
        }
    }

    [Fact]
    public void The_list_of_contents_points_at_every_section()
    {
        var plate = Plates.OfExample("flawed-kite", new PlateOptions { TrueScaleChart = true });
        using var read = PdfDocument.Open(Write(plate));
        Assert.True(read.TryGetBookmarks(out var bookmarks));
        var titles = bookmarks.Roots.Select(b => b.Title).ToList();
        Assert.Equal(plate.Title, titles[0]);
        foreach (var section in (string[])["Key", "Chart", "Chart at true size", "The stitches", "Materials", "Directions"])
            Assert.Contains(titles, t => t.StartsWith(section, StringComparison.Ordinal));
        foreach (var root in bookmarks.Roots.OfType<UglyToad.PdfPig.Outline.DocumentBookmarkNode>())
            Assert.Contains(root.Title.Split(" · ")[0], TextOf(read.GetPage(root.PageNumber)));
    }

    [Fact]
    public void Only_the_embedded_typefaces_are_used()
    {
        using var read = PdfDocument.Open(Write(Plates.OfExample("first-pennant")));
        foreach (var page in read.GetPages())
            foreach (var letter in page.Letters)
                Assert.Matches("^PLATE[A-Z]\\+(Fraunces|Nunito)", letter.FontName);
    }

    [Fact]
    public void A_large_piece_is_drawn_with_few_path_objects()
    {
        var work = SomeWorks.Of(false, [.. Enumerable.Repeat(new string('r', 200), 100)]);
        var sheet = Plates.Of(work, findings: []).Sheets[0];
        var shapes = Count(sheet.Marks);
        Assert.True(shapes < 60, $"{shapes} shapes for {work.Cables} cables");

        static int Count(IEnumerable<Mark> marks) => marks.Sum(m => m switch { Shape => 1, Inset inset => Count(inset.Marks), _ => 0 });
    }
}
