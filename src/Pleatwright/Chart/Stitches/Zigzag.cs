using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// The zigzag that waves, trellises and diamonds share: a turn lying level over two pleats at the top, steps down, a
/// turn at the bottom, steps up. Each way has so many steps and one turn.
/// </summary>
internal static class Zigzag
{
    /// <summary>Heights, pleat by pleat, of one repeat whose centre valley is the top turn.</summary>
    /// <param name="steps">Steps from turn to turn, at least 1.</param>
    /// <param name="height">Quarter spaces from top to bottom.</param>
    public static ImmutableArray<double> Heights(int steps, double height)
    {
        var repeat = 2 * (steps + 1);
        var heights = ImmutableArray.CreateBuilder<double>(repeat);
        heights.Add(0);
        for (var i = 0; i <= steps; i++) heights.Add(height * i / steps);
        for (var i = 0; i < steps; i++) heights.Add(height * (steps - i) / steps);
        return heights.MoveToImmutable();
    }

    /// <summary>The same zigzag half a repeat on: its centre valley is the bottom turn.</summary>
    public static ImmutableArray<double> Shifted(int steps, double height) => [.. Heights(steps, height).Select(h => height - h)];

    /// <summary>A zigzag worked with the thread below the needle while it rises and above while it falls.</summary>
    public static Running Journey(int steps, double height) => new(Heights(steps, height), Hold.ByRise);
}
