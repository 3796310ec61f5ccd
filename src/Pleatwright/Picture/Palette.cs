using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>Chooses the colours that a picture is traced in: any colours, or those of a stash.</summary>
/// <remarks>
/// No chance is involved. A first set is found greedily; free colours then move to the median of what is nearest them, in
/// Oklab, and last by small steps that lower the mean CIEDE2000 itself.
/// </remarks>
internal static class Palette
{
    /// <summary>
    /// Colours chosen here differ by at least so much, CIEDE2000: nearer threads are hardly told apart once stitched
    /// (common practice, no source).
    /// </summary>
    public const double LeastDifference = 5;

    private const int MostSeeds = 256;
    private const int MostRounds = 12;
    private const double Hundredfold = 100; // Oklab's plain distance to about the size of CIEDE2000

    /// <summary>The k colours that lie nearest the picture on the whole, fewer when it has fewer.</summary>
    /// <param name="shades">The picture's colours, the heaviest first, as <see cref="Shade.Gather"/> gives them.</param>
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
        var colours = Thinned(shades, [.. centres.Select(c => c.ToColour())]);
        for (var round = 0; round < 2; round++) Polish(shades, colours);
        return [.. colours];
    }

    /// <summary>The k colours of a stash that lie nearest the picture on the whole, as indices in rising order.</summary>
    /// <param name="shades">The picture's colours.</param>
    /// <param name="stash">The colours to choose from; all are taken when there are no more than k.</param>
    /// <param name="k">Colours wanted at most, at least 1.</param>
    public static ImmutableArray<int> FromStash(ImmutableArray<Shade> shades, ImmutableArray<Colour> stash, int k)
    {
        if (stash.Length <= k) return [.. Enumerable.Range(0, stash.Length)];
        var labs = stash.Select(Lab.From).ToArray();
        var choice = new Choice(labs, shades.Length, (c, s) => shades[s].Weight * ColourDifference.Between(shades[s].Lab, labs[c]));
        choice.Fill(k);
        while (choice.Exchange()) { }
        return [.. choice.Chosen.Order()];
    }

    private static List<Oklab> Seeds(ImmutableArray<Shade> shades, int k)
    {
        var candidates = shades[..Math.Min(MostSeeds, shades.Length)];
        var choice = new Choice([.. candidates.Select(s => s.Lab)], shades.Length,
            (c, s) => shades[s].Weight * Hundredfold * Math.Sqrt(shades[s].Oklab.DistanceSquared(candidates[c].Oklab)));
        choice.Fill(k);
        return [.. choice.Chosen.Select(i => candidates[i].Oklab)];
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

    // Of every two colours too near each other, the one with less to show goes.
    private static List<Colour> Thinned(ImmutableArray<Shade> shades, List<Colour> colours)
    {
        var labs = colours.Select(Lab.From).ToArray();
        var weight = new double[colours.Count];
        var of = Nearest(shades, labs);
        for (var s = 0; s < shades.Length; s++) weight[of[s]] += shades[s].Weight;
        var kept = new List<int>();
        foreach (var c in Enumerable.Range(0, colours.Count).OrderByDescending(c => weight[c]).ThenBy(c => c))
            if (kept.All(other => ColourDifference.Between(labs[c], labs[other]) >= LeastDifference)) kept.Add(c);
        return [.. kept.Order().Select(c => colours[c])];
    }

    private static int[] Nearest(ImmutableArray<Shade> shades, Lab[] labs)
    {
        var of = new int[shades.Length];
        for (var s = 0; s < shades.Length; s++)
        {
            var least = double.MaxValue;
            for (var c = 0; c < labs.Length; c++)
                if (ColourDifference.Between(shades[s].Lab, labs[c]) is var d && d < least) (of[s], least) = (c, d);
        }
        return of;
    }

    private static readonly (int L, int A, int B)[] Ways = [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)];

    // Each colour steps about in CIELAB, in ever smaller steps, as long as what is nearest it comes nearer still.
    private static void Polish(ImmutableArray<Shade> shades, List<Colour> colours)
    {
        var labs = colours.Select(Lab.From).ToArray();
        var nearest = Nearest(shades, labs);
        for (var c = 0; c < colours.Count; c++)
        {
            ImmutableArray<Shade> own = [.. shades.Where((_, s) => nearest[s] == c)];
            var cost = Apart(own, labs[c]);
            for (var step = 4.0; step >= 1; step /= 2)
                foreach (var way in Ways)
                {
                    var colour = new Lab(labs[c].L + way.L * step, labs[c].A + way.A * step, labs[c].B + way.B * step).ToLight().ToColour();
                    var lab = Lab.From(colour);
                    if (Apart(own, lab) is var moved && moved >= cost) continue;
                    if (labs.Where((_, other) => other != c).Any(other => ColourDifference.Between(other, lab) < LeastDifference)) continue;
                    (colours[c], labs[c], cost) = (colour, lab, moved);
                }
        }
    }

    private static double Apart(ImmutableArray<Shade> shades, Lab lab)
    {
        var sum = 0.0;
        foreach (var shade in shades) sum += shade.Weight * ColourDifference.Between(shade.Lab, lab);
        return sum;
    }
}

