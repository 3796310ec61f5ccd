using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// A straight strip between two seams: a cuff, or the strip of a bonnet. It is gathered like a panel, but nothing hangs from it: both long edges
/// are sewn in, so the cloth has an allowance at each, and both are pinned to the one measure.
/// </summary>
/// <param name="Width">Its finished (gathered) width, more than 0.</param>
/// <param name="Edge">Allowance at its upper edge, and as much at its lower, at least 0.</param>
public sealed record Cuff(Length Width, Length Edge) : Form
{
    internal override FormKind Kind => CuffKind.One;

    internal override FormValues Values => FormValues.None.With(CuffKind.WidthKey, Width).With(CuffKind.EdgeKey, Edge);

    internal override ClothFault? MeasureFault =>
        Width <= Length.Zero ? new ClothFault(CuffKind.WidthKey.Name, "a cuff is wider than nothing")
        : Edge < Length.Zero ? new ClothFault(CuffKind.EdgeKey.Name, "no seam takes less than nothing")
        : null;

    /// <inheritdoc/>
    /// <remarks>round-to-even(finished width / pitch), as of a panel.</remarks>
    public override int Pleats(ClothPlan cloth) => RoundToEven(Width / cloth.Gauge.Pitch + 1e-9);

    /// <inheritdoc/>
    public override Length FinishedWidth(ClothPlan cloth) => cloth.Gauge.Pitch.In(Width.Unit) * Pleats(cloth);

    /// <inheritdoc/>
    public override Length PitchAt(ClothPlan cloth, Length depth) => cloth.Gauge.Pitch;

    internal override Form Regauged(ClothPlan cloth, Gauge gauge, double width) => this with { Width = WidthThen(cloth, gauge, width, Width) };

    internal override Length EdgeSeam => Edge;

    internal override Length ComesTo(PleatingPlan plan) => plan.FinishedWidth;

    internal override string Phrase => "a straight cuff";

    internal override string Lies => "wide";

    internal override string FinishedWords(PleatingPlan plan, UnitSystem units) =>
        $"{plan.FinishedWidth.Say(units)} wide between its side seams, {DepthWords(plan, units)}; sewn in at both edges, {Edge.Say(units)} at each";

    internal override string BlockWords(PleatingPlan plan, UnitSystem units) =>
        $"Pin both long edges to {plan.FinishedWidth.Say(units)}, {plan.Depth.Say(units)} from first gathering row to last; where they differ, the seam puckers.";
}

/// <summary>Cuffs and bonnet strips: their keys and their questions.</summary>
internal sealed class CuffKind : FormKind
{
    public static LengthKey WidthKey { get; } = new("finishedWidth", "Finished width", Length.FromInches(6));

    /// <summary>Allowance at each long edge, 3/8 in unless given (common practice, no source).</summary>
    public static LengthKey EdgeKey { get; } = new("edgeSeam", "Seam at its upper edge, and at its lower", Length.FromInches(0.375))
    {
        Usual = Length.FromInches(0.375), InSize = "Seam at each edge",
    };

    public static CuffKind One { get; } = new(); // after the keys it is made of

    public override string Name => "cuff";

    public override string Offer => "A straight cuff or bonnet strip, sewn in at both edges";

    public override ImmutableArray<FormKey> Keys { get; } = [WidthKey, EdgeKey];

    public override string Measured => "Finished width";

    public override Form Make(FormValues values) => new Cuff(values.Length(WidthKey), values.Length(EdgeKey));
}
