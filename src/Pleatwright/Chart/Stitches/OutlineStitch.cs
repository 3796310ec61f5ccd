using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// Outline: along the row with the thread always below the needle, one pleat taken up in each stitch, so that the
/// stitches lie like a rope (clothing-construction textbook, c. 1916, "Smocking", Fig. 253). Upside down, with the
/// thread always above, the rope twists the other way: stem (common practice, no source).
/// </summary>
internal sealed class OutlineStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "outline";

    /// <inheritdoc/>
    public override string Manner => "One stitch straight along over each pair of pleats, taking up one new pleat each time; the thread stays on the same side of the needle all along. Do not draw it tight.";

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) => [new Running([0], Hold.Below)];
}
