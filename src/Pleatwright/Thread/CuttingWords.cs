using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>One floss of a cutting plan in words.</summary>
/// <param name="Threads">The letters of the threads cut from it, and its name.</param>
/// <param name="Words">What is cut of it and how its needlefuls are put together.</param>
internal readonly record struct CuttingLine(string Threads, string Words);

/// <summary>A cutting plan in words for people.</summary>
internal static class CuttingWords
{
    /// <summary>How it is done, in one sentence.</summary>
    public static string How(CuttingPlan plan, UnitSystem units) =>
        $"Cut lengths of {plan.WorkingLength.Say(units)}, strip each into its strands, and lay the strands together again for each needleful.";

    /// <summary>A line a floss, in the order of the plan; those cut alike share one.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="units">Units of lengths.</param>
    /// <param name="named">Whether threads have their names beside their letters; else only those that have no letter.</param>
    public static ImmutableArray<CuttingLine> Of(CuttingPlan plan, UnitSystem units, bool named = true) =>
        [.. plan.Flosses.GroupBy(f => Words(f, units)).Select(alike => new CuttingLine(string.Join(", ", alike.Select(f => Threads(f, named))), (alike.Count() > 1 ? "each " : "") + alike.Key))];

    private static string Threads(CutFloss floss, bool named)
    {
        var letters = string.Join(", ", floss.Threads.Select(t => t.Key).Where(k => k != default).Select(k => k.ToString()));
        var name = floss.Threads[0].Name;
        return name.Length == 0 || (!named && letters.Length > 0) ? letters : letters.Length == 0 ? name : $"{letters} ({name})";
    }

    private static string Words(CutFloss floss, UnitSystem units)
    {
        var needlefuls = floss.Needlefuls.GroupBy(n => n.Thread).Select(g => Needlefuls(g.Key, [.. g]));
        var spare = floss.SpareStrands == 0 ? "" : $"; {Counting.Of(floss.SpareStrands, "strand")} left over";
        var longer = floss.LongerLengths == 0 ? "" : $", {(floss.LongerLengths == floss.Lengths ? "" : $"{floss.LongerLengths} of them ")}up to {floss.LongerBy.Say(units)} longer";
        var skeins = floss.Skeins == 1 ? "" : $" from {Counting.Of(floss.Skeins, "skein")}";
        return $"{Counting.Of(floss.Lengths, "length")}{longer}{skeins}: {string.Join("; ", needlefuls)}{spare}";
    }

    // "16 needlefuls of 4 strands, 5 of them 2 and 2 put together"
    private static string Needlefuls(Floss thread, ImmutableArray<CutNeedleful> needlefuls)
    {
        var mixed = needlefuls.Where(n => n.From.Length > 1)
            .GroupBy(n => string.Join(" and ", n.From.Select(f => f.Strands).OrderDescending()))
            .Select(g => $"{g.Count()} of them from {g.First().From.Length} lengths, {g.Key}");
        return string.Join(", ", [$"{Counting.Of(needlefuls.Length, "needleful")} of {Counting.Of(thread.Strands, "strand")}", .. mixed]);
    }
}
