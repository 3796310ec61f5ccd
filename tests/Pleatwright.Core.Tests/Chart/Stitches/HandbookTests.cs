using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Chart.Stitches;

/// <summary>
/// Each stitch as a handbook describes it. "1916": a clothing-construction textbook for home economics, c. 1916, section
/// "Smocking", Fig. 253. "1911": Educational Needlecraft, 1911, "Smocking". The rest is common practice, no source.
/// </summary>
public class HandbookTests
{
    private static string Levels(IEnumerable<Stitch> stitches) => string.Concat(stitches.Select(s => s.Level == Level.Up ? 'U' : 'D'));

    private static double[] Quarters(LaidBand laid, IEnumerable<Stitch> stitches) => [.. stitches.Select(s => Math.Round((s.To.Depth - laid.Top) * 4, 6))];

    [Fact] // 1916: the thread drops below the needle, one plait taken up in each stitch
    public void Outline_has_the_thread_below_all_along()
    {
        var laid = BandGen.Lay(BandGen.Band("outline"), 10);
        Assert.Equal("DDDDDDDDD", Levels(laid.Passes[0].Stitches));
        Assert.All(laid.Passes[0].Stitches, s => Assert.True(s.IsLevel && s.To.Pleat.Number - s.From.Pleat.Number == 1));
    }

    [Fact] // 1916: below for the first stitch, above for the second, below for the third
    public void Cable_reverses_the_thread_with_each_stitch()
    {
        var run = Assert.Single(Work.Lay(BandGen.Alone(BandGen.Band("cable"), 20)).Runs.ToArray());
        Assert.Equal(19, run.Cables);
        for (var v = 2; v <= 19; v++) Assert.NotEqual(run.LevelAt(new Valley(v - 1)), run.LevelAt(new Valley(v)));
    }

    [Fact] // 1916: another row of single cable close under the first, the thread reversed in the opposite order
    public void Double_cable_is_worked_in_the_opposite_order()
    {
        var runs = Work.Lay(BandGen.Alone(BandGen.Band("cable") with { Rows = 2 }, 20)).Runs.ToArray();
        Assert.Equal([5, 6], runs.Select(r => r.Row.Index));
        for (var v = 1; v <= 19; v++) Assert.NotEqual(runs[0].LevelAt(new Valley(v)), runs[1].LevelAt(new Valley(v)));
    }

    // 1916: four outline stitches rising with the thread below; the thread reversed, the first stitch exactly beside the
    // fourth, four falling with the thread above; and so on, the last of one line and the first of the next side by side.
    [Fact]
    public void Wave_of_three_steps_is_four_up_and_four_down()
    {
        var band = BandGen.Band("wave") with { Steps = 3, Height = 3, WorkFrom = WorkFrom.Side };
        var laid = BandGen.Lay(band, 8 * 3 + 2);
        var stitches = laid.Passes[0].Stitches;
        Assert.True(laid.Fit.IsExact);
        Assert.Equal("DDDDUUUUDDDDUUUUDDDDUUUUD", Levels(stitches));
        Assert.Equal([3, 2, 1, 0, 0, 1, 2, 3, 3, 2, 1, 0, 0, 1, 2, 3, 3], Quarters(laid, stitches.Take(17)));
    }

    [Fact] // 1916: a second group of waves below the first, so that the lower and upper angles of the two meet
    public void Diamond_is_two_waves_whose_angles_meet()
    {
        var laid = BandGen.Lay(BandGen.Band("diamond"), 18);
        Stitch[] Turns(int journey, Level level) => [.. laid.Passes.Where(p => p.Journey == journey).SelectMany(p => p.Stitches).Where(s => s.IsLevel && s.Level == level).OrderBy(s => s.Valley)];
        Stitch[] upper = Turns(0, Level.Down), lower = Turns(1, Level.Up);
        Assert.NotEmpty(upper);
        Assert.Equal(upper.Select(s => s.Valley), lower.Select(s => s.Valley));
        // one cable row apart: the down cable's lower line and the up cable's upper line touch
        foreach (var (u, l) in upper.Zip(lower)) Assert.Equal(0.2, l.From.Depth - u.From.Depth, 9);
    }

