using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Measure;
using Pleatwright.Thread;
using ClothToBuy = Pleatwright.Cloth.ClothToBuy;

namespace Pleatwright.Shopping;

/// <summary>What a list and its reckoning say, in words for people.</summary>
internal static class ShoppingWords
{
    /// <summary>Substitutes worth naming for one thread.</summary>
    public const int MostSubstitutes = 5;

    /// <summary>The whole list as lines of text, to print or to take along.</summary>
    /// <param name="list">The list.</param>
    /// <param name="reckoning">Its hours and cost.</param>
    /// <param name="stash">The stash it was made against.</param>
    /// <param name="units">The units of lengths.</param>
    /// <param name="instead">Whether substitutes are named for what has to be bought.</param>
    public static IEnumerable<string> Lines(ShoppingList list, Reckoning reckoning, Stash stash, UnitSystem units, bool instead)
    {
        const string Under = "    ";
        yield return string.Join(", ", list.Pieces.Select(p => p.Piece));
        yield return "";
        yield return $"Threads   {(list.SkeinsToBuy == 0 ? "nothing to buy" : $"{Counting.Of(list.SkeinsToBuy, "skein")} to buy")}";
        var names = list.Threads.Select(t => Coloured(t.Pool.Name, t.Pool.Thread.Colour)).ToList();
        var widest = names.Select(n => n.Length).DefaultIfEmpty(0).Max();
        foreach (var (i, line) in list.Threads.Index())
        {
            yield return $"  {names[i].PadRight(widest)}  {Of(line)}";
            if (line.Pool.Needs.Select(n => n.Piece).Distinct().Count() > 1)
                yield return Under + string.Join(", ", line.Pool.Needs.Select(n => $"{n.Piece}: {Counting.Of(n.Use.Needlefuls, "needleful")}"));
            foreach (var taken in line.Taken) yield return Under + Of(taken);
            if (!instead || line.ToBuy == 0) continue;
            foreach (var other in line.Substitutes.Take(MostSubstitutes)) yield return $"{Under}or {Of(other)}";
        }
        yield return $"Cloth     {(list.ClothToBuy == Length.Zero ? "nothing to buy" : $"{ClothToBuy.Say(list.ClothToBuy, units)} to buy")}{(Besides(list) is { Length: > 0 } besides ? $", {besides}" : "")}";
        foreach (var line in list.Cloths) yield return $"  {ColourWords.For(line.Colour)}: {Of(line, units)}";
        yield return "";
        foreach (var (label, words) in Of(reckoning, stash.Rates, stash.Pace)) yield return $"{label,-10}{words}";
    }

    /// <summary>"sail red (dark red)": a name with its colour in plain words, for a shop knows no code; the name alone where it says the colour itself.</summary>
    public static string Coloured(string name, Colour colour)
    {
        var plain = ColourWords.For(colour);
        return name.Contains(plain, StringComparison.OrdinalIgnoreCase) ? name : $"{name} ({plain})";
    }

    /// <summary>"2.5 skeins", "1 skein".</summary>
    public static string Skeins(double skeins) =>
        string.Create(CultureInfo.InvariantCulture, $"{skeins:0.##} {(Math.Round(skeins, 2) == 1 ? "skein" : "skeins")}");

    /// <summary>What is needed, what is there, what to buy.</summary>
    public static string Of(ThreadLine line)
    {
        var needs = $"{Counting.Of(line.Pool.Needlefuls, "needleful")}, {Counting.Of(line.WithoutStash, "skein")}";
        var there = line.AtHand > 0 ? $"; {Skeins(line.AtHand)} at hand" : "";
        var buy = line.ToBuy == 0 ? "; enough" : $"; buy {line.ToBuy.ToString(CultureInfo.InvariantCulture)}";
        return needs + there + buy + (line.Cutting.IsLeast ? "" : " (at most)");
    }

    /// <summary>What is cut from a thread of the stash.</summary>
    public static string Of(Taken taken) => taken.IsTooShort
        ? $"from {taken.Thread.Name}: nothing, every end is too short for a needleful"
        : taken.Used == Length.Zero ? $"from {taken.Thread.Name}: nothing needed"
        : string.Create(CultureInfo.InvariantCulture, $"from {taken.Thread.Name}: {taken.Skeins:0.##} of {Skeins(taken.Thread.Skeins)}");

