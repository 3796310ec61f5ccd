using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>
/// Puts the runs of a cluster in order, one after the other: it carries the thread in hand on as long as it can, takes
/// up a parked thread where that serves, and starts anew at the first run, outward from the base, that is free.
/// </summary>
internal sealed class Scheduler(Layout layout, CancellationToken cancel)
{
    private readonly int[] waits = new int[layout.Runs];
    private readonly int[] toCome = new int[layout.Stages.Gates]; // of a gate: runs to be done before it opens
    private readonly bool[] done = new bool[layout.Runs];
    private readonly PriorityQueue<int, int> free = new();
    private readonly int[] behind = new int[layout.Runs]; // of a run: how far on the front is that reaches it
    private readonly List<Thread> parked = [];
    private Preference prefer;
    private Thread hand;
    private bool turned;
    private int paths;
    private bool taken; // whether the thread in hand was parked until now
    private int pinned = -1; // the run that must come now, or -1
    private ReadOnlyMemory<int> all;

    /// <summary>What to look to first among the runs a thread could carry on to.</summary>
    public enum Preference
    {
        /// <summary>No turning, then the shortest carry.</summary>
        FewTurns,

        /// <summary>The shortest carry, then no turning.</summary>
        ShortCarries,

        /// <summary>The run that fewest other threads could reach, then as <see cref="FewTurns"/>.</summary>
        Rescue,

        /// <summary>As <see cref="FewTurns"/>, but a new thread starts at what the thread last parked waits for.</summary>
        Unblock,

        /// <summary>The run furthest behind a front, then as <see cref="FewTurns"/>; see <see cref="Scheduler.Swept"/>.</summary>
        Swept,
    }

    // A thread on its path: the end it comes out at (-1 for none), and what is left of it.
    private readonly record struct Thread(int Path, int Exit, Fill Fill);

    /// <summary>
    /// Orders a cluster as if a slanting front swept over it, outward and across the cloth, and whatever lies furthest behind came first: the threads
    /// of a stretch of the front go along with it, where right across they would be left behind.
    /// </summary>
    /// <param name="cluster">Its runs.</param>
    /// <param name="slope">How far the front lies back from row to row, in quarters of a pleat; 0 for straight along the pleats.</param>
    /// <param name="turnedBefore">How the work lies before it.</param>
    public Route Swept(ReadOnlyMemory<int> cluster, int slope, bool turnedBefore)
    {
        // outward from the base row of the area with the most runs
        var areas = layout.Work.Areas;
        var runs = layout.Work.Runs;
        var count = new Dictionary<int, int>();
        foreach (var r in cluster.Span) count[areas.AreaOf(r)] = count.GetValueOrDefault(areas.AreaOf(r)) + 1;
        var from = areas.All[count.MaxBy(c => (c.Value, -c.Key)).Key].Base.Index;
        foreach (var r in cluster.Span)
        {
            var isUp = runs[r].Row.Index <= from;
            var second = isUp == (layout.Work.Piece.Working.First == FirstWay.Down);
            var across = layout.TurnedAt(0) ? 2 * (layout.Work.Valleys + 1) - runs[r].From.Number - runs[r].To.Number : runs[r].From.Number + runs[r].To.Number;
            behind[r] = (second ? 1 << 28 : 0) + 2 * across + slope * Math.Abs(runs[r].Row.Index - from);
        }
        return Run(cluster, Preference.Swept, turnedBefore, static _ => { });
    }

