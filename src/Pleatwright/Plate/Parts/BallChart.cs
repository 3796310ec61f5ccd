using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Cloth;

namespace Pleatwright.Plate.Parts;

/// <summary>
/// A ball's chart at the size of the work, in strips from pole to pole, for a ball cannot be laid flat in one piece. Along its
/// middle and across every row a strip is as long as the ball is there; strips laid side by side go round it once. The centre
/// valley lies in the middle of a strip, the join of the cloth between the first and the last, which are half as wide.
/// </summary>
internal sealed class BallChart : TrueDrawing
{
    private const int Strips = BallStrip.Around;

    private const double Margin = 5; // above and below the poles
    private const int Apart = 4;     // pleats, so that a cable over a strip's edge is shown whole in both

    private readonly ChartGeometry geometry;
    private readonly ChartWindow window;
    private readonly GlobeSurface ball;

    public BallChart(Work work, GlobeSurface ball)
    {
        geometry = ChartGeometry.Scaled(work, 1);
        window = ChartPages.WorkedWindow(work);
        this.ball = ball;
    }

    private PleatingPlan Plan => geometry.Work.Pleating;

    private double Equatorial => ball.Equator.Millimetres / Plan.Pleats;

    // Room for a strip and the gap beside it.
    private double Slot => (Math.Ceiling(Plan.Pleats / (double)Strips) + Apart) * Equatorial;

    // Where row 0 of the chart, its upper edge, lies along the meridian.
    private double Along(double flatY) => ball.FirstRow.Millimetres + Bending.DepthAt(geometry.Work, flatY);

    /// <inheritdoc/>
    /// <remarks>The upper pole lies at 0.</remarks>
    public override Box Extent => new(0, -Margin, (Strips + 1) * Slot, ball.Meridian.Millimetres + 2 * Margin);

    /// <inheritdoc/>
    public override Spot Step => new(Slot, 1);

    /// <inheritdoc/>
    public override Spot Overlap => new(0, 10);

    /// <inheritdoc/>
    public override bool Touches(Box part) => Shown(part).Any(strip =>
        geometry.Bricks(Part(strip)).Any() || ThreadShapes.Spans(geometry.Work).Any(span => ThreadShapes.Meet(span, Part(strip))));

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Draw(Box part, Look look)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        foreach (var strip in Shown(part))
        {
            marks.Add(new Shape(Edge(strip), look.Pleat));
            var seen = Part(strip);
            if (seen.Rows > 0) marks.AddRange(Bending.Bend(ChartField.Draw(geometry, seen, look), flat => On(strip, flat), new Spot(geometry.Pitch * 1.5, geometry.RowHeight)));
            marks.Add(new Shape(Edge(strip), null, new Pen(look.Ink, 0.25)));
            var (first, last) = Range(strip);
            var style = look.Ruler;
            marks.Add(new Lettering(new Spot((strip + 0.5) * Slot, ball.Meridian.Millimetres + 1.2 + Typeface.CapHeight(style)),
                string.Create(CultureInfo.InvariantCulture, $"pleats {first} to {last}"), style, Anchor.Middle));
        }
        return marks.ToImmutable();
    }

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Label(Box part, Look look)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var cap = Typeface.CapHeight(look.Ruler);
        for (var g = 1; g <= Plan.Cloth.GatheringRows; g++)
        {
            var row = new GatheringRow(g);
            var y = Along(geometry.Down(row));
            if (y < part.Y || y > part.Bottom) continue;
            marks.Add(new Lettering(new Spot(part.X - 1.5, y + cap / 2), g.ToString(CultureInfo.InvariantCulture), look.Ruler with { Face = Face.TextBold, Colour = look.Accent }, Anchor.End));
            marks.Add(new Lettering(new Spot(part.Right + 1.5, y + cap / 2), ChartRulers.PleatWidth(Plan, row), look.Ruler));
        }
        return marks.ToImmutable();
    }

    private IEnumerable<int> Shown(Box part) => Enumerable.Range(0, Strips + 1).Where(s => (s + 1) * Slot > part.X + 0.01 && s * Slot < part.Right - 0.01);

    // The pleats of a strip; the first and the last strip are half as wide.
    private (int First, int Last) Range(int strip) => (Edge(strip - 0.5) + 1, Edge(strip + 0.5));

    private int Edge(double strips) => (int)Math.Round(Math.Clamp(strips / Strips, 0, 1) * Plan.Pleats, MidpointRounding.AwayFromZero);

    private ChartWindow Part(int strip)
    {
        var (first, last) = Range(strip);
        return window with // rows beyond the poles are not there
        {
            FirstPleat = first, LastPleat = last,
            FirstRow = Math.Max(window.FirstRow, (int)Math.Ceiling(-Along(0) / geometry.RowHeight)),
            LastRow = Math.Min(window.LastRow, (int)Math.Floor((ball.Meridian.Millimetres - Along(0)) / geometry.RowHeight) - 1),
        };
    }

    private Spot On(int strip, Spot flat)
    {
        var (first, last) = Range(strip);
        var along = Along(flat.Y);
        return new Spot((strip + 0.5) * Slot + (flat.X / geometry.Pitch - (first - 1 + last) / 2.0) * PitchAt(along), along);
    }

    private double PitchAt(double along) => BallStrip.Narrowed(ball, Equatorial, along);

    private Outline Edge(int strip)
    {
        var (first, last) = Range(strip);
        return BallStrip.Edge(ball, (strip + 0.5) * Slot, (last - first + 1) * Equatorial);
    }
}
