using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Cloth;
using Pleatwright.Plate.Parts;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Preparation;

/// <summary>
/// The guide a bishop is pinned to when it is blocked: an arc for every row, a spoke for every tenth pleat, and the
/// seams. The middle of the piece points down the page, its two ends meet or open at the top.
/// </summary>
internal sealed class BlockingRound : TrueDrawing
{
    private readonly PleatingPlan plan;
    private readonly FanSurface round;
    private readonly double sweep;

    public BlockingRound(PleatingPlan plan, FanSurface round)
    {
        this.plan = plan;
        this.round = round;
        sweep = round.Sweep.Radians;
    }

    private double Radius(int row) => round.RadiusAt(plan.Gauge.RowSpacing * row).Millimetres;

    // A holding row above the neck may fall on the centre of the arcs or past it; such a row is not drawn.
    private int Top => Enumerable.Range(1, plan.Cloth.HoldingRowsAbove).TakeWhile(k => Radius(-k) > 0).Count();

    private int LastRow => plan.Cloth.GatheringRows - 1;

    private double Outer => Radius(LastRow + plan.Cloth.HoldingRowsBelow) + 4;

    private double Angle(double pleats) => (pleats / plan.Pleats - 0.5) * sweep;

    /// <inheritdoc/>
    public override Box Extent => Bending.Sector(Radius(-Top), Outer, sweep / 2).Grown(3, 3);

    /// <inheritdoc/>
    public override bool Touches(Box part)
    {
        for (var row = -Top; row <= LastRow + plan.Cloth.HoldingRowsBelow; row++)
        {
            var steps = Math.Max(4, (int)(Radius(row) * sweep / 2));
            for (var i = 0; i <= steps; i++)
            {
                var at = Arcs.At(Radius(row), (i / (double)steps - 0.5) * sweep);
                if (at.X >= part.X && at.X <= part.Right && at.Y >= part.Y && at.Y <= part.Bottom) return true;
            }
        }
        return false;
    }

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Draw(Box part, Look look)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        OutlineBuilder gathering = new(), holding = new(), ticks = new(), tens = new();
        for (var row = -Top; row <= LastRow + plan.Cloth.HoldingRowsBelow; row++)
            (row >= 0 && row <= LastRow ? gathering : holding).Arc(Radius(row), -sweep / 2, sweep / 2);
        var pitch = Radius(0) * sweep / plan.Pleats;
        for (var p = 0; p <= plan.Pleats; p++)
        {
            if (p % 10 == 0)
            {
                tens.Spoke(Angle(p), Radius(0) - 1.5, Radius(LastRow) + 1.5);
                continue;
            }
            if (pitch > 0.35) ticks.Spoke(Angle(p), Radius(0) - 0.8, Radius(0) + 0.8);
            ticks.Spoke(Angle(p), Radius(LastRow) - 0.8, Radius(LastRow) + 0.8);
        }
        if (!holding.IsEmpty) marks.Add(new Shape(holding.Build(), null, new Pen(look.Quiet, 0.2) { Dashes = (1.5, 1) }));
        marks.Add(new Shape(ticks.Build(), null, new Pen(look.Ink, 0.12)));
        marks.Add(new Shape(tens.Build(), null, new Pen(look.Hairline, 0.2)));
        marks.Add(new Shape(gathering.Build(), null, new Pen(look.Accent, 0.3)));
        double inner = Radius(-Top), outer = Outer - 4;
        var ends = new OutlineBuilder().Spoke(-sweep / 2, inner, outer).Spoke(sweep / 2, inner, outer);
        marks.Add(new Shape(ends.Build(), null, new Pen(look.Ink, 0.4)));
        marks.Add(new Shape(new OutlineBuilder().Spoke(0, inner, outer).Build(), null, new Pen(look.Ink, 0.3) { Dashes = (6, 1.5) }));
        foreach (var join in plan.Joins)
            marks.Add(new Shape(new OutlineBuilder().Spoke(Angle(join.Valley), inner, outer).Build(), null, new Pen(look.Ink, 0.3) { Dashes = (3, 1) }));
        var words = ImmutableArray.CreateBuilder<Mark>();
        Words(look, words);
        // Words that lie on another page would only be hidden on this one.
        marks.AddRange(words.Where(m => m switch { Lettering l => part.Grown(10).Holds(l.At), Shape s => part.Grown(10).Holds(s.Outline.Spots[0]), _ => true }));
        return marks.ToImmutable();
    }

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Label(Box part, Look look) => [];

    private void Words(Look look, ImmutableArray<Mark>.Builder marks)
    {
        var style = look.Ruler;
        for (var row = 0; row <= LastRow; row++)
        {
            var number = (row + 1).ToString(CultureInfo.InvariantCulture);
            marks.Add(new Lettering(new Spot(0.8, Radius(row) - 0.7), number, style with { Colour = look.Accent }));
            var end = Arcs.At(Radius(row), 1.6 / Radius(row) - sweep / 2);
            marks.Add(new Lettering(end with { Y = end.Y - 0.7 }, number, style with { Colour = look.Accent }, Anchor.Middle));
        }
        // between the last row and the holding row below it, or a little beyond
        var beyond = Radius(LastRow) + (plan.Cloth.HoldingRowsBelow > 0 ? plan.Gauge.RowSpacing.Millimetres / 2 : 2.6);
        for (var p = 20; p < plan.Pleats; p += 20)
        {
            var at = Arcs.At(beyond, Angle(p));
            if (at.Y > 0 && Math.Abs(at.X) < 3) continue; // the centre line
            marks.Add(new Lettering(new Spot(at.X, at.Y + Typeface.CapHeight(style) / 2), p.ToString(CultureInfo.InvariantCulture), style, Anchor.Middle));
        }
        // The panels' names stand in the space between the two outermost rows, each on the middle of its panel.
        var between = Radius(LastRow) - plan.Gauge.RowSpacing.Millimetres / 2;
        foreach (var share in plan.Shares.Where(s => s.Pleats > 0))
        {
            var room = Radius(LastRow) * sweep * share.Pleats / plan.Pleats;
            var at = Arcs.At(between, Angle((share.First - 1 + share.Last) / 2.0));
            var words = Wrapping.Shorten(Tidy.Line(share.Name), look.Note, room);
            // A name on the middle of the piece steps aside for the centre line and the rows' numbers.
            if (Math.Abs(at.X) < 3) at = at with { X = Typeface.Width(words, look.Note) / 2 + 6 };
            var box = new Box(at.X - Typeface.Width(words, look.Note) / 2, at.Y - Typeface.CapHeight(look.Note) / 2, Typeface.Width(words, look.Note), Typeface.CapHeight(look.Note));
            marks.Add(new Shape(Outline.Rounded(box.Grown(1, 0.9), 0.8), Colour.White));
            marks.Add(new Lettering(new Spot(at.X, box.Bottom), words, look.Note, Anchor.Middle));
        }
    }
}
