namespace Pleatwright.Order;

/// <summary>
/// One planning of a whole work, cluster by cluster. Clusters that are alike, as the copies of a figure are, and clusters
/// already solved in an earlier planning are solved once.
/// </summary>
internal sealed class Planning
{
    private static readonly Scheduler.Preference[] Ways = Enum.GetValues<Scheduler.Preference>();
    private readonly int mostLooked; // orders looked at, about, in one cluster
    private readonly int width;      // orders kept side by side
    private readonly int mostRuns;   // of a cluster that is looked through
    private readonly Layout layout;
    private readonly Scheduler scheduler;
    private readonly Search search;
    private readonly IReadOnlyDictionary<ClusterKey, Route>? earlier;
    private readonly Dictionary<ClusterKey, Route> solved = [];
    private readonly Effort effort;
    private readonly IProgress<double>? progress;
    private readonly CancellationToken cancel;
    private double begun, share; // where the cluster at hand begins in the whole, and its share of it
    private double told;

    public Planning(Chart.Work work, IReadOnlyDictionary<ClusterKey, Route>? earlier, Effort effort, IProgress<double>? progress, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        layout = new Layout(work);
        scheduler = new Scheduler(layout, cancel);
        search = new Search(layout, cancel);
        var few = layout.Runs <= Search.ExactRuns;
        (mostLooked, width) = effort switch
        {
            Effort.Drawing => (0, 0),
            Effort.Resting => (6_000, 100),
            _ => few ? (1_500_000, 6_000) : (60_000, 400),
        };
        // a large cluster takes some tenths of a second, and there may be many in a large piece
        mostRuns = effort == Effort.Plate && layout.Runs <= 1_000 ? Search.MostRuns : Search.QuickRuns;
        (this.earlier, this.effort, this.progress, this.cancel) = (earlier, effort, progress, cancel);
    }

    public WorkingOrder Plan()
    {
        if (layout.Pins.Any) return PlanPinned();
        var count = layout.Clusters.Count;
        var routes = new Route[count];
        var turned = false;
        var scheduling = mostLooked == 0 ? 1 : 0.5; // of the whole
        for (var (c, done) = (0, 0); c < count; done += layout.Clusters[c++].Length)
        {
            (begun, share) = (scheduling * done / layout.Runs, scheduling * layout.Clusters[c].Length / layout.Runs);
            routes[c] = mostLooked == 0 ? Quick(c, turned) : Schedule(layout.Clusters.Kept(c), turned);
            turned = layout.TurnedAt(routes[c].Visits[^1].Entry);
            Tell(1);
        }
        // while drawing nobody asks for the bound; it is found when one does
        var bounds = mostLooked == 0 ? [] : LowerBound.Starts(layout, routes, cancel);
        turned = false;
        for (var c = 0; c < count && mostLooked > 0; c++)
        {
            (begun, share) = (scheduling + (1 - scheduling) * c / count, (1 - scheduling) / count);
            routes[c] = Solve(c, turned, routes[c], bounds[c]);
            turned = layout.TurnedAt(routes[c].Visits[^1].Entry);
            Tell(1);
        }
        progress?.Report(1);
        return new WorkingOrder(layout, Steps.From(layout, routes), mostLooked == 0 ? new(() => LowerBound.Starts(layout, routes).Sum()) : new(bounds.Sum()), solved, effort);
    }

    // With runs pinned to places in the order, everything hangs together: it is scheduled as one cluster.
    private WorkingOrder PlanPinned()
    {
        var all = new int[layout.Runs];
        for (int c = 0, i = 0; c < layout.Clusters.Count; c++)
            foreach (var r in layout.Clusters[c]) all[i++] = r;
        (begun, share) = (0, 1);
        var route = Schedule(all, false);
        progress?.Report(1);
        return new WorkingOrder(layout, Steps.From(layout, [route]), new(() => LowerBound.Starts(layout, []).Sum()), solved, effort);
    }

    // How much of the cluster at hand is done, 0 to 1; passed on a two-hundredth of the whole at a time.
    private void Tell(double done)
    {
        if (progress is null || begun + share * done is var now && (now < told + 0.005 || now >= 1)) return;
        progress.Report(told = now);
    }

    private Route Schedule(ReadOnlyMemory<int> cluster, bool turned)
    {
        Route? best = null;
        foreach (var way in Ways.AsSpan(0, cluster.Length == 1 ? 1 : Ways.Length))
        {
            var route = scheduler.Run(cluster, way, turned, done => Tell(((int)way + done) / Ways.Length));
            if (best is null || route.Cost.CompareTo(best.Cost) < 0) best = route;
        }
        return best!;
    }

    // While drawing, what was scheduled before is scheduled again at a look.
    private Route Quick(int c, bool turned)
    {
        var cluster = layout.Clusters[c];
        if (cluster.Length == 1) return Schedule(layout.Clusters.Kept(c), turned);
        var key = ClusterKey.Of(layout, cluster, turned);
        if (Known(key) is { } known) return known.In(cluster);
        var route = Schedule(layout.Clusters.Kept(c), turned);
        solved[key] = route.Of(cluster);
        return route;
    }

    private Route? Known(ClusterKey key)
    {
        if (!solved.TryGetValue(key, out var known) && earlier?.TryGetValue(key, out known) == true) solved[key] = known;
        return known;
    }

    private Route Solve(int c, bool turned, Route scheduled, int bound)
    {
        var cluster = layout.Clusters[c];
        if (cluster.Length == 1 || cluster.Length > mostRuns) return scheduled;
        var key = ClusterKey.Of(layout, cluster, turned);
        if (Known(key) is { } known) return known.In(cluster);
        // what comes before may now leave the work the other way up
        var best = scheduled.TurnedBefore == turned ? scheduled : Schedule(layout.Clusters.Kept(c), turned);
        if (best.Cost.Starts > bound || (effort == Effort.Plate && cluster.Length <= Search.ExactRuns))
            best = Improve(cluster, turned, best);
        solved[key] = best.Of(cluster);
        return best;
    }

    // First after fewer starts; and where not every order could be kept in sight, once more after fewer turns.
    private Route Improve(ReadOnlySpan<int> cluster, bool turned, Route best)
    {
        foreach (var turnsFirst in (ReadOnlySpan<bool>)[false, true])
        {
            var (better, proved) = search.Find(cluster, turned, best, width, mostLooked / 2, turnsFirst, done => Tell(((turnsFirst ? 1 : 0) + done) / 2));
            best = better ?? best;
            if (proved) break;
        }
        return best;
    }
}
