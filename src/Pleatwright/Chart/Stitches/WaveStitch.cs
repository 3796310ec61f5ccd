using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// Wave: a cable at each turn and a step or more between turns; usually one step over a full space. With three steps it
/// is the wave of the clothing-construction textbook, c. 1916, "Smocking", Fig. 253: four stitches rising with the thread
/// below, the next beside the fourth with the thread reversed, four falling with the thread above.
/// </summary>
internal sealed class WaveStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "wave";

    /// <inheritdoc/>
    public override string Manner => "A cable at each turn and slanting stitches between turns.";

    /// <inheritdoc/>
    public override Choice? Steps => new(1, 20, 1);

    /// <inheritdoc/>
    public override Choice? Height => new(1, 16, 4);

    /// <inheritdoc/>
    public override WorkFrom UsualStart => WorkFrom.Centre;

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) => [Zigzag.Journey(steps, height)];
}
