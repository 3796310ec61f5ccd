using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Tests.Endurance;

namespace Pleatwright.Tests.Order;

/// <summary>An order planned in one place and read in another is the very one.</summary>
public class OrderTextTests
{
    [Fact]
    public void What_is_read_is_what_was_planned() => OrderGen.Pieces.Sample(piece =>
    {
        var work = Work.Lay(piece);
        var order = Planner.Plan(work, Effort.Plate);
        var read = OrderText.Read(Work.Lay(piece), OrderText.Write(order));
        Assert.NotNull(read);
        Assert.Equal(order.Steps, read.Steps);
        Assert.Equal((order.Starts, order.Turns, order.TurnsInAll, order.Needlefuls, order.LowerBoundStarts, order.Effort, order.Way, order.BaseRow),
            (read.Starts, read.Turns, read.TurnsInAll, read.Needlefuls, read.LowerBoundStarts, read.Effort, read.Way, read.BaseRow));
        Assert.Equal((order.Carried, order.CarriedInAll, order.LongestWaitRows), (read.Carried, read.CarriedInAll, read.LongestWaitRows));
        Assert.Equal(Directions.Write(order, LevelWords.UpDown).Select(d => d.Text), Directions.Write(read, LevelWords.UpDown).Select(d => d.Text));
        Assert.Equal(order.ThreadUses(), read.ThreadUses());
    }, iter: Long.Of(8, 300));

    [Fact]
    public void What_was_planned_for_another_piece_or_is_no_order_is_not_read() => Gen.Select(OrderGen.Pieces, OrderGen.Pieces, Gen.Int, Gen.String).Sample((piece, other, at, text) =>
    {
        var (work, otherWork) = (Work.Lay(piece), Work.Lay(other));
        var written = OrderText.Write(Planner.Plan(work, Effort.Drawing));
        Assert.Null(OrderText.Read(work, text));
        var cut = Math.Abs(at % written.Length);
        // half of it, or with one thing changed, is either refused or still an order of every cable
        foreach (var broken in new[] { written[..cut], written.Remove(cut, 1).Insert(cut, "7"), written.Replace("\n", "\n9") })
            if (OrderText.Read(work, broken) is { } read) Assert.Equal(work.Cables, read.Steps.Sum(s => s.Cables));
        if (OrderText.Read(otherWork, written) is { } strange) Assert.Equal(otherWork.Cables, strange.Steps.Sum(s => s.Cables));
    }, iter: Long.Of(100, 2_000));
}
