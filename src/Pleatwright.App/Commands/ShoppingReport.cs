using Pleatwright.Measure;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.App.Commands;

/// <summary>A shopping list and its reckoning, for programs.</summary>
internal static class ShoppingReport
{
    public static object Of(ShoppingList list, Reckoning reckoning, Stash stash) => new
    {
        pieces = list.Pieces.Zip(reckoning.Pieces, (p, r) => new
        {
            title = p.Piece,
            stitches = p.Stitches,
            hours = Range(r.Hours),
            work = Range(r.Work),
            threads = p.Threads.Select(t => new
            {
                key = t.IsBack ? null : t.Thread.Key.ToString(),
                name = t.Name,
                strands = t.Thread.Strands,
                needlefuls = t.Use.Needlefuls,
                lengthMm = Millimetres(t.Use.Length),
            }),
        }),
        threads = list.Threads.Select(t => new
        {
            name = t.Pool.Name,
            colour = t.Pool.Thread.Colour.ToString(),
            pieces = t.Pool.Needs.Select(n => n.Piece).Distinct(),
            needlefuls = t.Pool.Needlefuls,
            lengths = t.Cutting.Lengths.Select(l => new { lengthMm = Millimetres(l.WorkingLength), count = l.Count }),
            skeinsWithoutStash = t.WithoutStash,
            atHand = t.AtHand,
            toBuy = t.ToBuy,
            isLeast = t.Cutting.IsLeast,
            taken = t.Taken.Select(k => new
            {
                name = k.Thread.Name,
                colour = k.Thread.Colour.ToString(),
                difference = Math.Round(k.Difference, 3),
                skeins = Math.Round(k.Skeins, 6),
                tooShort = k.IsTooShort,
            }),
            substitutes = t.Substitutes.Take(ShoppingWords.MostSubstitutes).Select(s => new
            {
                name = s.Thread.Name,
                colour = s.Thread.Colour.ToString(),
                difference = Math.Round(s.Difference, 3),
                likeness = s.Likeness.Word(),
                isEnough = s.IsEnough,
                isMadeLike = s.IsMadeLike,
                isNeeded = s.IsNeeded,
            }),
        }),
        cloths = list.Cloths.Select(c => new
        {
            colour = c.Colour.ToString(),
            widthMm = Millimetres(c.Width),
            pieces = c.Needs.Select(n => n.Piece),
            taken = c.Taken.Select(k => new { name = k.Cloth.Name, difference = Math.Round(k.Difference, 3), lengthMm = Millimetres(k.Cutting.Length), pieces = k.Pieces }),
            tooShort = c.Short.Select(s => s.Name),
            widthsToBuy = c.ToBuy?.Widths.Length ?? 0,
            toBuyMm = Millimetres(c.LengthToBuy),
            usedMm = Millimetres(c.LengthUsed),
            isLeast = c.ToBuy?.IsLeast ?? true,
        }),
        skeinsToBuy = list.SkeinsToBuy,
        clothToBuyMm = Millimetres(list.ClothToBuy),
        hours = Range(reckoning.Hours),
        cablesAnHour = Pace(stash.Pace),
        cost = new { money = stash.Rates.Money, thread = reckoning.Thread, cloth = reckoning.Cloth, work = Range(reckoning.Work), fromStash = reckoning.FromStash, total = Range(reckoning.Total) },
    };

    public static object? Pace(Pace pace) => pace.CablesAnHour is { } p
        ? new { low = Math.Round(p.Slow, 3), value = Math.Round(p.Middle, 3), high = Math.Round(p.Quick, 3), sittings = pace.Sittings.Length, hasRange = pace.HasRange }
        : null;

    private static object? Range(Between? range) => range is { } r ? new { low = r.Low, high = r.High } : null;

    private static double Millimetres(Length length) => Math.Round(length.Millimetres, 4);
}
