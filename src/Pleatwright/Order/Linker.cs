
namespace Pleatwright.Order;

/// <summary>
/// Chooses, for rows in a given order, which way each is worked, which thread works each run, and where threads are tied off; and
/// for runs set free, their order too. All choices are followed side by side, row after row; of those that come out at the same end
/// the dearer are dropped, and of the rest the most promising go on. While no more than the width are kept nothing is lost.
/// </summary>
internal sealed class Linker(Layout layout, CancellationToken enough, CancellationToken cancel)
{
    // ends in the order of rank, in which threads that hang are sorted: so either hand finds the same
    private readonly int[] byRank = ByRank(layout);
    private readonly int[] rowOf = new int[layout.Runs];        // of a run, while it is to be worked
    private readonly int[] place = new int[2 * layout.Runs];    // of an entry within its row
    private readonly int[] lastReached = new int[2 * layout.Runs]; // by an exit: the last row with a run in reach
    private readonly int[] ranFrom = new int[layout.Runs];      // in the order known: the end that its thread was carried from, or -1
    private readonly int[] entered = new int[layout.Runs];      // in the order known: the end it was begun at
    private readonly bool[] goesOn = new bool[2 * layout.Runs]; // in the order known: whether the thread that comes out at an exit is carried on
    private readonly ulong[] reaching = new ulong[2 * layout.Runs]; // by an exit: the free runs it reaches, a bit each
    private readonly List<Node> found = [];
    private readonly List<int> next = []; // of a node found: the next with the same thread in hand
    private readonly Dictionary<(ulong, int), int> heads = [];
    private ulong[] before = [];  // by free run: those of them that are worked before it
    private ulong[] beside = [];  // by free run that is an arm, and has nothing to butt yet: those of them that it touches in its row
    private bool isFree;          // whether the row at hand is worked in any order
    private bool counts;          // whether runs fitted between two finished ones are counted
    private Visit[]? known;
    private Node[] kept = [];
    private bool byThread;
    private int at; // runs worked
    private long looked;
    private bool turnBack;
    private Action<double>? tell;

    private struct Node
    {
        public Cost Cost;
        public long Spent;   // starts in thread, less what is left in threads that may yet be used and what was worked
        public long Worked;  // thread in stitches
        public ulong Done;   // of runs set free, while they are worked
        public int HandLeft;
        public int Hand;     // exit end of the thread in hand, or -1
        public int Entry;    // what was worked last
        public int From;     // the exit end it was carried from, or -1
        public int Parent;
        public bool Turned;
        public bool Dropped;
        public bool Known;   // no worse than the order known as far as it goes
        public Hanging Parked; // by rank
    }

    private readonly record struct Link(int Parent, int Entry, int From);

    private static int[] ByRank(Layout layout)
    {
        var ends = new int[2 * layout.Runs];
        for (var end = 0; end < ends.Length; end++) ends[2 * layout.Rank[end >> 1] + (end & 1)] = end;
        return ends;
    }

    private int Ranked(int end) => 2 * layout.Rank[end >> 1] + (end & 1);

    // The end at which a parked thread came out.
    private int ExitOf(in Hanging parked, int p) => byRank[parked[p].Exit];

    /// <summary>The best way found, and whether there is none better.</summary>
    /// <param name="rows">What is worked, in order.</param>
    /// <param name="turned">How the work lies before it.</param>
    /// <param name="width">Choices followed side by side at the most.</param>
    /// <param name="turnBack">Whether of two that cost the same the one is better that leaves the top edge up, for what comes next.</param>
    /// <param name="tell">Told how much is done, 0 to 1, now and then.</param>
    public (Route Route, bool Proved) Find(List<RowToWork> rows, bool turned, int width, bool turnBack = false, Action<double>? tell = null)
    {
        (this.turnBack, this.tell, counts, known) = (turnBack, tell, false, null);
        Prepare(rows);
        var (best, proved) = Follow(rows, turned, width, true, 0);
        return !proved && width > 1 && Follow(rows, turned, width, false, 0.5) is var (other, _) && other.Cost.CompareTo(best.Cost) < 0 ? (other, false) : (best, proved);
    }

