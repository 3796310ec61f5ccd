using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Order;

namespace Pleatwright.Tests.Order;

public class HeldStitchLaws
{
    [Fact]
    public void The_stitches_of_every_step_are_those_it_counts_beginning_and_ending_as_it_says_and_alternating()
    {
        foreach (var piece in Pieces())
        foreach (var hand in new[] { Hand.Right, Hand.Left })
        {
            var order = Planner.Plan(Work.Lay(piece with { Working = piece.Working with { Hand = hand } }));
            foreach (var step in order.Steps)
            {
                var stitches = HeldStitch.Of(step);
                var cables = stitches.Where(s => !s.Half).ToArray();
                Assert.Equal(step.Cables, cables.Length);
                Assert.Equal(step.HalfStitches, stitches.Length - cables.Length);
                Assert.Equal((step.HeldBegin, step.HeldEnd), (cables[0].Held, cables[^1].Held));
                Assert.Equal((step.HalfAtBegin, step.HalfAtEnd), (stitches[0].Half, stitches[^1].Half));
                foreach (var (a, b) in cables.Zip(cables.Skip(1)))
                {
                    Assert.Equal(a.Held.Opposite(), b.Held);
                    Assert.Equal(a.Pleat + 1, b.Pleat);
                }
                // Seen on the chart again, each lies at the level and over the pleats the lattice gives it.
                var run = order.Work.Runs[step.RunIndex];
                var onward = order.TravelsRight(step) ? 1 : -1;
                foreach (var s in cables)
                {
                    var chart = step.Turned ? s.Held.Opposite() : s.Held;
                    Assert.Equal(run.LevelAt(new Valley(step.From.Number + onward * s.Pleat)), chart);
                }
                if (step.HalfAtEnd) Assert.Equal((step.Cables, step.HeldEnd.Opposite()), (stitches[^1].Pleat, stitches[^1].Held));
                if (step.HalfAtBegin) Assert.Equal((0, step.HeldBegin.Opposite()), (stitches[0].Pleat, stitches[0].Held));
            }
        }
    }

    private static IEnumerable<Piece> Pieces() => Repository.Examples.Select(f => PieceReader.Read(File.ReadAllBytes(f)));
}
