using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Cloth;

public class CalibrationTests
{
    private static Length Mm(double value) => Length.FromMillimetres(value);

    // NIST Statistical Reference Datasets, linear regression, NoInt1: x 60 to 70, y 130 to 140, through the origin.
    // Certified: B1 2.07438016528926, its standard deviation 0.165289256198347E-01.
    [Fact]
    public void Certified_NoInt1()
    {
        var found = Estimate.ThroughOrigin([.. Enumerable.Range(0, 11).Select(i => (60.0 + i, 130.0 + i))])!.Value;
        Assert.Equal(2.07438016528926, found.Value, 13);
        Assert.Equal(0.0165289256198347, found.HalfRange!.Value / MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, 10, 0.975), 9);
    }

    // NoInt2: x 4, 5, 6; y 3, 4, 4. Certified: B1 0.727272727272727, its standard deviation 0.420827318078432E-01.
    [Fact]
    public void Certified_NoInt2()
    {
        var found = Estimate.ThroughOrigin([(4, 3), (5, 4), (6, 4)])!.Value;
        Assert.Equal(0.727272727272727, found.Value, 13);
        Assert.Equal(0.0420827318078432, found.HalfRange!.Value / MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, 2, 0.975), 9);
    }

    [Fact]
    public void A_line_through_the_origin_agrees_with_a_general_library() =>
        Gen.Select(Gen.Double[1, 100], Gen.Double[-50, 200]).Array[2, 12].Sample(points =>
        {
            var expected = MathNet.Numerics.LinearRegression.SimpleRegression.FitThroughOrigin([.. points.Select(p => p.Item1)], [.. points.Select(p => p.Item2)]);
            Assert.Equal(expected, Estimate.ThroughOrigin([.. points.Select(p => (p.Item1, p.Item2))])!.Value.Value, 9);
        });

    // The promise of a 95 % range: about 19 in 20 such ranges hold the truth. Normal errors by Box and Muller.
    [Fact]
    public void The_range_holds_the_truth_nineteen_times_in_twenty()
    {
        var random = new Random(20260714);
        var held = 0;
        for (var trial = 0; trial < 4000; trial++)
        {
            var found = Estimate.ThroughOrigin([.. Enumerable.Range(1, 4).Select(i => (12.0 * i, 12.0 * i * 2.1 + Normal(random)))])!.Value;
            if (found.Allows(2.1)) held++;
        }
        Assert.InRange(held / 4000.0, 0.935, 0.965);
    }

    [Fact]
    public void Swatches_give_back_the_gauge_they_were_made_at()
    {
        // 2.05 mm pitch, 6.4 mm take-up, thread a tenth over what is reckoned, one start of 80 mm in each.
        var gauge = Gauge.Common;
        Swatch Made(int pleats)
        {
            var cables = (pleats - 1) * 10;
            return new Swatch(pleats, Mm(2.05 * pleats))
            {
                Cloth = Mm(6.4 * pleats),
                Cables = cables,
                Thread = Usage.Cable(Mm(2.05), gauge.LineHeight) * (1.1 * cables) + Mm(80),
            };
        }

        var found = Calibration.Of([Made(24), Made(36), Made(48)], gauge, Mm(80))!;
        Assert.Equal(2.05, found.Pitch.Value, 9);
        Assert.Equal(6.4, found.TakeUp!.Value.Value, 9);
        Assert.Equal(1.1, found.ThreadFactor!.Value.Value, 9);
        Assert.Equal(0, found.Pitch.HalfRange!.Value, 9);
        Assert.Equal(6.4 / 2.05, found.Applied(gauge).Fullness, 9);
        Assert.Equal(gauge.RowSpacing, found.Applied(gauge).RowSpacing);
    }

    [Fact]
    public void One_swatch_gives_a_value_but_no_range()
    {
        var found = Calibration.Of([new Swatch(48, Length.FromInches(4))], Gauge.Common, Mm(80))!;
        Assert.Equal(25.4 / 12, found.Pitch.Value, 9);
        Assert.Null(found.Pitch.HalfRange);
        Assert.Null(found.TakeUp);
        Assert.Null(found.ThreadFactor);
        Assert.True(found.Pitch.Allows(99));
    }

    [Fact]
    public void A_piece_keeps_its_gauge_until_it_is_calibrated()
    {
        var piece = PieceReader.Read(Text("""[ { "pleats": 40, "width": "80 mm", "cloth": "260 mm", "cables": 100, "thread": "1 m" }, { "pleats": 20, "width": "41 mm", "cloth": "129 mm" } ]"""));
        Assert.Equal(Gauge.Common, piece.Cloth.Gauge);
        var calibrated = piece.Calibrated();
        Assert.Equal((40 * 80 + 20 * 41) / 2000.0, calibrated.Cloth.Gauge.Pitch.Millimetres, 9);
        Assert.Equal((40 * 260 + 20 * 129) / 2000.0, calibrated.Cloth.Gauge.TakeUp.Millimetres, 9);
        Assert.Equal((1000 - 80) / (100 * (3 * 2.0 + 9.525 / 10)), calibrated.Working.ThreadFactor, 9);
        var again = PieceReader.Read(PieceWriter.Write(calibrated));
        Assert.Equal(PieceWriter.Write(calibrated), PieceWriter.Write(again));
        Assert.Equal(piece.Swatches, again.Swatches);
    }

    // Wide pleats: more finished width than a pleat of the common gauge takes up.
    [Fact]
    public void Swatches_speak_without_a_gauge_to_speak_against()
    {
        var found = Calibration.Of([new Swatch(4, Length.FromInches(4))], Gauge.Common, Mm(80))!;
        Assert.Equal(["One pleat lies 25.4 mm wide (one swatch, so no range)."], CalibrationWords.Of(found, null));
    }

    // Whatever a maker writes down is either told to be wrong or can be kept in a file.
    [Fact]
    public void A_swatch_without_a_fault_can_be_kept() =>
        (from pleats in Gen.OneOf(Gen.Int[-1, 60], Gen.Const(Swatch.MostCounted + 1))
         from width in Gen.Int[0, 200]
         from cloth in Gen.OneOf(Gen.Const((int?)null), Gen.Int[1, 600].Select(c => (int?)c))
         from cables in Gen.OneOf(Gen.Int[-1, 3], Gen.Const(Swatch.MostCounted + 1))
         from thread in Gen.OneOf(Gen.Const((int?)null), Gen.Int[1, 900].Select(t => (int?)t))
         from starts in Gen.Int[-1, 3]
         select new Swatch(pleats, Mm(width)) { Cloth = cloth is { } c ? Mm(c) : null, Cables = cables, Thread = thread is { } t ? Mm(t) : null, Starts = starts }).Sample(swatch =>
        {
            var piece = new Piece("", new ClothPlan(new Panel(Mm(100)), Gauge.Common, 4), [], [], []) { Swatches = [swatch] };
            if (swatch.Fault is { } fault) Assert.Contains(fault.Key, (string[])["pleats", "cloth", "cables", "thread", "starts"]);
            else Assert.Equal(piece.Swatches, PieceReader.Read(PieceWriter.Write(piece)).Swatches);
        });

    [Theory]
    [InlineData("""[ { "pleats": 0, "width": "4 in" } ]""", 15, "whole number from 1")]
    [InlineData("""[ { "pleats": 48 } ]""", 3, "lacks the key “width”")]
    [InlineData("""[ { "pleats": 48, "width": "4 in", "cables": 10 } ]""", 46, "together, or neither")]
    [InlineData("""[ { "pleats": 48, "width": "4 in", "cloth": "3 in" } ]""", 45, "cannot have been gathered from 3 in")]
    [InlineData("""[ { "pleats": 48, "width": "4 in", "wool": 1 } ]""", 36, "a swatch has no key “wool”")]
    public void A_bad_swatch_is_an_error_that_says_where(string swatch, int column, string words)
    {
        var e = Assert.Throws<PieceFormatException>(() => PieceReader.Read(Text(swatch)));
        Assert.Contains(words, e.Message);
        Assert.Equal((3, column), (e.Line, e.Column));
    }

    private static string Text(string swatch) =>
        "{ \"pleatwright\": 1, \"cloth\": { \"form\": \"panel\", \"finishedWidth\": \"4 in\", \"gatheringRows\": 3 },\n\"swatch\":\n" + swatch + " }";

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
