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

    /// <summary>Why a size cannot take the design, as a sentence.</summary>
    public static string Of(SizeRefusal refusal) => refusal switch
    {
        { Words: { } words } => words,
        { Kind: RefusalKind.OffSide } r => $"“{r.What}” runs {Counting.Of(r.By, "valley")} off the side: it needs {r.Needs} pleats and this size has {r.Has}.",
        { Kind: RefusalKind.OffPanel } r => $"“{r.What}” runs {Counting.Of(r.By, "valley")} over the edge of “{r.Panel}”: where it hangs it needs a panel of {r.Needs} pleats, and here it has {r.Has}.",
        { Kind: RefusalKind.NoPanel } r => $"“{r.What}” hangs on “{r.Panel}”, which this size has not.",
        { Kind: RefusalKind.Above } r => $"“{r.What}” runs {Counting.Of(r.By, "cable row")} above gathering row 1.",
        { Kind: RefusalKind.Below } r => $"“{r.What}” runs {Counting.Of(r.By, "cable row")} below the last gathering row, {r.Has}.",
        { Kind: RefusalKind.NoRow } r => $"The {r.What} on gathering row {r.By} lies below the last gathering row, {r.Has}.",
        { Kind: RefusalKind.Meets, Other: null } r => $"Copies of “{r.What}” run into each other.",
        { Kind: RefusalKind.Meets } r => $"“{r.What}” and “{r.Other}” run into each other.",
        _ => throw new ArgumentOutOfRangeException(nameof(refusal)),
    };

    /// <summary>The figures that repeat in a size: how many copies, how far apart, and the gap between two.</summary>
    public static ImmutableArray<string> Repeats(SizeLine line) =>
        [.. line.Placements.Where(f => f.Copies > 1).Select(f => $"{f.Copies} × {f.Figure} every {f.Every}, {(f.Gap < 0 ? $"{-f.Gap} shared" : $"{f.Gap} bare between")}")];
}
