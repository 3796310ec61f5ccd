using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Tests.Plate;
using Pleatwright.Tests.ReadBack;

namespace Pleatwright.Tests.Order;

/// <summary>Outline and stem: books disagree which has the thread above, so its side of the needle is told in words each time.</summary>
public class ThreadSideTests
{
    private static WorkingOrder Banded(string stitch, bool upsideDown, Hand hand)
    {
        var piece = Plates.Example("first-pennant").Piece;
        return Planner.Plan(Work.Lay(piece with
        {
            Working = piece.Working with { Hand = hand },
            Bands = [BandGen.Band(stitch) with { GatheringRow = new GatheringRow(1), Thread = piece.Threads[0].Key, UpsideDown = upsideDown, Rows = 2 }],
        }));
    }

    [Theory]
    [InlineData("outline", false, "lies below the needle all along.", "lies right of the needle all along.")]
    [InlineData("outline", true, "lies above the needle all along.", "lies left of the needle all along.")]
    [InlineData("wheat", false, "lies below the needle all along in the line worked first, and above it in the other.", "lies right of the needle all along in the line worked first, and left of it in the other.")]
    [InlineData("wheat", true, "lies above the needle all along in the line worked first, and below it in the other.", "lies left of the needle all along in the line worked first, and right of it in the other.")]
    public void Its_side_is_told_in_table_and_sentences_for_either_hand(string stitch, bool upsideDown, string upright, string sideways)
    {
        foreach (var hand in new[] { Hand.Right, Hand.Left })
            foreach (var (words, told) in new[] { (LevelWords.UpDown, upright), (LevelWords.LeftRight, sideways) })
            {
                var order = Banded(stitch, upsideDown, hand);
                Assert.Contains(Directions.Write(order, words), d => d.Text.Contains(told, StringComparison.Ordinal));
                Assert.Contains(Directions.Table(order, words).Blocks, b => b.Notes.Any(n => n.Contains(told, StringComparison.Ordinal)));
            }
    }

    [Fact]
    public void The_side_told_is_that_of_every_stitch_as_held_and_of_no_stitch_where_it_changes()
    {
        foreach (var stitch in BandStitch.All)
            foreach (var upsideDown in new[] { false, true })
                foreach (var start in new[] { WorkFrom.Side, WorkFrom.Centre })
                {
                    var laid = BandGen.Lay(BandGen.Band(stitch.Name) with { UpsideDown = upsideDown, WorkFrom = stitch.OnLattice ? null : start }, 24);
                    var sides = stitch.SidesOf(laid.Band);
                    var held = laid.Passes.GroupBy(p => p.Journey).OrderBy(g => g.Key).Select(g => g.SelectMany(p => p.Stitches.Select(s => p.Turned ? s.Level.Opposite() : s.Level)).Distinct().ToList()).ToList();
                    if (stitch.Name is "outline" or "wheat") Assert.Equal(sides, held.Select(Assert.Single));
                    else Assert.Empty(sides);
                }
    }

    // The reader that knows only words sees a side told wrong, though every stitch is told right.
    [Theory]
    [InlineData("outline")]
    [InlineData("wheat")]
    public void A_side_told_wrong_is_noticed(string stitch)
    {
        var order = Banded(stitch, false, Hand.Right);
        foreach (var printed in ReadBackTests.Editions(order, LevelWords.UpDown))
        {
            Assert.Empty(PrintedWords.Differences(printed, order));
            Assert.NotEmpty(PrintedWords.Differences(printed.Replace("it lies below the needle", "it lies above the needle", StringComparison.Ordinal), order));
            Assert.NotEmpty(PrintedWords.Differences(printed.Replace("it lies below the needle", "it lies above the needle", StringComparison.Ordinal).Replace("and above it", "and below it", StringComparison.Ordinal), order));
        }
    }
}
