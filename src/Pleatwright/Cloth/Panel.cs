using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>A flat panel: an insert or a yoke, of one width from top to bottom.</summary>
/// <param name="Width">Its finished (gathered) width, more than 0.</param>
public sealed record Panel(Length Width) : Form
{
    /// <inheritdoc/>
    public override string Name => "panel";

    /// <inheritdoc/>
    public override string PleatsKey => "finishedWidth";

    /// <inheritdoc/>
    public override Length Measure => Width;

    internal override ClothFault? MeasureFault => Width > Length.Zero ? null : new ClothFault("finishedWidth", "a panel is wider than nothing");

    /// <inheritdoc/>
    /// <remarks>round-to-even(finished width / pitch). A hair is added so that a width made of whole pleats stays whole.</remarks>
    public override int Pleats(ClothPlan cloth) => RoundToEven(Width / cloth.Gauge.Pitch + 1e-9);

    /// <inheritdoc/>
    public override Length FinishedWidth(ClothPlan cloth) => cloth.Gauge.Pitch.In(Width.Unit) * Pleats(cloth);

    /// <inheritdoc/>
    public override Length PitchAt(ClothPlan cloth, Length depth) => cloth.Gauge.Pitch;

    internal override Form Regauged(ClothPlan cloth, Gauge gauge, double width)
    {
        if (width == 1) return this; // the measure asked for stays, whatever it is in pleats
        var pleats = PleatsThen(cloth, gauge, width);
        var scaled = new Panel((Width * width).Tidied());
        return scaled.Pleats(cloth with { Gauge = gauge }) == pleats ? scaled : new Panel((gauge.Pitch.In(Width.Unit) * pleats).Tidied());
    }
}
