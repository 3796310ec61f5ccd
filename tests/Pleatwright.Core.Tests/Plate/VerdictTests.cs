using Pleatwright.Chart;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Proof;

namespace Pleatwright.Tests.Plate;

public class VerdictTests
{
    private static Finding Finding(Severity severity) =>
        new("some-rule", severity, Place.In(new CableRow(0), new Valley(1), new Valley(2)), $"A {severity} is here.", "Mend it.");

    [Fact]
    public void A_plate_with_errors_is_stamped_on_every_page_and_in_every_format_and_keeps_the_findings_to_the_designer()
    {
        var plate = Plates.Of(SomeWorks.Of(false, "rrr"), findings: [Finding(Severity.Note), Finding(Severity.Warning), Finding(Severity.Error)]);
        Assert.Equal((1, 1, 2), (plate.Verdict!.Errors, plate.Verdict.Warnings, plate.Verdict.Findings.Length));
        using var read = UglyToad.PdfPig.PdfDocument.Open(PdfWriter.Write(plate.Title, plate.Sheets));
        foreach (var page in read.GetPages()) Assert.Contains("Not fit to stitch yet", string.Join(" ", page.GetWords().Select(w => w.Text)));
        Assert.Contains("1 error and 1 warning", string.Join(" ", read.GetPage(1).GetWords().Select(w => w.Text)));
        foreach (var text in (string[])[HtmlWriter.Write(plate), PlainTextWriter.Write(plate)])
        {
            Assert.Contains("Not fit to stitch yet", text);
            Assert.DoesNotContain("A Error is here.", text);
            Assert.DoesNotContain("A Warning is here.", text);
        }
    }

    [Fact]
    public void Without_an_error_nothing_is_said()
    {
        var plate = Plates.Of(SomeWorks.Of(false, "rrr"), findings: [Finding(Severity.Note), Finding(Severity.Warning)]);
        Assert.Null(plate.Verdict);
        foreach (var text in (string[])[HtmlWriter.Write(plate), PlainTextWriter.Write(plate), string.Join(' ', plate.Sheets.SelectMany(s => s.Marks).OfType<Lettering>().Select(l => l.Text))])
            Assert.DoesNotContain("warning", text, StringComparison.OrdinalIgnoreCase);
    }
}
