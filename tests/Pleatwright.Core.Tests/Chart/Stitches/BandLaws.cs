using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Tests.Chart.Stitches;

/// <summary>What holds of every stitch, however many pleats it is given.</summary>
public class BandLaws
{
    private static bool Crosses(Stitch stitch) => stitch.From.Pleat != stitch.To.Pleat;

    [Fact]
    public void Every_valley_between_the_ends_is_worked_once_in_each_journey() => BandGen.Laid.Sample(laid =>
    {
        var (first, last) = (laid.Fit.FirstWorked(laid.Band.Ends).Number, laid.Fit.LastWorked(laid.Band.Ends).Number);
        if (laid.Band.Ends == BandEnds.Cut) Assert.Equal((laid.Fit.First.Number, laid.Fit.Last.Number), (first, last));
        foreach (var journey in laid.Passes.GroupBy(p => (p.Row, p.Journey)))
            Assert.Equal(Enumerable.Range(first, last - first), journey.SelectMany(p => p.Stitches).Where(Crosses).Select(s => s.Valley.Number).Order());
    });

    [Fact]
    public void The_thread_goes_on_from_bite_to_bite() => BandGen.Laid.Sample(laid =>
    {
        foreach (var pass in laid.Passes)
            foreach (var (a, b) in pass.Stitches.Zip(pass.Stitches.Skip(1)))
            {
                Assert.Equal(a.To.Pleat, b.From.Pleat);
                if (a.Kind != StitchKind.Loop) Assert.Equal(a.To.Depth, b.From.Depth, 9);
            }
    });

    [Fact]
    public void Both_halves_mirror_each_other_height_for_height() => BandGen.Laid.Sample(laid =>
    {
        foreach (var journey in laid.Passes.GroupBy(p => (p.Row, p.Journey)))
        {
            var sum = laid.Fit.First.Number + laid.Fit.Last.Number - 1;
            var stitches = journey.SelectMany(p => p.Stitches).Where(s => Crosses(s) && s.Kind != StitchKind.Loop).ToDictionary(s => s.Valley.Number);
            foreach (var (valley, stitch) in stitches)
            {
                var other = stitches[sum - valley];
                Assert.Equal(LeftDepth(stitch), RightDepth(other), 9);
            }
        }
    });

    [Fact]
    public void Whole_repeats_begin_and_end_alike_and_leave_as_many_pleats_bare_at_each_side() => BandGen.Laid.Sample(laid =>
    {
        if (laid.Band.Ends != BandEnds.Whole || laid.Passes.IsEmpty) return;
        var fit = laid.Fit;
        Assert.Equal(fit.FirstWorked(BandEnds.Whole).Number - fit.First.Number, fit.Last.Number - fit.LastWorked(BandEnds.Whole).Number);
        var across = BandGen.Across(laid).Where(Crosses).ToArray();
        Assert.Equal(0, (across.Length - 1) % fit.Repeat);
        if (across[0].Kind == StitchKind.Over) Assert.True(across[0].IsLevel && across[^1].IsLevel);
        Assert.Equal(across[0].Level, across[^1].Level);
    });

    [Fact]
    public void Heights_stay_within_the_rows_of_the_band() => BandGen.Laid.Sample(laid =>
    {
        var height = laid.Stitch.HeightOf(laid.Band);
        if (laid.Stitch.Height is null || laid.Passes.IsEmpty) return;
        foreach (var pass in laid.Passes.Where(p => p is { Row: 0, Journey: 0 }))
        {
            var lowest = laid.Top + (height / 4.0);
            foreach (var stitch in pass.Stitches)
            {
                // of two journeys the one turned to the bottom lies a cable row lower
                Assert.InRange(stitch.From.Depth, laid.Top - 1e-9, lowest + 1.0 + 1e-9);
                if (laid.Stitch.Journeys(laid.Stitch.StepsOf(laid.Band), height).Length == 1) Assert.InRange(stitch.To.Depth, laid.Top - 1e-9, lowest + 1e-9);
            }
        }
    });

    [Fact]
    public void Upside_down_twice_is_the_same() => Gen.Select(BandGen.Bands, Gen.Int[1, 60]).Sample((band, half) =>
    {
        var stitch = BandStitch.Named(band.Stitch)!;
        var journeys = stitch.Journeys(stitch.StepsOf(band), stitch.HeightOf(band));
        var bottom = journeys.Max(j => j.Bottom);
        var place = new Leg(new Valley(half), 0, new Pleat(1), new Pleat(2 * half), false, false);
        foreach (var journey in journeys)
            Assert.Equal(journey.Work(place).Select(Rounded), journey.UpsideDown(bottom, 0).UpsideDown(bottom, journey.Drop).Work(place).Select(Rounded));
    });

    [Fact]
    public void Upside_down_swaps_every_level() => Gen.Select(BandGen.Bands, Gen.Int[1, 60]).Sample((band, half) =>
    {
        var plain = BandGen.Lay(band with { UpsideDown = false, Rows = 1 }, 2 * half);
        var upside = BandGen.Lay(band with { UpsideDown = true, Rows = 1 }, 2 * half);
        Assert.Equal(plain.Passes[0].Stitches.Select(s => s.Level.Opposite()), upside.Passes[0].Stitches.Select(s => s.Level));
    });