    /// <summary>Orders a cluster, begun as the work lies.</summary>
    /// <param name="cluster">Its runs.</param>
    /// <param name="preference">What to look to first.</param>
    /// <param name="turnedBefore">How the work lies before it.</param>
    /// <param name="tell">Told how much is done, 0 to 1, now and then.</param>
    public Route Run(ReadOnlyMemory<int> cluster, Preference preference, bool turnedBefore, Action<double> tell)
    {
        all = cluster;
        (prefer, turned, hand) = (preference, turnedBefore, new Thread(0, -1, Fill.None));
        free.Clear();
        parked.Clear();
        foreach (var r in cluster.Span)
        {
            done[r] = false;
            waits[r] = layout.Before[r].Length;
            foreach (var gate in layout.Stages.Awaits[r])
                if ((toCome[gate] = layout.Stages.Need(gate)) > 0) waits[r]++;
            foreach (var gate in layout.Stages.Feeds[r]) toCome[gate] = layout.Stages.Need(gate);
            if (layout.Outward.IsArm(r)) waits[r]++;
            if (waits[r] == 0) free.Enqueue(r, PlaceOf(r));
        }
        var visits = new Visit[cluster.Length];
        paths = 0;
        Cost cost = default;
        for (var i = 0; i < visits.Length; i++)
        {
            if (i % 1024 == 0)
            {
                cancel.ThrowIfCancellationRequested();
                tell((double)i / visits.Length);
            }
            pinned = layout.Pins.RunAt(i);
            var entry = Next(hand.Exit);
            taken = entry < 0;
            if (entry < 0) entry = TakeUpParked();
            if (entry < 0)
            {
                LeaveHand();
                entry = StartAnew();
                hand = new Thread(paths++, -1, Fill.None);
            }
            visits[i] = Take(entry, ref cost);
        }
        return new Route(visits, paths, cost, turnedBefore);
    }

    private Visit Take(int entry, ref Cost cost)
    {
        var visit = new Visit(entry >> 1, (entry & 1) == 1, hand.Path);
        var carry = hand.Exit < 0 ? 0 : layout.Carry(hand.Exit, entry);
        var fill = hand.Fill.After(layout.Costs, layout.Work.Runs[visit.Run], carry, visit.Leftward, layout.Costs.MaySplit(visit.Run), out var carried);
        if (!carried && hand.Exit >= 0) visit = visit with { Path = paths++ }; // the thread is changed before it: a path of its own
        var nowTurned = layout.TurnedAt(entry);
        cost = new Cost(
            cost.Starts + fill.Begun - hand.Fill.Begun,
            cost.Fitted + (layout.LiesBetween(visit.Run) && done[visit.Run - 1] && done[visit.Run + 1] ? 1 : 0),
            cost.TakeUps + (carried && taken ? 1 : 0),
            cost.Slant + (carried ? layout.Slant(hand.Exit, entry) : 0),
            cost.Turns + (nowTurned != turned ? 1 : 0),
            cost.Carried + (carried ? carry : 0));
        turned = nowTurned;
        hand = new Thread(visit.Path, visit.Exit, fill);
        done[visit.Run] = true;
        foreach (var later in layout.After[visit.Run]) WaitsLess(later);
        foreach (var gate in layout.Stages.Feeds[visit.Run])
            if (--toCome[gate] == 0)
                foreach (var later in layout.Stages.Opens[gate]) WaitsLess(later);
        if (visit.Run > 0 && layout.TouchesNext(visit.Run - 1)) Holds(visit.Run - 1, visit.Run - 2);
        if (layout.TouchesNext(visit.Run)) Holds(visit.Run + 1, visit.Run + 2);
        return visit;
    }

    // An arm has something to butt once a run beside it is done, the first of them.
    private void Holds(int arm, int other)
    {
        if (done[arm] || !layout.Outward.IsArm(arm)) return;
        if (other >= 0 && other < done.Length && layout.Outward.StretchOf(other) == layout.Outward.StretchOf(arm) && done[other]) return;
        WaitsLess(arm);
    }

    // Of the runs that are free, the least is begun first.
    private int PlaceOf(int run) => prefer == Preference.Swept ? behind[run] : layout.Rank[run];

    private void WaitsLess(int run)
    {
        if (--waits[run] == 0) free.Enqueue(run, PlaceOf(run));
    }

    // The best end to carry on to from here, or -1.
    private int Next(int exit)
    {
        var best = -1;
        if (exit < 0) return best;
        (long, long) least = default;
        foreach (var entry in layout.Carries[exit])
        {
            if (!IsFree(entry >> 1) || !layout.MayEnter(entry)) continue;
            var key = Key(exit, entry);
            if (best < 0 || key.First < least.Item1 || (key.First == least.Item1 && key.Second < least.Item2)) (best, least) = (entry, key);
        }
        return best;
    }

