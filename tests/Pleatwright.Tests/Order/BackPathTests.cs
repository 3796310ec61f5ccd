using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Order;

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
}