/// <summary>Stitches of much the same colour taken together.</summary>
/// <param name="Oklab">Their mean colour.</param>
/// <param name="Lab">The same in CIELAB.</param>
/// <param name="Weight">Stitches, each counted by its cover.</param>
internal readonly record struct Shade(Oklab Oklab, Lab Lab, double Weight)
{
    /// <summary>The most colours that are kept apart.</summary>
    public const int Most = 1024;

    /// <summary>
    /// The colours under the cables of a picture, the heaviest first, gathered in boxes of 1/48 of Oklab's lightness and
    /// 1/64 in its colour axes; in larger boxes where there would be more than <see cref="Most"/>.
    /// </summary>
    public static ImmutableArray<Shade> Gather(BrickSamples samples)
    {
        var cables = new (Oklab Lab, LinearRgb Light, double Cover)[samples.Width * samples.Height];
        for (var y = 0; y < samples.Height; y++)
            for (var x = 0; x < samples.Width; x++)
                if (samples.Cable(x, y) is { Cover: >= 0.05 } sample)
                    cables[y * samples.Width + x] = (Oklab.From(sample.Light), sample.Light, sample.Cover);
        for (var parts = 48; ; parts /= 2)
            if (Boxes(cables, parts) is { } boxes && (boxes.Count <= Most || parts < 4))
                // Of equal weights by their box, so that the order never hangs on chance.
                return [.. boxes.OrderByDescending(b => b.Value.Weight).ThenBy(b => b.Key).Select(b => Of(b.Value))];
    }

    private static Dictionary<int, (double R, double G, double B, double Weight)> Boxes((Oklab Lab, LinearRgb Light, double Cover)[] cables, int parts)
    {
        var boxes = new Dictionary<int, (double R, double G, double B, double Weight)>();
        var axis = parts * 4 / 3;
        foreach (var (lab, light, cover) in cables)
        {
            if (cover == 0) continue;
            var key = (int)(lab.L * parts) << 16 | (int)(lab.A * axis + axis) << 8 | (int)(lab.B * axis + axis);
            boxes.TryGetValue(key, out var sum);
            boxes[key] = (sum.R + light.Red * cover, sum.G + light.Green * cover, sum.B + light.Blue * cover, sum.Weight + cover);
        }
        return boxes;
    }

    private static Shade Of((double R, double G, double B, double Weight) sum)
    {
        var light = new LinearRgb(sum.R / sum.Weight, sum.G / sum.Weight, sum.B / sum.Weight);
        return new Shade(Oklab.From(light), Lab.From(light), sum.Weight);
    }
}