    /// <summary>
    /// A known order made better: its runs are set free so many at a time, and each lot is ordered anew where it stands. The order known is followed too,
    /// unless there is none worse at some place, so hardly ever comes anything worse.
    /// </summary>
    /// <param name="route">The order known.</param>
    /// <param name="free">Runs set free at a time, <see cref="MostFree"/> at the most; 1 keeps the order and chooses ends, threads and tie-offs alone.</param>
    /// <param name="first">Runs set free at the beginning, before so many at a time.</param>
    /// <param name="width">Choices followed side by side at the most.</param>
    /// <param name="spentFirst">Whether thread to spare promises more than few starts.</param>
    /// <param name="tell">Told how much is done, 0 to 1, now and then.</param>
    /// <returns>The best found, and how many choices were looked at.</returns>
    public (Route Route, long Looked) Reorder(Route route, int free, int first, int width, bool spentFirst, Action<double>? tell = null)
    {
        (turnBack, this.tell, counts, known, looked) = (false, tell, true, route.Visits, 0);
        var lastOf = new int[route.Paths];
        Array.Fill(lastOf, -1);
        foreach (var visit in known)
        {
            (ranFrom[visit.Run], entered[visit.Run], goesOn[visit.Entry], goesOn[visit.Exit]) = (lastOf[visit.Path], visit.Entry, false, false);
            if (lastOf[visit.Path] >= 0) goesOn[lastOf[visit.Path]] = true;
            lastOf[visit.Path] = visit.Exit;
        }
        var rows = Rows.Freed(known, free, first);
        Prepare(rows);
        var found = Follow(rows, route.TurnedBefore, width, spentFirst, 0).Route;
        return (found.Cost.CompareTo(route.Cost) <= 0 ? found : route, looked); // never worse than what was known
    }

    /// <summary>Runs that may be free at once: each is a bit.</summary>
    public const int MostFree = 64;

    private void Prepare(List<RowToWork> rows)
    {
        for (var y = 0; y < rows.Count; y++)
            for (var direction = 0; direction < 2; direction++)
            {
                var entries = rows[y].Going(direction);
                for (var i = 0; i < entries.Length; i++)
                {
                    rowOf[entries[i] >> 1] = y;
                    place[entries[i]] = i;
                }
            }
        foreach (var row in rows)
            foreach (var entry in row.Rightward)
                for (var exit = entry; exit <= entry + 1; exit++)
                {
                    var last = -1;
                    foreach (var other in layout.Carries[exit])
                        if (layout.MayEnter(other)) last = Math.Max(last, rowOf[other >> 1]);
                    lastReached[exit] = last;
                }
    }

