using System.Numerics;
using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>
/// One planning of a whole work, cluster by cluster. Clusters that are alike, as the copies of a figure are, and clusters
/// already solved in an earlier planning are solved once. Whatever a stricter way of working, fewer parked threads, shorter
/// carries or less effort would give is weighed too, so that more freedom never gives more starts.
/// </summary>
internal sealed class Planning
{
    private const int VeryLarge = 2_500, HugeSize = 10_000; // as sizes: some 40,000 and 160,000 cables, or as many runs
    private static readonly int[] Parked = [0, 1, 3, 6, 12], Carried = [0, 2, 3, 4, 6, 9, 12];
    private static readonly Scheduler.Preference[] Preferences = [Scheduler.Preference.FewTurns, Scheduler.Preference.ShortCarries, Scheduler.Preference.Rescue, Scheduler.Preference.Unblock];
    private readonly Work work;
    private readonly Layout layout;
    private readonly IReadOnlyDictionary<ClusterKey, Solution>? earlier;
    private readonly Dictionary<ClusterKey, Solution> solved = [];
    private readonly Dictionary<Freedom, Tools> tools = [];
    private readonly Dictionary<Freedom, Whole> wholes = [];
    private readonly Effort asked, effort;
    private readonly IProgress<double>? progress;
    private readonly CancellationToken enough, cancel;
    private readonly int size;       // how much there is to plan: runs, or many cables to a run
    private readonly int mostRuns;   // of a cluster that is looked through
    private double told, planned, end, share;
    private Freedom sought;

    /// <summary>What an order may do.</summary>
    private readonly record struct Freedom(WayOfWorking Way, int ParkedThreads, int CarryPleats);

    /// <summary>An order of a cluster, and whether none has fewer starts.</summary>
    internal readonly record struct Solution(Route Route, bool IsLeast);

    private sealed record Whole(Route[] Routes, Cost Cost, bool IsLeast);

    private sealed record Tools(Layout Layout, Scheduler Scheduler, Linker Linker, Search Search, Lazy<int[]> Bounds);

    public Planning(Work work, IReadOnlyDictionary<ClusterKey, Solution>? earlier, Effort effort, IProgress<double>? progress, CancellationToken cancel, WayOfWorking? way = null, CancellationToken enough = default)
    {
        cancel.ThrowIfCancellationRequested();
        (this.work, this.earlier, this.progress, this.cancel, this.enough, asked) = (work, earlier, progress, cancel, enough, effort);
        layout = new Layout(work);
        if (way is { } other && other != layout.Way) layout = layout.With(other, layout.ParkedThreads, layout.Costs.CarryPleats);
        // a large cluster takes some tenths of a second, and there may be many in a large piece
        size = Coarse(Math.Max(1, Math.Max(layout.Runs, work.Cables / 16)));
        // so much is planned as while drawing, however long it may be sought: else it would take half a minute
        this.effort = effort = size > HugeSize ? Effort.Drawing : effort;
        mostRuns = effort == Effort.Plate && size <= 1_000 ? Search.MostRuns : Search.QuickRuns;
    }

    // Four figures of two are kept, so that what was planned stays good while a piece grows by little.
    private static int Coarse(int size) => size >> Math.Max(0, BitOperations.Log2((uint)size) - 3) << Math.Max(0, BitOperations.Log2((uint)size) - 3);

    // Told that it is enough: what was not sought yet is planned as while drawing, and not kept for later.
    private bool IsEnough => enough.IsCancellationRequested;

    public WorkingOrder Plan()
    {
        if (layout.Pins.Any) return PlanPinned();
        var best = Sought();
        progress?.Report(1);
        return new WorkingOrder(layout, Steps.From(layout, best.Routes), new(() => Bound(best.Routes)), solved, asked);
    }

    private Whole Sought()
    {
        var freedom = new Freedom(layout.Way, Within(Parked, layout.ParkedThreads), Within(Carried, layout.Costs.CarryPleats));
        tools[freedom] = With(freedom.ParkedThreads == layout.ParkedThreads && freedom.CarryPleats == layout.Costs.CarryPleats ? layout : layout.With(freedom.Way, freedom.ParkedThreads, freedom.CarryPleats));
        sought = freedom;
        var best = Best(freedom);
        // cluster by cluster less effort was weighed already, but for how the work lay before each
        if (!best.IsLeast && effort != Effort.Drawing && !IsEnough && new Planning(work, null, effort - 1, null, cancel, layout.Way, enough).Sought() is var lesser && lesser.Cost.Starts < best.Cost.Starts) best = lesser;
        return best;
    }

