using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>A piece of cloth to cut: so wide across the cloth, so long along it.</summary>
/// <param name="For">What it is for, in words.</param>
/// <param name="Width">Across the cloth.</param>
/// <param name="Length">Along the cloth.</param>
public readonly record struct Strip(string For, Length Width, Length Length);

/// <summary>One width of cloth torn off: strips that lie side by side in it. It is as long as the longest.</summary>
/// <param name="Strips">The strips, longest first.</param>
public sealed record ClothWidth(ImmutableArray<Strip> Strips)
{
    /// <summary>Length torn off.</summary>
    public Length Length => Strips.Max(s => s.Length);
}

/// <summary>
/// Cutting strips from cloth by the width: each width is torn off whole, as long as the longest strip in it, and the others lie
/// beside that one. The least length of cloth in all.
/// </summary>
/// <param name="Widths">The widths to tear off, longest first.</param>
/// <param name="IsLeast">Whether less cloth is proved impossible.</param>
public sealed record ClothCutting(ImmutableArray<ClothWidth> Widths, bool IsLeast)
{
    private const int MostTried = 10; // strips; 3^10 ways, each looked at once

    /// <summary>Length of cloth in all.</summary>
    public Length Length => Widths.Aggregate(Length.Zero, (sum, w) => sum + w.Length);

    /// <summary>Plans the cutting.</summary>
    /// <param name="strips">What is to be cut.</param>
    /// <param name="width">Width of the cloth.</param>
    /// <exception cref="ArgumentException">A strip is wider than the cloth.</exception>
    public static ClothCutting Of(IEnumerable<Strip> strips, Length width)
    {
        // Side by side the longest go first: a shorter one beside them costs nothing.
        Strip[] ordered = [.. strips.OrderByDescending(s => s.Length).ThenByDescending(s => s.Width)];
        if (ordered.FirstOrDefault(s => s.Width.Millimetres > width.Millimetres + Joining.Hair) is { For: not null } wide)
            throw new ArgumentException($"A strip of {wide.Width} cannot be cut from cloth {width} wide.");
        // The two narrowest say which strips can share a width with any other at all.
        var across = ordered.Select(s => s.Width.Millimetres).Order().ToArray();
        bool CanShare(Strip s) => across.Length > 1 && s.Width.Millimetres + across[s.Width.Millimetres == across[0] ? 1 : 0] <= width.Millimetres + Joining.Hair;
        Strip[] sharing = [.. ordered.Where(CanShare)];
        var alone = ordered.Where(s => !CanShare(s)).Select(s => new ClothWidth([s]));
        var least = sharing.Length <= MostTried;
        return new ClothCutting([.. alone.Concat(least ? Least(sharing, width) : FirstThatHolds(sharing, width)).OrderByDescending(w => w.Length)], least);
    }

    private static List<ClothWidth> FirstThatHolds(Strip[] strips, Length width)
    {
        var widths = new List<(List<Strip> Strips, double Left)>();
        foreach (var strip in strips)
        {
            var at = widths.FindIndex(w => w.Left >= strip.Width.Millimetres - Joining.Hair);
            if (at < 0) widths.Add(([strip], width.Millimetres - strip.Width.Millimetres));
            else
            {
                widths[at].Strips.Add(strip);
                widths[at] = (widths[at].Strips, widths[at].Left - strip.Width.Millimetres);
            }
        }
        return [.. widths.Select(w => new ClothWidth([.. w.Strips]))];
    }

    // The least length for every set of strips, from the least for smaller sets: the longest strip of a set lies in some
    // width with some of the others.
    private static IEnumerable<ClothWidth> Least(Strip[] strips, Length width)
    {
        var sets = 1 << strips.Length;
        var across = new double[sets];
        var least = new double[sets];
        var first = new int[sets];
        for (var set = 1; set < sets; set++)
        {
            var longest = System.Numerics.BitOperations.TrailingZeroCount(set);
            across[set] = across[set & (set - 1)] + strips[longest].Width.Millimetres;
            least[set] = double.PositiveInfinity;
            var others = set & (set - 1);
            for (var beside = others; ; beside = (beside - 1) & others)
            {
                var one = beside | (1 << longest);
                if (across[one] <= width.Millimetres + Joining.Hair)
                {
                    var all = strips[longest].Length.Millimetres + least[set & ~one];
                    if (all < least[set] - Joining.Hair) (least[set], first[set]) = (all, one);
                }
                if (beside == 0) break;
            }
        }
        for (var set = sets - 1; set > 0; set &= ~first[set])
        {
            var one = first[set];
            yield return new ClothWidth([.. strips.Where((_, i) => (one >> i & 1) == 1)]);
        }
    }
}