    // A pinned run is free in its place alone, whatever it waits for; no other is free there.
    private bool IsFree(int run) =>
        !done[run] && (pinned >= 0 ? run == pinned : waits[run] <= 0 && !layout.Pins.Has(run));

    // Four numbers to compare one after the other, packed by two: compared for every carry, they must be quick in the browser too.
    private (long First, long Second) Key(int exit, int entry)
    {
        var turn = layout.TurnedAt(entry) == turned ? 0 : 1;
        var carry = layout.Carry(exit, entry);
        var rank = 2 * layout.Rank[entry >> 1] + turn;
        return prefer switch
        {
            Preference.FewTurns or Preference.Unblock => (Pack(turn, carry), rank),
            Preference.Swept => (behind[entry >> 1], Pack(turn, carry)),
            Preference.ShortCarries => (Pack(carry, turn), rank),
            _ => (Pack(Hopes(entry) + Hopes(entry ^ 1), turn), Pack(carry, rank)),
        };

        static long Pack(int first, int second) => (long)first << 32 | (uint)second;
    }

    // How many runs not yet worked lie within a carry of this end.
    private int Hopes(int end)
    {
        var count = 0;
        foreach (var other in layout.Carries[end])
            if (!done[other >> 1] && layout.MayEnter(other)) count++;
        return count;
    }

    private int TakeUpParked()
    {
        for (var p = parked.Count - 1; p >= 0; p--)
        {
            var entry = Next(parked[p].Exit);
            if (entry < 0) continue;
            var taken = parked[p];
            parked.RemoveAt(p);
            LeaveHand();
            hand = taken;
            return entry;
        }
        return -1;
    }

    private void LeaveHand()
    {
        if (hand.Exit < 0) return;
        parked.Add(hand);
        parked.RemoveAll(p => Hopes(p.Exit) == 0);
        if (parked.Count <= layout.ParkedThreads) return;
        // one too many: tie off the one with least thread left
        var least = 0;
        for (var p = 1; p < parked.Count; p++)
            if (parked[p].Fill.Left < parked[least].Fill.Left) least = p;
        parked.RemoveAt(least);
    }

    private int FirstFree()
    {
        while (free.TryDequeue(out var run, out _))
            if (IsFree(run)) return run;
        // all that is left waits for a run pinned to a later place: the first of it goes before, as the maker will have it
        var first = -1;
        foreach (var r in all.Span)
            if (!done[r] && !layout.Pins.Has(r) && (first < 0 || layout.Rank[r] < layout.Rank[first])) first = r;
        return first;
    }

    // The first free run, outward from the base, that the thread last parked waits for; or -1.
    private int Blocking()
    {
        for (var p = parked.Count - 1; p >= 0; p--)
        {
            var wanted = -1;
            foreach (var entry in layout.Carries[parked[p].Exit])
                if (!done[entry >> 1] && layout.MayEnter(entry) && (wanted < 0 || layout.Rank[entry >> 1] < layout.Rank[wanted])) wanted = entry >> 1;
            while (wanted >= 0 && waits[wanted] > 0)
            {
                var before = -1;
                foreach (var b in layout.Before[wanted])
                    if (!done[b] && (before < 0 || layout.Rank[b] < layout.Rank[before])) before = b;
                wanted = before;
            }
            if (wanted >= 0 && IsFree(wanted)) return wanted;
        }
        return -1;
    }

    private int StartAnew()
    {
        var run = pinned >= 0 ? pinned : prefer == Preference.Unblock && Blocking() is var blocking and >= 0 ? blocking : FirstFree();
        // the end to begin at: where the other end leads somewhere, then as the work lies, then not turned
        int entry = layout.PlainEntry(run), other = entry ^ 1;
        if (!layout.MayEnter(other)) return entry;
        bool leads = Hopes(entry ^ 1) > 0, otherLeads = Hopes(other ^ 1) > 0;
        return (leads == otherLeads ? turned : otherLeads) ? other : entry;
    }
}
