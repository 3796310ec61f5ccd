using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Shopping;

/// <summary>
/// Threads of one or more pieces that are one thread in the shop: a strand as fine, as many on the skein, a skein as long, and
/// every two of them the same colour (<see cref="Likeness.Same"/>). The colour decides, not the name: one maker's "sail red" may be
/// another piece's "pillar red".
/// </summary>
/// <param name="Needs">What is needed of it, at least one, in the order of the pieces.</param>
public sealed record PooledThread(ImmutableArray<ThreadNeed> Needs)
{
    /// <summary>The thread as the first piece has it.</summary>
    public Floss Thread => Needs[0].Thread;

    /// <summary>Every name it goes by, each once.</summary>
    public string Name => string.Join(", ", Needs.Select(n => n.Name).Distinct(StringComparer.OrdinalIgnoreCase));

    /// <summary>Needlefuls in all.</summary>
    public int Needlefuls => Needs.Sum(n => n.Use.Needlefuls);

    /// <summary>The strands to cut for it.</summary>
    public IReadOnlyCollection<StrandsAsked> Strands => [.. Needs.SelectMany(n => n.Strands)];

    /// <summary>How unlike a thread of the stash is: the most by CIEDE2000 from any of them.</summary>
    public double DifferenceFrom(StashThread thread) => Needs.Max(n => thread.DifferenceFrom(n.Thread));

    /// <summary>How unlike a thread of the stash is the one it is nearest to.</summary>
    public double LeastDifferenceFrom(StashThread thread) => Needs.Min(n => thread.DifferenceFrom(n.Thread));

    /// <summary>
    /// Pools what pieces need. The colours are gone through from one end of the code to the other and each joins the first pool in
    /// which it is the same as every thread, so the order of the pieces makes no difference to who shares.
    /// </summary>
    public static ImmutableArray<PooledThread> Of(IEnumerable<ThreadNeed> needs)
    {
        var all = needs.Select((need, at) => (need, at)).ToArray();
        var pools = new List<List<(ThreadNeed Need, int At)>>();
        foreach (var one in all.OrderBy(n => n.need.Thread.Colour.ToString(), StringComparer.Ordinal).ThenBy(n => n.at))
        {
            var pool = pools.Find(p => p.TrueForAll(n => AreOne(n.Need.Thread, one.need.Thread)));
            if (pool is null) pools.Add([one]);
            else pool.Add(one);
        }
        return [.. pools.Select(p => p.OrderBy(n => n.At).ToArray()).OrderBy(p => p[0].At).Select(p => new PooledThread([.. p.Select(n => n.Need)]))];
    }

    private static bool AreOne(Floss a, Floss b) =>
        a.TexPerStrand == b.TexPerStrand && a.StrandsInSkein == b.StrandsInSkein && a.SkeinLength == b.SkeinLength
        && ColourDifference.Between(a.Colour, b.Colour) <= Likenesses.MostSame;
}
