using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>
/// A single row of cables over every pleat: up, down, up… Worked again close under itself the levels are reversed, which
/// is the double cable (clothing-construction textbook, c. 1916, "Smocking", Fig. 253).
/// </summary>
internal sealed class CableStitch : BandStitch
{
    /// <inheritdoc/>
    public override string Name => "cable";

    /// <inheritdoc/>
    public override string Manner => "One cable over each pair of pleats, taking up one new pleat each time; the thread lies on one side of the needle for one, on the other side for the next.";

    /// <inheritdoc/>
    public override bool OnLattice => true;

    /// <inheritdoc/>
    public override ImmutableArray<Journey> Journeys(int steps, int height) => [new Running([0], Hold.Alternate)];
}