    private (Route Route, bool Proved) Follow(List<RowToWork> rows, bool turned, int width, bool spentFirst, double told)
    {
        byThread = spentFirst;
        var proved = true;
        kept = [new Node { Hand = -1, Entry = -1, From = -1, Turned = turned, Known = known is not null }];
        at = 0;
        var links = new List<Link[]>();
        for (var y = 0; y < rows.Count; y++)
        {
            cancel.ThrowIfCancellationRequested();
            tell?.Invoke(told + (double)y / rows.Count / 2);
            if (enough.IsCancellationRequested) width = Math.Min(width, 2);
            isFree = rows[y].IsFree;
            if (isFree) Free(rows[y], y);
            for (var i = 0; i < rows[y].Length; i++)
            {
                found.Clear();
                next.Clear();
                heads.Clear();
                for (var p = 0; p < kept.Length; p++)
                {
                    if (isFree)
                    {
                        ExpandFree(rows[y], p, y);
                        continue;
                    }
                    for (var way = 0; way < 2; way++)
                    {
                        // not turned first, so that either hand finds the same
                        var direction = layout.TurnedAt(0) ? 1 - way : way;
                        if (rows[y].IsPlain && layout.TurnedAt(direction)) continue;
                        if (i > 0 && (kept[p].Entry & 1) != direction) continue;
                        var entry = rows[y].Going(direction)[i];
                        if (!layout.MayEnter(entry)) continue;
                        if (i == 0 && rows[y].IsPlain) Begin(kept[p], p, entry, y);
                        else Expand(kept[p], p, entry, y, i);
                    }
                }
                at++;
                Narrow(width, ref proved);
                links.Add(Array.ConvertAll(kept, k => new Link(k.Parent, k.Entry, k.From)));
            }
            if (!isFree) continue;
            for (var k = 0; k < kept.Length; k++) kept[k].Done = 0;
            foreach (var entry in rows[y].Rightward) Reach(entry >> 1, 0, false);
        }
        var best = 0;
        for (var k = 1; k < kept.Length; k++)
            if (AtTheEnd(kept[k]).CompareTo(AtTheEnd(kept[best])) < 0) best = k;
        return (Trace(links, best, turned), proved);
    }

    // What the free runs of a row wait for, of one another and to butt.
    private void Free(RowToWork row, int y)
    {
        var entries = row.Rightward;
        (before, beside) = (new ulong[entries.Length], new ulong[entries.Length]);
        for (var k = 0; k < entries.Length; k++)
        {
            var run = entries[k] >> 1;
            foreach (var b in layout.Before[run])
                if (rowOf[b] == y) before[k] |= 1UL << place[2 * b];
            var (butts, stretch) = (!layout.Outward.IsArm(run), layout.Outward.StretchOf(run));
            for (var b = 0; b < entries.Length; b++)
                if (b != k && layout.Stages.IsBefore(entries[b] >> 1, run)) before[k] |= 1UL << b;
            for (var other = run - 1; other <= run + 1; other += 2)
            {
                if (butts || other < 0 || other >= rowOf.Length || layout.Outward.StretchOf(other) != stretch) continue;
                if (rowOf[other] < y) butts = true;
                else if (rowOf[other] == y) beside[k] |= 1UL << place[2 * other];
            }
            if (butts) beside[k] = 0;
            Reach(run, k, true);
        }
    }

    private void Reach(int run, int bit, bool isFree)
    {
        for (var entry = 2 * run; entry <= 2 * run + 1; entry++)
        {
            if (!layout.MayEnter(entry)) continue;
            foreach (var exit in layout.Carries[entry]) reaching[exit] = isFree ? reaching[exit] | 1UL << bit : 0;
        }
    }

    private void ExpandFree(RowToWork row, int p, int y)
    {
        var done = kept[p].Done;
        for (var k = 0; k < row.Length; k++)
        {
            if ((done >> k & 1) != 0 || (before[k] & ~done) != 0 || (beside[k] != 0 && (beside[k] & done) == 0)) continue;
            for (var way = 0; way < 2; way++)
            {
                var entry = layout.PlainEntry(row.Rightward[k] >> 1) ^ way;
                if (layout.MayEnter(entry)) Expand(kept[p], p, entry, y, k);
            }
        }
    }

    private Cost AtTheEnd(in Node node) => turnBack && node.Turned ? node.Cost with { Turns = node.Cost.Turns + 1 } : node.Cost;

    private void Narrow(int width, ref bool proved)
    {
        found.RemoveAll(f => f.Dropped);
        kept = [.. found];
        if (kept.Length <= width) return;
        proved = false;
        var order = new int[kept.Length];
        for (var k = 0; k < order.Length; k++) order[k] = k;
        var all = kept;
        Array.Sort(order, (a, b) => Compare(all[a], all[b]) is var first and not 0 ? first : a.CompareTo(b));
        kept = new Node[width];
        var isKnown = false;
        for (var k = 0; k < width; k++) isKnown |= (kept[k] = all[order[k]]).Known;
        for (var k = width; !isKnown && k < order.Length; k++)
            if (isKnown = all[order[k]].Known) kept[^1] = all[order[k]];
    }

