using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>A flat panel: an insert or a yoke, of one width from top to bottom.</summary>
/// <param name="Width">Its finished (gathered) width, more than 0.</param>
public sealed record Panel(Length Width) : Form
{
    internal override FormKind Kind => PanelKind.One;

    internal override FormValues Values => FormValues.None.With(PanelKind.One.Measure, Width);

    internal override ClothFault? MeasureFault => Width > Length.Zero ? null : new ClothFault("finishedWidth", "a panel is wider than nothing");

    /// <inheritdoc/>
    /// <remarks>round-to-even(finished width / pitch). A hair is added so that a width made of whole pleats stays whole.</remarks>
    public override int Pleats(ClothPlan cloth) => RoundToEven(Width / cloth.Gauge.Pitch + 1e-9);

    /// <inheritdoc/>
    public override Length FinishedWidth(ClothPlan cloth) => cloth.Gauge.Pitch.In(Width.Unit) * Pleats(cloth);

    /// <inheritdoc/>
    public override Length PitchAt(ClothPlan cloth, Length depth) => cloth.Gauge.Pitch;

    internal override Form? OfPleats(ClothPlan cloth, int pleats) => new Panel(cloth.Gauge.Pitch * pleats);

    internal override Length ComesTo(PleatingPlan plan) => plan.FinishedWidth;

    internal override string Phrase => "a flat panel";

    internal override string Lies => "wide";
}

/// <summary>Flat panels: their key and their question.</summary>
internal sealed class PanelKind : FormKind
{
    public static PanelKind One { get; } = new();

    public override string Name => "panel";

    public override string Offer => "A flat panel: an insert or a yoke";

    public override ImmutableArray<FormKey> Keys { get; } = [new LengthKey("finishedWidth", "Finished width", Length.FromInches(6))];

    public override string Measured => "Finished width";

    public override Form Make(FormValues values) => new Panel(values.Length(Measure));
}