    // 1911: two folds caught together by two small stitches, the needle then directed along underneath one of the folds
    // about half an inch, and this fold and the next caught together in like manner; gauging rows 1/2 to 3/4 in apart.
    [Fact]
    public void Honeycomb_catches_twice_and_slips_along_the_fold()
    {
        var laid = BandGen.Lay(BandGen.Band("honeycomb"), 12);
        var stitches = laid.Passes[0].Stitches;
        for (var i = 0; i + 2 < stitches.Length; i += 2)
        {
            Assert.Equal((StitchKind.Catch, StitchKind.Slip), (stitches[i].Kind, stitches[i + 1].Kind));
            Assert.Equal(stitches[i].To.Pleat, stitches[i + 1].From.Pleat);
            Assert.Equal(stitches[i + 1].To, stitches[i + 2].From);
            var slip = Length.FromInches(0.5) * stitches[i + 1].Drop;
            Assert.Equal(Length.FromInches(0.5).Millimetres, slip.Millimetres, 9);
        }
    }

    [Fact] // 1911: feather, each stitch taking up one single fold
    public void Feather_takes_up_one_fold_in_each_stitch()
    {
        var laid = BandGen.Lay(BandGen.Band("feather"), 12);
        var stitches = laid.Passes[0].Stitches;
        Assert.All(stitches, s => Assert.Equal((StitchKind.Loop, -1), (s.Kind, s.To.Pleat.Number - s.From.Pleat.Number)));
        Assert.Equal(Enumerable.Range(2, 11).Reverse(), stitches.Select(s => s.From.Pleat.Number));
        // by turns slanting down from the top and up from the bottom, never past the middle
        Assert.All(stitches.Zip(stitches.Skip(1)), pair => Assert.NotEqual(pair.First.Rises, pair.Second.Rises));
    }

    [Fact] // common practice, no source
    public void Wheat_is_outline_with_the_thread_below_and_close_under_it_outline_with_it_above()
    {
        var laid = BandGen.Lay(BandGen.Band("wheat"), 8);
        Assert.Equal(["DDDDDDD", "UUUUUUU"], laid.Passes.Select(p => Levels(p.Stitches)));
        Assert.Equal(0.2, laid.Passes[1].Stitches[0].From.Depth - laid.Passes[0].Stitches[0].From.Depth, 9);
    }

    [Fact] // common practice, no source
    public void Baby_wave_repeats_every_four_valleys_over_half_a_space()
    {
        var laid = BandGen.Lay(BandGen.Band("baby wave") with { WorkFrom = WorkFrom.Side }, 18);
        Assert.Equal(4, laid.Fit.Repeat);
        Assert.Equal("UUDDUUDDUUDDUUDDU", Levels(laid.Passes[0].Stitches));
        Assert.Equal([0, 2, 2, 0, 0, 2, 2, 0], Quarters(laid, laid.Passes[0].Stitches.Take(8)));
    }

    [Fact] // common practice, no source
    public void Trellis_of_four_steps_goes_down_a_quarter_space_at_a_time()
    {
        var laid = BandGen.Lay(BandGen.Band("trellis"), 22);
        Assert.Equal("UUUUUDDDDDU", Levels(laid.Passes[0].Stitches));
        Assert.Equal([0, 1, 2, 3, 4, 4, 3, 2, 1, 0, 0], Quarters(laid, laid.Passes[0].Stitches));
    }

    [Fact] // common practice, no source
    public void Crossed_trellis_has_a_top_turn_over_every_bottom_turn()
    {
        var laid = BandGen.Lay(BandGen.Band("crossed trellis"), 42);
        Valley[] Turns(int journey, Level level) => [.. laid.Passes.Where(p => p.Journey == journey).SelectMany(p => p.Stitches).Where(s => s.IsLevel && s.Level == level).Select(s => s.Valley).Order()];
        Assert.Equal(Turns(0, Level.Up), Turns(1, Level.Down));
        Assert.Equal(Turns(0, Level.Down), Turns(1, Level.Up));
    }

    [Fact] // common practice, no source
    public void Surface_honeycomb_goes_straight_down_and_up_between_its_cables()
    {
        var stitches = BandGen.Lay(BandGen.Band("surface honeycomb"), 8).Passes[0].Stitches;
        Assert.Equal("DDUUDDUUDDUUD", Levels(stitches));
        Assert.Equal("OBOBOBOBOBOBO", string.Concat(stitches.Select(s => s.Kind.ToString()[0])));
        Assert.All(stitches.Where(s => s.Kind == StitchKind.Bar), s => Assert.Equal(s.From.Pleat, s.To.Pleat));
    }

    [Fact] // common practice, no source
    public void Vandyke_catches_two_pleats_and_goes_along_the_pleat_ahead_from_right_to_left()
    {
        var stitches = BandGen.Lay(BandGen.Band("vandyke"), 8).Passes[0].Stitches;
        Assert.Equal("CBCBCBCBCBCBC", string.Concat(stitches.Select(s => s.Kind.ToString()[0])));
        Assert.Equal(8, stitches[0].From.Pleat.Number);
        Assert.Equal(1, stitches[^1].To.Pleat.Number);
    }
}
