using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Shelf;

namespace Pleatwright.Tests.Keeping;

/// <summary>What goes wrong at a call.</summary>
public enum Fault
{
    None,

    /// <summary>It answers after a while.</summary>
    Slow,

    /// <summary>It does not answer, and nothing was done.</summary>
    Gone,

    /// <summary>It does what it was asked, and its answer is lost.</summary>
    AnswerLost,

    /// <summary>There is no room.</summary>
    Full,

    /// <summary>Another is writing for longer than one waits.</summary>
    Busy,
}

/// <summary>Trouble on order: what the next calls meet, one after another; none when the list is at its end.</summary>
public sealed class Faults(TimeProvider time)
{
    private readonly Queue<Fault> disk = new(), wire = new(), journal = new();

    /// <summary>How often this browser's own storage has met trouble.</summary>
    public int JournalTroubles { get; private set; }

    /// <summary>Whether the host is stopped: no call reaches the shelf.</summary>
    public bool Stopped { get; set; }

    /// <summary>Whether this browser stores nothing.</summary>
    public bool NoStore { get; set; }

    /// <summary>What the next calls of the disk meet.</summary>
    public void OnDisk(params IEnumerable<Fault> faults) => Add(disk, faults);

    /// <summary>What the next calls to the shelf meet.</summary>
    public void OnWire(params IEnumerable<Fault> faults) => Add(wire, faults);

    /// <summary>What the next calls to the browser's own storage meet.</summary>
    public void OnJournal(params IEnumerable<Fault> faults) => Add(journal, faults);

    /// <summary>No more trouble.</summary>
    public void Stop()
    {
        (Stopped, NoStore) = (false, false);
        disk.Clear();
        wire.Clear();
        journal.Clear();
    }

    public async Task OnDiskAsync()
    {
        switch (disk.TryDequeue(out var fault) ? fault : Fault.None)
        {
            case Fault.Slow: await Task.Delay(TimeSpan.FromSeconds(2), time); break;
            case Fault.Full: throw new ShelfException(ShelfTrouble.Full, "The disk is full.");
            case Fault.None: break;
            default: throw new ShelfException(ShelfTrouble.Unavailable, "The folder cannot be used just now.");
        }
    }

    public async Task<T> OnWireAsync<T>(Func<Task<T>> call)
    {
        if (Stopped) throw Silent();
        switch (wire.TryDequeue(out var fault) ? fault : Fault.None)
        {
            case Fault.Slow:
                await Task.Delay(TimeSpan.FromSeconds(3), time);
                var answer = await call();
                await Task.Delay(TimeSpan.FromSeconds(3), time);
                return answer;
            case Fault.Gone: throw Silent();
            case Fault.AnswerLost:
                await call();
                throw Silent();
            case Fault.Full: throw new ShelfException(ShelfTrouble.Full, "The disk is full.");
            case Fault.Busy: throw new ShelfException(ShelfTrouble.Busy, "Another bench is writing.");
            default: return await call();
        }
    }

    public async Task OnJournalAsync()
    {
        if (NoStore) throw new MemoryException("QuotaExceededError: there is no room");
        var met = journal.TryDequeue(out var fault) ? fault : Fault.None;
        if (met != Fault.None) JournalTroubles++;
        switch (met)
        {
            case Fault.Slow: await Task.Delay(TimeSpan.FromSeconds(2), time); break;
            case Fault.None: break;
            default: throw new MemoryException("QuotaExceededError: there is no room");
        }
    }

    /// <summary>What the browser's own storage takes where nothing is amiss.</summary>
    public Task MomentAsync() => Task.Delay(TimeSpan.FromMilliseconds(10), time);

    private static ShelfException Silent() => new(ShelfTrouble.Unavailable, "The bench's host does not answer.");

    private static void Add(Queue<Fault> to, IEnumerable<Fault> faults)
    {
        foreach (var fault in faults) to.Enqueue(fault);
    }
}
