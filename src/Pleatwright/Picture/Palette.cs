using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>Chooses the colours that a picture is traced in: any colours, or those of a stash.</summary>
/// <remarks>
/// No chance is involved: a first set is found greedily, always taking the colour that mends most, and then bettered.
/// </remarks>
public static class Palette
{
    private const int MostRounds = 12;
    private const int MostSeeds = 256;

    /// <summary>The k colours that lie nearest the picture on the whole, fewer when it has fewer.</summary>
    /// <param name="shades">The picture's colours.</param>
    /// <param name="k">Colours wanted at most, 1 to 52.</param>
    public static ImmutableArray<Colour> Best(ImmutableArray<Shade> shades, int k)
    {
        if (shades.IsEmpty) return [];
        var centres = Seeds(shades, k);
        var of = new int[shades.Length];
        for (var round = 0; round < MostRounds; round++)
        {
            if (!Assign(shades, centres, of) && round > 0) break;
            Centre(shades, centres, of);
        }
        return [.. centres.Select(c => c.ToColour()).Distinct()];
    }

    /// <summary>The k colours of a stash that lie nearest the picture on the whole, as indices in rising order.</summary>
    /// <param name="shades">The picture's colours.</param>
    /// <param name="stash">The colours to choose from.</param>
    /// <param name="k">Colours wanted at most, at least 1.</param>
    public static ImmutableArray<int> FromStash(ImmutableArray<Shade> shades, ImmutableArray<Colour> stash, int k)
    {
        if (stash.Length <= k) return [.. Enumerable.Range(0, stash.Length)];
        var labs = stash.Select(Lab.From).ToArray();
        var costs = new double[stash.Length][];
        for (var i = 0; i < labs.Length; i++)
            costs[i] = [.. shades.Select(s => s.Weight * ColourDifference.Between(s.Lab, labs[i]))];
        var chosen = Greedy(costs, shades.Length, k);
        while (Swap(costs, chosen, shades.Length)) { }
        chosen.Sort();
        return [.. chosen];
    }

    private static List<Oklab> Seeds(ImmutableArray<Shade> shades, int k)
    {
        var candidates = shades.OrderByDescending(s => s.Weight).Take(MostSeeds).ToArray();
        var costs = new double[candidates.Length][];
        for (var i = 0; i < candidates.Length; i++)
            costs[i] = [.. shades.Select(s => s.Weight * Math.Sqrt(s.Oklab.DistanceSquared(candidates[i].Oklab)))];
        return [.. Greedy(costs, shades.Length, k).Select(i => candidates[i].Oklab)];
    }

    // Takes, time after time, the candidate that lowers the whole cost most; stops early when none does.
    private static List<int> Greedy(double[][] costs, int shades, int k)
    {
        var now = new double[shades];
        Array.Fill(now, double.MaxValue / Math.Max(1, shades));
        var chosen = new List<int>();
        while (chosen.Count < k)
        {
            var best = -1;
            var bestSum = now.Sum();
            for (var i = 0; i < costs.Length; i++)
            {
                var sum = 0.0;
                for (var s = 0; s < shades; s++) sum += Math.Min(now[s], costs[i][s]);
                if (sum < bestSum - 1e-12) (best, bestSum) = (i, sum);
            }
            if (best < 0) break;
            chosen.Add(best);
            for (var s = 0; s < shades; s++) now[s] = Math.Min(now[s], costs[best][s]);
        }
        return chosen;
    }

    // One exchange of a chosen colour for another, the one that lowers the whole cost most.
    private static bool Swap(double[][] costs, List<int> chosen, int shades)
    {
        var rest = new double[shades];
        var sumNow = 0.0;
        for (var s = 0; s < shades; s++) sumNow += chosen.Min(c => costs[c][s]);
        int outgoing = -1, incoming = -1;
        var bestSum = sumNow - 1e-9;
        for (var o = 0; o < chosen.Count; o++)
        {
            for (var s = 0; s < shades; s++)
            {
                rest[s] = double.MaxValue;
                for (var j = 0; j < chosen.Count; j++) if (j != o) rest[s] = Math.Min(rest[s], costs[chosen[j]][s]);
            }
            for (var i = 0; i < costs.Length; i++)
            {
                var sum = 0.0;
                for (var s = 0; s < shades && sum < bestSum; s++) sum += Math.Min(rest[s], costs[i][s]);
                if (sum < bestSum) (outgoing, incoming, bestSum) = (o, i, sum);
            }
        }
        if (outgoing < 0) return false;
        chosen[outgoing] = incoming;
        return true;
    }

    private static bool Assign(ImmutableArray<Shade> shades, List<Oklab> centres, int[] of)
    {
        var moved = false;
        for (var s = 0; s < shades.Length; s++)
        {
            var nearest = 0;
            var least = double.MaxValue;
            for (var c = 0; c < centres.Count; c++)
                if (shades[s].Oklab.DistanceSquared(centres[c]) is var d && d < least) (nearest, least) = (c, d);
            moved |= of[s] != nearest;
            of[s] = nearest;
        }
        return moved;
    }

    // Moves each centre towards the median of its colours (a step of Weiszfeld's): the sum of distances is what is
    // judged, not of their squares, so a few strays do not pull it away.
    private static void Centre(ImmutableArray<Shade> shades, List<Oklab> centres, int[] of)
    {
        var sums = new (double L, double A, double B, double Weight)[centres.Count];
        for (var s = 0; s < shades.Length; s++)
        {
            var shade = shades[s];
            ref var sum = ref sums[of[s]];
            var weight = shade.Weight / (0.02 + Math.Sqrt(shade.Oklab.DistanceSquared(centres[of[s]])));
            sum = (sum.L + shade.Oklab.L * weight, sum.A + shade.Oklab.A * weight, sum.B + shade.Oklab.B * weight, sum.Weight + weight);
        }
        for (var c = 0; c < centres.Count; c++)
            if (sums[c].Weight > 0)
                centres[c] = new Oklab(sums[c].L / sums[c].Weight, sums[c].A / sums[c].Weight, sums[c].B / sums[c].Weight);
    }
}

/// <summary>Stitches of much the same colour taken together.</summary>
/// <param name="Oklab">Their mean colour.</param>
/// <param name="Lab">The same in CIELAB.</param>
/// <param name="Weight">Stitches, each counted by its cover.</param>
public readonly record struct Shade(Oklab Oklab, Lab Lab, double Weight)
{
    /// <summary>The colours under the cables of a picture, gathered in boxes of 1/48 in lightness and 1/64 in the colour axes of Oklab.</summary>
    public static ImmutableArray<Shade> Gather(BrickSamples samples)
    {
        var boxes = new SortedDictionary<int, (double R, double G, double B, double Weight)>();
        for (var y = 0; y < samples.Height; y++)
            for (var x = 0; x < samples.Width; x++)
            {
                var (light, cover) = samples.Cable(x, y);
                if (cover < 0.05) continue;
                var lab = Oklab.From(light);
                var key = (int)(lab.L * 48) << 16 | (int)(lab.A * 64 + 64) << 8 | (int)(lab.B * 64 + 64);
                boxes.TryGetValue(key, out var sum);
                boxes[key] = (sum.R + light.Red * cover, sum.G + light.Green * cover, sum.B + light.Blue * cover, sum.Weight + cover);
            }
        return [.. boxes.Values.Select(b => new LinearRgb(b.R / b.Weight, b.G / b.Weight, b.B / b.Weight) is var light
            ? new Shade(Oklab.From(light), Lab.From(light), b.Weight) : default)];
    }
}
