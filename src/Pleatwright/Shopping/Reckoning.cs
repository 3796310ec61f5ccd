using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Shopping;

/// <summary>What one piece costs to make, by the maker's own rates and pace. Parts without a rate are null.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Stitches">Stitches to make.</param>
/// <param name="Hours">Hours, by the maker's pace.</param>
/// <param name="Work">Those hours at the maker's rate.</param>
internal sealed record PieceReckoning(string Piece, int Stitches, Between? Hours, Between? Work);

/// <summary>
/// Cost and hours of a shopping list. Every amount is rounded to hundredths before it is added, so that the totals are the sums of
/// what is shown. What is already in the stash costs nothing here: the list is what still has to be paid.
/// </summary>
/// <param name="Pieces">Each piece's hours, and what they cost.</param>
/// <param name="Thread">Skeins to buy; null without a rate.</param>
/// <param name="Cloth">Cloth to buy; null without a rate.</param>
internal sealed record Reckoning(ImmutableArray<PieceReckoning> Pieces, decimal? Thread, decimal? Cloth)
{
    /// <summary>What is taken from the stash would cost at the same rates; null when neither has one. No part of <see cref="Total"/>.</summary>
    public decimal? FromStash { get; private init; }

    /// <summary>Hours of all pieces; null when the pace is not known.</summary>
    public Between? Hours => Sum(Pieces.Select(p => p.Hours));

    /// <summary>What those hours cost; null without a rate.</summary>
    public Between? Work => Sum(Pieces.Select(p => p.Work));

    /// <summary>All that has a rate, together; null when nothing has.</summary>
    public Between? Total
    {
        get
        {
            Between?[] parts = [Thread is { } t ? Between.Just(t) : null, Cloth is { } c ? Between.Just(c) : null, Work];
            return parts.All(p => p is null) ? null : parts.Aggregate(Between.Nothing, (sum, p) => sum + (p ?? default));
        }
    }

    /// <summary>Reckons a list.</summary>
    /// <param name="list">What to make and to buy.</param>
    /// <param name="rates">The maker's rates.</param>
    /// <param name="pace">The maker's pace.</param>
    public static Reckoning Of(ShoppingList list, Rates rates, Pace pace) => new(
        [.. list.Pieces.Select(p =>
        {
            var hours = pace.Hours(p.Stitches)?.Rounded(2);
            return new PieceReckoning(p.Piece, p.Stitches, hours, hours is { } h && rates.Hour is { } hour ? (h * hour).Rounded(2) : null);
        })],
        rates.Skein is { } skein ? Rounded(skein * list.SkeinsToBuy) : null,
        rates.Cloth is { } cloth ? list.Cloths.Sum(c => Rounded(cloth * Times(c.LengthToBuy, rates.ClothPer))) : null)
    {
        FromStash = rates.Skein is null && rates.Cloth is null ? null
            : list.Threads.SelectMany(t => t.Taken).Sum(t => Rounded((rates.Skein ?? 0) * (decimal)t.Skeins))
            + list.Cloths.SelectMany(c => c.Taken).Sum(t => Rounded((rates.Cloth ?? 0) * Times(t.Cutting.Length, rates.ClothPer))),
    };

    private static decimal Times(Length length, Length per) => (decimal)(length / per);

    private static decimal Rounded(decimal amount) => Math.Round(amount, 2, MidpointRounding.AwayFromZero);

    private static Between? Sum(IEnumerable<Between?> parts)
    {
        Between? sum = null;
        foreach (var part in parts) sum = part is { } p ? (sum ?? default) + p : sum;
        return sum;
    }
}
