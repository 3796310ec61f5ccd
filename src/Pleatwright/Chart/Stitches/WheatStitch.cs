using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// Wheat: two rows of outline close together, the upper with the thread below the needle and the lower with it above,
/// so that their slants meet like an ear of wheat (common practice, no source).
/// </summary>
internal sealed class WheatStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "wheat";

    /// <inheritdoc/>
    public override string Manner => "Two lines of outline touching, worked one after the other, the thread on one side of the needle all along the first and on the other all along the second.";

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) =>
        [new Running([0], Hold.Below), new Running([0], Hold.Above) { Drop = 1 }];

    /// <inheritdoc/>
    public override (double Quarters, int Rows) Nest(int height) => (0, 2);
}
