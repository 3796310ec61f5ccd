using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Cloth;
using Pleatwright.Plate.Parts;

namespace Pleatwright.Plate.Preparation;

/// <summary>The straight guide a panel is pinned to when it is blocked: rows across, a mark for every pleat.</summary>
internal sealed class BlockingPanel(PleatingPlan plan) : TrueDrawing
{
    private readonly double pitch = plan.Gauge.Pitch.Millimetres;
    private readonly double spacing = plan.Gauge.RowSpacing.Millimetres;

    private double Width => pitch * plan.Pleats;

    private double Side => pitch * plan.Cloth.SeamPleats;

    private int Above => plan.Cloth.HoldingRowsAbove;

    /// <inheritdoc/>
    /// <remarks>The finished pleats begin at 0; row 1 lies at 0.</remarks>
    public override Box Extent => new(-Side - 3, -(Above + 0.5) * spacing, Width + 2 * Side + 6, plan.RowsToGather * spacing);

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Draw(Box part, Look look)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        OutlineBuilder gathering = new(), holding = new(), ticks = new(), tens = new();
        var last = plan.Cloth.GatheringRows - 1;
        for (var row = -Above; row <= last + plan.Cloth.HoldingRowsBelow; row++)
            (row >= 0 && row <= last ? gathering : holding).Line(-Side, row * spacing, Width + Side, row * spacing);
        for (var p = -plan.Cloth.SeamPleats; p <= plan.Pleats + plan.Cloth.SeamPleats; p++)
        {
            if (p * pitch < part.X - 1 || p * pitch > part.Right + 1) continue;
            var ten = p % 10 == 0 && p >= 0 && p <= plan.Pleats;
            foreach (var y in (ReadOnlySpan<double>)[0, last * spacing])
                (ten ? tens : ticks).Line(p * pitch, y - (ten ? 2.5 : 1), p * pitch, y + (ten ? 2.5 : 1));
        }
        marks.Add(new Shape(holding.Build(), null, new Pen(look.Quiet, 0.2) { Dashes = (1.5, 1) }));
        marks.Add(new Shape(gathering.Build(), null, new Pen(look.Accent, 0.25)));
        if (!ticks.IsEmpty) marks.Add(new Shape(ticks.Build(), null, new Pen(look.Ink, 0.12)));
        if (!tens.IsEmpty) marks.Add(new Shape(tens.Build(), null, new Pen(look.Ink, 0.25)));
        double top = Extent.Y, bottom = Extent.Bottom;
        var edges = new OutlineBuilder().Line(0, top, 0, bottom).Line(Width, top, Width, bottom);
        marks.Add(new Shape(edges.Build(), null, new Pen(look.Ink, 0.4)));
        marks.Add(new Shape(Outline.Line(Width / 2, top, Width / 2, bottom), null, new Pen(look.Ink, 0.3) { Dashes = (6, 1.5) }));
        marks.Add(new Lettering(new Spot(Width / 2 - 0.8, bottom - 1.5), "centre", look.Ruler) { Upward = true });
        foreach (var join in plan.Joins)
        {
            marks.Add(new Shape(Outline.Line(join.Valley * pitch, top, join.Valley * pitch, bottom), null, new Pen(look.Quiet, 0.25) { Dashes = (3, 1) }));
            marks.Add(new Lettering(new Spot(join.Valley * pitch - 0.8, bottom - 1.5), "join", look.Ruler) { Upward = true });
        }
        return marks.ToImmutable();
    }

    /// <inheritdoc/>
    public override ImmutableArray<Mark> Label(Box part, Look look)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var cap = Typeface.CapHeight(look.Ruler);
        for (var row = -Above; row < plan.Cloth.GatheringRows + plan.Cloth.HoldingRowsBelow; row++)
        {
            if (row * spacing < part.Y || row * spacing > part.Bottom) continue;
            var words = row < 0 || row >= plan.Cloth.GatheringRows ? "hold" : (row + 1).ToString(CultureInfo.InvariantCulture);
            marks.Add(new Lettering(new Spot(part.X - 1.5, row * spacing + cap / 2), words, look.Ruler, Anchor.End));
            marks.Add(new Lettering(new Spot(part.Right + 1.5, row * spacing + cap / 2), words, look.Ruler));
        }
        for (var p = 10; p <= plan.Pleats; p += 10)
            if (p * pitch >= part.X && p * pitch <= part.Right)
                marks.Add(new Lettering(new Spot(p * pitch, part.Y - 1.5), p.ToString(CultureInfo.InvariantCulture), look.Ruler, Anchor.Middle));
        return marks.ToImmutable();
    }
}
