using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Proof;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>One thing that is needed or settled.</summary>
/// <param name="Label">What it is about, one or two words; empty when it goes on from the line above or needs none.</param>
/// <param name="Words">What it comes to.</param>
public sealed record MaterialLine(string Label, string Words)
{
    /// <summary>Whether the cover of the plate's own edition, in ordinary print, says it under a picture.</summary>
    internal bool OnCover { get; init; }
}

/// <summary>Things of one kind that are needed.</summary>
/// <param name="Heading">What kind.</param>
/// <param name="Lines">The things, one a line.</param>
public sealed record MaterialGroup(string Heading, ImmutableArray<MaterialLine> Lines);

/// <summary>Cloth, gathering, threads to cut, needle, and how the work is finished.</summary>
internal static class MaterialsPart
{
    /// <summary>What is needed beside the threads.</summary>
    /// <param name="work">The work.</param>
    /// <param name="order">Its working order.</param>
    /// <param name="units">Units of lengths.</param>
    /// <param name="facts">What the cover says already.</param>
    /// <param name="ways">Other colour ways.</param>
    public static ImmutableArray<MaterialGroup> Of(Work work, WorkingOrder order, UnitSystem units, ImmutableArray<Fact> facts, ImmutableArray<ColourWay> ways) =>
    [
        new("Cloth and gathering",
        [
            .. ClothWords.Of(work.Pleating, units).Where(l => !facts.Any(f => f.Value.Contains(l.Words, StringComparison.OrdinalIgnoreCase))).Select(l => new MaterialLine(Tidy.Line(l.Label), Tidy.Line(l.Words).Capital())),
            .. Advice.Cloths(work.Pleating.Gauge.Fullness).Select((c, i) => new MaterialLine(i == 0 ? "Kind" : "", AdviceWords.Of(c))),
        ]),
        new("Needle and thread", [.. Needle(work, order, units).Select(l => new MaterialLine("", l)), .. InOtherColours(ways)]),
        .. ToCut(order, units),
        .. order.Backsmock.Rows.IsEmpty ? [] : new[] { new MaterialGroup("Backsmocking", [.. Back(order, units).Select(l => new MaterialLine("", l))]) },
        new("Finishing", [.. Finishing.Of(work.Pleating.Cloth).Select(f => new MaterialLine("", Finishing.Say(f, work.Pleating, units)))]),
    ];

    // Every colour way with the colour of every thread in use: a picture of it does not say which thread is which.
    private static ImmutableArray<MaterialLine> InOtherColours(ImmutableArray<ColourWay> ways) => ways.IsEmpty ? [] :
        [new("", $"Other colours: {string.Join("; or ", ways.Select(Say))}.") { OnCover = true }];

    /// <summary>"r violet, b green on pale grey".</summary>
    internal static string Say(ColourWay way) => $"{string.Join(", ", way.Threads.Select(t => $"{t.Key} {t.Word}"))} on {way.ClothWord}";

    // Left out where a skein is too short for one needleful; the threads' own lines say so.
    private static ImmutableArray<MaterialGroup> ToCut(WorkingOrder order, UnitSystem units)
    {
        CuttingPlan plan;
        try { plan = order.Cutting(); }
        catch (ArgumentException) { return []; }
        return plan.Flosses.IsEmpty ? [] :
        [
            new("Cutting the thread",
            [
                new("", CuttingWords.How(plan, units)),
                .. CuttingWords.Of(plan, units, named: false).Select(l => new MaterialLine("", $"{Tidy.Line(l.Threads)}: {l.Words}.")),
            ]),
        ];
    }

    private static ImmutableArray<string> Needle(Work work, WorkingOrder order, UnitSystem units)
    {
        var needles = Advice.Needles(Threads(work, order));
        return
        [
            "An embroidery needle whose eye takes the strands without dragging" + (needles.IsEmpty ? "." : $": commonly {AdviceWords.Of(needles)}."),
            $"Needlefuls of {work.Piece.Working.WorkingLength.Say(units)}. Strip the strands apart and lay them together again.",
            "Strong gathering thread in a colour that shows on the cloth.",
            "Amounts include starts and tie-offs.", // how many, the difficulty says
        ];
    }

    // Thread near the cloth's colour, bought and cut apart from the key's threads.
    private static ImmutableArray<string> Back(WorkingOrder order, UnitSystem units)
    {
        var back = order.Backsmock;
        var length = order.Work.Piece.Working.WorkingLength;
        var skeins = Cutting.StrandsPerSkein(back.Thread, length) > 0 ? $", {Counting.Of(Cutting.Amount(back.Use, length).Skeins, "skein")}" : "";
        return
        [
            $"Floss near the colour of the cloth: {back.Length.Say(units)} in {Counting.Of(back.Needlefuls, "needleful")} of {Counting.Of(back.Thread.Strands, "strand")}{skeins}, for {Counting.Of(back.Cables, "cable")} along {Counting.Of(back.Rows.Select(r => r.Row).Distinct().Count(), "gathering row")}.",
        ];
    }

    /// <summary>Threads that a needle is threaded with, that of the back last.</summary>
    internal static IEnumerable<Floss> Threads(Work work, WorkingOrder order) =>
        order.Backsmock.Rows.IsEmpty ? work.Piece.Threads : [.. work.Piece.Threads, order.Backsmock.Thread];

    /// <summary>Sets lines with their labels, which line up.</summary>
    public static void Lay(ImmutableArray<MaterialLine> lines, Flow flow)
    {
        var look = flow.Look;
        var labels = lines.Max(l => Typeface.Width(l.Label, look.Note));
        var indent = labels > 0 ? labels + 2.4 : 0;
        foreach (var line in lines) flow.Labelled(line.Label, look.Note, line.Words, look.Body, indent);
    }
}
