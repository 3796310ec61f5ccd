using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Tests.Chart.Stitches;

namespace Pleatwright.Tests.Chart.Accents;

public class AccentTests
{
    private static readonly Gen<LaidAccent> Laid = BandGen.Accents.Select(mark =>
        LaidAccent.Lay(BandGen.Alone(BandGen.Band("outline"), 60) with { Accents = [mark] }, new PleatingPlan(new ClothPlan(new Panel(Length.FromInches(5)), Gauge.Common, 6)))[0]);

    [Fact]
    public void Each_is_drawn_about_its_own_place() => Laid.Sample(laid =>
    {
        var shapes = laid.Accent.Shapes(laid, Gauge.Common).ToArray();
        Assert.NotEmpty(shapes);
        Assert.Equal(laid.Valley.Number, shapes.Average(s => (s.From.Across + s.To.Across) / 2), 9);
        Assert.Equal(StitchDrawing.Down(laid.Depth, 5), shapes.Average(s => (s.From.Down + s.To.Down) / 2), 9);
        Assert.All(shapes, s => Assert.InRange(s.To.Across - s.From.Across, 0, laid.Accent.Across(laid)));
    });

    [Fact]
    public void An_upright_one_is_as_long_as_one_across() => Laid.Sample(laid =>
    {
        if (laid.Accent.Size is null) return;
        double Long(bool upright)
        {
            var shape = laid.Accent.Shapes(laid with { Mark = laid.Mark with { Upright = upright } }, Gauge.Common).Single();
            return upright ? (shape.To.Down - shape.From.Down) * Gauge.Common.LineHeight.Millimetres : (shape.To.Across - shape.From.Across) * Gauge.Common.Pitch.Millimetres;
        }
        Assert.Equal(Long(false), Long(true), 9);
    });

    [Fact]
    public void Longer_ones_take_more_thread() => Laid.Sample(laid =>
    {
        if (laid.Accent.Size is null) return;
        Length In(int size) => laid.Accent.ThreadIn(laid with { Mark = laid.Mark with { Size = size } }, Gauge.Common.Pitch, Gauge.Common.LineHeight, PieceGen.Threads[0]);
        Assert.True(In(4) < In(5));
    });

    // Common practice, no source: a flowerette lies over four pleats on three lines, its four petals touching.
    [Fact]
    public void A_flowerette_has_a_petal_above_two_beside_each_other_and_one_below()
    {
        var mark = new AccentMark("flowerette", Centre.At(new Valley(10)), new GatheringRow(2), PieceGen.Threads[0].Key);
        var laid = LaidAccent.Lay(BandGen.Alone(BandGen.Band("outline"), 60) with { Accents = [mark] }, new PleatingPlan(BandGen.Alone(BandGen.Band("outline"), 60).Cloth))[0];
        var bars = laid.Accent.Shapes(laid, Gauge.Common).Select(s => (s.From.Across, s.To.Across, s.From.Down)).ToHashSet();
        Assert.Equal([(8, 10, 11), (9, 11, 10), (10, 12, 11), (9, 11, 12)], bars);
    }
}
