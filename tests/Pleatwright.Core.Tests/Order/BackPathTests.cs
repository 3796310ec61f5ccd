using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Tests.Chart.Stitches;

namespace Pleatwright.Tests.Order;

public class BackPathTests
{
    [Fact]
    public void Every_start_carry_and_tie_off_is_drawn_where_the_needle_passes() => OrderGen.Pieces.Sample(piece =>
    {
        var order = Planner.Plan(Work.Lay(piece));
        var paths = order.BackPaths();
        Assert.Equal(order.Starts, paths.Count(p => p.Kind == BackPathKind.Start));
        Assert.Equal(order.Starts, paths.Count(p => p.Kind == BackPathKind.TieOff));
        Assert.Equal(order.Steps.Length - order.Starts, paths.Count(p => p.Kind == BackPathKind.Carry));
        foreach (var path in paths)
        {
            var step = order.Steps[path.Step - 1];
            var run = order.Work.Runs[step.RunIndex];
            Assert.All(path.Points, p => Assert.InRange(p.Pleat, 0.5, order.Work.Pleating.Pleats + 0.5));
            if (path.Kind == BackPathKind.TieOff)
            {
                Assert.Equal(step.To.Number + 0.5, path.Points[0].Pleat);
                Assert.All(path.Points, p => Assert.InRange(p.Pleat, run.From.Number - 0.5, run.To.Number + 1.5));
            }
            else
            {
                Assert.Equal(step.From.Number + 0.5, path.Points[^1].Pleat);
                Assert.InRange(path.Points[^1].Row, step.Row.Index, step.Row.Index + 1);
            }
            if (path.Kind == BackPathKind.Carry)
            {
                Assert.Equal(Math.Abs(step.CarriedPleats), Math.Abs(path.Points[^1].Pleat - path.Points[0].Pleat));
                for (var i = 1; i < path.Points.Length; i++)
                    Assert.True(path.Points[i].Pleat == path.Points[i - 1].Pleat || path.Points[i].Row == path.Points[i - 1].Row);
            }
        }
    }, iter: 60);

    [Fact]
    public void Every_start_carry_and_tie_off_of_the_bands_is_drawn() => BandGen.Pieces.Sample(piece =>
    {
        var order = Planner.Plan(Work.Lay(piece));
        var paths = BackPath.OfBands(order);
        Assert.Equal(order.Bands.Starts + order.Bands.Accents.Length, paths.Count(p => p.Kind == BackPathKind.Start));
        Assert.Equal(order.Bands.Steps.Count(s => s.TieOff) + order.Bands.Accents.Length, paths.Count(p => p.Kind == BackPathKind.TieOff));
        Assert.Equal(order.Bands.Steps.Count(s => s.Thread == BandThread.Carry), paths.Count(p => p.Kind == BackPathKind.Carry));
        Assert.All(paths.SelectMany(p => p.Points), p => Assert.InRange(p.Pleat, 0.5, order.Work.Pleating.Pleats + 0.5));
        Assert.All(paths, p => Assert.NotNull(piece.Thread(p.Thread)));
        // a thread starts in the valley of its first stitch and is tied off in that of its last
        var starts = paths.Where(p => p.Kind == BackPathKind.Start).Select(p => p.Points[^1].Pleat);
        Assert.Equal(order.Bands.Steps.Where(s => s.Starts).Select(ValleyOf), starts.Take(order.Bands.Starts));

        static double ValleyOf(BandStep step) => step.Begin.From.Pleat == step.Begin.To.Pleat
            ? step.Begin.From.Pleat.Number + 0.5 * Math.Sign(step.End.To.Pleat.Number - step.Begin.From.Pleat.Number)
            : step.Begin.Valley.Number + 0.5;
    }, iter: 60);
}
