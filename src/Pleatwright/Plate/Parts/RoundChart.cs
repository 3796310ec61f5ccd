using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>
/// A bishop's chart at the size of the work, on the arcs it is blocked to: every row as long as it lies, every pleat as wide
/// as it spreads there. The middle of the piece points down the page.
/// </summary>
internal sealed class RoundChart : TrueDrawing
{
    private const double Margin = 9; // round the arcs, for numbers
    private const int Spare = 3;     // pleats and rows drawn beyond what a page shows

    private readonly ChartGeometry geometry;
    private readonly ChartWindow window;
    private readonly FanSurface round;
    private readonly double sweep;

    public RoundChart(Work work, FanSurface round)
    {
        geometry = ChartGeometry.Scaled(work, 1);
        var worked = ChartPages.WorkedWindow(work);
        window = worked with { FirstPleat = Math.Max(1, worked.FirstPleat), LastPleat = Math.Min(Plan.Pleats, worked.LastPleat) };
        this.round = round;
        sweep = round.Sweep.Radians;
    }

    private PleatingPlan Plan => geometry.Work.Pleating;

    private double Angle(double pleats) => (pleats / Plan.Pleats - 0.5) * sweep;

    // Radius of a place so far down the flat chart.
    private double Radius(double flatY) => Math.Max(0, round.Radius.Millimetres + Bending.DepthAt(geometry.Work, flatY));

    private double Outer => Radius((window.LastRow + 1) * geometry.RowHeight);

    private double Inner => Radius(window.FirstRow * geometry.RowHeight);

    /// <inheritdoc/>
    /// <remarks>The centre of the arcs lies at 0.</remarks>
    public override Box Extent
    {
        get
        {
            double left = Angle(window.FirstPleat - 1), right = Angle(window.LastPleat);
            var half = Math.Max(-left, right);
            return Bending.Sector(Inner, Outer, half).Grown(Margin, Margin);
        }
    }

    /// <inheritdoc/>
    public override bool Touches(Box part)
    {
        var seen = Seen(part.Grown(-2, -2), 0);
        return geometry.Bricks(seen).Select(b => Arcs.At(Radius(b.Box.Centre.Y), Angle(b.Box.Centre.X / geometry.Pitch)))
            .Concat(ThreadShapes.Spans(geometry.Work).SelectMany(Spots))
            .Any(part.Holds);
    }

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Draw(Box part, Look look)
    {
        var seen = Seen(part, Spare);
        if (seen.Pleats < 1 || seen.Rows < 1) return [];
        var marks = Bending.Bend(geometry, ChartField.Draw(geometry, seen, look)).ToBuilder();
        Words(part, look, marks);
        return marks.ToImmutable();
    }

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Label(Box part, Look look) => [];

    // The part of the chart that a part of the page may show.
    private ChartWindow Seen(Box part, int spare)
    {
        Spot[] corners = [new(part.X, part.Y), new(part.Right, part.Y), new(part.X, part.Bottom), new(part.Right, part.Bottom)];
        double acrossNear = part.X > 0 ? part.X : Math.Min(0, part.Right), downNear = part.Y > 0 ? part.Y : Math.Min(0, part.Bottom);
        double near = Math.Sqrt(acrossNear * acrossNear + downNear * downNear), far = corners.Max(c => Math.Sqrt(c.X * c.X + c.Y * c.Y));
        int first = window.FirstPleat, last = window.LastPleat;
        // A page that shows the place where both ends meet, or the centre of the arcs, may show any pleat.
        if (!(part.X <= 0 && part.Right >= 0 && part.Y < 0))
        {
            var angles = corners.Select(c => Math.Atan2(c.X, c.Y)).ToArray();
            first = Math.Max(first, (int)Math.Floor((angles.Min() / sweep + 0.5) * Plan.Pleats) + 1 - spare);
            last = Math.Min(last, (int)Math.Ceiling((angles.Max() / sweep + 0.5) * Plan.Pleats) + spare);
        }
        return new ChartWindow(first, last, Math.Max(window.FirstRow, RowAt(near) - spare), Math.Min(window.LastRow, RowAt(far) + spare));
    }

    private int RowAt(double radius) => (int)Math.Floor((radius - Radius(0)) / geometry.RowHeight);

    private IEnumerable<Spot> Spots(ChartWindow span)
    {
        for (var p = span.FirstPleat; p <= span.LastPleat; p++)
            for (var y = span.FirstRow; y <= span.LastRow; y++)
                yield return Arcs.At(Radius((y + 0.5) * geometry.RowHeight), Angle(p - 0.5));
    }

    private void Words(Box part, Look look, ImmutableArray<Mark>.Builder marks)
    {
        var style = look.Ruler with { Face = Face.TextBold, Colour = look.Accent };
        var cap = Typeface.CapHeight(style);
        double left = Angle(window.FirstPleat - 1), right = Angle(window.LastPleat);
        // Numbers stand outside the ends where these leave room; where they meet, over the last pleats.
        var outside = (2 * Math.PI - right + left) * Math.Max(1, Inner) > 30 ? 1 : -1;
        for (var g = 1; g <= Plan.Cloth.GatheringRows; g++)
        {
            var row = new GatheringRow(g);
            var radius = Radius(geometry.Down(row));
            if (radius < Inner || radius > Outer || radius <= 4) continue;
            var at = Arcs.At(radius, left - outside * 3.5 / radius);
            if (part.Grown(Margin, Margin).Holds(at))
            {
                marks.Add(new Shape(Outline.Circle(at, cap * 1.15), Colour.White, new Pen(look.Accent, 0.2)));
                marks.Add(new Lettering(at with { Y = at.Y + cap / 2 }, g.ToString(CultureInfo.InvariantCulture), style, Anchor.Middle));
            }
            var words = ChartRulers.PleatWidth(Plan, row);
            var wide = Typeface.Width(words, look.Ruler) + 1;
            var end = Arcs.At(radius, right + outside * (1.5 + wide / 2) / radius);
            if (!part.Grown(Margin, Margin).Holds(end)) continue;
            marks.Add(new Shape(Outline.Rectangle(new Box(end.X - wide / 2, end.Y - cap * 0.8, wide, cap * 1.6)), Colour.White));
            marks.Add(new Lettering(end with { Y = end.Y + cap / 2 }, words, look.Ruler, Anchor.Middle));
        }
        var every = Plan.PitchAt(window.LastRow).Millimetres * 10 > Typeface.Width("0000", look.Ruler) ? 10 : 20;
        var ticks = new OutlineBuilder();
        for (var p = (window.FirstPleat + every - 1) / every * every; p <= window.LastPleat; p += every)
        {
            ticks.Spoke(Angle(p - 0.5), Outer, Outer + 1.5);
            var at = Arcs.At(Outer + 3.6, Angle(p - 0.5));
            if (!part.Grown(Margin, Margin).Holds(at)) continue;
            marks.Add(new Lettering(at with { Y = at.Y + cap / 2 }, p.ToString(CultureInfo.InvariantCulture), look.Ruler, Anchor.Middle));
        }
        if (!ticks.IsEmpty) marks.Add(new Shape(ticks.Build(), null, new Pen(look.Quiet, 0.2)));
    }
}
