namespace Pleatwright.Bench.Model;

/// <summary>
/// Work that takes a while. What is begun stops what was under way before; what was stopped is cancelled, and whenever it may still answer, it finds its
/// cancellation said and shows nothing.
/// </summary>
/// <param name="changed">Told when it begins, ends or is stopped.</param>
internal sealed class Chore(Action changed)
{
    private CancellationTokenSource? under;

    /// <summary>Whether it is under way.</summary>
    public bool IsUnderWay => under is not null;

    /// <summary>Whether the maker stopped the last that was begun.</summary>
    public bool WasStopped { get; private set; }

    /// <summary>Begins it, in place of what is under way.</summary>
    /// <param name="work">The work; whenever it has waited, it asks its token before it shows anything.</param>
    /// <returns>Done when the work is, in whatever way it ended.</returns>
    public async Task BeginAsync(Func<CancellationToken, Task> work)
    {
        Leave();
        var mine = under = new CancellationTokenSource();
        changed();
        try { await work(mine.Token); }
        catch (OperationCanceledException) when (mine.IsCancellationRequested) { return; }
        finally
        {
            if (under == mine) under = null;
        }
        if (!mine.IsCancellationRequested) changed();
    }

    /// <summary>Stops it as the maker asks.</summary>
    /// <returns>Whether there was anything to stop.</returns>
    public bool Stop()
    {
        if (under is null) return false;
        WasStopped = true;
        End();
        changed();
        return true;
    }

    /// <summary>Stops it, for it is wanted no more.</summary>
    public void Leave()
    {
        WasStopped = false;
        End();
    }

    private void End()
    {
        var was = under;
        under = null;
        was?.Cancel();
    }
}
