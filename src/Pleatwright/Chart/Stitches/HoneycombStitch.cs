using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// Honeycomb: two pleats caught together by two small stitches, then the needle slipped inside a fold to the other
/// height, and that pleat caught to the next (*Educational Needlecraft*, 1911, "Smocking": about half an inch along the
/// fold where the gauging rows lie 1/2 to 3/4 in apart). Usually a full space high.
/// </summary>
internal sealed class HoneycombStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "honeycomb";

    /// <inheritdoc/>
    public override string Manner => "A catch takes two pleats together with two small stitches in one place; a slip takes the needle inside the fold of the pleat ahead to the other height, where that pleat is caught to the next. It keeps its stretch: do not draw it tight.";

    /// <inheritdoc/>
    public override string Back => "starts and tie-offs, and thread inside the folds between its two heights";

    /// <inheritdoc/>
    public override Choice? Height => new(1, 16, 4);

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) => [new Catching(height, StitchKind.Catch, StitchKind.Slip)];

    /// <inheritdoc/>
    public override (double Quarters, int Rows) Nest(int height) => (2 * height, 0);
}
