using Microsoft.Extensions.Time.Testing;

namespace Pleatwright.Tests;

/// <summary>One thread, as a browser gives a page, and a clock that moves only when told: what the bench does in it is the same every time.</summary>
public sealed class OneThread : SynchronizationContext
{
    private readonly Queue<(SendOrPostCallback Act, object? State)> due = new();

    /// <summary>The clock.</summary>
    public FakeTimeProvider Time { get; } = new();

    /// <summary>Seconds let pass on it so far, whatever it shows.</summary>
    public double Passed { get; private set; }

    /// <inheritdoc/>
    public override void Post(SendOrPostCallback d, object? state)
    {
        lock (due) due.Enqueue((d, state));
    }

    /// <inheritdoc/>
    public override void Send(SendOrPostCallback d, object? state) => d(state);

    /// <summary>Runs an act on this thread and all that follows from it at once, as far as no time need pass.</summary>
    public void Do(Action act) => In(() =>
    {
        act();
        return true;
    });

    /// <summary>Runs an act that takes its time to its end, the clock moving by small steps as long as it waits.</summary>
    /// <exception cref="TimeoutException">It waits for what never comes.</exception>
    public T Do<T>(Func<Task<T>> act, double mostSeconds = 120) => In(() =>
    {
        var task = act();
        Pump();
        for (var passed = 0.0; !task.IsCompleted; passed += 0.05)
        {
            if (passed > mostSeconds) throw new TimeoutException($"nothing came of it in {mostSeconds} seconds of the clock");
            Advance(0.05);
        }
        return task.GetAwaiter().GetResult();
    });

    /// <summary>The same for an act with no answer.</summary>
    public void Do(Func<Task> act, double mostSeconds = 120) => Do(async () =>
    {
        await act();
        return true;
    }, mostSeconds);

    /// <summary>Lets time pass, by steps.</summary>
    public void Pass(double seconds, double step = 0.05) => In(() =>
    {
        for (var left = seconds; left > 0; left -= step) Advance(Math.Min(left, step));
        return true;
    });

    /// <summary>The clock is set, forth or back, without any time passing.</summary>
    public void SetClock(TimeSpan by) => Time.AdjustTime(Time.GetUtcNow() + by);

    private void Advance(double seconds)
    {
        Time.Advance(TimeSpan.FromSeconds(seconds));
        Passed += seconds;
        Pump();
    }

    private void Pump()
    {
        while (true)
        {
            (SendOrPostCallback Act, object? State) next;
            lock (due)
            {
                if (!due.TryDequeue(out next)) return;
            }
            next.Act(next.State);
        }
    }

    private T In<T>(Func<T> act)
    {
        var before = Current;
        SetSynchronizationContext(this);
        try
        {
            var found = act();
            Pump();
            return found;
        }
        finally
        {
            SetSynchronizationContext(before);
        }
    }
}
