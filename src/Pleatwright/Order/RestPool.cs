using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>
/// What was left after tie-offs and laid by, while it is long enough to be worth threading. Each start takes the shortest rest of its thread that
/// reaches to its tie-off.
/// </summary>
/// <param name="working">How the maker works.</param>
internal sealed class RestPool(Working working)
{
    private readonly long least = Micrometres(working.LeastRest);
    private readonly Dictionary<ThreadKey, List<Rest>> rests = [];

    /// <summary>A rest.</summary>
    /// <param name="Needleful">The needleful it is of.</param>
    /// <param name="Left">Its length, in micrometres.</param>
    /// <param name="Step">The step after which it was laid by.</param>
    public readonly record struct Rest(int Needleful, long Left, int Step);

    /// <summary>The shortest rest of a thread that is so long, taken out; or none.</summary>
    public Rest? Take(ThreadKey thread, long need)
    {
        if (!rests.TryGetValue(thread, out var ofThread)) return null;
        var best = -1;
        for (var r = 0; r < ofThread.Count; r++)
            if (ofThread[r].Left >= need && (best < 0 || ofThread[r].Left < ofThread[best].Left)) best = r;
        if (best < 0) return null;
        var taken = ofThread[best];
        ofThread.RemoveAt(best);
        return taken;
    }

    /// <summary>Lays a rest by, if it is worth threading.</summary>
    public void LayBy(ThreadKey thread, Rest rest)
    {
        if (rest.Left < least) return;
        if (!rests.TryGetValue(thread, out var ofThread)) rests[thread] = ofThread = [];
        ofThread.Add(rest);
    }

    /// <summary>A length in whole micrometres.</summary>
    public static long Micrometres(Length length) => (long)Math.Round(length.Millimetres * 1000);
}
