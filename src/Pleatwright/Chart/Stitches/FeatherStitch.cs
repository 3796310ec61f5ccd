using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// Feather: loops with the thread held under the needle's point, slanting down and up by turns, each stitch taking up
/// one new fold (*Educational Needlecraft*, 1911, "Smocking"); worked from right to left by a right-handed maker (common
/// practice, no source). With more steps, so many loops go down and as many up.
/// </summary>
internal sealed class FeatherStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "feather";

    /// <inheritdoc/>
    public override string Manner => "Take two pleats with a slanting needle and draw it out over the loop of thread; each stitch takes up one new pleat. Fasten the last loop with a tiny stitch.";

    /// <inheritdoc/>
    public override bool Backward => true;

    /// <inheritdoc/>
    public override bool MayWorkBack => false; // its loops point the way they are worked

    /// <inheritdoc/>
    public override Choice? Steps => new(1, 10, 1);

    /// <inheritdoc/>
    public override Choice? Height => new(1, 16, 2);

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) => [new Looping(height, steps)];

    /// <inheritdoc/>
    public override (double Quarters, int Rows) Nest(int height) => (height, 1);
}
