using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// A ball ornament: the pleats run from pole to pole and the gathering rows lie round it like circles of latitude, evenly
/// spread about the equator.
/// </summary>
/// <param name="Diameter">Diameter of the ball, more than 0.</param>
public sealed record Ball(Length Diameter) : Form
{
    /// <inheritdoc/>
    public override string Name => "ball";

    /// <inheritdoc/>
    public override string PleatsKey => "diameter";

    /// <inheritdoc/>
    public override Length Measure => Diameter;

    internal override ClothFault? MeasureFault => Diameter > Length.Zero ? null : new ClothFault("diameter", "a ball is wider than nothing");

    /// <summary>Circumference at the equator, πD.</summary>
    public Length Equator => Diameter * Math.PI;

    /// <summary>Length of a meridian from pole to pole, πD/2.</summary>
    public Length Meridian => Diameter * (Math.PI / 2);

    /// <inheritdoc/>
    /// <remarks>round-to-even(equator / pitch): at the equator the pleats lie at the gauge's own pitch, or nearly.</remarks>
    public override int Pleats(ClothPlan cloth) => RoundToEven(Equator / cloth.Gauge.Pitch + 1e-9);

    /// <inheritdoc/>
    public override Length FinishedWidth(ClothPlan cloth) => Equator;

    /// <summary>The most gathering rows there is room for from pole to pole, at least 1.</summary>
    public int MostRows(Gauge gauge) => (int)Math.Min(Meridian / gauge.RowSpacing + 1e-9, PleatingPlan.MostCableRows) + 1;

    /// <summary>
    /// Distance of gathering row 1 from the pole along the meridian, at least 0: the rows lie evenly about the equator.
    /// </summary>
    public Length FirstRow(ClothPlan cloth) => (Meridian - Span(cloth)) / 2;

    /// <summary>Polar angle at a depth below gathering row 1: 0° at the upper pole, 90° at the equator.</summary>
    public Angle PolarAngleAt(ClothPlan cloth, Length depth) => Angle.FromRadians((FirstRow(cloth) + depth) / (Diameter / 2));

    /// <inheritdoc/>
    /// <remarks>πD sin φ / pleats, the circle of latitude shared among the pleats (sphere, elementary geometry); nothing past the poles.</remarks>
    public override Length PitchAt(ClothPlan cloth, Length depth) =>
        Equator * Math.Max(0, Math.Sin(Math.Clamp(PolarAngleAt(cloth, depth).Radians, 0, Math.PI))) / Pleats(cloth);

    /// <inheritdoc/>
    public override ClothFault? Fault(ClothPlan cloth)
    {
        var most = MostRows(cloth.Gauge);
        return cloth.GatheringRows > most
            ? new ClothFault("gatheringRows",
                $"{cloth.GatheringRows} gathering rows do not fit on the ball: from pole to pole there is room for {most} at this row spacing")
            : null;
    }

    internal override Form Regauged(ClothPlan cloth, Gauge gauge, double width) => width == 1 ? this : new Ball((Diameter * width).Tidied());

    private static Length Span(ClothPlan cloth) => cloth.Gauge.RowSpacing * (cloth.GatheringRows - 1);
}
