using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using UglyToad.PdfPig;

namespace Pleatwright.Tests.Plate;

public class PdfWriterTests
{
    private static PlateDocument Small(string title = "Some work") => Make(SomeWorks.Of(new Pleatwright.Chart.Figure("f", ["..rr..", ".rrrr.", "bbbbbb"]), title));

    private static PlateDocument Make(Pleatwright.Chart.Work work, PlateOptions? options = null) =>
        PlateMaker.Make(work, Planner.Plan(work), [], options ?? new PlateOptions());

    [Fact]
    public void The_same_sheets_give_the_same_bytes()
    {
        var document = Small();
        Assert.Equal(PdfWriter.Write(document.Title, document.Sheets), PdfWriter.Write(document.Title, document.Sheets));
    }

    [Fact]
    public void An_independent_reader_finds_the_pages_and_the_title()
    {
        var document = Small("Kites & gulls");
        using var read = PdfDocument.Open(PdfWriter.Write(document.Title, document.Sheets));
        Assert.Equal(document.Sheets.Length, read.NumberOfPages);
        Assert.Equal("Kites & gulls", read.Information.Title);
        foreach (var (page, i) in read.GetPages().Select((p, i) => (p, i)))
        {
            Assert.Equal(document.Sheets[i].Width, page.Width / 72 * 25.4, 2);
            Assert.Contains($"{i + 1} of {document.Sheets.Length}", string.Join(" ", page.GetWords().Select(w => w.Text)));
        }
    }
}
