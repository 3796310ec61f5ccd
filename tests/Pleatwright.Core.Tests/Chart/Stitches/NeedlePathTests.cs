using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Thread;
using Pass = Pleatwright.Chart.Stitches.Pass;

namespace Pleatwright.Tests.Chart.Stitches;

public class NeedlePathTests
{
    private static readonly Gen<(Pass Pass, int Way)> Passes = Gen.Select(Gen.OneOf([.. BandStitch.All]), Gen.Int[2, 12], Gen.Bool, Gen.Bool, Gen.Enum<WorkFrom>())
        .SelectMany((stitch, half, left, upsideDown, from) =>
        {
            var band = new Band(stitch.Name, new GatheringRow(2), new ThreadKey('r')) { UpsideDown = upsideDown, WorkFrom = from };
            var laid = LaidBand.Lay(0, band, stitch, 2 * half, 5, left ? Hand.Left : Hand.Right);
            return Gen.OneOf([.. laid.Passes]).Select(p => (p, Math.Sign(p.Stitches[^1].To.Pleat.Number - p.Stitches[0].From.Pleat.Number)));
        });

    private static List<NeedlePoint> Path(Pass pass) => [.. NeedlePath.Of(pass, 5).Select(p => p.Point)];

    // The thread comes up in the valley between the first two pleats and leaves the outer side of the first (trade: so the first stitch starts like all the rest).
    [Fact]
    public void A_row_begins_as_rows_begin() => Passes.Where(p => p.Way != 0).Sample(p =>
    {
        var path = Path(p.Pass);
        var pleat = p.Pass.Stitches[0].From.Pleat.Number;
        Assert.Equal((true, p.Way > 0 ? pleat : pleat - 1.0), (path[0].Up, path[0].At.Across));
        if (p.Pass.Stitches[0].Kind == StitchKind.Loop) return;
        Assert.Equal((false, path[0].At), (path[1].Up, path[1].At));
        Assert.Equal((true, p.Way > 0 ? pleat - 1.0 : pleat), (path[2].Up, path[2].At.Across));
    });

    [Fact]
    public void The_needle_comes_up_and_goes_in_by_turns() => Passes.Sample(p =>
    {
        var path = Path(p.Pass);
        Assert.Equal(path.Select((_, i) => i % 2 == 0), path.Select(n => n.Up));
        Assert.True(path[^1].Up); // from where it is tied off, in the valley before the last pleat
    });

    // Inside the cloth the needle goes through one pleat against the way of travel; a back stitch through two, and a loop through two along the way.
    [Fact]
    public void A_bite_goes_through_its_pleat_against_the_way() => Passes.Where(p => p.Way != 0).Sample(p =>
    {
        var path = NeedlePath.Of(p.Pass, 5).ToList();
        for (var i = 1; i < path.Count; i++)
        {
            if (path[i - 1].Point.Up) continue;
            var moved = (path[i].Point.At.Across - path[i - 1].Point.At.Across) * p.Way;
            var kind = p.Pass.Stitches[path[i].Stitch].Kind;
            if (kind == StitchKind.Loop) Assert.Equal(2, moved);
            else if (kind == StitchKind.Catch) Assert.Contains(moved, (double[])[-1, -2]);
            else Assert.Equal(-1, moved);
            // along the row, but for a slip inside a fold and a slanting loop
            if (kind is not (StitchKind.Slip or StitchKind.Loop)) Assert.Equal(path[i - 1].Point.At.Down, path[i].Point.At.Down);
        }
    });

    // What lies on the front between where the needle came up and where it goes in again is what the chart draws: over both pleats of a cable, over the pleat of a bar.
    [Fact]
    public void The_thread_on_the_front_is_what_the_chart_draws() => Passes.Sample(p =>
    {
        var path = NeedlePath.Of(p.Pass, 5).ToList();
        var shapes = StitchDrawing.OfStitches(p.Pass, 5).ToLookup(s => s.Stitch, s => s.Shape);
        for (var i = 1; i < path.Count; i++)
        {
            if (path[i].Point.Up || path[i].Point.At == path[i - 1].Point.At || p.Pass.Stitches[path[i].Stitch].Kind != StitchKind.Over) continue;
            var shape = shapes[path[i].Stitch].Single();
            Assert.Equal((shape.From.Across, shape.To.Across), (path[i - 1].Point.At.Across, path[i].Point.At.Across));
            Assert.InRange(Math.Abs(shape.From.Down - path[i - 1].Point.At.Down), 0, 0.5);
            Assert.InRange(Math.Abs(shape.To.Down - path[i].Point.At.Down), 0, 0.5);
        }
    });

    [Fact]
    public void A_point_lies_at_the_edge_of_the_pleat_it_goes_through() => Passes.Sample(p => Assert.All(Path(p.Pass), n =>
    {
        Assert.Contains(n.Toward, (int[])[-1, 1]);
        Assert.Equal(Math.Round(n.At.Across), n.At.Across);
    }));

    [Fact]
    public void An_accents_way_lies_on_the_accent() => Gen.Select(Gen.OneOf([.. Accent.All]), Gen.Bool, Gen.Bool).Sample((accent, upright, left) =>
    {
        var mark = new AccentMark(accent.Name, Centre.Middle, new GatheringRow(3), new ThreadKey('r')) { Upright = upright && accent.Size is not null };
        var laid = new LaidAccent(0, mark, accent, new Valley(10), 2);
        var path = accent.Needle(laid, Gauge.Common, left ? Hand.Left : Hand.Right).ToList();
        Assert.Equal(path.Select((_, i) => i % 2 == 0), path.Select(n => n.Up));
        var shapes = accent.Shapes(laid, Gauge.Common).ToList();
        Assert.All(path, n =>
        {
            Assert.InRange(n.At.Across, shapes.Min(s => Math.Min(s.From.Across, s.To.Across)) - 0.5, shapes.Max(s => Math.Max(s.From.Across, s.To.Across)) + 0.5);
            Assert.InRange(n.At.Down, shapes.Min(s => Math.Min(s.From.Down, s.To.Down)) - 2.5, shapes.Max(s => Math.Max(s.From.Down, s.To.Down)) + 2.5);
        });
    });

    [Fact]
    public void Either_hand_works_a_flowerette_its_own_way()
    {
        var accent = new Flowerette();
        var laid = new LaidAccent(0, new AccentMark(accent.Name, Centre.Middle, new GatheringRow(3), new ThreadKey('r')), accent, new Valley(10), 2);
        var right = accent.Needle(laid, Gauge.Common, Hand.Right).ToList();
        var left = accent.Needle(laid, Gauge.Common, Hand.Left).ToList();
        Assert.Equal(right.Select(n => n with { At = n.At with { Across = 20 - n.At.Across }, Toward = -n.Toward }), left);
        Assert.Equal(9, right[0].At.Across);
    }
}
