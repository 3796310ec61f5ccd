using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// Crossed trellis: a trellis, and over it another half a repeat on, so that their steps cross (common practice, no source).
/// </summary>
internal sealed class CrossedTrellisStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "crossed trellis";

    /// <inheritdoc/>
    public override string Manner => "Two trellises over the same pleats and heights, the second over the first: where the first turns at one height the second turns at the other.";

    /// <inheritdoc/>
    public override Choice? Steps => new(2, 20, 4);

    /// <inheritdoc/>
    public override Choice? Height => new(1, 16, 4);

    /// <inheritdoc/>
    public override WorkFrom UsualStart => WorkFrom.Centre;

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) =>
        [Zigzag.Journey(steps, height), new Running(Zigzag.Shifted(steps, height), Hold.ByRise)];

    /// <inheritdoc/>
    public override (double Quarters, int Rows) Nest(int height) => (height, 1);
}