    private int Compare(in Node a, in Node b)
    {
        if (byThread && a.Spent != b.Spent) return a.Spent.CompareTo(b.Spent);
        if (a.Cost.Starts != b.Cost.Starts) return a.Cost.Starts.CompareTo(b.Cost.Starts);
        return a.Cost.CompareTo(b.Cost) is var first and not 0 ? first : a.Spent.CompareTo(b.Spent);
    }

    // A figure is begun: no thread is left hanging for it or through it, though the one in hand may be carried straight on.
    private void Begin(in Node node, int parent, int entry, int row)
    {
        var alone = node;
        alone.Parked = default;
        if (node.Hand >= 0 && Reaches(node.Hand, entry)) Work(alone, parent, entry, node.Hand, -1, row, 0);
        alone.Hand = -1;
        Work(alone, parent, entry, -1, -1, row, 0);
    }

    private void Expand(in Node node, int parent, int entry, int row, int at)
    {
        Work(node, parent, entry, -1, -1, row, at);
        if (node.Hand >= 0 && Reaches(node.Hand, entry)) Work(node, parent, entry, node.Hand, -1, row, at);
        for (var p = 0; p < node.Parked.Count; p++)
            if (ExitOf(node.Parked, p) is var exit && Reaches(exit, entry)) Work(node, parent, entry, exit, p, row, at);
    }

    private bool Reaches(int exit, int entry)
    {
        var runs = layout.Work.Runs;
        ref readonly var a = ref runs[exit >> 1];
        ref readonly var b = ref runs[entry >> 1];
        return a.Thread == b.Thread && Math.Abs(a.Row.Index - b.Row.Index) <= layout.Costs.CarryRows
            && Math.Abs(Carries.Valley(runs, exit) - Carries.Valley(runs, entry)) <= layout.Costs.CarryPleats;
    }

    // Whether a thread that came out here may yet be used, once the entry so many along its row is worked.
    private bool IsAlive(int exit, int entry, int row, int at, ulong done)
    {
        if (lastReached[exit] != row) return lastReached[exit] > row;
        if (isFree) return (reaching[exit] & ~done) != 0;
        foreach (var other in layout.Carries[exit])
            if (rowOf[other >> 1] == row && (other & 1) == (entry & 1) && place[other] > at) return true;
        return false;
    }

