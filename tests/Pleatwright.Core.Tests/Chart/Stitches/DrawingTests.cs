using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Tests.Chart.Stitches;

public class DrawingTests
{
    // The rule of slants, given cables, draws the bricks of the lattice.
    [Fact]
    public void Cables_drawn_stitch_by_stitch_are_the_bricks_of_the_lattice() => Gen.Select(Gen.Int[1, 40], Gen.Int[1, 9]).Sample((half, perSpace) =>
    {
        var leg = new Leg(new Valley(half), 1, new Pleat(1), new Pleat(2 * half), false, false);
        var pass = new Pass(0, 0, false, false, [.. new Running([0], Hold.Alternate).Work(leg)]);
        var row = new CableRow(perSpace);
        foreach (var (stitch, shape) in pass.Stitches.Zip(StitchDrawing.Shapes(pass, perSpace)))
        {
            var line = Lattice.LineOf(row, stitch.Level).Index + 0.5;
            Assert.Equal(new StitchShape(ShapeKind.Bar, new(stitch.Valley.Number - 1, line), new(stitch.Valley.Number + 1, line), 0.9), shape);
        }
    });

    [Fact]
    public void Outline_slants_down_like_a_rope_and_stem_the_other_way()
    {
        StitchShape[] Of(bool upside) => [.. BandGen.Lay(BandGen.Band("outline") with { UpsideDown = upside }, 12).Passes.SelectMany(p => StitchDrawing.Shapes(p, 5))];
        Assert.All(Of(false), s => Assert.Equal(1, s.To.Down - s.From.Down, 9));
        Assert.All(Of(true), s => Assert.Equal(-1, s.To.Down - s.From.Down, 9));
    }

    // Wheat is two lines of outline that touch.
    [Fact]
    public void The_two_lines_of_wheat_touch()
    {
        var lines = BandGen.Lay(BandGen.Band("wheat"), 12).Passes.Select(p => StitchDrawing.Shapes(p, 5).ToList()).ToList();
        Assert.Equal(2, lines.Count);
        Assert.Equal(lines[0].Max(s => Math.Max(s.From.Down, s.To.Down) + s.Width / 2), lines[1].Min(s => Math.Min(s.From.Down, s.To.Down) - s.Width / 2), 9);
    }

    [Fact]
    public void Outline_worked_from_the_centre_is_one_rope_from_side_to_side()
    {
        var shapes = BandGen.Lay(BandGen.Band("outline") with { WorkFrom = WorkFrom.Centre }, 12).Passes.SelectMany(p => StitchDrawing.Shapes(p, 5));
        Assert.All(shapes, s => Assert.Equal(1, (s.To.Down - s.From.Down) * Math.Sign(s.To.Across - s.From.Across), 9));
    }

    [Fact]
    public void A_wave_worked_from_the_centre_is_drawn_alike_on_both_sides() =>
        Gen.Select(Gen.Int[1, 6], Gen.Int[1, 8], Gen.Int[1, 40], Gen.Bool).Sample((steps, height, half, upside) =>
        {
            var band = BandGen.Band("wave") with { Steps = steps, Height = height, UpsideDown = upside };
            var shapes = BandGen.Lay(band, 2 * half).Passes.SelectMany(p => StitchDrawing.Shapes(p, 5)).Skip(1).Select(Key).ToHashSet();
            Assert.All(shapes, s => Assert.Contains((2 * half - s.Item1, s.Item2, 2 * half - s.Item3, s.Item4), shapes));
        });

    private static (double, double, double, double) Key(StitchShape s) =>
        (Math.Round(s.From.Across, 6), Math.Round(s.From.Down, 6), Math.Round(s.To.Across, 6), Math.Round(s.To.Down, 6));

    [Fact]
    public void Every_shape_lies_within_a_line_of_its_bites() => BandGen.Laid.Sample(laid =>
    {
        foreach (var pass in laid.Passes)
            foreach (var shape in StitchDrawing.Shapes(pass, 5))
            {
                Assert.InRange(Math.Min(shape.From.Down, shape.To.Down), StitchDrawing.Down(laid.Highest, 5) - 0.51, double.MaxValue);
                Assert.InRange(Math.Max(shape.From.Down, shape.To.Down), double.MinValue, StitchDrawing.Down(laid.Lowest, 5) + 0.51);
                Assert.InRange(shape.From.Across, laid.Fit.First.Number - 1, laid.Fit.Last.Number);
                Assert.InRange(shape.To.Across, laid.Fit.First.Number - 1, laid.Fit.Last.Number);
            }
    });
}
