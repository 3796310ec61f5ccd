using Pleatwright.Measure;
using Pleatwright.Plate;
using Pleatwright.Plate.Writers;
using Pleatwright.Thread;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Graphics.Colors;

namespace Pleatwright.Tests.Plate;

/// <summary>The printed sizes, measured in the finished file by an independent reader of its paths.</summary>
public class TrueScaleTests
{
    // A point is 1/72 in (ISO 32000-1, 8.3.2.3), an inch 25.4 mm.
    private const double MillimetresPerPoint = 25.4 / 72;

    private static List<PdfRectangle> Figures(PlateDocument plate, string sheet, Func<UglyToad.PdfPig.Graphics.PdfPath, bool> which)
    {
        using var read = PdfDocument.Open(PdfWriter.Write(plate.Title, plate.Sheets));
        var index = plate.Sheets.Index().First(s => s.Item.Name == sheet).Index;
        return
        [
            .. read.GetPage(index + 1).Paths.Where(which)
                .SelectMany(p => p.Select(f => f.GetBoundingRectangle())).OfType<PdfRectangle>(),
        ];
    }

    private static bool IsColour(IColor? colour, Colour wanted)
    {
        if (colour is null) return false;
        var (r, g, b) = colour.ToRGBValues();
        return Math.Abs(r * 255 - wanted.Red) < 1 && Math.Abs(g * 255 - wanted.Green) < 1 && Math.Abs(b * 255 - wanted.Blue) < 1;
    }

    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    public void Pleats_and_rows_of_the_chart_at_true_size_are_as_far_apart_as_on_the_cloth(string paper)
    {
        var work = SomeWorks.Of(false, [.. Enumerable.Repeat(new string('r', 40), 21)]);
        var plate = Plates.Of(work, new PlateOptions { Paper = Paper.Named(paper)! }, []);
        var bricks = Figures(plate, "Chart at true size", p => p.IsFilled && IsColour(p.FillColor, SomeWorks.Threads[0].Colour));
        Assert.Equal(work.Cables, bricks.Count);
        var gauge = work.Pleating.Gauge;
        // Forty cables in a row, on two lines a pleat apart: 41 pleats from end to end.
        var wide = (bricks.Max(b => b.Right) - bricks.Min(b => b.Left)) * MillimetresPerPoint;
        Assert.InRange(wide, 41 * gauge.Pitch.Millimetres - 0.2, 41 * gauge.Pitch.Millimetres + 0.01);
        var lefts = bricks.Select(b => Math.Round(b.Left * MillimetresPerPoint, 3)).Distinct().Order().ToList();
        Assert.Equal(40, lefts.Count);
        for (var i = 0; i < lefts.Count; i++) Assert.Equal(lefts[0] + i * gauge.Pitch.Millimetres, lefts[i], 0.1);
        var tops = bricks.Select(b => Math.Round(b.Top * MillimetresPerPoint, 3)).Distinct().OrderDescending().ToList();
        Assert.Equal(42, tops.Count);
        for (var i = 0; i < tops.Count; i++) Assert.Equal(tops[0] - i * gauge.LineHeight.Millimetres, tops[i], 0.1);
    }

    [Theory]
    [InlineData(UnitSystem.Metric, 100)]
    [InlineData(UnitSystem.Inches, 101.6)]
    public void The_check_line_is_ten_centimetres_or_four_inches(UnitSystem units, double length)
    {
        var plate = Plates.Of(SomeWorks.Of(false, "rrrr"), new PlateOptions { Units = units }, []);
        var widths = Figures(plate, "Chart at true size", p => p.IsStroked && !p.IsFilled).Where(b => b.Height < 0.01).Select(b => b.Width * MillimetresPerPoint).ToList();
        Assert.Contains(widths, w => Math.Abs(w - length) < 0.01);
    }

    [Fact]
    public void The_working_chart_is_as_large_as_it_says()
    {
        var work = SomeWorks.Of(false, [.. Enumerable.Repeat("rrrrrrrrrr", 5)]);
        var plate = Plates.Of(work, findings: []);
        using var read = PdfDocument.Open(PdfWriter.Write(plate.Title, plate.Sheets));
        var index = plate.Sheets.Index().First(s => s.Item.Name == "Chart").Index;
        var page = read.GetPage(index + 1);
        var said = double.Parse(string.Join(" ", page.GetWords().Select(w => w.Text)).Split(" times")[0].Split(' ')[^1], System.Globalization.CultureInfo.InvariantCulture);
        var lefts = page.Paths.Where(p => p.IsFilled && IsColour(p.FillColor, SomeWorks.Threads[0].Colour))
            .SelectMany(p => p.Select(f => f.GetBoundingRectangle()!.Value.Left * MillimetresPerPoint)).Order().ToList();
        Assert.Equal(work.Pleating.Gauge.Pitch.Millimetres * 9 * said, lefts[^1] - lefts[0], 0.1);
    }
}
