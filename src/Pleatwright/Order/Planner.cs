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
        var scheduler = new Scheduler(layout);
        var routes = new Route[layout.Clusters.Count];
        var turned = false;
        for (var c = 0; c < routes.Length; c++)
        {
            var cluster = layout.Clusters[c];
            foreach (var preference in (ReadOnlySpan<Scheduler.Preference>)[Scheduler.Preference.FewTurns, Scheduler.Preference.ShortCarries, Scheduler.Preference.Rescue])
            {
                var route = scheduler.Run(cluster, preference, turned);
                if (routes[c] is not { } best || route.Cost.CompareTo(best.Cost) < 0) routes[c] = route;
            }
            turned = layout.TurnedAt(routes[c].Visits[^1].Entry);
        }
        return new WorkingOrder(layout, Steps.From(layout, routes), LowerBound.Starts(layout));
    }
}
