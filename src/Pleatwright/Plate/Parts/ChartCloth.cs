using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Order.Telling;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>What lies under the stitches on a chart: pleats, seam pleats, gathering and holding rows, the centre valley.</summary>
internal static class ChartCloth
{
    /// <summary>Draws the cloth of a part of the chart, in the chart's own millimetres.</summary>
    public static ImmutableArray<Mark> Draw(ChartGeometry geometry, ChartWindow window, Look look, Middle? middle = null)
    {
        var box = geometry.BoxOf(window);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        DrawPleats(geometry, window, look, box, middle ?? Middle.Of(geometry.Work), marks);
        var cloth = geometry.Work.Pleating.Cloth;
        var gathering = new OutlineBuilder();
        var holding = new OutlineBuilder();
        for (var g = 1; g <= cloth.GatheringRows; g++) Row(gathering, geometry.Down(new GatheringRow(g)));
        for (var h = 1; h <= cloth.HoldingRowsAbove; h++) Row(holding, geometry.HoldingAbove(h));
        for (var h = 1; h <= cloth.HoldingRowsBelow; h++) Row(holding, geometry.HoldingBelow(h));
        var fine = look.Large ? 0.3 : 0.2;
        if (!gathering.IsEmpty) marks.Add(new Shape(gathering.Build(), null, new Pen(look.Accent, fine)) { Means = Sign.GatheringRow });
        if (!holding.IsEmpty) marks.Add(new Shape(holding.Build(), null, new Pen(look.Quiet, fine) { Dashes = (0.9, 0.9) }) { Means = Sign.HoldingRow });
        return marks.ToImmutable();

        void Row(OutlineBuilder rows, double y)
        {
            if (y >= box.Y && y <= box.Bottom) rows.Line(box.X, y, box.Right, y);
        }
    }

    /// <summary>Draws the gathering threads over the stitches: they lie between the two lines of their row, and are to be seen in a filled figure.</summary>
    public static ImmutableArray<Mark> DrawThreads(ChartGeometry geometry, ChartWindow window, Look look)
    {
        var box = geometry.BoxOf(window);
        var rows = new OutlineBuilder();
        for (var g = 1; g <= geometry.Work.Pleating.Cloth.GatheringRows; g++)
            if (geometry.Down(new GatheringRow(g)) is var y && y >= box.Y && y <= box.Bottom) rows.Line(box.X, y, box.Right, y);
        if (rows.IsEmpty) return [];
        var outline = rows.Build();
        var wide = Math.Min(0.3, geometry.LineHeight * 0.14);
        return [new Shape(outline, null, new Pen(Colour.White, wide)), new Shape(outline, null, new Pen(look.Accent, wide * 0.6))];
    }

    /// <summary>Draws the centre valley; it lies behind the stitches, for a line over them would part them.</summary>
    public static ImmutableArray<Mark> DrawCentre(ChartGeometry geometry, ChartWindow window, Look look)
    {
        var box = geometry.BoxOf(window);
        var x = geometry.Across(new Valley(geometry.Work.Pleating.CentreValley));
        if (x < box.X || x > box.Right) return [];
        return
        [
            new Shape(Outline.Line(x, box.Y, x, box.Bottom), null, new Pen(Colour.White, look.Large ? 0.5 : 0.35)),
            new Shape(Outline.Line(x, box.Y, x, box.Bottom), null, new Pen(look.Ink, look.Large ? 0.3 : 0.2) { Dashes = (1.6, 0.8) }) { Means = Sign.CentreValley },
        ];
    }

    // Pleats are tinted columns with the valleys left white between them, every tenth from the centre darker; seam pleats are only outlined.
    private static void DrawPleats(ChartGeometry geometry, ChartWindow window, Look look, Box box, Middle middle, ImmutableArray<Mark>.Builder marks)
    {
        var pleats = new OutlineBuilder();
        var tens = new OutlineBuilder();
        var seams = new OutlineBuilder();
        var valley = geometry.Pitch * 0.08;
        for (var p = window.FirstPleat; p <= window.LastPleat; p++)
        {
            var column = new Box(geometry.LeftOf(new Pleat(p)) + valley, box.Y, geometry.Pitch - 2 * valley, box.Height);
            if (p < 1 || p > geometry.Work.Pleating.Pleats) seams.Rectangle(column);
            else (middle.To(new Pleat(p), false).Count is > 0 and var away && away % 10 == 0 ? tens : pleats).Rectangle(column);
        }
        if (!pleats.IsEmpty) marks.Add(new Shape(pleats.Build(), look.Pleat));
        if (!tens.IsEmpty) marks.Add(new Shape(tens.Build(), Look.Darker(look.Pleat, 0.075)) { Means = Sign.TenthPleat });
        if (!seams.IsEmpty) marks.Add(new Shape(seams.Build(), null, new Pen(look.Hairline, 0.15) { Dashes = (0.6, 0.6) }) { Means = Sign.SeamPleats });
    }
}
