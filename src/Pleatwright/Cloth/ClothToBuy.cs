using System.Globalization;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>Plain wings sewn to both sides of a panel that is narrower than the garment piece it is for.</summary>
/// <param name="Each">Finished width of each.</param>
/// <param name="CutWidth">Width each is cut to: with an allowance at the seam to the panel and one at its outer edge.</param>
/// <param name="CutDepth">Depth each is cut to: that of the gathered cloth.</param>
internal sealed record Wings(Length Each, Length CutWidth, Length CutDepth)
{
    /// <summary>The wings of a cloth; null when it needs none.</summary>
    public static Wings? Of(ClothPlan cloth) => cloth.Form.WingOf(cloth) is var each && each > Length.Zero ? new(each, each + cloth.Seam * 2, cloth.CutDepth) : null;

    /// <summary>Strips to cut for both, from cloth so wide; a wing wider than that is joined of equal parts.</summary>
    public IEnumerable<Length> Strips(Length fabricWidth, Length seam)
    {
        var parts = 1;
        while ((CutWidth + seam * 2 * (parts - 1)) / parts > fabricWidth && parts < PleatingPlan.MostWidths) parts++;
        return Enumerable.Repeat((CutWidth + seam * 2 * (parts - 1)) / parts, 2 * parts);
    }

    /// <summary>"two plain wings, each 1 1/2 in wide when finished: cut 2 1/4 in wide and 4 1/8 in deep".</summary>
    public string Say(UnitSystem units) => $"a plain wing at each side, {Each.Say(units)} wide when finished: cut two {CutWidth.Say(units)} wide and {CutDepth.Say(units)} deep"
        + (CutWidth > Each ? "" : ", with seams on top");
}

/// <summary>How much cloth to buy for one piece alone.</summary>
internal static class ClothToBuy
{
    /// <summary>The strips to cut for a cloth, its wings last.</summary>
    /// <param name="name">What they are for.</param>
    /// <param name="cloth">The cloth, sold in the width it is to be cut from.</param>
    public static IEnumerable<Strip> Strips(string name, ClothPlan cloth) => Joining.Strips(cloth)
        .Concat(Wings.Of(cloth)?.Strips(cloth.FabricWidth, cloth.Seam) ?? []).Select(width => new Strip(name, width, cloth.CutDepth));

    /// <summary>The length to buy, in whole steps of the shop.</summary>
    public static Length Of(ClothPlan cloth) => cloth.Bought(ClothCutting.Of(Strips("", cloth), cloth.FabricWidth).Length);

    /// <summary>A length bought, in words: "13 1/2 in (3/8 yd)" where it is bought by the eighth of a yard.</summary>
    public static string Say(Length bought, UnitSystem units)
    {
        var said = bought.Say(units);
        var eighths = bought / ClothPlan.EighthYard;
        if (bought.Unit != LengthUnit.Inch || Math.Abs(eighths - Math.Round(eighths)) > 1e-6) return said;
        var (whole, rest) = Math.DivRem((int)Math.Round(eighths), 8);
        var part = rest == 0 ? "" : rest % 4 == 0 ? "1/2" : rest % 2 == 0 ? $"{rest / 2}/4" : $"{rest}/8";
        var yards = string.Create(CultureInfo.InvariantCulture, $"{(whole > 0 ? $"{whole}{(part.Length > 0 ? " " : "")}" : "")}{part} yd");
        return said.EndsWith(')') ? $"{said[..^1]}, {yards})" : $"{said} ({yards})";
    }
}
