using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>Plans the working order.</summary>
public static class Planner
{
    /// <summary>
    /// Orders a work: fewest thread starts, then turns, then thread carried, within the rules of the craft. The same
    /// work always gives the same order.
    /// </summary>
    public static WorkingOrder Plan(Work work)
    {
        var layout = new Layout(work);
        var bound = LowerBound.Starts(layout);
        WorkingOrder? best = null;
        foreach (var preference in (ReadOnlySpan<Scheduler.Preference>)[Scheduler.Preference.FewTurns, Scheduler.Preference.ShortCarries, Scheduler.Preference.Rescue])
        {
            var order = new WorkingOrder(layout, BaseRow(layout), Steps.From(layout, Scheduler.Run(layout, preference)), bound);
            if (best is null || Cost(order).CompareTo(Cost(best)) < 0) best = order;
        }
        return best!;
    }

    private static (int, int, double) Cost(WorkingOrder order) => (order.Starts, order.Turns, order.Carried.Millimetres);

    private static CableRow BaseRow(Layout layout)
    {
        var first = Array.IndexOf(layout.Rank, 0);
        return first < 0 ? layout.Work.Piece.Working.BaseRow ?? new CableRow(0) : layout.Work.Runs[first].Row;
    }
}
