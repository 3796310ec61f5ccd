
namespace Pleatwright.Order;

/// <summary>
/// Chooses, for rows in a given order, which way each is worked, which thread works each run, and where threads are tied off. All
/// choices are followed side by side, row after row; of those that come out at the same end the dearer are dropped, and of
/// the rest the most promising go on. While no more than the width are kept nothing is lost.
/// </summary>
internal sealed class Linker(Layout layout, CancellationToken cancel)
{
    private readonly int[] rowOf = new int[layout.Runs];        // of a run, while it is to be worked
    private readonly int[] place = new int[2 * layout.Runs];    // of an entry within its row
    private readonly int[] lastReached = new int[2 * layout.Runs]; // by an exit: the last row with a run in reach
    private readonly List<Node> found = [];
    private readonly List<int> next = []; // of a node found: the next with the same thread in hand
    private readonly Dictionary<int, int> heads = [];
    private Node[] kept = [];
    private bool byThread;
    private bool turnBack;
    private Action<double>? tell;

    private struct Node
    {
        public Cost Cost;
        public long Spent;   // starts in thread, less what is left in threads that may yet be used
        public int HandLeft;
        public int Hand;     // exit end of the thread in hand, or -1
        public int Entry;    // what was worked last
        public int From;     // the exit end it was carried from, or -1
        public int Parent;
        public bool Turned;
        public bool Dropped;
        public Hanging Parked; // sorted by exit
    }

    private readonly record struct Link(int Parent, int Entry, int From);

    /// <summary>The best way found, and whether there is none better.</summary>
    /// <param name="rows">What is worked, in order.</param>
    /// <param name="turned">How the work lies before it.</param>
    /// <param name="width">Choices followed side by side at the most.</param>
    /// <param name="fitted">Runs fitted between two finished ones in that order, to be counted in the cost.</param>
    /// <param name="turnBack">Whether of two that cost the same the one is better that leaves the top edge up, for what comes next.</param>
    /// <param name="tell">Told how much is done, 0 to 1, now and then.</param>
    public (Route Route, bool Proved) Find(List<RowToWork> rows, bool turned, int width, int fitted = 0, bool turnBack = false, Action<double>? tell = null)
    {
        (this.turnBack, this.tell) = (turnBack, tell);
        Prepare(rows);
        var (best, proved) = Follow(rows, turned, width, true);
        if (!proved && width > 1 && Follow(rows, turned, width, false) is var (other, _) && other.Cost.CompareTo(best.Cost) < 0) best = other;
        return (best with { Cost = best.Cost with { Fitted = fitted } }, proved);
    }

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

    private (Route Route, bool Proved) Follow(List<RowToWork> rows, bool turned, int width, bool spentFirst)
    {
        byThread = spentFirst;
        var proved = true;
        kept = [new Node { Hand = -1, Entry = -1, From = -1, Turned = turned }];
        var links = new List<Link[]>();
        for (var y = 0; y < rows.Count; y++)
        {
            cancel.ThrowIfCancellationRequested();
            tell?.Invoke(((spentFirst ? 0 : 1) + (double)y / rows.Count) / 2);
            for (var i = 0; i < rows[y].Length; i++)
            {
                found.Clear();
                next.Clear();
                heads.Clear();
                for (var p = 0; p < kept.Length; p++)
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
                Narrow(width, ref proved);
                links.Add(Array.ConvertAll(kept, k => new Link(k.Parent, k.Entry, k.From)));
            }
        }
        var best = 0;
        for (var k = 1; k < kept.Length; k++)
            if (AtTheEnd(kept[k]).CompareTo(AtTheEnd(kept[best])) < 0) best = k;
        return (Trace(links, best, turned), proved);
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
        for (var k = 0; k < width; k++) kept[k] = all[order[k]];
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
            if (Reaches(node.Parked[p].Exit, entry)) Work(node, parent, entry, node.Parked[p].Exit, p, row, at);
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
    private bool IsAlive(int exit, int entry, int row, int at)
    {
        if (lastReached[exit] != row) return lastReached[exit] > row;
        foreach (var other in layout.Carries[exit])
            if (rowOf[other >> 1] == row && (other & 1) == (entry & 1) && place[other] > at) return true;
        return false;
    }

    private void Work(in Node node, int parent, int entry, int from, int parkedAt, int row, int at)
    {
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
                0,
                node.Cost.TakeUps + (parkedAt >= 0 ? 1 : 0),
                node.Cost.Slant + (from >= 0 ? layout.Slant(from, entry) : 0),
                node.Cost.Turns + (turned != node.Turned ? 1 : 0),
                node.Cost.Carried + carry),
            Parent = parent,
            Entry = entry,
            From = from,
            Turned = turned,
            Hand = -1,
        };
        if (IsAlive(entry ^ 1, entry, row, at)) (node2.Hand, node2.HandLeft) = (entry ^ 1, fill.Left);
        for (var p = 0; p < node.Parked.Count; p++)
            if (p != parkedAt && IsAlive(node.Parked[p].Exit, entry, row, at)) node2.Parked.Append(node.Parked[p]);
        if (node.Hand < 0 || from == node.Hand || !IsAlive(node.Hand, entry, row, at))
        {
            Keep(ref node2);
            return;
        }
        if (node2.Parked.Count < Math.Min(layout.ParkedThreads, Hanging.Most))
        {
            node2.Parked.Park(node.Hand, node.HandLeft);
            Keep(ref node2);
            return;
        }
        // no room: the thread put down is tied off, or one of those parked
        var without = node2;
        Keep(ref without);
        for (var drop = 0; drop < node2.Parked.Count; drop++)
        {
            var other = node2;
            other.Parked = node2.Parked.Without(drop);
            other.Parked.Park(node.Hand, node.HandLeft);
            Keep(ref other);
        }
    }

    private void Keep(ref Node node)
    {
        node.Spent = (long)node.Cost.Starts * layout.Costs.Needleful - (node.Hand < 0 ? 0 : Math.Max(0, node.HandLeft));
        for (var p = 0; p < node.Parked.Count; p++) node.Spent -= Math.Max(0, node.Parked[p].Left);
        var key = 2 * node.Hand + (node.Turned ? 1 : 0);
        var nodes = System.Runtime.InteropServices.CollectionsMarshal.AsSpan(found);
        var head = heads.GetValueOrDefault(key, -1);
        for (var other = head; other >= 0; other = next[other])
            if (!nodes[other].Dropped && NoWorse(nodes[other], node)) return;
        for (var other = head; other >= 0; other = next[other])
            if (!nodes[other].Dropped && NoWorse(node, nodes[other])) nodes[other].Dropped = true;
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
