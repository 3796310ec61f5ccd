using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;

namespace Pleatwright.Tests.Chart.Edit;

public class PinningTests
{
    [Fact]
    public void A_run_is_fixed_moved_and_let_go()
    {
        var piece = new Piece("", new ClothPlan(new Panel(Gauge.Common.Pitch * 40), Gauge.Common, 4), PieceGen.Threads, [new Figure("f", ["aaaaaaa", ".aaaaa.", "..aaa.."])],
            [new Placement("f", Centre.Middle, new GatheringRow(2), 0)]);
        var work = Work.Lay(piece);
        Run first = work.Runs[0], second = work.Runs[1];
        var pinned = Pinning.Fix(Pinning.Fix(piece, first, 2), second, 3);
        Assert.Equal((2, 3), (Pinning.PlaceOf(pinned, first), Pinning.PlaceOf(pinned, second)));
        var moved = Pinning.Fix(pinned, first, 3); // takes the place of the other
        Assert.Equal((3, null), (Pinning.PlaceOf(moved, first), Pinning.PlaceOf(moved, second)));
        Assert.Empty(Pinning.Free(moved, first).Working.Places);
        Assert.Throws<ArgumentOutOfRangeException>(() => Pinning.Fix(piece, first, 0));
        var order = Pleatwright.Order.Planner.Plan(Work.Lay(Pinning.Fix(piece, work.Runs[2], 1)));
        Assert.Equal((first.Row.Index + 2, 1), (order.Steps[0].Row.Index, order.PlaceOf(order.Steps[0])));
    }
}
