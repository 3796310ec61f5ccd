using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// Surface honeycomb: a cable over two pleats, then the thread taken along the outside of the pleat ahead to the other
/// height, and a cable there over that pleat and the next (common practice, no source). Usually half a space high.
/// </summary>
internal sealed class SurfaceHoneycombStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "surface honeycomb";

    /// <inheritdoc/>
    public override string Manner => "A cable at one height, then a bar straight to the other height in the same pleat; a cable there, and a bar straight back. The thread stays on the surface.";

    /// <inheritdoc/>
    public override Choice? Height => new(1, 16, 2);

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) => [new Catching(height, StitchKind.Over, StitchKind.Bar)];

    /// <inheritdoc/>
    public override (double Quarters, int Rows) Nest(int height) => (2 * height, 0);
}
