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

    private static LaidAccent On(string accent, int? size = null)
    {
        var piece = BandGen.Alone(BandGen.Band("outline"), 60);
        var mark = new AccentMark(accent, Centre.At(new Valley(10)), new GatheringRow(2), PieceGen.Threads[0].Key) { Size = size };
        return LaidAccent.Lay(piece with { Accents = [mark] }, new PleatingPlan(piece.Cloth))[0];
    }

    // Common practice, no source: the thread is wound round the needle until the coil is as long as the bite, no more.
    [Fact]
    public void A_bullion_is_wound_until_the_coil_is_as_long_as_its_bite() => Gen.Int[2, 12].Sample(size =>
    {
        var thread = PieceGen.Threads[0];
        var thick = thread.Fineness.Diameter * Math.Sqrt(thread.Strands);
        var wraps = Bullion.Wraps(On("bullion", size), Gauge.Common.Pitch, thread);
        Assert.True(thick * wraps >= Gauge.Common.Pitch * size && thick * (wraps - 1) < Gauge.Common.Pitch * size);
        var coil = Assert.Single(On("bullion", size).Accent.Shapes(On("bullion", size), Gauge.Common));
        Assert.Equal((ShapeKind.Coil, 10 - size / 2.0, 10 + size / 2.0), (coil.Kind, coil.From.Across, coil.To.Across));
    });

    // Common practice, no source: wound twice, up in the valley and down through the pleat beside it.
    [Fact]
    public void A_knot_takes_two_turns_of_the_needle_and_a_stitch()
    {
        var thread = PieceGen.Threads[0];
        var turn = Math.PI * (0.8 + thread.Fineness.Diameter.Millimetres * Math.Sqrt(thread.Strands));
        var laid = On("knot");
        Assert.Equal(2 * turn + 2 * Gauge.Common.Pitch.Millimetres, laid.Accent.ThreadIn(laid, Gauge.Common.Pitch, Gauge.Common.LineHeight, thread).Millimetres, 9);
        Assert.Equal(ShapeKind.Knot, Assert.Single(laid.Accent.Shapes(laid, Gauge.Common)).Kind);
    }

    // Common practice, no source: a loop there and back, its point at the left, held down at the other end by a tiny stitch.
    [Fact]
    public void A_detached_chain_is_a_loop_there_and_back_from_its_point()
    {
        var laid = On("detached chain");
        var loop = Assert.Single(laid.Accent.Shapes(laid, Gauge.Common));
        Assert.Equal((ShapeKind.Drop, 9.0, 11.0), (loop.Kind, loop.From.Across, loop.To.Across));
        var thread = laid.Accent.ThreadIn(laid, Gauge.Common.Pitch, Gauge.Common.LineHeight, PieceGen.Threads[0]);
        Assert.InRange(thread / Gauge.Common.Pitch, 2 * 2, 2 * 2 + 4);
    }
}
