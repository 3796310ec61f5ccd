using System.Text.RegularExpressions;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Plate.Writers;
using Pleatwright.Tests.Chart.Stitches;

namespace Pleatwright.Tests.Order;

/// <summary>Sentences that a stranger read two ways, each as it may not stand again. docs/directions.md has the words.</summary>
public partial class OneMeaningTests
{
    private static readonly Lazy<WorkingOrder[]> Examples = new(() => [.. Repository.Examples.Select(f => Planner.Plan(Work.Lay(PieceReader.Read(File.ReadAllBytes(f))), Effort.Drawing))]);

    private static IEnumerable<string> Long(LevelWords words) => Examples.Value.SelectMany(o => Directions.Write(o, words)).Select(d => d.Text);

    private static IEnumerable<string> Table(LevelWords words) => Examples.Value.Select(o => DirectionsText.Of(Directions.Table(o, words)));

    private static string[] Say(Piece piece, LevelWords words = LevelWords.UpDown) => [.. Directions.Write(Planner.Plan(Work.Lay(piece)), words).Select(d => d.Text)];

    // "every pleat 27 further right" where the work is turned, "up and down change places" beside "left and right".
    [Fact]
    public void A_copy_lies_about_its_own_centre_and_its_levels_are_told_cable_by_cable()
    {
        foreach (var (words, told) in new[] { (LevelWords.UpDown, "up and down swapped"), (LevelWords.LeftRight, "left and right swapped") })
        {
            var all = string.Concat(Table(words).Concat(Long(words)));
            Assert.Contains(told, all);
            Assert.DoesNotContain("further", all);
            Assert.DoesNotContain("change places", all);
        }
    }

    // Held sideways, "left" is a level and no side: "left half stitch" at the right end, "3 steps right" while the work goes left.
    [Fact]
    public void Held_sideways_a_level_has_no_word_in_common_with_a_side_or_the_way_along_a_row()
    {
        foreach (var text in Long(LevelWords.LeftRight).Concat(Table(LevelWords.LeftRight)))
        {
            Assert.DoesNotMatch(@"left of the centre|right of the centre|from left to right|from right to left|to L\b|to R\b|\d L\b|\d R\b", text);
            Assert.DoesNotMatch(@"\bup\b|\bdown\b|\babove\b|\bbelow\b", text.Replace("right side up", "").Replace("wrong side up", "").Replace("Take up", "").Replace("taking up", "").Replace("takes up", ""));
        }
        Assert.Contains(Long(LevelWords.LeftRight), t => t.Contains("For a left cable the thread is left of the needle, for a right cable right of the needle", StringComparison.Ordinal));
    }

    // "row" for the row of a band, the other height of a honeycomb, and "1 space" beside "5 rows" for one distance.
    [Fact]
    public void A_row_is_a_cable_row_or_a_gathering_row_and_every_carry_is_counted_in_cable_rows()
    {
        var band = BandGen.Alone(BandGen.Band("diamond") with { Rows = 2 }, 30);
        foreach (var text in Long(LevelWords.UpDown).Concat(Say(band)))
        {
            Assert.DoesNotMatch(@"[Rr]ow \d+ of \d|other row|two rows|(?<!cable) rows? (above|below)|space along|(?<!cable )rows along", text);
            foreach (Match carry in Carried().Matches(text)) Assert.Matches(@"^carried on the back( [\d.]+ cable rows? along the pleat)?( and)?( \d+ pleats? sideways|, then cabled across \d+ pleats)?$", carry.Value);
        }
        Assert.Contains(Say(band), t => t.Contains("Diamond, time 2 of 2, journey 1 of 2,", StringComparison.Ordinal));
    }

    [GeneratedRegex("carried on the back[^.]*?(?=[.][ ]|$)")]
    private static partial Regex Carried();

    // "That is 11 cables of this row, in 2 parts" of a row of 15 in 3.
    [Fact]
    public void The_count_of_a_row_is_of_all_of_it_or_is_not_told() => OrderGen.Pieces.Sample(piece =>
    {
        var order = Planner.Plan(Work.Lay(piece), Effort.Drawing);
        foreach (var count in Teller.Of(order, once: false).OfType<RowCount>())
        {
            var (cables, runs) = (0, 0);
            for (var r = 0; r < order.Work.Runs.Length; r++)
            {
                if (order.Work.Runs[r].Row != count.Step.Row || order.Parts.Of(r) != order.Parts.Of(count.Step.RunIndex)) continue;
                cables += order.Work.Runs[r].Cables;
                runs++;
            }
            Assert.Equal((cables, runs), (count.Cables, count.Runs));
        }
    }, iter: Endurance.Long.Of(60, 2_000));