    // While drawing nobody asks for the bound; it is found when one does.
    private int Bound(Route[] routes) => (asked == Effort.Plate ? LowerBound.Tighter(layout, routes, MostPriced) : LowerBound.Starts(layout, routes)).Sum();

    private const long MostPriced = 30_000_000; // some seconds at the most

    // With more than a few runs, freedoms that differ by little are planned alike.
    private int Within(int[] steps, int most) =>
        layout.Runs <= Search.ExactRuns ? most : steps.Last(s => s <= most && (size <= VeryLarge || s == 0 || s == (steps == Parked ? 3 : 4) || s == 12));

    private IEnumerable<Freedom> Stricter(Freedom freedom)
    {
        if (effort != Effort.Plate || IsEnough) yield break;
        if (freedom.ParkedThreads > 0) yield return freedom with { ParkedThreads = Within(Parked, freedom.ParkedThreads - 1) };
        if (freedom.CarryPleats > 0) yield return freedom with { CarryPleats = Within(Carried, freedom.CarryPleats - 1) };
        if (freedom.Way != WayOfWorking.RowByRow) yield return freedom with { Way = freedom.Way - 1 };
    }

    private Tools With(Layout layout)
    {
        Linker linker = new(layout, enough, cancel);
        return new Tools(layout, new Scheduler(layout, cancel), linker, new Search(layout, enough, cancel), new(() => LowerBound.Starts(layout, [], cancel)));
    }

    private Tools At(Freedom freedom)
    {
        if (!tools.TryGetValue(freedom, out var known)) tools[freedom] = known = With(layout.With(freedom.Way, freedom.ParkedThreads, freedom.CarryPleats));
        return known;
    }

    private Whole Best(Freedom freedom)
    {
        if (wholes.TryGetValue(freedom, out var known)) return known;
        var at = At(freedom);
        var clusters = at.Layout.Clusters;
        var routes = new Route[clusters.Count];
        var (turned, least) = (false, true);
        Cost cost = default;
        for (var (c, done) = (0, 0); c < routes.Length; done += clusters[c++].Length)
        {
            if (freedom == sought) (planned, end, share) = ((double)done / layout.Runs, (double)(done + clusters[c].Length) / layout.Runs, 0);
            // every figure is begun with the top edge up, so that figures alike are worked alike, whatever was worked before them
            var solution = Solve(freedom, clusters.Kept(c), turned && clusters[c].Length == 1);
            routes[c] = solution.Route;
            least &= solution.IsLeast;
            cost = cost with { Starts = cost.Starts + solution.Route.Cost.Starts };
            turned = layout.TurnedAt(routes[c].Visits[^1].Entry);
            if (freedom == sought) Tell(end);
        }
        var best = new Whole(routes, cost, least);
        // cluster by cluster the stricter plans were weighed already, but for how the work lay before each
        if (!least)
            foreach (var stricter in Stricter(freedom))
                if (Best(stricter) is var other && other.Cost.Starts < best.Cost.Starts) best = other;
        return wholes[freedom] = best;
    }

    // All that it looks at stands in the key, so that what was solved elsewhere, or for another freedom, is what would be found here.
    private Solution Solve(Freedom freedom, ReadOnlyMemory<int> cluster, bool turned)
    {
        var at = At(freedom);
        var runs = cluster.Span;
        if (runs.Length == 1) return new Solution(Raw(at, cluster, turned, 0).Route, true);
        var key = ClusterKey.Of(at.Layout, runs, turned, layout.Runs <= Search.ExactRuns ? 0 : size);
        if (!solved.TryGetValue(key, out var known) && earlier?.TryGetValue(key, out known) == true) solved[key] = known;
        if (known.Route is not null) return known with { Route = known.Route.In(runs) };
        var bound = effort == Effort.Drawing ? 0 : at.Bounds.Value[at.Layout.ClusterOf[runs[0]]];
        var best = Raw(at, cluster, turned, bound);
        foreach (var stricter in Stricter(freedom))
        {
            if (best.IsLeast || IsEnough) break;
            var other = Together(stricter, cluster, turned);
            if (other.Route.Cost.CompareTo(best.Route.Cost) < 0) best = new Solution(other.Route, other.Route.Cost.Starts <= bound);
        }
        if (!best.IsLeast && freedom.Way != WayOfWorking.RowByRow && runs.Length > Search.ExactRuns)
        {
            best = Improve(at, runs, turned, best.Route, bound);
            if (!best.IsLeast) best = Reorder(at, best.Route, bound);
        }
        if (!IsEnough) solved[key] = best with { Route = best.Route.Of(runs) };
        return best;
    }