    private void Work(in Node node, int parent, int entry, int from, int parkedAt, int row, int at)
    {
        looked++;
        var run = entry >> 1;
        var left = from < 0 ? Fill.None.Left : parkedAt < 0 ? node.HandLeft : node.Parked[parkedAt].Left;
        var carry = from < 0 ? 0 : layout.Carry(from, entry);
        var fill = new Fill(left, 0).After(layout.Costs, layout.Work.Runs[run], carry, (entry & 1) == 1, layout.Costs.MaySplit(run), out var carried);
        if (from >= 0 && !carried) return; // the thread is changed anyway: as well begin anew
        var turned = layout.TurnedAt(entry);
        var node2 = new Node
        {
            Cost = new Cost(
                node.Cost.Starts + fill.Begun,
                node.Cost.Fitted + (counts && layout.LiesBetween(run) && IsDone(run - 1, node, row) && IsDone(run + 1, node, row) ? 1 : 0),
                node.Cost.TakeUps + (parkedAt >= 0 ? 1 : 0),
                node.Cost.Slant + (from >= 0 ? layout.Slant(from, entry) : 0),
                node.Cost.Turns + (turned != node.Turned ? 1 : 0),
                node.Cost.Carried + carry),
            Parent = parent,
            Entry = entry,
            From = from,
            Turned = turned,
            Hand = -1,
            Worked = node.Worked + layout.Costs.Run(run),
            Done = isFree ? node.Done | 1UL << at : 0,
            Known = node.Known && known![this.at].Run == run && entered[run] == entry && ranFrom[run] == from,
        };
        if (IsAlive(entry ^ 1, entry, row, at, node2.Done)) (node2.Hand, node2.HandLeft) = (entry ^ 1, fill.Left);
        for (var p = 0; p < node.Parked.Count; p++)
            if (p != parkedAt && IsAlive(ExitOf(node.Parked, p), entry, row, at, node2.Done)) node2.Parked.Append(node.Parked[p]);
        if (node.Hand < 0 || from == node.Hand || !IsAlive(node.Hand, entry, row, at, node2.Done))
        {
            Keep(ref node2);
            return;
        }
        if (node2.Parked.Count < Math.Min(layout.ParkedThreads, Hanging.Most))
        {
            node2.Parked.Park(Ranked(node.Hand), node.HandLeft);
            Keep(ref node2);
            return;
        }
        // no room: the thread put down is tied off, or one of those parked
        var without = node2;
        without.Known &= !goesOn[node.Hand];
        Keep(ref without);
        for (var drop = 0; drop < node2.Parked.Count; drop++)
        {
            var other = node2;
            other.Parked = node2.Parked.Without(drop);
            other.Known &= !goesOn[ExitOf(node2.Parked, drop)];
            other.Parked.Park(Ranked(node.Hand), node.HandLeft);
            Keep(ref other);
        }
    }

    private bool IsDone(int run, in Node node, int row) => rowOf[run] < row || (rowOf[run] == row && isFree && (node.Done >> place[2 * run] & 1) != 0);

    private void Keep(ref Node node)
    {
        node.Spent = (long)node.Cost.Starts * layout.Costs.Needleful - node.Worked - (node.Hand < 0 ? 0 : Math.Max(0, node.HandLeft));
        for (var p = 0; p < node.Parked.Count; p++) node.Spent -= Math.Max(0, node.Parked[p].Left);
        var key = (node.Done, 2 * node.Hand + (node.Turned ? 1 : 0));
        var nodes = System.Runtime.InteropServices.CollectionsMarshal.AsSpan(found);
        var head = heads.GetValueOrDefault(key, -1);
        for (var other = head; other >= 0; other = next[other])
            if (!nodes[other].Dropped && NoWorse(nodes[other], node))
            {
                nodes[other].Known |= node.Known;
                return;
            }
        for (var other = head; other >= 0; other = next[other])
            if (!nodes[other].Dropped && NoWorse(node, nodes[other])) (nodes[other].Dropped, node.Known) = (true, node.Known | nodes[other].Known);
        heads[key] = found.Count;
        next.Add(head);
        found.Add(node);
    }

    // At the same place: no dearer, and every thread of the other parked here too and no shorter.
    private static bool NoWorse(in Node a, in Node b) => a.Cost.CompareTo(b.Cost) <= 0 && a.HandLeft >= b.HandLeft && a.Parked.Has(b.Parked);

    private Route Trace(List<Link[]> links, int last, bool turned)
    {
        var cost = kept[last].Cost;
        var steps = new Link[links.Count];
        for (var depth = links.Count - 1; depth >= 0; depth--)
        {
            steps[depth] = links[depth][last];
            last = steps[depth].Parent;
        }
        var pathAt = new Dictionary<int, int>(); // the path that comes out at an end
        var visits = new Visit[steps.Length];
        var paths = 0;
        for (var i = 0; i < steps.Length; i++)
        {
            var (_, entry, from) = steps[i];
            var path = from < 0 ? paths++ : pathAt[from];
            pathAt[entry ^ 1] = path;
            visits[i] = new Visit(entry >> 1, (entry & 1) == 1, path);
        }
        return new Route(visits, paths, cost, turned);
    }
}
