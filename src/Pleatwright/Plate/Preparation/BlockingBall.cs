using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Cloth;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Plate.Preparation;

/// <summary>
/// A ball is not blocked flat. Its guide is a strip from pole to pole, an eighth of the ball wide at every row: laid on
/// the ball it shows where each row goes and how far its pleats close up.
/// </summary>
internal sealed class BlockingBall(PleatingPlan plan, GlobeSurface ball) : TrueDrawing
{
    private double Meridian => ball.Meridian.Millimetres;

    private double Width => ball.Equator.Millimetres / BallStrip.Around;

    // Half the strip's width at a distance from the upper pole.
    private double Half(double along) => BallStrip.Narrowed(ball, Width, along) / 2;

    private double RowAt(int row) => (ball.FirstRow + plan.Gauge.RowSpacing * row).Millimetres;

    /// <inheritdoc/>
    /// <remarks>The upper pole lies at 0.</remarks>
    public override Box Extent => new(-Half(Meridian / 2) - 3, -3, 2 * Half(Meridian / 2) + 6, Meridian + 6);

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Draw(Box part, Look look)
    {
        var rows = new OutlineBuilder();
        var pleats = new OutlineBuilder();
        for (var row = 0; row < plan.Cloth.GatheringRows; row++)
        {
            var y = RowAt(row);
            rows.Line(-Half(y), y, Half(y), y);
            var pitch = plan.Cloth.Form.PitchAt(plan.Cloth, plan.Gauge.RowSpacing * row).Millimetres;
            for (var p = -plan.Pleats / BallStrip.Around / 2; pitch > 0.2 && p <= plan.Pleats / BallStrip.Around / 2; p++)
                pleats.Line(p * pitch, y - 0.8, p * pitch, y + 0.8);
        }
        var equator = Meridian / 2;
        return
        [
            new Shape(BallStrip.Edge(ball, 0, Width), null, new Pen(look.Ink, 0.35)),
            new Shape(Outline.Line(-Half(equator), equator, Half(equator), equator), null, new Pen(look.Ink, 0.3) { Dashes = (6, 1.5) }),
            new Shape(rows.Build(), null, new Pen(look.Accent, 0.25)),
            new Shape(pleats.Build(), null, new Pen(look.Ink, 0.12)),
        ];
    }

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Label(Box part, Look look)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var cap = Typeface.CapHeight(look.Ruler);
        for (var row = 0; row < plan.Cloth.GatheringRows; row++)
        {
            var y = RowAt(row);
            if (y < part.Y || y > part.Bottom) continue;
            marks.Add(new Lettering(new Spot(part.X - 1.5, y + cap / 2), (row + 1).ToString(CultureInfo.InvariantCulture), look.Ruler with { Colour = look.Accent }, Anchor.End));
            var pitch = plan.PitchAt(row * plan.Gauge.CableRowsPerSpace).Millimetres;
            marks.Add(new Lettering(new Spot(part.Right + 1.5, y + cap / 2), string.Create(CultureInfo.InvariantCulture, $"{pitch:0.0#} mm"), look.Ruler));
        }
        return marks.ToImmutable();
    }
}
