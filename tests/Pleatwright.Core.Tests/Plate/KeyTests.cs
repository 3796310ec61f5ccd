using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Tests.Plate;

public class KeyTests
{
    private static IEnumerable<Mark> Deep(IEnumerable<Mark> marks) => marks.SelectMany(m => m is Inset inset ? Deep(inset.Marks) : [m]);

    // An arrow's tip comes first.
    private static bool PointsRight(Shape arrow) => arrow.Outline.Spots.First().X > arrow.Outline.Spots.Last().X;

    // A hand that goes by the key goes as the chart does.
    [Theory, InlineData(Hand.Right), InlineData(Hand.Left)]
    public void Arrows_of_the_key_point_as_those_of_the_chart(Hand hand)
    {
        foreach (var example in (string[])["harbour-morning", "harbour-wall"])
        {
            var piece = Plates.Example(example).Piece;
            var work = Work.Lay(piece with { Working = piece.Working with { Hand = hand } });
            var plate = PlateMaker.Make(work, Planner.Plan(work, Effort.Drawing), [], new PlateOptions());
            var chart = Deep(ChartPages.Drawings(plate).SelectMany(d => d.Drawing.Marks)).OfType<Shape>().ToList();
            foreach (var sign in (Sign[])[Sign.Run, Sign.TurnedRun])
            {
                var entry = plate.Signs.Single(s => s.Sign == sign);
                var key = Deep(KeyPart.Draw(entry, new Box(0, 0, 13, 6.4), plate.Options.Look)).OfType<Shape>().Single(s => s.Outline.Spots.Count() == 3);
                var drawn = chart.Where(s => s.Means == sign).ToList();
                Assert.NotEmpty(drawn);
                Assert.All(drawn, arrow => Assert.Equal(PointsRight(key), PointsRight(arrow)));
                Assert.Equal(PointsRight(key), (hand == Hand.Right) == (sign == Sign.Run));
            }
        }
    }
}
