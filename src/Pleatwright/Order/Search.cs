using System.Numerics;

namespace Pleatwright.Order;

/// <summary>
/// Looks through all orders of a small cluster at once, run by run. Orders that have worked the same runs and come out at the
/// same end are weighed against each other and only the better kept. While no more than
/// <c>width</c> are kept side by side nothing is lost, and the order found is the best there is; past that the most promising go on.
/// </summary>
internal sealed class Search(Layout layout, CancellationToken enough, CancellationToken cancel)
{
    /// <summary>The most runs a cluster may have to be looked through: a run is a bit, and an end a signed byte.</summary>
    public const int MostRuns = 63;

    /// <summary>Past this a cluster is looked through for the plate alone.</summary>
    public const int QuickRuns = 24;

    /// <summary>Clusters of so few runs are looked through with care.</summary>
    public const int ExactRuns = 16;

    /// <summary>Orders kept side by side when a cluster turns out too tangled to look through all of them.</summary>
    public const int Narrow = 24;

    private int n;
    private int[] runs = [];
    private ulong[] before = [];
    private ulong[] beside = [];       // per arm: the runs it touches in its row, one of which it waits for; else 0
    private ulong[] between = [];      // per run: the two it lies between and touches, or 0
    private ulong[] reach = [];        // per end: the runs within a carry
    private List<(int Entry, int Carry)>[] carries = [];
    private ulong[] near = [];         // per run: the runs within a carry of either end
    private int[] leastCarry = [];     // per run: the shortest carry by which it is reached
    private long[] thread = [];        // per run

    private struct Node
    {
        public ulong Done;
        public Cost Cost;
        public int Least;              // starts, at least, when all is done
        public int Spare;              // thread that so many would leave over, in eighths of a needleful
        public int Parent;
        public int HandLeft;
        public int Found;              // place among those found, the last word in a tie
        public sbyte Hand;             // exit end of the thread in hand, or -1
        public sbyte Entry;            // what was worked last
        public sbyte From;             // the exit end it was carried from, or -1
        public bool Turned;
        public Hanging Parked;         // sorted by exit
    }

    private readonly record struct Place(ulong Done, sbyte Hand, bool Turned);

    private int looked;

    /// <summary>The best order found that costs less than <paramref name="known"/>, or null; and whether none costs less.</summary>
    /// <param name="cluster">Its runs, <see cref="MostRuns"/> at the most.</param>
    /// <param name="turned">How the work lies before it.</param>
    /// <param name="known">The best order known.</param>
    /// <param name="width">Orders kept side by side at the most.</param>
    /// <param name="most">Orders looked at, about, before no more than <see cref="Narrow"/> are kept side by side.</param>
    /// <param name="turnsFirst">Whether few turns promise more than thread to spare, when not all can be kept.</param>
    /// <param name="tell">Told how much is done, 0 to 1, now and then.</param>
    public (Route? Better, bool Proved) Find(ReadOnlySpan<int> cluster, bool turned, Cost known, int width, int most, bool turnsFirst, Action<double> tell)
    {
        looked = 0;
        Prepare(cluster);
        var levels = new List<Node[]>(n + 1) { new[] { new Node { Hand = -1, Entry = -1, From = -1, Turned = turned } } };
        var proved = true;
        for (var depth = 0; depth < n; depth++)
        {
            var places = new Dictionary<Place, List<int>>();
            var found = new List<Node>();
            for (var p = 0; p < levels[depth].Length; p++)
            {
                if (p % 64 == 0)
                {
                    cancel.ThrowIfCancellationRequested();
                    if (enough.IsCancellationRequested) return (null, false);
                    tell((depth + (double)p / levels[depth].Length) / n);
                }
                Expand(levels[depth], p, known, places, found);
            }
            found.RemoveAll(f => f.Parent < 0);
            if (found.Count == 0) return (null, proved);
            var kept = found.ToArray();
            if (looked > most) width = Narrow;
            if (kept.Length > width)
            {
                proved = false;
                Array.Sort(kept, turnsFirst ? ByTurns : BySpare);
                Array.Resize(ref kept, width);
            }
            levels.Add(kept);
        }
        var best = 0;
        for (var f = 1; f < levels[n].Length; f++)
            if (levels[n][f].Cost.CompareTo(levels[n][best].Cost) < 0) best = f;
        return (Trace(levels, best), proved);
    }

    private static int BySpare(Node a, Node b)
    {
        var order = (a.Least, b.Spare).CompareTo((b.Least, a.Spare)) is var first and not 0 ? first : a.Cost.CompareTo(b.Cost);
        return order != 0 ? order : a.Found.CompareTo(b.Found);
    }

    private static int ByTurns(Node a, Node b)
    {
        var order = (a.Least, a.Cost.Fitted, a.Cost.TakeUps, a.Cost.Slant, a.Cost.Turns, b.Spare, a.Cost.Carried)
            .CompareTo((b.Least, b.Cost.Fitted, b.Cost.TakeUps, b.Cost.Slant, b.Cost.Turns, a.Spare, b.Cost.Carried));
        return order != 0 ? order : a.Found.CompareTo(b.Found);
    }

