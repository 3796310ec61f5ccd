using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>One line of the cloth's figures: what it is about, and what it comes to.</summary>
/// <param name="Label">What it is about, one or two words; empty when it goes on from the line above.</param>
/// <param name="Words">What it comes to.</param>
internal readonly record struct ClothLine(string Label, string Words);

/// <summary>Every figure of a pleating plan in words for people.</summary>
internal static class ClothWords
{
    // Whether a panel is named by a side.
    private static bool IsSided(string name) => name.Split(' ').Any(w => w.Equals("left", StringComparison.OrdinalIgnoreCase) || w.Equals("right", StringComparison.OrdinalIgnoreCase));

    /// <summary>The lines, in the order the maker needs them: cut, join, gather, draw up.</summary>
    public static ImmutableArray<ClothLine> Of(PleatingPlan plan, UnitSystem units)
    {
        var lines = ImmutableArray.CreateBuilder<ClothLine>();
        var cloth = plan.Cloth;
        var gauge = plan.Gauge;
        var sewn = cloth.Form.Kind.Pieces is not null;

        lines.Add(new("Cloth", (!sewn ? $"cut {plan.CutWidth.Say(units)} wide and" : $"panels {plan.CutWidth.Say(units)} wide together,")
            + $" {cloth.CutDepth.Say(units)} deep{(cloth.IsDepthWhole ? "" : " for the gathered part alone")}, from {(plan.FabricWidths > 1 ? $"{plan.FabricWidths} widths of " : "")}cloth {cloth.FabricWidth.Say(units)} wide"));
        if (cloth.IsDepthWhole) lines.Add(new("Depth", DepthWords(cloth, units)));
        if (Wings.Of(cloth) is { } wings) lines.Add(new("Wings", wings.Say(units)));
        if (cloth.IsDepthWhole) lines.Add(new("Buy", $"{ClothToBuy.Say(ClothToBuy.Of(cloth), units)} of cloth {cloth.FabricWidth.Say(units)} wide, which is sold in steps of {ClothToBuy.Say(cloth.Step, units)}"));
        if (sewn)
        {
            var first = true;
            foreach (var share in plan.Shares)
            {
                lines.Add(new(first ? "Panels" : "", $"{share.Name}: cut {share.Cut.Say(units)}, " +
                    (share.Pleats > 0 ? $"{Counting.Of(share.Pleats, "pleat")}, {share.First} to {share.Last}" : "no pleat of its own")));
                first = false;
            }
            if (plan.Shares.Any(s => IsSided(s.Name))) lines.Add(new("", "left and right are the wearer’s"));
        }
        if (Kept(cloth, units) is { Length: > 0 } kept) lines.Add(new("Kept out", kept));
        var joins = plan.Joins;
        if (!joins.IsEmpty)
            lines.Add(new("Joins", $"in {(joins.Length == 1 ? "valley" : "valleys")} {string.Join(", ", joins.Select(j => ValleyWords(j.Valley, plan)))}"));
        lines.Add(new("Finished", cloth.Form.FinishedWords(plan, units)));
        lines.Add(new("Pleats", $"{plan.Pleats}, and {Counting.Of(cloth.SeamPleats, "seam pleat")} at each side: {plan.PleatsToGather} to gather; centre valley {plan.CentreValley}"));
        lines.Add(new("Gauge", Number($"{gauge.TakeUp.Say(units)} of cloth to a pleat, dots {(gauge.TakeUp / 2).Say(units)} apart; fullness {plan.Fullness:0.0#} to 1{cloth.Form.FullnessAt}")));
        lines.Add(new("Pitch", cloth.Form.PitchWords(plan, units)));
        lines.Add(new("Rows", $"gather {plan.RowsToGather}: {cloth.GatheringRows} gathering rows {gauge.RowSpacing.Say(units)} apart, {cloth.HoldingRowsAbove} holding above and {cloth.HoldingRowsBelow} below"));
        lines.Add(new("", $"{Counting.Of(gauge.CableRowsPerSpace, "cable row")} in a space, {plan.CableRows} in all"));
        if (!plan.Passes.IsEmpty) lines.Add(new("Passes", PassWords(plan)));
        return lines.ToImmutable();
    }

    /// <summary>How the depth comes about, from the top: "3/8 in seam above, 4 1/8 in gathered, 14 in below it, 2 in hem or seam".</summary>
    public static string DepthWords(ClothPlan cloth, UnitSystem units)
    {
        var parts = new List<string>();
        void Add(Length length, string what)
        {
            if (length > Length.Zero) parts.Add($"{length.Say(units)} {what}");
        }
        Add(cloth.SeamAbove + cloth.Form.EdgeSeam, "seam above");
        Add(cloth.GatheredDepth, $"gathered, {Counting.Of(cloth.RowsToGather, "row")} with half a space beyond the outer ones");
        Add(cloth.LengthBelow, "skirt or bodice below it");
        Add(cloth.SeamBelow + cloth.Form.EdgeSeam, "hem or seam below");
        return string.Join(", ", parts);
    }

    /// <summary>A valley in words: its number, or how far it lies among the seam pleats.</summary>
    public static string ValleyWords(int valley, PleatingPlan plan) =>
        valley < 1 ? $"{1 - valley} before the first pleat"
        : valley >= plan.Pleats ? $"{valley - plan.Pleats + 1} after the last pleat"
        : valley.ToString(CultureInfo.InvariantCulture);

    private static string Kept(ClothPlan cloth, UnitSystem units)
    {
        var kept = new List<string>();
        if (cloth.Selvedges > Length.Zero) kept.Add($"selvedges {cloth.Selvedges.Say(units)} together");
        if (cloth.Ravelling > Length.Zero) kept.Add($"{cloth.Ravelling.Say(units)} at each side for ravelling");
        if (cloth.Seam > Length.Zero) kept.Add($"{cloth.Seam.Say(units)} at each edge of a join");
        return string.Join(", ", kept);
    }

    /// <summary>A pitch as makers count it: pleats in an inch, in a centimetre, or both.</summary>
    public static string PleatsIn(Length pitch, UnitSystem units)
    {
        if (pitch <= Length.Zero) return "no room for a pleat";
        var inch = Number($"{Length.MillimetresPerInch / pitch.Millimetres:0.#} pleats an inch");
        var centimetre = Number($"{10 / pitch.Millimetres:0.#} pleats a centimetre");
        return units switch
        {
            UnitSystem.Inches => inch,
            UnitSystem.Metric => centimetre,
            _ => $"{centimetre} ({inch})",
        };
    }

    private static string PassWords(PleatingPlan plan)
    {
        var pleater = plan.Cloth.Pleater!.Value;
        var passes = plan.Passes;
        if (passes.Length == 1) return $"one pass of {Counting.Of(passes[0].Rows, "row")} through a pleater of {pleater.Rows}";
        return $"{passes.Length} through a pleater of {pleater.Rows}, holding rows counted: " + string.Join("; ", passes.Select(p =>
            $"rows {p.First} to {p.Last}" + (p.Again > 0 ? $", with {(p.Again == 1 ? $"row {p.First - 1}" : $"rows {p.First - p.Again} to {p.First - 1}")} run again" : "")));
    }

    private static string Number(FormattableString text) => FormattableString.Invariant(text);
}
