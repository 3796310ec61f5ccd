using System.Collections.Immutable;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Shopping;

/// <summary>Pooled threads against the stash.</summary>
internal static class ThreadShopping
{
    /// <summary>
    /// A thread of the stash goes to the one pool to which it is nearest, if it is the same colour and made alike; so none of it is
    /// counted twice. Within a pool the nearest is cut first, and its part skein before its whole ones.
    /// </summary>
    public static ImmutableArray<ThreadLine> Lines(ImmutableArray<PooledThread> pools, Stash stash)
    {
        var owner = stash.Threads.Select(thread => Enumerable.Range(0, pools.Length)
            .Where(p => thread.IsMadeLike(pools[p].Thread) && pools[p].DifferenceFrom(thread) <= Likenesses.MostSame)
            .OrderBy(p => pools[p].LeastDifferenceFrom(thread)).ThenBy(p => pools[p].Thread.SkeinLength != thread.SkeinLength).Select(p => (int?)p).FirstOrDefault()).ToArray();
        return [.. pools.Select((pool, p) => Line(pool, stash, [.. Enumerable.Range(0, owner.Length).Where(t => owner[t] == p)], owner))];
    }

    private static ThreadLine Line(PooledThread pool, Stash stash, int[] own, int?[] owner)
    {
        var strandsInSkein = pool.Thread.StrandsInSkein;
        var lengths = SkeinCutting.LengthsFor(pool.Strands, strandsInSkein).Sum(l => l.Count);
        var sources = own.OrderBy(t => pool.DifferenceFrom(stash.Threads[t])).ThenBy(t => t)
            .SelectMany(t => stash.Threads[t].Lengths(lengths).Reverse().Select(length => (Thread: t, Length: length))).ToArray();
        var cutting = Cut(pool, [.. sources.Select(s => s.Length)]);
        var taken = own.Select(t => new Taken(t, stash.Threads[t], pool.DifferenceFrom(stash.Threads[t]), cutting.Skeins
                .Where(s => s.From is { } from && sources[from].Thread == t).Aggregate(Length.Zero, (sum, s) => sum + s.Used)))
            .OrderBy(t => t.Difference).ThenBy(t => t.Index);
        var substitutes = Enumerable.Range(0, owner.Length).Except(own).Where(t => stash.Threads[t].Skeins > 0)
            .Select(t => (Index: t, Difference: pool.DifferenceFrom(stash.Threads[t]))).Where(t => t.Difference <= Likenesses.MostInstead)
            .OrderBy(t => t.Difference).ThenBy(t => t.Index).Take(ThreadLine.MostSubstitutes)
            .Select(t => new Substitute(t.Index, stash.Threads[t.Index], t.Difference, IsEnough(pool, stash.Threads[t.Index], lengths),
                stash.Threads[t.Index].IsMadeLike(pool.Thread), owner[t.Index] is not null));
        return new ThreadLine(pool, [.. taken], cutting, Cut(pool, []).ToBuy, [.. substitutes]);
    }

    private static SkeinCutting Cut(PooledThread pool, Length[] atHand)
    {
        try
        {
            return SkeinCutting.Of(pool.Strands, atHand, pool.Thread.SkeinLength, pool.Thread.StrandsInSkein);
        }
        catch (ArgumentException e)
        {
            throw new ArgumentException($"{pool.Needs[0].Piece}, {pool.Name}: {e.Message}", e);
        }
    }

    private static bool IsEnough(PooledThread pool, StashThread thread, int lengths)
    {
        try
        {
            var asked = SkeinCutting.LengthsFor(pool.Strands, thread.StrandsInSkein).Sum(l => l.Count);
            return SkeinCutting.Of(pool.Strands, [.. thread.Lengths(Math.Max(asked, lengths)).Reverse()], thread.SkeinLength, thread.StrandsInSkein).ToBuy == 0;
        }
        catch (ArgumentException)
        {
            return false; // its whole skeins are shorter than a needleful
        }
    }
}