    private void Prepare(ReadOnlySpan<int> cluster)
    {
        n = cluster.Length;
        runs = cluster.ToArray();
        before = new ulong[n];
        beside = new ulong[n];
        between = new ulong[n];
        reach = new ulong[2 * n];
        carries = new List<(int, int)>[2 * n];
        near = new ulong[n];
        leastCarry = new int[n];
        Array.Fill(leastCarry, int.MaxValue);
        thread = new long[n];
        var local = new Dictionary<int, int>(n);
        for (var k = 0; k < n; k++) local[runs[k]] = k;
        for (var k = 0; k < n; k++)
        {
            foreach (var b in layout.Before[runs[k]]) before[k] |= 1UL << local[b];
            for (var b = 0; b < n; b++)
            {
                if (b == k) continue;
                if (layout.Stages.IsBefore(runs[b], runs[k])) before[k] |= 1UL << b;
                if (Math.Abs(runs[b] - runs[k]) != 1 || layout.Outward.StretchOf(runs[b]) != layout.Outward.StretchOf(runs[k])) continue;
                if (layout.Outward.IsArm(runs[k])) beside[k] |= 1UL << b;
                if (layout.LiesBetween(runs[k])) between[k] |= 1UL << b;
            }
            thread[k] = layout.Costs.Run(runs[k]);
            for (var side = 0; side < 2; side++)
            {
                carries[2 * k + side] = [];
                foreach (var entry in layout.Carries[2 * runs[k] + side])
                {
                    if (!layout.MayEnter(entry)) continue;
                    var there = local[entry >> 1];
                    var carry = layout.Carry(2 * runs[k] + side, entry);
                    carries[2 * k + side].Add((2 * there + (entry & 1), carry));
                    leastCarry[there] = Math.Min(leastCarry[there], carry);
                    near[k] |= 1UL << there;
                    near[there] |= 1UL << k;
                    reach[2 * k + side] |= 1UL << there;
                }
            }
        }
        for (var k = 0; k < n; k++)
            if (leastCarry[k] == int.MaxValue) leastCarry[k] = 0;
    }

    private void Expand(Node[] level, int parent, Cost known, Dictionary<Place, List<int>> places, List<Node> found)
    {
        ref readonly var node = ref level[parent];
        for (var k = 0; k < n; k++)
        {
            if ((node.Done >> k & 1) != 0 || (before[k] & ~node.Done) != 0 || (beside[k] != 0 && (beside[k] & node.Done) == 0)) continue;
            for (var way = 0; way < 2; way++)
            {
                var entry = layout.PlainEntry(k) ^ way; // not turned first, so that either hand finds the same
                if (!layout.MayEnter(2 * runs[k] + (entry & 1))) continue;
                Work(node, parent, entry, -1, -1, 0, known, places, found);
                if (node.Hand >= 0 && CarryTo(node.Hand, entry) is { } carry)
                    Work(node, parent, entry, node.Hand, -1, carry, known, places, found);
                for (var p = 0; p < node.Parked.Count; p++)
                    if (CarryTo(node.Parked[p].Exit, entry) is { } taken)
                        Work(node, parent, entry, node.Parked[p].Exit, p, taken, known, places, found);
            }
        }
    }

    private int? CarryTo(int exit, int entry)
    {
        foreach (var (there, carry) in carries[exit])
            if (there == entry) return carry;
        return null;
    }

    // One run worked on: with a new thread (from -1), the one in hand (parkedAt -1) or a parked one.
    private void Work(in Node node, int parent, int entry, int from, int parkedAt, int carry, Cost known,
        Dictionary<Place, List<int>> places, List<Node> found)
    {
        looked++;
        var k = entry >> 1;
        var run = layout.Work.Runs[runs[k]];
        var left = from < 0 ? Fill.None.Left : parkedAt < 0 ? node.HandLeft : node.Parked[parkedAt].Left;
        var fill = new Fill(left, 0).After(layout.Costs, run, carry, (entry & 1) == 1, layout.Costs.MaySplit(runs[k]), out var carried);
        if (from >= 0 && !carried) return; // the thread is changed anyway: as well begin anew
        var turned = layout.TurnedAt(entry);
        var next = new Node
        {
            Done = node.Done | 1UL << k,
            Cost = new Cost(
                node.Cost.Starts + fill.Begun,
                node.Cost.Fitted + (between[k] != 0 && (between[k] & ~node.Done) == 0 ? 1 : 0),
                node.Cost.TakeUps + (parkedAt >= 0 ? 1 : 0),
                node.Cost.Slant + (from >= 0 ? layout.Slant(2 * runs[from >> 1] + (from & 1), 2 * runs[k] + (entry & 1)) : 0),
                node.Cost.Turns + (turned != node.Turned ? 1 : 0),
                node.Cost.Carried + (from < 0 ? 0 : carry)),
            Parent = parent,
            Entry = (sbyte)entry,
            From = (sbyte)from,
            Turned = turned,
            Hand = -1,
        };
        var exit = entry ^ 1;
        if ((reach[exit] & ~next.Done) != 0) (next.Hand, next.HandLeft) = ((sbyte)exit, fill.Left);
        for (var p = 0; p < node.Parked.Count; p++)
            if (p != parkedAt && (reach[node.Parked[p].Exit] & ~next.Done) != 0) next.Parked.Append(node.Parked[p]);
        if (node.Hand < 0 || from == node.Hand || (reach[node.Hand] & ~next.Done) == 0)
        {
            Keep(next, known, places, found);
            return;
        }
        if (next.Parked.Count < Math.Min(layout.ParkedThreads, Hanging.Most))
        {
            next.Parked.Park(node.Hand, node.HandLeft);
            Keep(next, known, places, found);
            return;
        }
        // no room: the thread put down is tied off, or one of those parked
        Keep(next, known, places, found);
        for (var drop = 0; drop < next.Parked.Count; drop++)
        {
            var other = next;
            other.Parked = next.Parked.Without(drop);
            other.Parked.Park(node.Hand, node.HandLeft);
            Keep(other, known, places, found);
        }
    }

