using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>Strands asked for, all of one length.</summary>
/// <param name="WorkingLength">Length of one needleful, more than nothing.</param>
/// <param name="Strands">How many single strands of it.</param>
public readonly record struct StrandsAsked(Length WorkingLength, long Strands);

/// <summary>So many lengths of one kind, cut.</summary>
/// <param name="WorkingLength">The length of each.</param>
/// <param name="Count">How many.</param>
public readonly record struct LengthsCut(Length WorkingLength, int Count);

/// <summary>What is cut from one skein, or from the part of one.</summary>
/// <param name="From">Which of the skeins at hand, from 0; null for one that is bought.</param>
/// <param name="Cuts">What is cut from it, longest first.</param>
public sealed record SkeinCut(int? From, ImmutableArray<LengthsCut> Cuts)
{
    /// <summary>Thread cut from it.</summary>
    public Length Used => Cuts.Aggregate(Length.Zero, (sum, c) => sum + c.WorkingLength * c.Count);
}

/// <summary>
/// Cutting one thread for several pieces, in whole numbers: strands to lengths, lengths to skeins. Pieces may ask for
/// needlefuls of unlike length; what is spare of a longer one serves a shorter.
/// </summary>
/// <param name="Lengths">Lengths to cut, longest first.</param>
/// <param name="Skeins">What is cut from each skein used, those at hand first.</param>
/// <param name="IsLeast">Whether fewer skeins to buy are proved impossible.</param>
public sealed record SkeinCutting(ImmutableArray<LengthsCut> Lengths, ImmutableArray<SkeinCut> Skeins, bool IsLeast)
{
    private const int MostStates = 40_000, MostSkeins = 300; // past these the search gives way to longest-first

    /// <summary>Skeins to buy.</summary>
    public int ToBuy => Skeins.Count(s => s.From is null);

    /// <summary>Plans the cutting with the fewest skeins to buy.</summary>
    /// <param name="asked">What the pieces ask for.</param>
    /// <param name="atHand">Skeins and parts of skeins at hand, in the order in which they are to be used.</param>
    /// <param name="skein">Length of a skein to buy.</param>
    /// <param name="strandsInSkein">Strands in a length as it comes off, at least 1.</param>
    /// <exception cref="ArgumentException">A skein to buy is shorter than a needleful, and what is at hand does not do.</exception>
    public static SkeinCutting Of(IReadOnlyCollection<StrandsAsked> asked, IReadOnlyList<Length> atHand, Length skein, int strandsInSkein)
    {
        var lengths = LengthsFor(asked, strandsInSkein);
        var sizes = lengths.Select(l => Whole(l.WorkingLength)).ToArray();
        var counts = lengths.Select(l => l.Count).ToArray();
        var spare = atHand.Select(Whole).ToArray();
        var bought = Whole(skein);
        var found = LongestFirst(sizes, counts, spare, bought, out var left);
        var least = found is not null && (sizes.Length < 2 || Bought(found) <= Fewest(sizes, counts, spare, bought));
        if (!least && new Search(sizes, spare, bought).Least(counts) is { } best) (found, least) = (best, true);
        // Where no search is made, skeins at hand must at least not be in the way.
        if (!least && spare.Length > 0 && sizes.Max() <= bought && Of(asked, [], skein, strandsInSkein) is var without && (found is null || without.ToBuy < Bought(found)))
            return without with { IsLeast = false };
        return found is not null
            ? new SkeinCutting(lengths, Told(found, lengths), least)
            : throw new ArgumentException($"A skein of {skein} gives no needleful of {lengths[Array.FindIndex(left, n => n > 0)].WorkingLength}.");
    }

    /// <summary>
    /// Lengths to cut for strands asked, longest first: so few of each that all those as long or longer just hold the strands
    /// asked of them. No plan cuts fewer of the longer ones, so none needs fewer skeins.
    /// </summary>
    public static ImmutableArray<LengthsCut> LengthsFor(IEnumerable<StrandsAsked> asked, int strandsInSkein)
    {
        var cut = ImmutableArray.CreateBuilder<LengthsCut>();
        long strands = 0, lengths = 0;
        foreach (var group in asked.Where(a => a.Strands > 0).GroupBy(a => Whole(a.WorkingLength)).OrderByDescending(g => g.Key))
        {
            strands += group.Sum(a => a.Strands);
            var more = (strands + strandsInSkein - 1) / strandsInSkein - lengths;
            lengths += more;
            if (more > 0) cut.Add(new LengthsCut(group.First().WorkingLength, checked((int)more)));
        }
        return cut.ToImmutable();
    }

    // Whole nanometres, so that sums are exact.
    private static long Whole(Length length) => (long)Math.Round(length.Millimetres * 1e6);

