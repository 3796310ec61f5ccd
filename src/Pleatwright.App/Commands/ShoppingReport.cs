using System.Globalization;
using Pleatwright.Measure;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.App.Commands;

/// <summary>A shopping list and its reckoning, for people and for programs.</summary>
internal static class ShoppingReport
{
    private const int MostSubstitutes = 5;

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
            substitutes = t.Substitutes.Take(MostSubstitutes).Select(s => new
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

    public static void Say(ShoppingList list, Reckoning reckoning, Stash stash, UnitSystem units, bool instead = false)
    {
        Console.WriteLine(string.Join(", ", list.Pieces.Select(p => p.Piece)));
        Console.WriteLine();
        Console.WriteLine($"Threads   {(list.SkeinsToBuy == 0 ? "nothing to buy" : $"{Count(list.SkeinsToBuy, "skein")} to buy")}");
        var widest = list.Threads.Select(t => t.Pool.Name.Length).DefaultIfEmpty(0).Max();
        foreach (var line in list.Threads)
        {
            Console.WriteLine($"  {line.Pool.Thread.Colour}  {line.Pool.Name.PadRight(widest)}  {ShoppingWords.Of(line)}");
            if (line.Pool.Needs.Select(n => n.Piece).Distinct().Count() > 1)
                Console.WriteLine($"{new string(' ', 13)}{string.Join(", ", line.Pool.Needs.Select(n => $"{n.Piece}: {Count(n.Use.Needlefuls, "needleful")}"))}");
            foreach (var taken in line.Taken) Console.WriteLine($"{new string(' ', 13)}{ShoppingWords.Of(taken)}");
            if (!instead || line.ToBuy == 0) continue;
            foreach (var other in line.Substitutes.Take(MostSubstitutes)) Console.WriteLine($"{new string(' ', 13)}or {ShoppingWords.Of(other)}");
        }
        Console.WriteLine("Cloth     " + (list.ClothToBuy == Length.Zero ? "nothing to buy" : $"{list.ClothToBuy.Say(units)} to buy") + ", for the gathered part alone; add what hangs below it");
        foreach (var line in list.Cloths) Console.WriteLine($"  {line.Colour}  {ShoppingWords.Of(line, units)}");
        Console.WriteLine();
        foreach (var (label, words) in ShoppingWords.Of(reckoning, stash.Rates, stash.Pace)) Console.WriteLine($"{label,-10}{words}");
    }

    private static object? Range(Between? range) => range is { } r ? new { low = r.Low, high = r.High } : null;

    private static double Millimetres(Length length) => Math.Round(length.Millimetres, 4);

    private static string Count(int n, string what) => n == 1 ? $"1 {what}" : string.Create(CultureInfo.InvariantCulture, $"{n} {what}s");
}