    private void Keep(Node node, Cost known, Dictionary<Place, List<int>> places, List<Node> found)
    {
        var (toCome, spare) = StartsToCome(node);
        node.Least = node.Cost.Starts + toCome;
        node.Spare = (int)(spare * 8 / layout.Costs.Needleful);
        if ((node.Cost with { Starts = node.Least }).CompareTo(known) >= 0) return;
        var place = new Place(node.Done, node.Hand, node.Turned);
        if (!places.TryGetValue(place, out var here)) places[place] = here = [];
        foreach (var other in here)
            if (found[other].Parent >= 0 && NoWorse(found[other], node)) return;
        foreach (var other in here)
        {
            if (found[other].Parent < 0 || !NoWorse(node, found[other])) continue;
            var beaten = found[other];
            beaten.Parent = -1; // beaten: taken out when the row of nodes is done
            found[other] = beaten;
        }
        here.Add(found.Count);
        node.Found = found.Count;
        found.Add(node);
    }

    // At the same place: no dearer, and every thread of the other parked here too and no shorter.
    private static bool NoWorse(in Node a, in Node b) => a.Cost.CompareTo(b.Cost) <= 0 && a.HandLeft >= b.HandLeft && a.Parked.Has(b.Parked);

    // Group by group of the runs to come that hang together by carries: the thread they take with their shortest carries,
    // less what is left of the threads that reach the group, in whole needlefuls.
    private (int Starts, long Spare) StartsToCome(in Node node)
    {
        var toCome = ((1UL << n) - 1) & ~node.Done;
        var starts = 0;
        long spare = 0;
        while (toCome != 0)
        {
            var group = toCome & (~toCome + 1);
            for (var grown = group; grown != 0;)
            {
                var more = near[BitOperations.TrailingZeroCount(grown)] & toCome & ~group;
                grown = (grown & (grown - 1)) | more;
                group |= more;
            }
            toCome &= ~group;
            long length = 0;
            var longest = 0;
            for (var rest = group; rest != 0; rest &= rest - 1)
            {
                var k = BitOperations.TrailingZeroCount(rest);
                length += thread[k] + leastCarry[k];
                longest = Math.Max(longest, leastCarry[k]);
            }
            if (node.Hand >= 0 && (reach[node.Hand] & group) != 0) length -= node.HandLeft + layout.Costs.Longer;
            for (var p = 0; p < node.Parked.Count; p++)
                if ((reach[node.Parked[p].Exit] & group) != 0) length -= node.Parked[p].Left + layout.Costs.Longer;
            var needleful = layout.Costs.Needleful + layout.Costs.Longer + longest;
            var begun = length > 0 ? (length + needleful - 1) / needleful : 0;
            starts += (int)begun;
            spare += begun * needleful - length;
        }
        return (starts, spare);
    }

    private Route Trace(List<Node[]> levels, int last)
    {
        var visits = new Visit[n];
        var steps = new (int Entry, int From)[n];
        var cost = levels[n][last].Cost;
        for (var depth = n; depth > 0; depth--)
        {
            var node = levels[depth][last];
            steps[depth - 1] = (node.Entry, node.From);
            last = node.Parent;
        }
        var pathAt = new int[2 * n]; // the path that comes out at an end
        var paths = 0;
        for (var i = 0; i < n; i++)
        {
            var (entry, from) = steps[i];
            var path = from < 0 ? paths++ : pathAt[from];
            pathAt[entry ^ 1] = path;
            visits[i] = new Visit(runs[entry >> 1], (entry & 1) == 1, path);
        }
        return new Route(visits, paths, cost, levels[0][0].Turned);
    }
}
