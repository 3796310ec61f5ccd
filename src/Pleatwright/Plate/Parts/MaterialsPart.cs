using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;

namespace Pleatwright.Plate.Parts;

/// <summary>Things of one kind that are needed.</summary>
/// <param name="Heading">What kind.</param>
/// <param name="Lines">The things, one a line.</param>
public sealed record MaterialGroup(string Heading, ImmutableArray<string> Lines);

/// <summary>Cloth, gathering, threads to cut, needle, and how the work is blocked.</summary>
internal static class MaterialsPart
{
    /// <summary>What is needed beside the threads.</summary>
    public static ImmutableArray<MaterialGroup> Of(Work work, WorkingOrder order, UnitSystem units) =>
    [
        new("Cloth", Cloth(work.Pleating, units)),
        new("Gathering", Gathering(work.Pleating, units)),
        new("Needle and thread", Needle(work, order, units)),
        new("Blocking", Blocking(work.Pleating, units)),
    ];

    private static ImmutableArray<string> Cloth(PleatingPlan plan, UnitSystem units)
    {
        var cloth = plan.Cloth;
        var lines = ImmutableArray.CreateBuilder<string>();
        lines.Add($"Cut {plan.CutWidth.Say(units)} wide" + (plan.FabricWidths > 1
            ? $": join {plan.FabricWidths} widths of {cloth.FabricWidth.Say(units)} cloth, with the joins in valleys."
            : "."));
        if (plan.Shares.Length > 1)
            foreach (var share in plan.Shares)
                lines.Add(Tidy.Line(share.Name) + (share.Pleats > 0
                    ? FormattableString.Invariant($": cut {share.Cut.Say(units)} wide, pleats {share.First} to {share.Last}.")
                    : $": cut {share.Cut.Say(units)} wide."));
        lines.Add($"It draws up {FormattableString.Invariant($"{plan.Fullness:0.0#}")} to 1" + (cloth.Form is Round
            ? $", to {plan.FinishedWidth.Say(units)} at the neck."
            : $", to {plan.FinishedWidth.Say(units)}."));
        lines.Add($"{Counting.Of(plan.Pleats, "pleat")}" + (cloth.SeamPleats > 0
            ? $", and {Counting.Of(cloth.SeamPleats, "seam pleat")} more at each side to undo into the seam."
            : "."));
        return lines.ToImmutable();
    }

    private static ImmutableArray<string> Gathering(PleatingPlan plan, UnitSystem units)
    {
        var cloth = plan.Cloth;
        var gauge = plan.Gauge;
        var held = cloth.HoldingRowsAbove + cloth.HoldingRowsBelow;
        return
        [
            $"Gather {Counting.Of(plan.RowsToGather, "row")}: {Counting.Of(cloth.GatheringRows, "gathering row")}, {gauge.RowSpacing.Say(units)} apart" + (held > 0
                ? FormattableString.Invariant($", with {cloth.HoldingRowsAbove} holding above and {cloth.HoldingRowsBelow} below.")
                : "."),
            $"Dots {(gauge.TakeUp / 2).Say(units)} apart: two to a pleat, {gauge.TakeUp.Say(units)} of cloth.",
            $"{Counting.Of(gauge.CableRowsPerSpace, "cable row")} to a space; {plan.Depth.Say(units)} from the first gathering row to the last.",
        ];
    }

    private static ImmutableArray<string> Needle(Work work, WorkingOrder order, UnitSystem units)
    {
        var strands = work.Piece.Threads.Length == 0 ? 0 : work.Piece.Threads.Max(t => t.Strands);
        return
        [
            strands > 0
                ? $"An embroidery needle whose eye takes {Counting.Of(strands, "strand")} without dragging."
                : "An embroidery needle whose eye takes the strands without dragging.",
            $"Needlefuls of {work.Piece.Working.WorkingLength.Say(units)}. Strip the strands apart and lay them together again.",
            "Strong gathering thread in a colour that shows on the cloth.",
            $"The plan starts a thread {Counting.Of(order.Starts, "time")}; the amounts include starts and tie-offs.",
        ];
    }

    private static ImmutableArray<string> Blocking(PleatingPlan plan, UnitSystem units) =>
    [
        plan.Cloth.Form switch
        {
            Round round => $"Pin to arcs: {round.Neck.Say(units)} along gathering row 1, at a radius of {round.NeckRadius.Say(units)}.",
            Ball ball => $"Draw up the ends over a ball {ball.Diameter.Say(units)} across.",
            _ => $"Pin to {plan.FinishedWidth.Say(units)}, the gathering rows straight and square to the pleats.",
        },
        "Steam without pressing, and let it dry before the gathering threads come out.",
    ];

    public static void Lay(PlateDocument document, Flow flow)
    {
        var look = flow.Look;
        if (document.Threads.Length > 0) LayThreads(document, flow);
        foreach (var group in document.Materials)
        {
            flow.Subheading(group.Heading);
            foreach (var line in group.Lines) flow.Paragraph(line, look.Body);
        }
    }

    // Threads to buy and cut: one line a thread.
    private static void LayThreads(PlateDocument document, Flow flow)
    {
        var look = flow.Look;
        flow.Subheading("Thread to buy and cut");
        foreach (var thread in document.Threads)
        {
            var right = thread.Use.Cables == 0 ? "not used" : thread.SkeinWords;
            var left = $"{thread.Letter}  {thread.Name}";
            var under = thread.Use.Cables == 0 ? "" : $"{thread.Length(document.Options.Units)} in {thread.Needlefuls}";
            flow.Add(look.Leading * 2.15, (page, x, y) =>
            {
                page.Text(x, y + look.Leading * 0.8, Wrapping.Shorten(left, look.Strong, flow.Width - Typeface.Width(right, look.Body) - 4), look.Strong);
                page.Text(x + flow.Width, y + look.Leading * 0.8, right, look.Body, Anchor.End);
                page.Text(x, y + look.Leading * 1.65, under, look.Note);
                page.Rule(x, y + look.Leading * 2.02, x + flow.Width, y + look.Leading * 2.02, look.Fine);
            });
        }
    }
}
