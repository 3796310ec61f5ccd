using System.Collections.Immutable;

namespace Pleatwright.Order;

/// <summary>
/// Puts runs in order, one after the other: it carries the thread in hand on as long as it can, takes up a parked
/// thread where that serves, and starts anew at the first run, outward from the base, that is free to be worked.
/// </summary>
internal sealed class Scheduler
{
    private readonly Layout layout;
    private readonly Preference prefer;
    private readonly int[] waits;
    private readonly bool[] done;
    private readonly PriorityQueue<int, int> free = new();
    private readonly List<(int Path, int Exit)> parked = [];
    private readonly ImmutableArray<Visit>.Builder visits;
    private int hand = -1; // exit end of the thread in the needle
    private int handPath;
    private int paths;
    private bool turned;

    private Scheduler(Layout layout, Preference prefer)
    {
        this.layout = layout;
        this.prefer = prefer;
        waits = new int[layout.Runs];
        done = new bool[layout.Runs];
        visits = ImmutableArray.CreateBuilder<Visit>(layout.Runs);
    }

    /// <summary>What to look to first among the runs a thread could carry on to.</summary>
    public enum Preference
    {
        /// <summary>No turning, then the shortest carry.</summary>
        FewTurns,

        /// <summary>The shortest carry, then no turning.</summary>
        ShortCarries,

        /// <summary>The run that fewest other threads could reach, then as <see cref="FewTurns"/>.</summary>
        Rescue,
    }

    /// <summary>Orders every run.</summary>
    public static Route Run(Layout layout, Preference prefer) => new Scheduler(layout, prefer).Run();

    private Route Run()
    {
        for (var r = 0; r < waits.Length; r++)
        {
            waits[r] = layout.Before[r].Length;
            if (waits[r] == 0) free.Enqueue(r, layout.Rank[r]);
        }
        while (visits.Count < waits.Length)
        {
            if (Next(hand) is { } onward) Take(onward, handPath);
            else if (!TakeUpParked()) StartAnew();
        }
        return new Route(visits.MoveToImmutable(), paths);
    }

    // The best end to carry on to from here, or null.
    private int? Next(int exit)
    {
        if (exit < 0) return null;
        int? best = null;
        (int, int, int, int) least = default;
        foreach (var entry in layout.Carries[exit])
        {
            var run = entry >> 1;
            if (done[run] || waits[run] > 0 || !layout.MayEnter(entry)) continue;
            var key = Key(exit, entry);
            if (best is null || key.CompareTo(least) < 0) (best, least) = (entry, key);
        }
        return best;
    }

    private (int, int, int, int) Key(int exit, int entry)
    {
        var turn = layout.TurnedAt(entry) == turned ? 0 : 1;
        var carry = layout.Carry(exit, entry);
        // the rank is the last word; which end comes first when both are as near does not matter for one-cable runs
        var rank = 2 * layout.Rank[entry >> 1] + turn;
        return prefer switch
        {
            Preference.FewTurns => (turn, carry, rank, 0),
            Preference.ShortCarries => (carry, turn, rank, 0),
            _ => (Ways(entry), turn, carry, rank),
        };
    }

    // How many runs not yet worked could carry to or from this one.
    private int Ways(int entry) => Hopes(entry) + Hopes(entry ^ 1);

    private int Hopes(int end)
    {
        var count = 0;
        foreach (var other in layout.Carries[end])
            if (!done[other >> 1] && other >> 1 != end >> 1 && layout.MayEnter(other)) count++;
        return count;
    }

    private bool TakeUpParked()
    {
        for (var p = parked.Count - 1; p >= 0; p--)
        {
            if (Next(parked[p].Exit) is not { } onward) continue;
            var path = parked[p].Path;
            parked.RemoveAt(p);
            LeaveHand();
            Take(onward, path);
            return true;
        }
        return false;
    }

    private void StartAnew()
    {
        LeaveHand();
        int run;
        do run = free.Dequeue(); while (done[run]);
        // the end to begin at: where the other end leads somewhere, then as the work lies, then not turned
        int entry = layout.PlainEntry(run), other = entry ^ 1;
        if (layout.MayEnter(other))
        {
            bool leads = Hopes(entry ^ 1) > 0, otherLeads = Hopes(other ^ 1) > 0;
            if (leads == otherLeads ? turned : otherLeads) entry = other;
        }
        Take(entry, paths++);
    }

    private void LeaveHand()
    {
        if (hand < 0) return;
        parked.Add((handPath, hand));
        parked.RemoveAll(p => Hopes(p.Exit) == 0);
        if (parked.Count > layout.ParkedThreads) parked.RemoveAt(0);
        hand = -1;
    }

    private void Take(int entry, int path)
    {
        var visit = new Visit(entry >> 1, (entry & 1) == 1, path);
        visits.Add(visit);
        done[visit.Run] = true;
        turned = layout.TurnedAt(entry);
        (hand, handPath) = (visit.Exit, path);
        foreach (var later in layout.After[visit.Run])
            if (--waits[later] == 0) free.Enqueue(later, layout.Rank[later]);
    }
}