    private static ImmutableArray<SkeinCut> Told(List<Pattern> patterns, ImmutableArray<LengthsCut> lengths) =>
        [.. patterns.Select(p => new SkeinCut(p.From < 0 ? null : p.From,
            [.. p.Counts.Select((n, i) => new LengthsCut(lengths[i].WorkingLength, n)).Where(c => c.Count > 0)]))];

    // If every skein could be cut to its last end: no plan beats it.
    private static long Fewest(long[] sizes, int[] counts, long[] spare, long bought)
    {
        if (sizes.Length == 0) return 0;
        Int128 need = 0;
        for (var i = 0; i < sizes.Length; i++) need += (Int128)sizes[i] * counts[i];
        foreach (var length in spare) need -= length >= sizes[^1] ? length : 0;
        return need <= 0 ? 0 : bought <= 0 ? long.MaxValue : (long)((need + bought - 1) / bought);
    }

    private static int Bought(List<Pattern> patterns) => patterns.Count(p => p.From < 0);

    private readonly record struct Pattern(int From, int[] Counts);

    private static List<Pattern>? LongestFirst(long[] sizes, int[] counts, long[] spare, long bought, out int[] left)
    {
        left = [.. counts];
        var patterns = new List<Pattern>();
        for (var s = 0; s < spare.Length && left.Any(n => n > 0); s++)
            if (Fill(sizes, left, spare[s]) is { } cut) patterns.Add(new Pattern(s, cut));
        while (left.Any(n => n > 0))
        {
            if (Fill(sizes, left, bought) is not { } cut) return null;
            patterns.Add(new Pattern(-1, cut));
        }
        return patterns;
    }

    private static int[]? Fill(long[] sizes, int[] left, long room)
    {
        var cut = new int[sizes.Length];
        for (var i = 0; i < sizes.Length; i++)
        {
            cut[i] = (int)Math.Min(left[i], room / sizes[i]);
            left[i] -= cut[i];
            room -= cut[i] * sizes[i];
        }
        return cut.Any(n => n > 0) ? cut : null;
    }

    /// <summary>The fewest skeins to buy, by every way to fill each skein that leaves no room for another length.</summary>
    private sealed class Search(long[] sizes, long[] spare, long bought)
    {
        private readonly Dictionary<(int Skein, long State), (int Bought, int[]? Cut)> known = [];

        public List<Pattern>? Least(int[] counts)
        {
            if (spare.Length + counts.Sum() > MostSkeins) return null;
            long states = spare.Length + 1;
            foreach (var n in counts) if ((states *= n + 1) > MostStates) return null;
            if (Solve(0, counts) == int.MaxValue) return null;
            var patterns = new List<Pattern>();
            var left = (int[])counts.Clone();
            for (var s = 0; left.Any(n => n > 0); s++)
            {
                var at = Math.Min(s, spare.Length);
                var cut = known[(at, State(left, counts))].Cut!;
                if (cut.Any(n => n > 0)) patterns.Add(new Pattern(at < spare.Length ? at : -1, cut));
                for (var i = 0; i < left.Length; i++) left[i] -= cut[i];
            }
            return patterns;

            int Solve(int skein, int[] remaining)
            {
                if (remaining.All(n => n == 0)) return 0;
                var key = (skein, State(remaining, counts));
                if (known.TryGetValue(key, out var was)) return was.Bought;
                var best = (Bought: int.MaxValue, Cut: (int[]?)null);
                var buys = skein == spare.Length;
                foreach (var cut in Fillings(0, remaining, buys ? bought : spare[skein]))
                {
                    if (buys && cut.All(n => n == 0)) continue;
                    var after = remaining.Zip(cut, (n, c) => n - c).ToArray();
                    var rest = Solve(buys ? skein : skein + 1, after);
                    var all = rest == int.MaxValue ? rest : rest + (buys ? 1 : 0);
                    if (best.Cut is null || all < best.Bought) best = (all, cut);
                }
                known[key] = best;
                return best.Bought;
            }
        }

        private static long State(int[] left, int[] counts)
        {
            long state = 0;
            for (var i = 0; i < left.Length; i++) state = state * (counts[i] + 1) + left[i];
            return state;
        }

        private IEnumerable<int[]> Fillings(int from, int[] left, long room)
        {
            if (from == sizes.Length)
            {
                yield return new int[sizes.Length];
                yield break;
            }
            var most = (int)Math.Min(left[from], room / sizes[from]);
            // The shortest takes all the room there is: a skein that could still give one is never the better for not.
            for (var n = most; n >= (from == sizes.Length - 1 ? most : 0); n--)
                foreach (var rest in Fillings(from + 1, left, room - n * sizes[from]))
                {
                    rest[from] = n;
                    yield return rest;
                }
        }
    }
}
