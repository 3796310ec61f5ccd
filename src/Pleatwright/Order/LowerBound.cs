using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>
/// A number of starts that no order can go below. Runs fall into groups that no carry joins; a needleful never leaves
/// its group, so the groups' bounds add up. In each group three counts hold at once, and the largest is taken:
/// the thread of the stitches and of the shortest carries, or the cables, shared among whole needlefuls; and the fewest paths that cover its runs, by matching each run with
/// at most one that follows it, plus the breaks that runs longer than a needleful must have within them.
/// </summary>
internal sealed class LowerBound
{
    private readonly Layout layout;
    private readonly int[] start; // start[j] .. start[j + 1] of next: the runs that might follow run j on its thread
    private readonly int[] next;
    private readonly int[] follower; // matched, or -1
    private readonly int[] leader;
    private readonly int[] leastCarry; // the shortest carry by which a run can be reached

    private LowerBound(Layout layout)
    {
        this.layout = layout;
        follower = new int[layout.Runs];
        leader = new int[layout.Runs];
        Array.Fill(follower, -1);
        Array.Fill(leader, -1);
        leastCarry = new int[layout.Runs];
        Array.Fill(leastCarry, int.MaxValue);
        (start, next) = Followers();
    }

    /// <summary>The bound of each cluster.</summary>
    /// <param name="layout">The work.</param>
    /// <param name="routes">Orders of its clusters; the matching sets out from their carries, which makes it quick.</param>
    /// <param name="cancel">Stops the matching.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static int[] Starts(Layout layout, ReadOnlySpan<Route> routes, CancellationToken cancel = default) => Of(layout, routes, cancel).Add(null, 0, cancel);

    /// <summary>
    /// The bound of each cluster, sought further by <see cref="NeedlefulBound"/> in those whose order has more starts.
    /// </summary>
    /// <param name="layout">The work.</param>
    /// <param name="routes">Orders of its clusters.</param>
    /// <param name="most">Steps looked at in all, at the most, about.</param>
    /// <param name="cancel">Stops it.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static int[] Tighter(Layout layout, Route[] routes, long most, CancellationToken cancel = default) => Of(layout, routes, cancel).Add(routes, most, cancel);

    private static LowerBound Of(Layout layout, ReadOnlySpan<Route> routes, CancellationToken cancel)
    {
        var bound = new LowerBound(layout);
        foreach (var route in routes) bound.SetOutFrom(route);
        bound.Match(cancel);
        return bound;
    }

    private (int[] Start, int[] Next) Followers()
    {
        var starts = new int[layout.Runs + 1];
        var found = new List<int>(layout.Carries.Total);
        var seen = new int[layout.Runs]; // the run that last saw this one, plus 1; below 0 when it must be worked before that run
        var ahead = new List<int>();
        for (var j = 0; j < layout.Runs; j++)
        {
            starts[j] = found.Count;
            if (layout.Carries[2 * j].IsEmpty && layout.Carries[2 * j + 1].IsEmpty) continue;
            if (!layout.Pins.Any) MarkBefore(j, seen, ahead); // a maker who pins runs may overrule what comes first
            for (var exit = 2 * j; exit <= 2 * j + 1; exit++)
            {
                if (!layout.MayEnter(exit ^ 1)) continue;
                foreach (var entry in layout.Carries[exit])
                {
                    var i = entry >> 1;
                    if (seen[i] == -j - 1 || !layout.MayEnter(entry) || (!layout.Pins.Any && layout.Stages.IsBefore(i, j))) continue;
                    var carry = layout.Carry(exit, entry);
                    if (!Share(j, i, carry)) continue;
                    leastCarry[i] = Math.Min(leastCarry[i], carry);
                    if (seen[i] == j + 1) continue;
                    seen[i] = j + 1;
                    found.Add(i);
                }
            }
        }
        starts[^1] = found.Count;
        return (starts, [.. found]);
    }

    // What must be worked before run j cannot follow it. Only what lies within a carry matters, so the search is short;
    // to miss some of it would make the bound smaller, never wrong.
    private void MarkBefore(int j, int[] seen, List<int> ahead)
    {
        ahead.Clear();
        ahead.Add(j);
        for (int from = 0, depth = 0; depth <= layout.Costs.CarryRows && from < ahead.Count; depth++)
        {
            var to = ahead.Count;
            for (; from < to; from++)
            {
                foreach (var before in layout.Before[ahead[from]])
                {
                    if (seen[before] == -j - 1) continue;
                    seen[before] = -j - 1;
                    ahead.Add(before);
                }
            }
        }
    }

    // Whether one needleful can work the end of one run and the beginning of another.
    private bool Share(int j, int i, int carry)
    {
        var costs = layout.Costs;
        return costs.MaySplit(j) || costs.MaySplit(i) || costs.Run(j) + costs.Run(i) + carry <= costs.Needleful + costs.Longer;
    }

    private void SetOutFrom(Route route)
    {
        var last = new int[route.Paths];
        Array.Fill(last, -1);
        foreach (var visit in route.Visits)
        {
            if (last[visit.Path] is var j && j >= 0 && next.AsSpan(start[j], start[j + 1] - start[j]).Contains(visit.Run))
                (follower[j], leader[visit.Run]) = (visit.Run, j);
            last[visit.Path] = visit.Run;
        }
    }

