using System.Text.RegularExpressions;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Tests.Chart.Stitches;

namespace Pleatwright.Tests.Order;

public partial class BandDirectionsTests
{
    private static string[] Lines(Piece piece, LevelWords words = LevelWords.UpDown) =>
        [.. Directions.Write(Planner.Plan(Work.Lay(piece)), words).Select(d => d.Text)];

    [Fact]
    public void A_baby_wave_from_the_centre_reads_right_on_both_sides()
    {
        var lines = Lines(BandGen.Alone(BandGen.Band("baby wave"), 18) with { Back = Backsmocking.None });
        Assert.Equal(
        [
            "There are 18 pleats, numbered 1 to 18 from left to right with the right side and the top edge up. The centre is the valley between pleats 9 and 10; the pleat on either side of it is the first from the centre. "
                + "There are 5 cable rows to a space; row 0 lies on gathering row 1, and rows are numbered toward the bottom edge. Cables go from left to right. "
                + "For an up cable the thread is above the needle, for a down cable below the needle; along a run they alternate. Where it says turned, hold the work with the bottom edge up; where it does not, with the top edge up. "
                + "Every side, level and way is told as you hold the work.",
            "Baby wave, thread a",
            "A cable at each turn and one slanting stitch between turns. The thread is below the needle for what slopes up and above the needle for what slopes down. "
                + "One repeat is 4 valleys; 4 whole repeats fit, and both ends come out alike. On the back it leaves nothing but starts and tie-offs.",
            "Band step 1. Baby wave, between gathering row 2 and 1/2 space from gathering row 2 toward the bottom edge. Start at the centre with a new needleful of a, “sail red”, 4 strands; leave half of it hanging there at the back. "
                + "From 1 left of the centre (pleat 9) to 9 right of the centre (pleat 18), beginning 0 of 1 down: 9 stitches, 2 times (an up cable; 1 step down; a down cable; 1 step up); then an up cable. Tie off.",
            "Level check: it lies on gathering row 2; keep a thread's width from the gathering thread all along.",
            "Turn the work: bottom edge up. Band step 2. Baby wave, between gathering row 2 and 1/2 space from gathering row 2 toward the bottom edge, turned. Thread the half of a left hanging at the centre and go on from the centre stitch. "
                + "From 1 right of the centre (pleat 9) to 9 right of the centre (pleat 1), beginning 1 of 1 down: 8 stitches, 2 times (1 step up; an up cable; 1 step down; a down cable). Tie off.",
            "Level check: it lies on gathering row 2; keep a thread's width from the gathering thread all along.",
            "Turn the work back: top edge up.",
        ], lines);
    }

    [Fact]
    public void Backsmocking_comes_first_and_says_what_shows_from_the_back()
    {
        var directions = Directions.Write(Planner.Plan(Work.Lay(BandGen.Alone(BandGen.Band("outline"), 20, gatheringRows: 2))), LevelWords.UpDown);
        Assert.Equal("First, on the back", directions[1].Text);
        Assert.Equal("On the back, gathering row 1. Start a new needleful. From 10 left of the centre (pleat 20) to 10 right of the centre (pleat 1): 19 cables with 1 new needleful. Tie off.", directions[3].Text);
        Assert.Equal((DirectionKind.Step, "Turn the work over again: right side up, top edge up.", DirectionKind.Heading), (directions[3].Kind, directions[4].Text, directions[5].Kind));
    }

    [Fact]
    public void Left_handed_it_goes_the_other_way()
    {
        var piece = BandGen.Alone(BandGen.Band("outline"), 20, gatheringRows: 2) with { Working = new Working { Hand = Hand.Left } };
        var lines = Lines(piece);
        Assert.Contains(lines, l => l.Contains("From 10 right of the centre (pleat 1) to 10 left of the centre (pleat 20): 19 cables", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.Contains("From 10 right of the centre (pleat 20) to 10 left of the centre (pleat 1): 19 stitches", StringComparison.Ordinal));
    }

    [Fact]
    public void Held_sideways_the_words_are_left_and_right()
    {
        var lines = Lines(BandGen.Alone(BandGen.Band("wave"), 20), LevelWords.LeftRight);
        Assert.Contains(lines, l => l.Contains("a left cable; 1 step right; a right cable; 1 step left", StringComparison.Ordinal));
    }

    // A stitcher reads every step: the pleats told run on from one step to the next and reach both ends.
    [Fact]
    public void Steps_run_on_from_pleat_to_pleat() => BandGen.Pieces.Sample(piece =>
    {
        var order = Planner.Plan(Work.Lay(piece));
        var told = Directions.Write(order, LevelWords.UpDown).Where(d => d is { Kind: DirectionKind.Step, Step: null } && FromTo().IsMatch(d.Text)).Select(d => FromTo().Match(d.Text)).ToArray();
        Assert.Equal(order.Bands.Steps.Length, told.Length);
        foreach (var (step, match) in order.Bands.Steps.Zip(told))
            Assert.Equal((step.Begin.From.Pleat.Number, step.End.To.Pleat.Number), (int.Parse(match.Groups[1].Value), int.Parse(match.Groups[2].Value)));
    });

    [GeneratedRegex(@"\(pleat (\d+)\) to .* \(pleat (\d+)\)(?:, beginning \d+ of \d+ down)?: \d+ stitch")]
    private static partial Regex FromTo();
}
