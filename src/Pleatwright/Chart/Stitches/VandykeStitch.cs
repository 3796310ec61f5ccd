using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// Vandyke: two pleats caught together by a stitch and a back stitch, then the thread on the surface to the other
/// height, and the pleat ahead caught there to the next; worked from right to left by a right-handed maker (common
/// practice, no source). Usually half a space high.
/// </summary>
internal sealed class VandykeStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "vandyke";

    /// <inheritdoc/>
    public override string Manner => "A catch takes two pleats together with a stitch and a back stitch over it; a bar takes the thread on the surface to the other height, where the pleat ahead is caught to the next.";

    /// <inheritdoc/>
    public override bool Backward => true;

    /// <inheritdoc/>
    public override Choice? Height => new(1, 16, 2);

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) => [new Catching(height, StitchKind.Catch, StitchKind.Bar)];

    /// <inheritdoc/>
    public override (double Quarters, int Rows) Nest(int height) => (2 * height, 0);
}
