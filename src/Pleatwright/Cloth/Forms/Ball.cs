using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Cloth;

/// <summary>
/// A ball ornament: the pleats run from pole to pole and the gathering rows lie round it like circles of latitude, evenly
/// spread about the equator.
/// </summary>
/// <param name="Diameter">Diameter of the ball, more than 0.</param>
public sealed record Ball(Length Diameter) : Form
{
    internal override FormKind Kind => BallKind.One;

    internal override FormValues Values => FormValues.None.With(BallKind.One.Measure, Diameter);

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

    internal override Surface SurfaceOf(ClothPlan cloth) => new GlobeSurface(Diameter, FirstRow(cloth));

    internal override string Phrase => "a ball";

    internal override string WidthLabel => "Round the equator";

    internal override string FinishedWords(PleatingPlan plan, UnitSystem units) =>
        $"ball {Diameter.Say(units)} across, {Equator.Say(units)} round; {DepthWords(plan, units)} of a meridian of {Meridian.Say(units)}";

    internal override string PitchWords(PleatingPlan plan, UnitSystem units) =>
        $"{ClothWords.PleatsIn(Equator / plan.Pleats, units)} at the equator, {EndPitches(plan, units)}";

    internal override string SizeWords(PleatingPlan plan, UnitSystem units) => $"ball {Diameter.Say(units)} across";

    internal override string BlockWords(PleatingPlan plan, UnitSystem units) => $"Sew the cut edges together from pole to pole, pull it over a ball {Diameter.Say(units)} across and draw up both ends.";

    internal override string DryWords => "Steam without pressing, and let it dry on the ball.";

    internal override string KeepWords => "The holding rows stay in until both ends are drawn up and fastened.";

    internal override string? RowFigures(PleatingPlan plan, int row)
    {
        var (depth, pitch, along) = At(plan, row);
        return $"{row}: {Tenths(FirstRow(plan.Cloth) + depth)} from the pole, {Tenths(along)} round, pleat {Hundredths(pitch)}";
    }
    internal override Form Regauged(ClothPlan cloth, Gauge gauge, double width) => width == 1 ? this : new Ball((Diameter * width).Tidied());

    private static Length Span(ClothPlan cloth) => cloth.Gauge.RowSpacing * (cloth.GatheringRows - 1);
}

/// <summary>Balls: their key and their question.</summary>
internal sealed class BallKind : FormKind
{
    public static BallKind One { get; } = new();

    public override string Name => "ball";

    public override string Offer => "A ball to hang up";

    public override ImmutableArray<FormKey> Keys { get; } =
        [new LengthKey("diameter", "Diameter of the ball", Length.FromInches(3))];

    public override string Measured => "Diameter";

    public override bool AsksDepth => false;

    public override string RowsElse => "as far toward the poles as the pleats have room";

    public override Form Make(FormValues values) => new Ball(values.Length(Measure));

    /// <inheritdoc/>
    /// <remarks>Fewer rows until the outermost leaves its pleats room, or two are left; rows the maker counted stay.</remarks>
    public override ClothPlan Begin(ClothPlan cloth, FormValues values, bool counted, bool deep)
    {
        var ball = new Ball(values.Length(Measure));
        cloth = cloth with { Form = ball };
        if (counted) return cloth;
        var most = ball.MostRows(cloth.Gauge);
        cloth = cloth with { GatheringRows = Math.Max(2, deep ? Math.Min(cloth.GatheringRows, most) : most) };
        while (cloth.GatheringRows > 2 && ball.PitchAt(cloth, Length.Zero) < cloth.Gauge.PleatThickness)
            cloth = cloth with { GatheringRows = cloth.GatheringRows - 1 };
        return cloth;
    }
}