    // Half stitches were told of and never explained, and their levels came before it was said that levels are as held.
    [Fact]
    public void Half_stitches_are_explained_before_the_first_and_levels_are_as_held_from_the_first_word()
    {
        var said = Say(OrderGen.PieceOf(["aaaa", "aaaa"], new Working(), square: true));
        Assert.Contains("Every side, level and way is told as you hold the work. A half stitch squares the end of a run", said[0]);
        Assert.DoesNotContain("half stitch", Say(OrderGen.PieceOf(["aaaa", "aaaa"], new Working()))[0]);
        Assert.All(said.Skip(1), t => Assert.DoesNotContain("as held", t));
    }

    // "downward from gathering row 3" over "3 rows above gathering row 3".
    [Fact]
    public void Headings_and_steps_tell_a_row_from_a_gathering_row_toward_an_edge()
    {
        foreach (var text in Long(LevelWords.UpDown)) Assert.DoesNotMatch(@"upward|downward|(above|below) gathering", text);
        Assert.Contains(Long(LevelWords.UpDown), t => t.EndsWith(": from the base row toward the top edge", StringComparison.Ordinal));
        Assert.Contains(Long(LevelWords.UpDown), t => t.Contains("Row 14, 1 cable row from gathering row 4 toward the top edge, turned.", StringComparison.Ordinal));
    }

    // Two red threads hang, and which is meant is told by a step's number alone; in a copy that number was of the first.
    [Fact]
    public void A_thread_taken_up_is_told_by_the_place_where_it_hangs_and_copies_say_how_their_steps_go_on()
    {
        foreach (var text in Long(LevelWords.UpDown))
            foreach (Match taken in Hanging().Matches(text)) Assert.Matches(@"^left hanging after step \d+, (\d+ (left|right) of the centre|on the centre)", taken.Value);
        Assert.Contains(Table(LevelWords.UpDown), t => t.Contains("r hung by 5 at 70 R", StringComparison.Ordinal));
        Assert.Contains(Table(LevelWords.UpDown), t => t.Contains("Steps go on by 7 from one figure to the next, and so does every step that a line names; steps named beside a centre are as they are.", StringComparison.Ordinal));
    }

    [GeneratedRegex("left hanging after step .*")]
    private static partial Regex Hanging();

    // A cycle cut before it came round, then "and so on".
    [Fact]
    public void A_pattern_says_how_often_it_comes_and_nothing_goes_on_by_itself() => BandGen.Pieces.Sample(piece =>
    {
        foreach (var text in Say(piece))
        {
            Assert.DoesNotContain("so on", text);
            Assert.DoesNotContain("earlier needleful", text);
        }
    }, iter: Endurance.Long.Of(40, 1_000));

    // "was to be run 3 of the order" beside numbered steps.
    [Fact]
    public void A_place_that_cannot_be_kept_is_counted_among_the_runs_and_says_so()
    {
        var said = Say(OrderGen.PieceOf(["aaaa"], new Working { Places = [new(new CableRow(8), new Valley(30), 999)] }));
        Assert.Contains(said, t => t.StartsWith("The run over the valley on the centre, row 8,", StringComparison.Ordinal)
            && t.Contains("was to be number 999 among the runs, where a run worked with several threads counts once.", StringComparison.Ordinal));
    }

    // Read aloud by one who had not seen the charts: "start" left open which starts are rests and which lengths are cut longer.
    [Fact]
    public void What_each_figure_worked_alike_begins_with_is_told()
    {
        foreach (var start in new[] { @"\d+ to \d+ +(between|pleat) .* step \d+ starts with the rest of \d+", @"\d+ to \d+ +(between|pleat) .* step \d+ starts with a longer length" })
            Assert.Contains(Table(LevelWords.UpDown), t => Regex.IsMatch(t.ReplaceLineEndings(" "), start));
        Assert.Contains(Table(LevelWords.UpDown), t => t.Contains("s, “swell blue”", StringComparison.Ordinal));
    }

    // How a thread is secured was not said, nor that a length is to be cut longer than usual.
    [Fact]
    public void Starts_are_secured_and_a_longer_length_is_told_where_it_is_cut()
    {
        Assert.Contains(Long(LevelWords.UpDown), t => t.Contains("Secure a new thread, or a rest, on the back with two small stitches through the first pleat, never in a valley;", StringComparison.Ordinal));
        Assert.Contains(Say(OrderGen.PieceOf([new string('a', 55)], new Working { WorkingLength = Length.FromCentimetres(45.72) })), t => t.Contains("Start with a new needleful of a, “sail red”, 4 strands, cut 4 cm (1 5/8 in) longer.", StringComparison.Ordinal));
    }
}
