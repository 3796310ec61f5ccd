using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Proof;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Proof;

public class SpreadPleatsTests
{
    // One panel of 40 in: 160 quarter inches, 154 pleats; neck 8 in. Row j of cables lies at radius 8/2π + j × 3/40 in.
    private static Work Bishop(int figureAtGatheringRow, int strands, string sweep = "360") => Work.Lay(PieceReader.Read($$"""
        { "pleatwright": 1,
          "cloth": { "form": "round", "neck": "8 in", "sweep": {{sweep}}, "panels": [ { "name": "all", "cut": "40 in" } ], "gatheringRows": 9 },
          "threads": { "r": { "colour": "#b3202c", "strands": {{strands}} } },
          "figures": { "bar": { "rows": ["rrrrrr", "rrrrrr", "rrrrrr", "rrrrrr"] } },
          "place": [ { "figure": "bar", "gatheringRow": {{figureAtGatheringRow}} } ] }
        """));

    [Fact]
    public void Stacked_rows_low_on_a_bishop_are_told_and_high_ones_are_not()
    {
        Assert.DoesNotContain(Proofreading.Read(Bishop(2, 4)), f => f.Rule == "spread-pleats");
        var told = Assert.Single(Proofreading.Read(Bishop(7, 4)), f => f.Rule == "spread-pleats");
        Assert.Equal(Severity.Warning, told.Severity);
        Assert.Equal((30, 33), (told.Row.Index, told.LastRow.Index));
        // Row 33: 2π (8/2π + 33 × 0.075) / 154 = 0.1529 in = 3.88 mm; the thread covers to 25.4/12 × C / 0.9.
        Assert.Contains("3.88 mm", told.Message);
    }

    // 20 pleats round a ball whose equator would hold 20.9: there, in the middle of the figure, they lie widest. By hand, as many
    // millimetres apart as π × 14.08 / 20; a row of 1.905 mm off the equator the sine of π/2 + 1.905/7.04 takes a twenty-seventh of that.
    [Fact]
    public void On_a_ball_the_widest_row_is_told_not_the_lowest()
    {
        var piece = Drawn.Piece(3, new string('.', 19), new string('.', 19), "......aaaaaaa......", "......aaaaaaa......", "......aaaaaaa......");
        var work = Work.Lay(piece with
        {
            Cloth = piece.Cloth with { Form = new Ball(Length.FromMillimetres(14.08)), GatheringRows = 3 },
            Threads = [Some.Floss('a', "#b3202c") with { TexPerStrand = 33 }],
        });
        Assert.Equal(20, work.Pleating.Pleats);
        var told = Assert.Single(Proofreading.Read(work), f => f.Rule == "spread-pleats");
        Assert.Equal((2, 4), (told.Row.Index, told.LastRow.Index));
        Assert.Contains("spread to 2.21 mm", told.Message);
    }

    [Fact]
    public void A_narrower_sweep_spreads_less()
    {
        // Of 30°, the same rows gain a twelfth of that: row 33 lies at (8 + 2π/12 × 33 × 0.075)/154 in = 1.53 mm.
        Assert.Equal(1.533, Bishop(7, 4, "30").Pleating.PitchAt(33).Millimetres, 3);
        Assert.DoesNotContain(Proofreading.Read(Bishop(7, 4, "30")), f => f.Rule == "spread-pleats");
    }

    [Fact]
    public void More_strands_mend_it()
    {
        var told = Assert.Single(Proofreading.Read(Bishop(7, 4)), f => f.Rule == "spread-pleats");
        Assert.NotNull(told.Mend);
        var mended = told.Mend.Apply(Bishop(7, 4).Piece);
        Assert.DoesNotContain(Proofreading.Read(Work.Lay(mended)), f => f.Rule == "spread-pleats");
    }

    [Fact]
    public void A_thread_too_thin_from_the_first_is_told_once_by_the_other_rule()
    {
        var findings = Proofreading.Read(Bishop(7, 2));
        Assert.DoesNotContain(findings, f => f.Rule == "spread-pleats");
        Assert.Contains(findings, f => f.Rule == "coverage");
    }

    [Fact]
    public void Coverage_falls_as_the_pitch_grows_and_meets_enough_at_the_widest()
    {
        var floss = new Floss(new ThreadKey('r'), "red", new Colour(0, 0, 0), 4);
        Length height = Gauge.Common.LineHeight, pitch = Gauge.Common.Pitch;
        Assert.Equal(Coverage.OfLine(floss, height), Coverage.AtPitch(floss, height, pitch, pitch), 12);
        Assert.Equal(Coverage.OfLine(floss, height), Coverage.AtPitch(floss, height, pitch, pitch / 2), 12);
        Assert.Equal(Coverage.OfLine(floss, height) / 2, Coverage.AtPitch(floss, height, pitch, pitch * 2), 12);
        Assert.Equal(Coverage.Enough, Coverage.AtPitch(floss, height, pitch, Coverage.WidestPitch(floss, height, pitch)), 12);
    }

    // Thread by the pitch of its row, and by the maker's factor.
    [Fact]
    public void Thread_follows_the_pitch_of_the_row_and_the_makers_hand()
    {
        var work = Bishop(7, 4);
        var wide = work.CableThread(new CableRow(33)).Millimetres;
        Assert.Equal(3 * work.Pleating.PitchAt(33).Millimetres + 9.525 / 10, wide, 9);
        var hand = Work.Lay(work.Piece with { Working = work.Piece.Working with { ThreadFactor = 1.2 } });
        Assert.Equal(1.2 * wide, hand.CableThread(new CableRow(33)).Millimetres, 9);
        Length Used(Work w) => Pleatwright.Order.Planner.Plan(w).ThreadUses()[0].Length - w.Piece.Working.Tails * Pleatwright.Order.Planner.Plan(w).Starts;
        Assert.InRange(Used(hand) / Used(work), 1.1, 1.2 + 1e-9); // carries are no stitches and keep their length
    }
}
