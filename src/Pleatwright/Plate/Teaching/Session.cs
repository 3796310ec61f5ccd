using System.Collections.Immutable;

namespace Pleatwright.Plate.Teaching;

/// <summary>What one meeting of the class works.</summary>
/// <param name="First">Name of the first thing done.</param>
/// <param name="Last">Name of the last.</param>
/// <param name="Stitches">Stitches in it.</param>
/// <param name="EndsChecked">Whether it ends at a level check.</param>
/// <param name="EndsTied">Whether the thread is fastened when it ends.</param>
internal sealed record Session(string First, string Last, int Stitches, bool EndsChecked, bool EndsTied)
{
    // How far from an even share a session may stray for a better place to stop, as a part of the share.
    private const double ForCheck = 0.15;
    private const double ForRest = 0.15;

    /// <summary>
    /// Shares the work over sessions: near enough even by stitches, each ending where the thread is fastened or a level
    /// check lies if one is near. Fewer sessions when there is too little to share.
    /// </summary>
    /// <param name="items">What is done.</param>
    /// <param name="sessions">Sessions, at least 1.</param>
    internal static ImmutableArray<Session> Share(ImmutableArray<ClassItem> items, int sessions)
    {
        sessions = Math.Min(sessions, items.Length);
        var upTo = new long[items.Length + 1];
        for (var i = 0; i < items.Length; i++) upTo[i + 1] = upTo[i] + items[i].Stitches;
        var shared = ImmutableArray.CreateBuilder<Session>(sessions);
        for (int s = 1, from = 0; s <= sessions; s++)
        {
            var end = s == sessions ? items.Length : End(items, upTo, from + 1, items.Length - (sessions - s), (double)upTo[^1] * s / sessions, (double)upTo[^1] / sessions);
            var last = items[end - 1];
            shared.Add(new Session(items[from].Name, last.Name, (int)(upTo[end] - upTo[from]), last.IsChecked, last.Rests));
            from = end;
        }
        return shared.ToImmutable();
    }

    private static int End(ImmutableArray<ClassItem> items, long[] upTo, int least, int most, double wanted, double share)
    {
        int best = least;
        var cost = double.MaxValue;
        for (var end = least; end <= most; end++)
        {
            var item = items[end - 1];
            var here = Math.Abs(upTo[end] - wanted) + (item.IsChecked ? 0 : ForCheck * share) + (item.Rests ? 0 : ForRest * share);
            if (here < cost) (best, cost) = (end, here);
        }
        return best;
    }
}
