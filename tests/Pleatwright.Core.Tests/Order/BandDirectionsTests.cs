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
            "Pleats are numbered from the left of the right side, top edge up; valley 9, between pleats 9 and 10, is the centre. You stitch from left to right as you hold the work. "
                + "Where it says turned, hold the work with its bottom edge up: pleats keep their numbers, and levels are given as you then hold it. "
                + "For an up cable the thread is held above the needle, for a down cable below it.",
            "Baby wave, from gathering row 2 to half a space below gathering row 2",
            "A cable at each turn and one slanting stitch between turns; the thread is below the needle going up and above it going down. "
                + "One repeat is 4 valleys; 4 whole repeats fit, and both ends come out alike. On the back it leaves starts and tie-offs alone.",
            "Start at the centre, valley 9, with a new needleful of a (sail red, 4 strands); leave half of it hanging at the back. "
                + "From pleat 9 to pleat 18: an up cable; 1 step down, the thread above the needle; a down cable; 1 step up, the thread below the needle; and so on. Tie off.",
            "Level check: it lies on gathering row 2; keep a thread's width from the gathering thread all along.",
            "Turn the work, bottom edge up. Thread the half left hanging at the centre and go on from the centre stitch. "
                + "From pleat 9 to pleat 1, as held: 1 step up, the thread below the needle; an up cable; 1 step down, the thread above the needle; a down cable; and so on. Tie off.",
            "Level check: it lies on gathering row 2; keep a thread's width from the gathering thread all along.",
            "Turn the work back, top edge up.",
        ], lines);
    }

    [Fact]
    public void Backsmocking_comes_first_and_says_what_shows_from_the_back()
    {
        var directions = Directions.Write(Planner.Plan(Work.Lay(BandGen.Alone(BandGen.Band("outline"), 20, gatheringRows: 2))), LevelWords.UpDown);
        Assert.Equal("First, on the back", directions[1].Text);
        Assert.Equal("On the back, gathering row 1, from side to side: from pleat 20 to pleat 1, 19 cables in 1 needleful. Tie off.", directions[3].Text);
        Assert.Equal((DirectionKind.Step, "Turn the work over again, right side up, top edge up.", DirectionKind.Heading), (directions[3].Kind, directions[4].Text, directions[5].Kind));
    }

    [Fact]
    public void Left_handed_it_goes_the_other_way()
    {
        var piece = BandGen.Alone(BandGen.Band("outline"), 20, gatheringRows: 2) with { Working = new Working { Hand = Hand.Left } };
        var lines = Lines(piece);
        Assert.Contains(lines, l => l.Contains("from pleat 1 to pleat 20, 19 cables", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.Contains("From pleat 20 to pleat 1: 19 stitches", StringComparison.Ordinal));
    }

    [Fact]
    public void Held_sideways_the_words_are_left_and_right()
    {
        var lines = Lines(BandGen.Alone(BandGen.Band("wave"), 20), LevelWords.LeftRight);
        Assert.Contains(lines, l => l.Contains("a left cable; 1 step right, the thread left of the needle; a right cable; 1 step left", StringComparison.Ordinal));
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

    [GeneratedRegex(@"From pleat (\d+) to pleat (\d+)(?:, as held)?: (?!.* halfstitch)(?:an? (?:up|down) cable|\d+ (?:step|stitch|loop)|catch|slip|straight)")]
    private static partial Regex FromTo();
}
