using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>A seam that is sewn before the cloth is gathered, and the valley it is hidden in.</summary>
/// <param name="Valley">
/// The valley, numbered as the finished ones are; 0 and less lie among the seam pleats on the left, the pleat count and
/// more among those on the right.
/// </param>
/// <param name="Between">What it joins, for people.</param>
public readonly record struct Join(int Valley, string Between);

/// <summary>Joining widths and panels of cloth: how many widths to buy, and where the joins fall.</summary>
internal static class Joining
{
    /// <summary>Every join, from the left: between panels, and within a panel wider than the cloth comes.</summary>
    /// <remarks>
    /// Within a panel the joins lie alike on both sides and never in its middle: an even number of widths is cut as whole
    /// ones between two halves of the last (common practice, no source). Each goes to the nearest valley.
    /// </remarks>
    public static ImmutableArray<Join> Joins(ClothPlan cloth)
    {
        var joins = ImmutableArray.CreateBuilder<Join>();
        var shares = cloth.Form.Shares(cloth);
        var left = cloth.Gauge.TakeUp * -cloth.SeamPleats - cloth.Selvedges / 2 - cloth.Ravelling;
        for (var i = 0; i < shares.Length; i++)
        {
            if (i > 0)
            {
                joins.Add(new Join(shares[i - 1].Last, $"{shares[i - 1].Name} and {shares[i].Name}"));
                left = cloth.Gauge.TakeUp * (shares[i].First - 1) - cloth.Seam;
            }
            var name = shares.Length == 1 ? "two widths of cloth" : $"two widths of {shares[i].Name}";
            foreach (var at in JoinsWithin(shares[i].Cut, cloth))
                joins.Add(new Join(Form.NearestValley((left + at) / cloth.Gauge.TakeUp, shares[^1].Last), name));
        }
        return joins.ToImmutable();
    }

    /// <summary>
    /// Widths of cloth to buy, at least 1: whole ones for a panel wider than the cloth; the others side by side from one
    /// width wherever they fit, the widest first.
    /// </summary>
    public static int Widths(ClothPlan cloth)
    {
        var whole = 0;
        var left = new List<double>(); // what is left of each width begun
        foreach (var strip in Strips(cloth))
        {
            if (strip == cloth.FabricWidth)
            {
                whole++;
                continue;
            }
            var bin = left.FindIndex(l => l >= strip.Millimetres - Hair);
            if (bin < 0) left.Add(cloth.FabricWidth.Millimetres - strip.Millimetres);
            else left[bin] -= strip.Millimetres;
        }
        return Math.Max(1, whole + left.Count);
    }

    /// <summary>No fewer than the widths each piece of cloth is cut from, all together; told without counting them one by one.</summary>
    internal static double AtMostWidths(ClothPlan cloth) => cloth.Form.Shares(cloth)
        .Sum(s => s.Cut <= cloth.FabricWidth ? 1 : s.Cut / (cloth.FabricWidth - cloth.Seam * 2) + 1);

    /// <summary>
    /// The strips to cut from cloth as wide as it is sold, widest first: each panel as it is, or so many whole widths for one
    /// that is wider than the cloth.
    /// </summary>
    public static ImmutableArray<Length> Strips(ClothPlan cloth)
    {
        var strips = ImmutableArray.CreateBuilder<Length>();
        foreach (var cut in cloth.Form.Shares(cloth).Select(s => s.Cut).OrderDescending())
        {
            var widths = WidthsFor(cut, cloth);
            if (widths == 1) strips.Add(cut > cloth.FabricWidth ? cloth.FabricWidth : cut);
            else strips.AddRange(Enumerable.Repeat(cloth.FabricWidth, widths));
        }
        return strips.ToImmutable();
    }

    /// <summary>Cloth nearer than this many millimetres is one and the same: sums of fractions come out a hair apart.</summary>
    internal const double Hair = 1e-6;

    // An even number of widths needs a join more than it has gaps, for its last width is halved to lie on both sides.
    private static int JoinsFor(int widths) => widths == 1 ? 0 : widths % 2 == 0 ? widths : widths - 1;

    private static int WidthsFor(Length cut, ClothPlan cloth)
    {
        var widths = 1;
        while (cut.Millimetres + 2 * cloth.Seam.Millimetres * JoinsFor(widths) > widths * cloth.FabricWidth.Millimetres + Hair) widths++;
        return widths;
    }

    private static IEnumerable<Length> JoinsWithin(Length cut, ClothPlan cloth)
    {
        var widths = WidthsFor(cut, cloth);
        if (widths == 1) yield break;
        var whole = cloth.FabricWidth - cloth.Seam * 2;
        var inner = widths % 2 == 0 ? widths - 1 : widths - 2;
        if (widths % 2 == 1 && cut / widths < whole) whole = cut / widths;
        var at = (cut - whole * inner) / 2;
        for (var i = 0; i < JoinsFor(widths); i++, at += whole) yield return at;
    }
}
