using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Tests.Chart.Stitches;

/// <summary>
/// Crossed wave: a wave of one step, and over it another half a repeat on, so that their steps cross (common practice, no
/// source).
/// </summary>
public sealed class CrossedWaveStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "crossed wave";

    /// <inheritdoc/>
    public override string Manner => "Two waves on the same rows, the second over the first: where the first has its top turn the second has its bottom turn.";

    /// <inheritdoc/>
    public override Choice? Height => new(1, 16, 2);

    /// <inheritdoc/>
    public override WorkFrom UsualStart => WorkFrom.Centre;

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) =>
    [
        new Running([0, 0, height, height], Hold.ByRise),
        new Running([height, height, 0, 0], Hold.ByRise),
    ];

    /// <inheritdoc/>
    public override (double Quarters, int Rows) Nest(int height) => (height, 1);
}