    // The runs of a cluster planned with less freedom, which may take it apart.
    private Solution Together(Freedom freedom, ReadOnlyMemory<int> cluster, bool turned)
    {
        var at = At(freedom);
        var clusterOf = at.Layout.ClusterOf;
        var apart = new List<List<int>>();
        var indexOf = new Dictionary<int, int>();
        foreach (var r in cluster.Span)
        {
            if (indexOf.TryAdd(clusterOf[r], apart.Count)) apart.Add([]);
            apart[indexOf[clusterOf[r]]].Add(r);
        }
        if (apart.Count == 1) return Solve(freedom, cluster, turned);
        var visits = new List<Visit>(cluster.Length);
        var paths = 0;
        var (lies, least) = (turned, true);
        Cost cost = default;
        foreach (var runs in apart)
        {
            var solution = Solve(freedom, runs.ToArray(), lies);
            foreach (var visit in solution.Route.Visits) visits.Add(visit with { Path = visit.Path + paths });
            paths += solution.Route.Paths;
            cost += solution.Route.Cost;
            least &= solution.IsLeast;
            lies = layout.TurnedAt(visits[^1].Entry);
        }
        return new Solution(new Route([.. visits], paths, cost, turned), least);
    }

    private Solution Raw(Tools at, ReadOnlyMemory<int> cluster, bool turned, int bound)
    {
        cancel.ThrowIfCancellationRequested();
        // the first plan of a cluster is most of the work; of those with less freedom nobody knows how many there will be
        planned += share;
        share = (end - planned) * (share == 0 ? 0.9 : 0.5);
        var (route, proved) = at.Layout.Way == WayOfWorking.RowByRow ? RowByRow(at, cluster.Span, turned, bound) : Freely(at, cluster, turned, bound);
        return new Solution(route, proved || route.Cost.Starts <= bound);
    }

    // What less effort would find is found first, so that more is never the worse.
    private (Route, bool) RowByRow(Tools at, ReadOnlySpan<int> cluster, bool turned, int bound)
    {
        var rows = Rows.Of(at.Layout, cluster);
        var otherWay = work.Piece.Working.First == FirstWay.Either ? Rows.Of(at.Layout, cluster, otherWayFirst: true) : null;
        Route? best = null;
        var last = 0;
        for (var level = Effort.Drawing; level <= effort; level++)
        {
            var width = level switch
            {
                Effort.Drawing => 2,
                Effort.Resting => Math.Clamp(2_000 / size, 2, 32),
                _ => layout.Runs <= Search.ExactRuns ? 4_000 : Math.Clamp(20_000 / size, 2, 64),
            };
            if (size > HugeSize) width = 1;
            if (width == last) continue;
            last = width;
            var (found, proved) = at.Linker.Find(rows, turned, width, turnBack: true, tell: Within);
            if (best is null || found.Cost.CompareTo(best.Cost) < 0 || proved) best = found;
            if (otherWay is not null)
            {
                var (other, otherProved) = at.Linker.Find(otherWay, turned, width, turnBack: true);
                proved &= otherProved;
                if (other.Cost.CompareTo(best.Cost) < 0) best = other;
            }
            if (proved) return (best, true);
            if (IsEnough || (best.Cost.Starts <= bound && level == Effort.Resting)) break;
        }
        return (best!, false);
    }

    private (Route, bool) Freely(Tools at, ReadOnlyMemory<int> cluster, bool turned, int bound)
    {
        Route? best = null;
        foreach (var way in Preferences.AsSpan(0, cluster.Length == 1 ? 1 : Preferences.Length))
        {
            var route = at.Scheduler.Run(cluster, way, turned, done => Within(((int)way + done) / 16));
            if (best is null || route.Cost.CompareTo(best.Cost) < 0) best = route;
        }
        if (cluster.Length == 1 || effort == Effort.Drawing || IsEnough) return (best!, false);
        if (effort == Effort.Plate && cluster.Length > Search.ExactRuns && best!.Cost.Starts > bound)
            foreach (var slope in Slopes)
                if (at.Scheduler.Swept(cluster, slope, turned) is var swept && swept.Cost.CompareTo(best.Cost) < 0) best = swept;
        var proved = false;
        for (var level = Effort.Resting; level <= effort && !proved && !IsEnough; level++)
        {
            if (best!.Cost.Starts > bound || level == Effort.Plate) best = Relink(at, best, level);
            if (cluster.Length <= (level == Effort.Plate ? Search.ExactRuns : Search.QuickRuns) && (best.Cost.Starts > bound || level == Effort.Plate))
                (best, proved) = Look(at, cluster.Span, turned, best, level);
        }
        return (best!, proved);
    }

