using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// Trellis: a wave of two steps or more, usually four of a quarter space each (common practice, no source; worked as the
/// wave of the clothing-construction textbook, c. 1916).
/// </summary>
internal sealed class TrellisStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "trellis";

    /// <inheritdoc/>
    public override string Manner => "A cable at each turn and even steps between turns. Keep the steps alike.";

    /// <inheritdoc/>
    public override Choice? Steps => new(2, 20, 4);

    /// <inheritdoc/>
    public override Choice? Height => new(1, 16, 4);

    /// <inheritdoc/>
    public override WorkFrom UsualStart => WorkFrom.Centre;

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) => [Zigzag.Journey(steps, height)];
}
