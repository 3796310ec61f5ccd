using Pleatwright.Chart;
using Pleatwright.Plate.Writers;
using Pleatwright.Proof;

namespace Pleatwright.Tests.Plate;

public class VerdictTests
{
    private static Finding Finding(Severity severity) =>
        new("some-rule", severity, Place.In(new CableRow(0), new Valley(1), new Valley(2)), $"A {severity} is here.", "Mend it.");

    [Fact]
    public void Errors_and_warnings_are_printed_first_on_the_cover_and_in_every_format()
    {
        var plate = Plates.Of(SomeWorks.Of(false, "rrr"), findings: [Finding(Severity.Note), Finding(Severity.Warning), Finding(Severity.Error)]);
        Assert.Equal((1, 1, 2), (plate.Verdict!.Errors, plate.Verdict.Warnings, plate.Verdict.Findings.Length));
        Assert.Equal(Severity.Error, plate.Verdict.Findings[0].Severity);
        Assert.Equal("What the proof found", plate.Sheets[1].Name);
        using var read = UglyToad.PdfPig.PdfDocument.Open(PdfWriter.Write(plate.Title, plate.Sheets));
        Assert.Contains("Not fit to stitch yet", string.Join(" ", read.GetPage(1).GetWords().Select(w => w.Text)));
        foreach (var text in (string[])[HtmlWriter.Write(plate), PlainTextWriter.Write(plate)])
        {
            Assert.Contains("Not fit to stitch yet", text);
            Assert.Contains("A Error is here.", text);
            Assert.Contains("A Warning is here.", text);
            Assert.DoesNotContain("A Note is here.", text);
        }
    }

    [Fact]
    public void Notes_alone_say_nothing() => Assert.Null(Plates.Of(SomeWorks.Of(false, "rrr"), findings: [Finding(Severity.Note)]).Verdict);
}
