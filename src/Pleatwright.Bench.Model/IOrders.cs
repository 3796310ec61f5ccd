using Pleatwright.Order;

namespace Pleatwright.Bench.Model;

/// <summary>Who plans orders with all the care of the commands, off the hand's path.</summary>
public interface IOrders
{
    /// <summary>The order of a work; null when it is wanted no more, or there is nowhere to plan it.</summary>
    /// <param name="work">The work.</param>
    /// <param name="told">Told how much is done, 0 to 1.</param>
    /// <param name="cancel">Says that it is wanted no more.</param>
    Task<WorkingOrder?> OfAsync(Chart.Work work, Action<double> told, CancellationToken cancel);
}
