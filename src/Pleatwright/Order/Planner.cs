using System.Collections.Immutable;
using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>How long a plan may be sought.</summary>
public enum Effort
{
    /// <summary>Quick enough to plan after every stitch drawn: the best of four rules of thumb, in step with the cables.</summary>
    Drawing,

    /// <summary>For the bench when the hand rests: small figures are searched for a better order, some milliseconds each.</summary>
    Resting,

    /// <summary>
    /// For the commands and the plate they print: small tangled figures are searched much longer, a second at the most. A piece of up to 14 runs is
    /// then solved as well as can be, as a rule.
    /// </summary>
    Plate,
}

/// <summary>Plans the working order.</summary>
internal static class Planner
{
    /// <summary>
    /// Orders a work in the maker's way of working: fewest thread starts; then fewest runs fitted between finished ones,
    /// threads left hanging, carries both along the pleat and sideways, turns; then least thread carried. The same work always gives the
    /// same order, for the search is bounded by what it looks at and not by a clock.
    /// </summary>
    /// <param name="work">The work.</param>
    /// <param name="effort">How long a better order is sought.</param>
    /// <param name="progress">Told how much is done, 0 to 1, now and then.</param>
    /// <param name="cancel">Stops the planning.</param>
    /// <param name="enough">Ends the search: the best order found so far is handed out, what was not sought yet being planned as while drawing.</param>
    /// <exception cref="OperationCanceledException">The planning was stopped.</exception>
    public static WorkingOrder Plan(Work work, Effort effort = Effort.Resting, IProgress<double>? progress = null, CancellationToken cancel = default, CancellationToken enough = default) =>
        new Planning(work, null, effort, progress, cancel, enough: enough).Plan();

    /// <summary>What each way of working would come to, from the plainest to the one with the fewest starts.</summary>
    /// <param name="order">The order in one of them, which is planned no more.</param>
    /// <param name="progress">Told how much is done, 0 to 1, now and then.</param>
    /// <param name="cancel">Stops the planning.</param>
    /// <exception cref="OperationCanceledException">The planning was stopped.</exception>
    public static ImmutableArray<WorkingOrder> InEveryWay(WorkingOrder order, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        var orders = ImmutableArray.CreateBuilder<WorkingOrder>();
        foreach (var way in Enum.GetValues<WayOfWorking>())
        {
            orders.Add(way == order.Way ? order : new Planning(order.Work, order.Solved, order.Effort, null, cancel, way).Plan());
            progress?.Report((double)orders.Count / 3);
        }
        return orders.ToImmutable();
    }

    /// <summary>
    /// Orders a work of which an earlier state has been ordered. What was not touched by the edits between is not
    /// searched again. The order is the same as <see cref="Plan"/> gives.
    /// </summary>
    /// <param name="previous">The order of the earlier state.</param>
    /// <param name="work">The work as it is now.</param>
    /// <param name="effort">How long a better order is sought.</param>
    /// <param name="progress">Told how much is done, 0 to 1, now and then.</param>
    /// <param name="cancel">Stops the planning.</param>
    /// <exception cref="OperationCanceledException">The planning was stopped.</exception>
    public static WorkingOrder Replan(WorkingOrder previous, Work work, Effort effort = Effort.Resting, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        var (before, now) = (previous.Work.Piece, work.Piece);
        // what is solved says in which way it was
        var alike = before.Working with { Way = now.Working.Way } == now.Working && before.Cloth.Gauge == now.Cloth.Gauge && previous.Effort == effort;
        return new Planning(work, alike ? previous.Solved : null, effort, progress, cancel).Plan();
    }
}
