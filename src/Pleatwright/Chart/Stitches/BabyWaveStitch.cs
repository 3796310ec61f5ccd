using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// Baby wave: an up cable, one step down half a space, a down cable, one step up; four valleys to a repeat (common
/// practice, no source; the wave of the clothing-construction textbook, c. 1916, with one step instead of three).
/// </summary>
internal sealed class BabyWaveStitch : BandStitch
{
    /// <summary>Half a space.</summary>
    public const int QuarterSpaces = 2;

    /// <inheritdoc/>
    public override string Name => "baby wave";

    /// <inheritdoc/>
    public override string Manner => "A cable at each turn and one slanting stitch between turns.";

    /// <inheritdoc/>
    public override WorkFrom UsualStart => WorkFrom.Centre;

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) => [Zigzag.Journey(1, QuarterSpaces)];
}
