using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Chart;

/// <summary>A line of the size table in words for people.</summary>
internal static class SizeWords
{
    /// <summary>What the size comes to, then why it cannot take the design, when it cannot.</summary>
    public static ImmutableArray<string> Of(SizeLine line, UnitSystem units)
    {
        var words = ImmutableArray.CreateBuilder<string>();
        if (line.Pleating is { } plan)
            words.Add($"{plan.Cloth.Form.SizeWords(plan, units)}, cut {plan.CutWidth.Say(units)}, {plan.Pleats} pleats, {plan.Cloth.GatheringRows} gathering rows"
                + string.Concat(Repeats(line).Select(r => $"; {r}")));
        foreach (var trouble in line.Troubles) words.Add($"cannot take the design: {trouble}");
        return words.ToImmutable();
    }

    /// <summary>The figures that repeat in a size: how many copies, how far apart, and the gap between two.</summary>
    public static ImmutableArray<string> Repeats(SizeLine line) =>
        [.. line.Placements.Where(f => f.Copies > 1).Select(f => $"{f.Copies} × {f.Figure} every {f.Every}, {(f.Gap < 0 ? $"{-f.Gap} shared" : $"{f.Gap} bare between")}")];
}
