using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// What a chart is cut for, as one fact: a plate holds for this gauge alone, and is recut for another. With it what cloth to cut.
/// </summary>
/// <param name="RowSpacing">Distance between gathering rows.</param>
/// <param name="CableRowsPerSpace">Cable rows in one space, 1 to 20.</param>
/// <param name="Pitch">Finished width of one pleat: along gathering row 1 of a bishop, round the equator of a ball.</param>
/// <param name="Fullness">Flat width over gathered width there, at least 1.</param>
/// <param name="CutWidth">Width of flat cloth to cut; of a bishop, all its panels together.</param>
/// <param name="CutDepth">Depth of cloth to cut, as far as it is known; see <see cref="ClothPlan.CutDepth"/>.</param>
/// <param name="Rows">Rows gathered, holding rows too.</param>
internal sealed record CutFor(Length RowSpacing, int CableRowsPerSpace, Length Pitch, double Fullness, Length CutWidth, Length CutDepth, int Rows)
{
    /// <summary>Whether the depth holds what hangs above and below the gathered part, as the maker gives it.</summary>
    public bool IsDepthWhole { get; init; }

    /// <summary>Where pitch and fullness are measured, after the figure; empty where they are alike everywhere.</summary>
    public string At { get; init; } = "";

    /// <summary>The plain wings it needs; null when it needs none.</summary>
    public Wings? Wings { get; init; }

    /// <summary>What a plan's chart is cut for.</summary>
    public static CutFor Of(PleatingPlan plan) => new(
        plan.Gauge.RowSpacing, plan.Gauge.CableRowsPerSpace, plan.FinishedWidth / plan.Pleats, plan.Fullness, plan.CutWidth, plan.Cloth.CutDepth, plan.RowsToGather)
    {
        IsDepthWhole = plan.Cloth.IsDepthWhole, Wings = Wings.Of(plan.Cloth), At = plan.Cloth.Form.FullnessAt,
    };

    /// <summary>Finished pleats in one inch.</summary>
    public double PleatsPerInch => Length.MillimetresPerInch / Pitch.Millimetres;

    /// <summary>Finished pleats in one centimetre.</summary>
    public double PleatsPerCentimetre => 10 / Pitch.Millimetres;
}

/// <summary>What a chart is cut for, in words.</summary>
internal static class CutForWords
{
    /// <summary>"rows 3/8 in apart, 5 cable rows to a space, 12 pleats an inch, fullness 3 to 1".</summary>
    public static string Gauge(CutFor cut, UnitSystem units) => string.Create(CultureInfo.InvariantCulture,
        $"rows {cut.RowSpacing.Say(units)} apart, {Counting.Of(cut.CableRowsPerSpace, "cable row")} to a space, {ClothWords.PleatsIn(cut.Pitch, units)}, fullness {cut.Fullness:0.0#} to 1{cut.At}");

    /// <summary>"34 1/2 in wide, 4 1/8 in deep".</summary>
    /// <param name="cut">The fact.</param>
    /// <param name="units">Units of lengths.</param>
    /// <param name="alone">Said of a depth that is that of the gathered part, where nothing else tells it.</param>
    public static string Cloth(CutFor cut, UnitSystem units, string alone = "") => $"{cut.CutWidth.Say(units)} wide, {cut.CutDepth.Say(units)} deep{(cut.IsDepthWhole ? "" : alone)}{(cut.Wings is { } wings ? $"; and {wings.Say(units)}" : "")}";

    /// <summary>How the depth comes about, and what it leaves out.</summary>
    public static string Depth(CutFor cut) => cut.IsDepthWhole
        ? $"The depth is that of {Counting.Of(cut.Rows, "gathered row")} with half a space beyond the outer ones, and of what hangs above and below."
        : $"The depth is that of {Counting.Of(cut.Rows, "gathered row")} with half a space beyond the outer ones; add what hangs above and below.";

    /// <summary>Every line.</summary>
    public static ImmutableArray<string> Of(CutFor cut, UnitSystem units) => [$"Cut for {Gauge(cut, units)}.", $"Cloth: {Cloth(cut, units)}.", Depth(cut)];
}