    // Hopcroft and Karp (1973): shortest augmenting paths, many at a time.
    private void Match(CancellationToken cancel)
    {
        var level = new int[layout.Runs];
        var at = new int[layout.Runs];
        var queue = new int[layout.Runs];
        var path = new int[layout.Runs + 1];
        while (Layers(level, queue))
        {
            cancel.ThrowIfCancellationRequested();
            Array.Copy(start, at, at.Length);
            for (var j = 0; j < layout.Runs; j++)
                if (follower[j] < 0) Augment(j, level, at, path);
        }
    }

    private bool Layers(int[] level, int[] queue)
    {
        Array.Fill(level, -1);
        var count = 0;
        for (var j = 0; j < level.Length; j++)
        {
            if (follower[j] >= 0 || start[j] == start[j + 1]) continue;
            level[j] = 0;
            queue[count++] = j;
        }
        var open = false;
        for (var q = 0; q < count; q++)
        {
            var j = queue[q];
            for (var k = start[j]; k < start[j + 1]; k++)
            {
                var back = leader[next[k]];
                if (back < 0) open = true;
                else if (level[back] < 0)
                {
                    level[back] = level[j] + 1;
                    queue[count++] = back;
                }
            }
        }
        return open;
    }

    // One augmenting path from j, without recursion: paths can be as long as the piece has runs.
    private void Augment(int j, int[] level, int[] at, int[] path)
    {
        var depth = 0;
        path[0] = j;
        while (depth >= 0)
        {
            var here = path[depth];
            if (at[here] == start[here + 1])
            {
                level[here] = -1;
                depth--;
                if (depth >= 0) at[path[depth]]++;
                continue;
            }
            var i = next[at[here]];
            var back = leader[i];
            if (back < 0)
            {
                for (; depth >= 0; depth--)
                {
                    var run = next[at[path[depth]]];
                    (follower[path[depth]], leader[run]) = (run, path[depth]);
                }
                return;
            }
            if (level[back] == level[here] + 1) path[++depth] = back;
            else at[here]++;
        }
    }

    private int[] Add(Route[]? routes, long most, CancellationToken cancel)
    {
        // groups by carries, within a cluster
        var parent = Roots.Apart(layout.Runs);
        for (var j = 0; j < parent.Length; j++)
            for (var k = start[j]; k < start[j + 1]; k++) Roots.Join(parent, j, next[k]);
        var paths = new int[layout.Runs];
        var thread = new long[layout.Runs];
        var longest = new int[layout.Runs];
        var cables = new int[layout.Runs];
        var cheapest = new int[layout.Runs];
        Array.Fill(cheapest, int.MaxValue);
        var (needleful, longer) = (layout.Costs.Needleful, layout.Costs.Longer);
        var runs = new int[layout.Runs];
        for (var r = 0; r < parent.Length; r++)
        {
            var root = Roots.Of(parent, r);
            var cost = layout.Costs.Run(r);
            paths[root] += (follower[r] < 0 ? 1 : 0) + (int)(Math.Max(0, cost - 1 - longer) / needleful);
            // every run takes its own thread and at least its shortest carry, but for those a needleful begins with
            var carry = leastCarry[r] == int.MaxValue ? 0 : leastCarry[r];
            thread[root] += cost + carry;
            longest[root] = Math.Max(longest[root], carry);
            runs[root]++;
            cables[root] += layout.Work.Runs[r].Cables;
            cheapest[root] = Math.Min(cheapest[root], layout.Costs.Cable(r));
        }
        var bounds = new int[layout.Clusters.Count];
        var of = new int[layout.Runs];
        for (var c = 0; c < bounds.Length; c++)
            foreach (var r in layout.Clusters[c])
                if (parent[r] == r)
                    bounds[c] += of[r] = Math.Max(paths[r], Math.Max(
                        Shares(thread[r], runs[r], needleful + longest[r], longer),
                        Shares(cables[r], runs[r], needleful / cheapest[r], (needleful + longer) / cheapest[r] - needleful / cheapest[r])));
        if (routes is null) return bounds;
        var known = new Dictionary<ClusterKey, int>(); // clusters that are alike have the same bound
        for (var c = 0; c < bounds.Length; c++)
        {
            if (routes.Length != bounds.Length || routes[c].Cost.Starts <= bounds[c]) continue;
            var cluster = layout.Clusters[c];
            var key = ClusterKey.Of(layout, cluster, false, 0);
            if (!known.TryGetValue(key, out var tighter))
            {
                var groups = new Dictionary<int, List<int>>();
                foreach (var r in cluster)
                {
                    if (!groups.TryGetValue(Roots.Of(parent, r), out var group)) groups[Roots.Of(parent, r)] = group = [];
                    group.Add(r);
                }
                var rest = routes[c].Cost.Starts - bounds[c]; // what may yet be gained
                tighter = bounds[c];
                foreach (var (root, group) in groups)
                {
                    if (group.Count is < 2 or > MostRunsPriced || rest <= 0) continue;
                    var share = most * group.Count / layout.Runs;
                    var better = NeedlefulBound.Of(layout, [.. group], r => next.AsSpan(start[r], start[r + 1] - start[r]), of[root] + rest, share, cancel);
                    if (better <= of[root]) continue;
                    tighter += better - of[root];
                    rest -= better - of[root];
                }
                known[key] = tighter;
            }
            bounds[c] = tighter;
        }
        return bounds;
    }

    private const int MostRunsPriced = 600;

    // Whole shares of so much each, and somewhat more in those that end a run, of which there are no more than runs.
    private static int Shares(long all, int runs, int each, int more) =>
        (int)Math.Max((all + each + more - 1) / (each + more), (all - (long)runs * more + each - 1) / each);
}
