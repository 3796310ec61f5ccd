using Pleatwright.Bench.Model.Chair;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Order;
using Pleatwright.Tests.Drafts;

namespace Pleatwright.Tests.Chair;

/// <summary>The word at the chair names the next stitch and hides neither it nor the one after it.</summary>
public class HeldWordLaws
{
    public static TheoryData<string> Stitches => [.. BandStitch.All.Where(s => s.Name != "cable").Select(s => s.Name)];

    [Theory, MemberData(nameof(Stitches))]
    public void In_no_band_does_the_word_lie_over_the_next_stitch_or_the_one_after_it(string stitch)
    {
        foreach (var turned in new[] { false, true })
        {
            var work = Work.Lay(Tables.Empty with
            {
                Threads = Tables.Full.Threads,
                Bands = [new Band(stitch, new GatheringRow(2), Tables.Full.Threads[0].Key) { UpsideDown = turned }],
            });
            foreach (var step in Smocking.Plan(work).Bands.Steps)
            {
                var held = HeldBand.Of(work, step);
                for (var at = 0; at < step.Count; at++)
                    foreach (var sideways in new[] { false, true })
                        foreach (var words in Enum.GetValues<LevelWords>())
                        {
                            var word = held.Word(at, words);
                            var (x, y) = HeldWord.Beside(held.Shapes, at, word, held.IsLow(at), sideways);
                            var (halfX, halfY) = (HeldWord.Wide(word) / 2, HeldWord.High / 2);
                            if (sideways) (halfX, halfY) = (halfY, halfX);
                            Assert.DoesNotContain(held.Shapes, s => s.Stitch >= at && s.Stitch <= at + 1 && HeldWord.Meets(s, x, y, halfX, halfY));
                            var own = held.Shapes.Where(s => s.Stitch == at).ToList();
                            Assert.InRange(y / HeldWord.Line, own.Min(s => Math.Min(s.Shape.From.Down, s.Shape.To.Down)) - 9, own.Max(s => Math.Max(s.Shape.From.Down, s.Shape.To.Down)) + 9); // close by
                        }
            }
        }
    }
}
