using System.Collections.Immutable;
using Pleatwright.Cloth;

namespace Pleatwright.Bench.Model.Tabletop;

/// <summary>
/// A small map of the whole cloth: its size in pixels of the page, how many of them a millimetre takes, and the gathering rows whose
/// numbers stand beside it.
/// </summary>
/// <param name="Width">Pixels across, the numbers of the rows apart.</param>
/// <param name="Height">Pixels from top to bottom.</param>
/// <param name="Across">Pixels a millimetre takes across.</param>
/// <param name="Down">Pixels a millimetre takes down; larger than <paramref name="Across"/> where a shallow cloth would be a thread.</param>
/// <param name="Rows">The numbers that stand there, each with its place in pixels from the top.</param>
public sealed record ClothMap(double Width, double Height, double Across, double Down, ImmutableArray<(int Row, double Y)> Rows)
{
    /// <summary>The widest a map is, in pixels.</summary>
    public const double MostWidth = 132;

    /// <summary>The tallest a map is, in pixels.</summary>
    public const double MostHeight = 84;

    /// <summary>The lowest a map is, in pixels, so that a finger finds a place on it.</summary>
    public const double LeastHeight = 36;

    /// <summary>The narrowest a map is, in pixels.</summary>
    public const double LeastWidth = 36;

    /// <summary>Pixels from one number to the next, at least.</summary>
    public const double LeastGap = 12;

    /// <summary>Width over height of a cloth as it is painted, its holding rows and a margin of three lines with it.</summary>
    public static double ShapeOf(PleatingPlan plan) => Widest(plan)
        / (plan.CableRows * 2 + 6 + (plan.Cloth.HoldingRowsAbove + plan.Cloth.HoldingRowsBelow) * 2 * plan.Gauge.CableRowsPerSpace) / plan.Gauge.LineHeight.Millimetres;

    /// <summary>The map of a cloth.</summary>
    public static ClothMap Of(PleatingPlan plan)
    {
        var widest = Widest(plan);
        var deep = plan.CableRows * 2 * plan.Gauge.LineHeight.Millimetres;
        var scale = Math.Min(MostWidth / widest, MostHeight / deep);
        var (width, height) = (Math.Max(LeastWidth, widest * scale), Math.Max(LeastHeight, deep * scale));
        var (across, down) = (width / widest, height / deep);
        var space = plan.Gauge.CableRowsPerSpace * 2 * plan.Gauge.LineHeight.Millimetres * down;
        var every = 1;
        foreach (var step in (int[])[1, 2, 5, 10, 20, 50, 100]) if ((every = step) * space >= LeastGap) break;
        var line = plan.Gauge.LineHeight.Millimetres * down;
        return new ClothMap(width, height, across, down,
            [.. Enumerable.Range(1, plan.Cloth.GatheringRows).Where(r => r == 1 || r % every == 0 && (r - 1) * space >= LeastGap).Select(r => (r, (r - 1) * space + line))]);
    }

    private static double Widest(PleatingPlan plan) => Enumerable.Range(0, plan.CableRows).Max(y => plan.PitchAt(y).Millimetres) * plan.Pleats;
}