    /// <summary>A substitute: name, how alike, and what to mind.</summary>
    public static string Of(Substitute other) => string.Create(CultureInfo.InvariantCulture, $"{other.Thread.Name}: {other.Likeness.Word()} ({other.Difference:0.0}), {Skeins(other.Thread.Skeins)}")
        + (other.IsEnough ? "" : ", too little") + (other.IsMadeLike ? "" : ", another make of thread") + (other.IsNeeded ? ", needed here too" : "");

    /// <summary>What is not on the list of the cloth: whatever hangs above and below, of pieces whose maker gave no length.</summary>
    public static string Besides(ShoppingList list)
    {
        var alone = list.Pieces.Where(p => !p.Cloth.Cloth.IsDepthWhole).Select(p => p.Piece).ToList();
        return alone.Count == 0 ? "" : alone.Count == list.Pieces.Length ? "for the gathered part alone; add what hangs below it" : $"of {string.Join(", ", alone)} for the gathered part alone; add what hangs below it";
    }

    /// <summary>What to cut from which cloth, and what to buy.</summary>
    public static string Of(ClothLine line, UnitSystem units)
    {
        var words = line.Taken.Select(t => $"{t.Cutting.Length.Say(units)} of {t.Cloth.Name} for {string.Join(", ", t.Pieces)}").ToList();
        if (line.ToBuy is { } buy) words.Add($"buy {ClothToBuy.Say(line.LengthToBuy, units)} of cloth {line.Width.Say(units)} wide: {Counting.Of(buy.Widths.Length, "width")}{(buy.IsLeast ? "" : " (at most)")}");
        words.AddRange(line.Short.Select(s => $"{s.Name} is too little or too narrow"));
        return string.Join("; ", words);
    }

    /// <summary>The maker's pace; null when nothing is known of it.</summary>
    public static string? Of(Pace pace)
    {
        if (pace.CablesAnHour is not { } p) return null;
        var sittings = Counting.Of(pace.Sittings.Length, "sitting");
        return pace.MinutesACable is null ? Number($"{p.Slow:0.#} to {p.Quick:0.#} cables an hour, as you say")
            : !pace.HasRange && pace.Sittings.Length == 1 ? Number($"{p.Middle:0.#} cables an hour (one sitting, no range; time another)")
            : Number($"{p.Middle:0.#} cables an hour, {p.Slow:0.#} to {p.Quick:0.#} (95 %, {sittings})") + (pace.HasRange ? "" : "; too few or too unlike to say more closely");
    }

    /// <summary>Hours and cost, a line each; what has no rate is said to have none.</summary>
    public static ImmutableArray<(string Label, string Words)> Of(Reckoning reckoning, Rates rates, Pace pace)
    {
        var lines = ImmutableArray.CreateBuilder<(string, string)>();
        lines.Add(("Stitches", string.Create(CultureInfo.InvariantCulture, $"{reckoning.Pieces.Sum(p => p.Stitches):N0}")));
        lines.Add(("Hours", reckoning.Hours is { } hours ? $"{hours.Say("0.0")}, at {Of(pace)}" : "not known; time a sitting, or say your pace"));
        lines.Add(("Thread", reckoning.Thread is { } thread ? rates.Say(Between.Just(thread)) : "no rate for a skein"));
        lines.Add(("Cloth", reckoning.Cloth is { } cloth ? rates.Say(Between.Just(cloth)) : "no rate for cloth"));
        lines.Add(("Work", reckoning.Work is { } work ? rates.Say(work) : rates.Hour is null ? "no rate for an hour" : "no hours known"));
        if (reckoning.FromStash is > 0 and { } had) lines.Add(("Stash", $"{rates.Say(Between.Just(had))} worth is taken from it, which is not counted"));
        if (reckoning.Total is { } total) lines.Add(("Together", rates.Say(total)));
        return lines.ToImmutable();
    }

    private static string Number(FormattableString words) => FormattableString.Invariant(words);
}