    [Fact]
    public void A_left_handed_maker_works_the_mirror_image() => Gen.Select(BandGen.Bands, Gen.Int[1, 60]).Sample((band, half) =>
    {
        LaidBand right = BandGen.Lay(band, 2 * half), left = BandGen.Lay(band, 2 * half, Hand.Left);
        Bite Mirrored(Bite bite) => bite with { Pleat = new Pleat(2 * half + 1 - bite.Pleat.Number) };
        Assert.Equal(right.Passes.Length, left.Passes.Length);
        foreach (var (r, l) in right.Passes.Zip(left.Passes))
            Assert.Equal(r.Stitches.Select(s => Rounded(s with { From = Mirrored(s.From), To = Mirrored(s.To) })), l.Stitches.Select(Rounded));
    });

    [Fact]
    public void Worked_from_the_centre_the_far_half_is_turned_and_goes_on_from_the_centre_stitch() => BandGen.Laid.Sample(laid =>
    {
        if (laid.Stitch.StartOf(laid.Band) != WorkFrom.Centre) return;
        foreach (var pass in laid.Passes)
        {
            Assert.Equal(pass.Turned, pass.GoesOn);
            var before = laid.Passes.First(p => p.Row == pass.Row && p.Journey == pass.Journey);
            Assert.Equal(laid.Fit.Centre, before.Stitches[0].Valley);
            Assert.Equal(before.Stitches[0].From.Pleat, pass.Stitches[0].From.Pleat);
        }
    });

    [Fact]
    public void The_thread_is_below_while_a_wave_rises_and_above_while_it_falls() => BandGen.Laid.Sample(laid =>
    {
        foreach (var stitch in laid.Passes.SelectMany(p => p.Stitches))
            if (stitch.Kind == StitchKind.Over && !stitch.IsLevel) Assert.Equal(stitch.Rises ? Level.Down : Level.Up, stitch.Level);
    });

    // As held: a turned pass is seen upside down, slope and level both.
    [Fact]
    public void Turned_or_not_the_hands_hold_the_thread_below_while_the_stitches_rise() => BandGen.Laid.Sample(laid =>
    {
        foreach (var pass in laid.Passes)
            foreach (var stitch in pass.Stitches.Where(s => s is { Kind: StitchKind.Over, IsLevel: false }))
            {
                var heldRises = stitch.Rises != pass.Turned;
                var heldLevel = pass.Turned ? stitch.Level.Opposite() : stitch.Level;
                Assert.Equal(heldRises ? Level.Down : Level.Up, heldLevel);
            }
    });

    [Fact]
    public void Steps_offered_instead_use_every_pleat_in_whole_repeats() => Gen.Select(BandGen.Bands, Gen.Int[1, 90]).Sample((band, half) =>
    {
        var stitch = BandStitch.Named(band.Stitch)!;
        foreach (var steps in BandFit.Of(stitch, band, 2 * half).StepsThatFit(stitch, band))
            Assert.True(BandFit.Of(stitch, band with { Steps = steps }, 2 * half) is { IsExact: true, Repeats: > 0 });
    });

    [Fact]
    public void Pleats_offered_instead_fit_whole_repeats() => Gen.Select(BandGen.Bands, Gen.Int[1, 90]).Sample((band, half) =>
    {
        var stitch = BandStitch.Named(band.Stitch)!;
        var fit = BandFit.Of(stitch, band, 2 * half);
        Assert.True(BandFit.Of(stitch, band, fit.More) is { IsExact: true, EndsAlike: true });
        Assert.True(BandFit.Of(stitch, band, fit.Fewer) is { IsExact: true, EndsAlike: true });
        Assert.True(fit.More >= fit.Pleats);
        Assert.True(fit.Fewer <= fit.Pleats || fit.Repeats == 0);
        Assert.Equal(fit.Pleats, fit.Repeats * fit.Repeat + 2 + fit.Spare);
    });

    // Two journeys close under each other touch and do not lie over each other.
    [Fact]
    public void Repeated_rows_of_running_stitches_lie_side_by_side() => BandGen.Laid.Sample(laid =>
    {
        if (laid.Stitch.Name is "crossed trellis") return;
        var seen = new Dictionary<(int, int), List<double>>();
        foreach (var pass in laid.Passes)
            foreach (var stitch in pass.Stitches.Where(s => s is { Kind: StitchKind.Over, IsLevel: true }))
            {
                var line = stitch.From.Depth + (stitch.Level == Level.Up ? -0.25 : 0.25) / 9;
                if (!seen.TryGetValue((stitch.Valley.Number, 0), out var lines)) seen[(stitch.Valley.Number, 0)] = lines = [];
                Assert.All(lines, other => Assert.True(Math.Abs(other - line) > 0.5 / 9 - 1e-9));
                lines.Add(line);
            }
    });

    // Sums of fractions come out a hair apart.
    private static Stitch Rounded(Stitch stitch) => stitch with
    {
        From = stitch.From with { Depth = Math.Round(stitch.From.Depth, 9) },
        To = stitch.To with { Depth = Math.Round(stitch.To.Depth, 9) },
    };

    private static double LeftDepth(Stitch stitch) => stitch.From.Pleat.Number < stitch.To.Pleat.Number ? stitch.From.Depth : stitch.To.Depth;

    private static double RightDepth(Stitch stitch) => stitch.From.Pleat.Number < stitch.To.Pleat.Number ? stitch.To.Depth : stitch.From.Depth;
}
