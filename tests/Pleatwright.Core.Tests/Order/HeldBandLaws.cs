using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Order;
using Pleatwright.Tests.Chart.Stitches;

namespace Pleatwright.Tests.Order;

public class HeldBandLaws
{
    [Fact]
    public void As_held_every_stitch_goes_the_way_of_the_hand() => BandGen.Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        foreach (var step in BandWork.Of(work).Steps)
        {
            var held = HeldBand.Of(work, step);
            var onward = piece.Working.Hand == Hand.Right != step.Band.Stitch.Backward ? 1 : -1;
            foreach (var shape in held.Shapes.Where(s => s.Shape.Kind == ShapeKind.Bar && Math.Abs(s.Shape.To.Across - s.Shape.From.Across) > 0.01 && step.Band.Stitch.Name != "feather"))
                Assert.Equal(onward, Math.Sign(shape.Shape.To.Across - shape.Shape.From.Across));
            // every stitch of the step has a shape of its own, numbered from 0
            Assert.Equal(Enumerable.Range(0, step.Count), held.Shapes.Select(s => s.Stitch).Where(s => s >= 0 && s < step.Count).Distinct().Order());
            Assert.All(held.Shapes, s => Assert.InRange(s.Shape.From.Across, -0.01, work.Pleating.Pleats + 0.01));
        }
    }, iter: 60);

    [Fact]
    public void Words_are_those_of_the_directions()
    {
        string[] WordsOf(string stitch, int pass, int count)
        {
            var work = Work.Lay(BandGen.Alone(BandGen.Band(stitch), 18));
            var step = BandWork.Of(work).Steps[pass];
            return [.. Enumerable.Range(0, count).Select(i => HeldBand.Of(work, step).Word(i, LevelWords.UpDown))];
        }

        Assert.Equal(["up", "step down", "down", "step up"], WordsOf("baby wave", 0, 4));
        Assert.Equal(["step up", "up", "step down", "down"], WordsOf("baby wave", 1, 4)); // turned
        Assert.Equal(["catch", "slip down", "catch", "slip up"], WordsOf("honeycomb", 0, 4));
        Assert.Equal(["up", "straight down", "down", "straight up"], WordsOf("surface honeycomb", 0, 4));
        Assert.Equal(["loop down", "loop up"], WordsOf("feather", 0, 2));
    }
}