    // The same runs in the same order: the ends, the threads and the tie-offs are chosen anew.
    private Route Relink(Tools at, Route route, Effort level)
    {
        var width = Math.Clamp((level == Effort.Plate ? 10_000 : 1_000) / size, 1, 48);
        foreach (var spentFirst in (ReadOnlySpan<bool>)[true, false])
        {
            var (other, _) = at.Linker.Reorder(route, 1, 0, width, spentFirst, done => Within(0.25 + ((spentFirst ? 0 : 0.5) + done) / 4));
            if (other.Cost.CompareTo(route.Cost) < 0) route = other;
        }
        return route;
    }

    // So many runs at a time are set free and ordered anew, in lots larger and smaller and set off against those before, as long as that helps.
    private Solution Reorder(Tools at, Route best, int bound)
    {
        if (effort != Effort.Plate || size > MostReordered) return new Solution(best, false);
        var width = Math.Clamp(Reordering / (16 * best.Visits.Length), 6, 32);
        long looked = 0;
        for (int turn = 0, idle = 0; idle < Lots.Length && best.Cost.Starts > bound && looked < Reordering && !IsEnough; turn++)
        {
            var lot = Lots[turn % Lots.Length];
            var before = (double)looked;
            var (other, more) = at.Linker.Reorder(best, lot, turn * 5 % lot, width, turn % 3 != 2, done => Within(Math.Min(1, before / Reordering)));
            looked += more;
            idle = other.Cost.CompareTo(best.Cost) < 0 ? 0 : idle + 1;
            if (idle == 0) best = other;
        }
        return new Solution(best, best.Cost.Starts <= bound);
    }

    private const int MostReordered = 5_000; // as size
    private const int Reordering = 150_000;  // choices looked at, for each freedom: they build upon one another
    private static readonly int[] Lots = [12, 20, 26, 16, 8, 23, 6];
    private static readonly int[] Slopes = [0, 2, 4, 6, 8];

    // First after fewer starts; and where not every order could be kept in sight, once more after fewer turns.
    private (Route, bool) Look(Tools at, ReadOnlySpan<int> cluster, bool turned, Route best, Effort level)
    {
        var (mostLooked, width) = level == Effort.Plate && layout.Runs <= Search.ExactRuns ? (1_500_000, 6_000) : (size <= 1_000 ? 6_000 : 1_000, size <= 1_000 ? 100 : 30);
        foreach (var turnsFirst in (ReadOnlySpan<bool>)[false, true])
        {
            var (better, proved) = at.Search.Find(cluster, turned, best.Cost, width, mostLooked / 2, turnsFirst, done => Within(0.5 + ((turnsFirst ? 1 : 0) + done) / 4));
            best = better ?? best;
            if (proved) return (best, true);
        }
        return (best, false);
    }

    private Solution Improve(Tools at, ReadOnlySpan<int> cluster, bool turned, Route best, int bound)
    {
        if (cluster.Length > mostRuns) return new Solution(best, false);
        var (better, proved) = Look(at, cluster, turned, best, effort);
        return new Solution(better, proved || better.Cost.Starts <= bound);
    }

    // With runs pinned to places in the order, everything hangs together: it is planned as one cluster.
    private WorkingOrder PlanPinned()
    {
        var all = new int[layout.Runs];
        for (int c = 0, i = 0; c < layout.Clusters.Count; c++)
            foreach (var r in layout.Clusters[c]) all[i++] = r;
        var at = With(layout);
        Route? best = null;
        if (layout.Way == WayOfWorking.RowByRow) best = at.Linker.Find(Rows.Pinned(layout, all), false, Math.Clamp(20_000 / size, 1, 64)).Route;
        else
            foreach (var preference in Preferences)
                if (at.Scheduler.Run(all, preference, false, static _ => { }) is var route && (best is null || route.Cost.CompareTo(best.Cost) < 0)) best = route;
        progress?.Report(1);
        return new WorkingOrder(layout, Steps.From(layout, [best!]), new(() => LowerBound.Starts(layout, []).Sum()), solved, asked);
    }

    // How much of the plan at hand is made.
    private void Within(double done) => Tell(planned + share * done);

    // Passed on a two-hundredth of the whole at a time.
    private void Tell(double done)
    {
        if (progress is null || done < told + 0.005 || done >= 1) return;
        progress.Report(told = done);
    }
}
