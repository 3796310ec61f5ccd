using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// Diamond: a wave, and under it the same wave upside down, the turns of the one touching the turns of the other (two
/// groups of waves whose lower and upper angles meet: clothing-construction textbook, c. 1916, "Smocking", Fig. 253).
/// Usually one step of half a space in each half.
/// </summary>
internal sealed class DiamondStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "diamond";

    /// <inheritdoc/>
    public override string Manner => "Two waves: the second mirrors the first, and their turns touch.";

    /// <inheritdoc/>
    public override Choice? Steps => new(1, 20, 1);

    /// <inheritdoc/>
    public override Choice? Height => new(2, 16, 4);

    /// <inheritdoc/>
    public override WorkFrom UsualStart => WorkFrom.Centre;

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height)
    {
        var half = height / 2.0;
        return
        [
            new Running(Zigzag.Heights(steps, half), Hold.ByRise),
            new Running([.. Zigzag.Heights(steps, half).Select(h => height - h)], Hold.ByRise) { Drop = 1 },
        ];
    }

    /// <inheritdoc/>
    public override (double Quarters, int Rows) Nest(int height) => (height, 2);
}
