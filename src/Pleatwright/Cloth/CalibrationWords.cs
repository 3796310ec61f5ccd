using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>What the swatches say, in words for people.</summary>
public static class CalibrationWords
{
    /// <summary>One sentence each: pitch, take-up, thread, and whether the piece's gauge agrees.</summary>
    /// <param name="found">What was worked out of the swatches.</param>
    /// <param name="gauge">The gauge the piece is planned at.</param>
    public static ImmutableArray<string> Of(Calibration found, Gauge gauge)
    {
        var words = ImmutableArray.CreateBuilder<string>();
        words.Add($"One pleat lies {Range(found.Pitch, " mm")} wide.");
        if (found.TakeUp is { } takeUp) words.Add($"It takes up {Range(takeUp, " mm")} of cloth.");
        if (found.ThreadFactor is { } factor) words.Add($"Cables take {Range(factor, "")} times the thread reckoned.");
        if (!found.Pitch.Allows(gauge.Pitch.Millimetres)) words.Add(Outside("pitch", gauge.Pitch));
        if (found.TakeUp is { } t && !t.Allows(gauge.TakeUp.Millimetres)) words.Add(Outside("take-up", gauge.TakeUp));
        return words.ToImmutable();
    }

    private static string Outside(string what, Length length) =>
        FormattableString.Invariant($"The gauge's {what}, {length.Millimetres:0.###} mm, lies outside that range.");

    private static string Range(Estimate estimate, string unit) =>
        FormattableString.Invariant($"{estimate.Value:0.###}{unit}") + (estimate.HalfRange is { } half
            ? FormattableString.Invariant($" ± {half:0.###} (95 %, {estimate.Count} swatches)")
            : " (one swatch, no range)");
}
