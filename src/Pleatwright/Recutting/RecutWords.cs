using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Recutting;

/// <summary>The facts of a recut in words.</summary>
internal static class RecutWords
{
    /// <summary>Each change as a sentence, in their order; those alike in all but their number are told once.</summary>
    public static ImmutableArray<string> Of(RecutPiece recut, UnitSystem units) => [.. recut.Changes.Select(c => Of(c, units)).Distinct()];

    /// <summary>A change as a sentence.</summary>
    public static string Of(RecutChange change, UnitSystem units) => change switch
    {
        RecutChange.OtherGauge g => Sentences.Of(Gauges(g.From, g.To, units)),
        RecutChange.OtherCloth c => Cloths(c.From, c.To, units),
        RecutChange.Redrawn r => Invariant($"“{r.Figure}” is drawn again: {Wide(r.FromWidth)} by {High(r.FromHeight)} become {Wide(r.ToWidth)} by {High(r.ToHeight)}."),
        RecutChange.Halves h => Invariant($"Half stitches of “{h.Figure}”: {h.From} become {h.To}."),
        RecutChange.OtherRow m => Invariant($"{Thing(m.Thing, m.Name)} moves from gathering row {m.From} to {m.To}."),
        RecutChange.OtherValley m => Invariant($"{Thing(m.Thing, m.Name)} moves from valley {m.From} to {m.To}."),
        RecutChange.Respaced s => s.FromCount == s.ToCount
            ? Invariant($"{Copies(s.Thing, s.Name, s.FromCount)} lie every {Counting.Of(s.ToEvery, "valley")} instead of every {s.FromEvery}.")
            : Invariant($"{Copies(s.Thing, s.Name, s.FromCount)} become {s.ToCount}, every {Counting.Of(s.ToEvery, "valley")}."),
        RecutChange.OtherEnds e => $"The {e.Stitch} band goes from {Pleat(e.ToFirst, "the first pleat")} to {Pleat(e.ToLast, "the last")} instead of {Pleat(e.FromFirst, "the first")} to {Pleat(e.FromLast, "the last")}.",
        RecutChange.OtherDepth d => $"{Thing(d.Thing, d.Name)} keeps its place on what it lies on, told in the new rows and pleats.",
        RecutChange.CableCount c => $"{Counting.Of(c.From, "cable")} become {c.To.ToString("#,0", CultureInfo.InvariantCulture)}.",
        RecutChange.PhaseTurned => "The piece's phase turns, so that every cable keeps its level.",
        RecutChange.OtherBaseRow b => Invariant($"The pinned base row moves from row {b.From} to row {b.To}."),
        RecutChange.SizesRecut s => s.Count == 1 ? "Its other size is recut alike." : $"Its {s.Count} other sizes are recut alike.",
        RecutChange.StitchesMoved { Figure: { } figure } => $"Stitches of “{figure}” lie on other pleats and rows: what is ticked of it so far belongs to it as it was.",
        RecutChange.StitchesMoved => "Stitches lie on other pleats and rows: what is ticked so far belongs to the piece as it was. At the chair you are asked whether to begin anew.",
        RecutChange.SwatchesOfOldGauge => "Its swatches were measured at the gauge that was; measure one at this.",
        RecutChange.DetailLost l => $"Going back would not give {Counting.Of(l.Stitches, "stitch", "stitches")} of “{l.Figure}” again, of {l.Of.ToString("#,0", CultureInfo.InvariantCulture)}.",
        RecutChange.SizeLost l => $"Going back would give “{l.Figure}” a row or two higher or lower, or wider or narrower.",
        RecutChange.PlaceLost l => $"Going back would not bring {Thing(l.Thing, l.Name).Uncapital()} to just where it lay.",
        RecutChange.ClothLost => "Going back would not give just the cloth that was.",
        RecutChange.FallsOff f => $"{Counting.Of(f.Cables, "cable")} of “{f.Figure}” {(f.Cables == 1 ? "falls" : "fall")} off the cloth.",
        RecutChange.RunsInto i => i.Figure == i.Other ? $"Copies of “{i.Figure}” run into each other." : $"“{i.Figure}” and “{i.Other}” run into each other.",
        RecutChange.HalvesRefused h => $"{Counting.Of(h.Count, "half stitch", "half stitches")} asked for can no longer be made.",
        RecutChange.OrderLetGo o => "What was fixed in the order is let go: " + string.Join(" and ", new[] { o.Runs > 0 ? Counting.Of(o.Runs, "run") : "", o.Figures > 0 ? Counting.Of(o.Figures, "figure") : "" }.Where(w => w.Length > 0)) + ".",
        _ => throw new ArgumentOutOfRangeException(nameof(change)),
    };

