using Pleatwright.Chart;
using Pleatwright.Files;
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
        var plate = Plates.Of(work, new PlateOptions { Paper = Paper.Named(paper)!, TrueScaleChart = true }, []);
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
        var plate = Plates.Of(SomeWorks.Of(false, "rrrr"), new PlateOptions { Units = units, TrueScaleChart = true }, []);
        var widths = Figures(plate, "Chart at true size", p => p.IsStroked && !p.IsFilled).Where(b => b.Height < 0.01).Select(b => b.Width * MillimetresPerPoint).ToList();
        Assert.Contains(widths, w => Math.Abs(w - length) < 0.01);
    }

    [Fact]
    public void The_working_chart_is_as_large_as_it_says()
    {
        var work = SomeWorks.Of(false, [.. Enumerable.Repeat("rrrrrrrrrr", 5)]);
        var plate = Plates.Of(work, new PlateOptions { TrueScaleChart = true, Edition = Edition.Learner }, []);
        using var read = PdfDocument.Open(PdfWriter.Write(plate.Title, plate.Sheets));
        var index = plate.Sheets.Index().First(s => s.Item.Name == "Chart").Index;
        var page = read.GetPage(index + 1);
        var said = double.Parse(string.Join(" ", page.GetWords().Select(w => w.Text)).Split(" times")[0].Split(' ')[^1], System.Globalization.CultureInfo.InvariantCulture);
        var lefts = page.Paths.Where(p => p.IsFilled && IsColour(p.FillColor, SomeWorks.Threads[0].Colour))
            .SelectMany(p => p.Select(f => f.GetBoundingRectangle()!.Value.Left * MillimetresPerPoint)).Order().ToList();
        Assert.Equal(work.Pleating.Gauge.Pitch.Millimetres * 9 * said, lefts[^1] - lefts[0], 0.1);
    }

    private static Work Formed(string form, int rows, string figure) => Work.Lay(PieceReader.Read($$"""
        { "pleatwright": 1, "title": "Formed",
          "cloth": { {{form}}, "gatheringRows": {{rows}} },
          "threads": { "r": { "colour": "#b3202c", "strands": 4 } },
          "figures": { "bar": { "rows": [{{string.Join(", ", Enumerable.Repeat($"\"{figure}\"", (rows - 1) * 5 + 1))}}] } },
          "place": [ { "figure": "bar", "gatheringRow": 1 } ] }
        """));

    // How far down a cable of the bar lies: its row is a fifth of a space, its line a quarter of a row from the row's middle,
    // and gathering row 1 runs along the middle of row 0. Up when valley and row together are even.
    private static double DepthOf(int valley, int row) => (row + ((valley + row) % 2 == 0 ? -0.25 : 0.25)) * 9.525 / 5;

    // Arc length is radius times angle (elementary geometry); r0 and the pitches are those of the trade page's formula
    // 2π(r0 + j·s)·(sweep/360)/P.
    [Theory]
    [InlineData(200)]
    [InlineData(90)]
    public void Every_cable_of_a_bishop_lies_on_the_arc_it_is_blocked_to(double sweep)
    {
        var work = Formed(FormattableString.Invariant($"\"form\": \"round\", \"neck\": \"6 in\", \"sweep\": {sweep}, \"panels\": [ {{ \"name\": \"all\", \"cut\": \"40 in\" }} ]"), 4, new string('r', 21));
        Assert.Equal(154, work.Pleating.Pleats);
        var plate = Plates.Of(work, new PlateOptions { Paper = Paper.Named("A3")!, TrueScaleChart = true }, []);
        var measured = Figures(plate, "Chart at true size", p => p.IsFilled && IsColour(p.FillColor, SomeWorks.Threads[0].Colour))
            .Select(b => (X: (b.Left + b.Right) / 2 * MillimetresPerPoint, Y: -(b.Top + b.Bottom) / 2 * MillimetresPerPoint)).ToList();
        double turn = sweep * Math.PI / 180, r0 = 6 * 25.4 / turn;
        var expected = (from row in Enumerable.Range(0, 16)
                        from valley in Enumerable.Range(77 - 10, 21)
                        let radius = r0 + DepthOf(valley, row)
                        let angle = (valley / 154.0 - 0.5) * turn
                        select (X: radius * Math.Sin(angle), Y: radius * Math.Cos(angle))).ToList();
        Assert.Equal(expected.Count, measured.Count);
        // Where the drawing lies on the page is its own affair: both are looked at from their middle.
        (double X, double Y) from = (measured.Average(p => p.X), measured.Average(p => p.Y)), to = (expected.Average(p => p.X), expected.Average(p => p.Y));
        foreach (var (x, y) in expected)
            Assert.InRange(measured.Min(m => Math.Max(Math.Abs(m.X - from.X - x + to.X), Math.Abs(m.Y - from.Y - y + to.Y))), 0, 0.1);
    }

    // The circle of latitude at polar angle φ is πD sin φ round (elementary geometry), shared among the pleats.
    [Fact]
    public void Every_cable_of_a_ball_is_as_wide_as_its_pleats_lie_and_as_far_down_the_meridian()
    {
        var work = Formed("\"form\": \"ball\", \"diameter\": \"3 in\"", 11, "rrrrrrr");
        var pleats = work.Pleating.Pleats;
        var plate = Plates.Of(work, new PlateOptions { Paper = Paper.Named("A3")!, TrueScaleChart = true }, []);
        var measured = Figures(plate, "Chart at true size", p => p.IsFilled && IsColour(p.FillColor, SomeWorks.Threads[0].Colour)).ToList();
        var lines = measured.GroupBy(b => Math.Round((b.Top + b.Bottom) / 2 * MillimetresPerPoint, 2)).OrderByDescending(g => g.Key).ToList();
        Assert.Equal(2 * 51, lines.Count);
        double half = Math.PI * 76.2 / 2;
        for (var i = 0; i < lines.Count; i++)
        {
            var depth = (i / 2 + (i % 2 == 0 ? -0.25 : 0.25)) * 9.525 / 5;
            Assert.Equal(lines[0].Key - (depth - -0.25 * 9.525 / 5), lines[i].Key, 0.1);
            var pitch = Math.PI * 76.2 / pleats * Math.Sin(Math.PI * ((half - 10 * 9.525) / 2 + depth) / half);
            var middles = lines[i].Select(b => (b.Left + b.Right) / 2 * MillimetresPerPoint).Order().ToList();
            Assert.InRange(middles.Count, 3, 4);
            for (var k = 1; k < middles.Count; k++) Assert.Equal(2 * pitch, middles[k] - middles[k - 1], 0.1);
        }
    }
}
