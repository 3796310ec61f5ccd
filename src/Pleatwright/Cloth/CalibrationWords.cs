using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>What the swatches say, in words for people.</summary>
internal static class CalibrationWords
{
    /// <summary>One sentence each: pitch, take-up, thread, and whether the piece's gauge agrees.</summary>
    /// <param name="found">What was worked out of the swatches.</param>
    /// <param name="gauge">The gauge the piece is planned at; null when there is none yet to agree with.</param>
    public static ImmutableArray<string> Of(Calibration found, Gauge? gauge)
    {
        var words = ImmutableArray.CreateBuilder<string>();
        words.Add($"One pleat lies {Value(found.Pitch)} mm wide{Range(found.Pitch)}.");
        if (found.TakeUp is { } takeUp) words.Add($"It takes up {Value(takeUp)} mm of cloth{Range(takeUp)}.");
        if (found.ThreadFactor is { } factor) words.Add($"Cables take {Value(factor)} times the thread reckoned{Range(factor)}.");
        if (gauge is null) return words.ToImmutable();
        if (!found.Pitch.Allows(gauge.Pitch.Millimetres)) words.Add(Outside("pitch", gauge.Pitch));
        if (found.TakeUp is { } t && !t.Allows(gauge.TakeUp.Millimetres)) words.Add(Outside("take-up", gauge.TakeUp));
        return words.ToImmutable();
    }

    private static string Outside(string what, Length length) =>
        FormattableString.Invariant($"The gauge's {what}, {length.Millimetres:0.###} mm, lies outside that range.");

    private static string Value(Estimate estimate) =>
        FormattableString.Invariant($"{estimate.Value:0.###}") + (estimate.HalfRange is { } half ? FormattableString.Invariant($" ± {half:0.###}") : "");

    private static string Range(Estimate estimate) =>
        estimate.HalfRange is null ? " (one swatch, so no range)" : $" (95 %, {estimate.Count} swatches)";
}