    /// <summary>What is kept, in a few words.</summary>
    public static string Of(RecutKeep keep) => keep switch
    {
        RecutKeep.Size => "the size",
        RecutKeep.Count => "the count",
        RecutKeep.Proportions => "the proportions",
        _ => throw new ArgumentOutOfRangeException(nameof(keep)),
    };

    /// <summary>What that means, as a sentence.</summary>
    public static string Meaning(RecutKeep keep) => keep switch
    {
        RecutKeep.Size => "As wide and as deep as it was: figures are drawn again in the pleats and rows that fill the same place.",
        RecutKeep.Count => "The same pleats and every stitch of the figures: the piece itself becomes larger or smaller.",
        RecutKeep.Proportions => "The same pleats, and figures as tall for their width as they were: their rows are drawn again.",
        _ => throw new ArgumentOutOfRangeException(nameof(keep)),
    };

    private static string Gauges(Gauge from, Gauge to, UnitSystem units)
    {
        var words = new List<string>();
        if (from.Pitch != to.Pitch) words.Add(Invariant($"{from.PleatsPerInch:0.##} pleats an inch become {to.PleatsPerInch:0.##}"));
        if (from.TakeUp != to.TakeUp) words.Add($"a pleat takes up {Exact(to.TakeUp, units)} instead of {Exact(from.TakeUp, units)}");
        if (from.RowSpacing != to.RowSpacing) words.Add($"gathering rows lie {Exact(to.RowSpacing, units)} apart instead of {Exact(from.RowSpacing, units)}");
        if (from.CableRowsPerSpace != to.CableRowsPerSpace) words.Add(Invariant($"{Counting.Of(from.CableRowsPerSpace, "cable row")} to a space become {to.CableRowsPerSpace}"));
        if (words.Count == 0) words.Add("a pleat is pressed to another thickness");
        return string.Join("; ", words);
    }

    // A gauge is told as it was given, where it was given in units asked for: a fifth of an inch is no sixteenths.
    private static string Exact(Length length, UnitSystem units) => length.Units() == units ? length.ToString()
        : units == UnitSystem.Both ? $"{length} ({length.Say(length.Units() == UnitSystem.Inches ? UnitSystem.Metric : UnitSystem.Inches)})"
        : length.Say(units);

    private static string Cloths(PleatingPlan from, PleatingPlan to, UnitSystem units)
    {
        var words = new List<string>();
        Say(Counting.Of(from.Pleats, "pleat"), to.Pleats.ToString("#,0", CultureInfo.InvariantCulture), from.Pleats != to.Pleats);
        Say($"finished width {from.FinishedWidth.Say(units)}", to.FinishedWidth.Say(units), from.FinishedWidth.Say(units) != to.FinishedWidth.Say(units));
        Say(Counting.Of(from.Cloth.GatheringRows, "gathering row"), to.Cloth.GatheringRows.ToString(CultureInfo.InvariantCulture), from.Cloth.GatheringRows != to.Cloth.GatheringRows);
        Say($"depth {from.Depth.Say(units)}", to.Depth.Say(units), from.Depth.Say(units) != to.Depth.Say(units));
        Say($"cut width {from.CutWidth.Say(units)}", to.CutWidth.Say(units), from.CutWidth.Say(units) != to.CutWidth.Say(units));
        Say(Invariant($"fullness {from.Fullness:0.0#}"), Invariant($"{to.Fullness:0.0#}"), Math.Abs(from.Fullness - to.Fullness) > 0.005);
        return words.Count == 0 ? "The cloth keeps its pleats, rows and measures." : Sentences.Of(string.Join("; ", words));

        void Say(string was, string becomes, bool changed)
        {
            if (changed) words.Add($"{was} becomes {becomes}".Replace("pleats becomes", "pleats become", StringComparison.Ordinal).Replace("rows becomes", "rows become", StringComparison.Ordinal));
        }
    }

    private static string Thing(RecutThing thing, string name) => thing switch
    {
        RecutThing.Figure => $"“{name}”",
        RecutThing.Band => $"The {name} band",
        _ => $"The {name}",
    };

    private static string Copies(RecutThing thing, string name, int count) => thing == RecutThing.Figure ? $"The {count} copies of “{name}”" : $"The {count} of the {name}";

    private static string Wide(int valleys) => Counting.Of(valleys, "valley");

    private static string High(int rows) => Counting.Of(rows, "cable row");

    private static string Pleat(int? pleat, string side) => pleat is { } number ? Invariant($"pleat {number}") : side;

    private static string Invariant(FormattableString words) => FormattableString.Invariant(words);
}
