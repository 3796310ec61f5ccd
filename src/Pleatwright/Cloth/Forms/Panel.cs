using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>A flat panel: an insert or a yoke, of one width from top to bottom.</summary>
/// <param name="Width">Its finished (gathered) width, more than 0.</param>
public sealed record Panel(Length Width) : Form
{
    /// <summary>
    /// Finished width of the garment piece it is for, at least 0; nothing when the maker does not say. Where the gathered cloth comes out narrower, plain
    /// wings make up the rest.
    /// </summary>
    public Length GarmentWidth { get; init; } = Length.FromInches(0);

    internal override FormKind Kind => PanelKind.One;

    internal override FormValues Values => FormValues.None.With(PanelKind.WidthKey, Width).With(PanelKind.GarmentKey, GarmentWidth);

    internal override ClothFault? MeasureFault =>
        Width <= Length.Zero ? new ClothFault(PanelKind.WidthKey.Name, "a panel is wider than nothing")
        : GarmentWidth < Length.Zero || GarmentWidth > Length.FromMetres(100) ? new ClothFault(PanelKind.GarmentKey.Name, "no garment piece is so wide")
        : null;

    /// <inheritdoc/>
    /// <remarks>round-to-even(finished width / pitch). A hair is added so that a width made of whole pleats stays whole.</remarks>
    public override int Pleats(ClothPlan cloth) => RoundToEven(Width / cloth.Gauge.Pitch + 1e-9);

    /// <inheritdoc/>
    public override Length FinishedWidth(ClothPlan cloth) => cloth.Gauge.Pitch.In(Width.Unit) * Pleats(cloth);

    /// <inheritdoc/>
    public override Length PitchAt(ClothPlan cloth, Length depth) => cloth.Gauge.Pitch;

    internal override Form Regauged(ClothPlan cloth, Gauge gauge, double width) => this with { Width = WidthThen(cloth, gauge, width, Width) };

    internal override Form? OfPleats(ClothPlan cloth, int pleats) => this with { Width = cloth.Gauge.Pitch * pleats };

    /// <remarks>Half of what is wanting, at each side: stacked cables do not stretch to fill it (common practice, no source).</remarks>
    internal override Length WingOf(ClothPlan cloth) =>
        GarmentWidth - FinishedWidth(cloth) is var wanting && wanting.Millimetres > Joining.Hair && GarmentWidth > Length.Zero ? wanting / 2 : Length.Zero;

    internal override Length ComesTo(PleatingPlan plan) => plan.FinishedWidth;

    internal override string Phrase => "a flat panel";

    internal override string Lies => "wide";
}

/// <summary>Flat panels: their key and their question.</summary>
internal sealed class PanelKind : FormKind
{
    public static LengthKey WidthKey { get; } = new("finishedWidth", "Finished width", Length.FromInches(6));

    public static LengthKey GarmentKey { get; } = new("garmentWidth", "Width of the garment piece, if it is wider", Length.FromInches(0))
    {
        Usual = Length.FromInches(0), InSize = "Garment piece, if wider",
    };

    public static PanelKind One { get; } = new(); // after the keys it is made of

    public override string Name => "panel";

    public override string Offer => "A flat panel: an insert or a yoke";

    public override ImmutableArray<FormKey> Keys { get; } = [WidthKey, GarmentKey];

    public override string Measured => "Finished width";

    public override Form Make(FormValues values) => new Panel(values.Length(WidthKey)) { GarmentWidth = values.Length(GarmentKey) };
}
