using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>
/// The numbers round a chart: pleats from the centre above, pleats from the left below, gathering rows at the left, cable rows at the right.
/// </summary>
internal static class ChartRulers
{
    /// <summary>Room the rulers take at the left and right, in millimetres: more where they give each row's pleat width.</summary>
    public static double Sides(Look look, Work work) => (look.Large ? 15 : 10) + (IsStraight(work) ? 0 : look.Large ? 11 : 7);

    /// <summary>Whether the pleats lie equally wide on every row, as the grid of the chart has them.</summary>
    public static bool IsStraight(Work work) => work.Piece.Cloth.Form.SurfaceOf(work.Piece.Cloth).IsStraight;

    /// <summary>Width of a pleat on a gathering row, in millimetres.</summary>
    public static string PleatWidth(Pleatwright.Cloth.PleatingPlan plan, GatheringRow row) =>
        plan.PitchAt(row.CableRow(plan.Gauge.CableRowsPerSpace).Index).Millimetres.ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>Room that the numbers of gathering rows, and the word for holding rows, take at the left.</summary>
    public static double LeftOf(Work work, Look look) =>
        Math.Max(look.Large ? 10 : 7, work.Pleating.Cloth.HoldingRowsAbove + work.Pleating.Cloth.HoldingRowsBelow == 0 ? 0 : 2.5 + Typeface.Width("holding", Caption(look)));

    /// <summary>The same of a part of the chart, where holding rows may lie beyond it.</summary>
    public static double LeftOf(ChartGeometry geometry, ChartWindow window, Look look)
    {
        var (box, cloth) = (geometry.BoxOf(window), geometry.Work.Pleating.Cloth);
        var holds = (cloth.HoldingRowsAbove > 0 && geometry.HoldingAbove(1) >= box.Y) || (cloth.HoldingRowsBelow > 0 && geometry.HoldingBelow(1) <= box.Bottom);
        return holds ? LeftOf(geometry.Work, look) : look.Large ? 10 : 7;
    }

    /// <summary>Room the rulers take above and below, in millimetres.</summary>
    public static double Ends(Look look) => look.Large ? 14 : 9;

    /// <summary>Draws the rulers of a part of the chart, round its box and in the chart's own millimetres; sides are called as the directions call them.</summary>
    public static ImmutableArray<Mark> Draw(ChartGeometry geometry, ChartWindow window, Look look, LevelWords levels)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var box = geometry.BoxOf(window);
        marks.Add(new Shape(Outline.Rectangle(box), null, new Pen(look.Quiet, look.Large ? 0.3 : 0.15)));
        Pleats(geometry, window, look, new Vocabulary(levels), box, marks);
        Numbers(geometry, window, look, box, marks);
        GatheringRows(geometry, look, box, marks);
        CableRows(geometry, window, look, box, marks);
        return marks.ToImmutable();
    }

    // Counted from the centre both ways, as the directions count.
    private static void Pleats(ChartGeometry geometry, ChartWindow window, Look look, Vocabulary words, Box box, ImmutableArray<Mark>.Builder marks)
    {
        var every = Every(geometry.Pitch, look);
        var cap = Typeface.CapHeight(look.Ruler);
        var middle = Order.Telling.Middle.Of(geometry.Work);
        var ticks = new OutlineBuilder();
        for (var p = Math.Max(1, window.FirstPleat); p <= Math.Min(geometry.Work.Pleating.Pleats, window.LastPleat); p++)
        {
            var x = geometry.LeftOf(new Pleat(p)) + geometry.Pitch / 2;
            var away = middle.To(new Pleat(p), false).Count;
            var numbered = away % every == 0;
            if (numbered || geometry.Pitch >= 1.5) ticks.Line(x, box.Y - (numbered ? 1.6 : 0.8), x, box.Y);
            if (numbered) marks.Add(Number(away, x, box.Y - 2.3, look));
        }
        if (!ticks.IsEmpty) marks.Add(new Shape(ticks.Build(), null, new Pen(look.Quiet, 0.15)));
        var centre = geometry.Across(new Valley(geometry.Work.Pleating.CentreValley));
        var side = centre > box.Right ? words.Side(Flank.Left) : centre < box.X ? words.Side(Flank.Right) : words.Letter(Flank.Left);
        marks.Add(new Lettering(new Spot(box.X - 2.2, box.Y - 2.3), side, Caption(look), Anchor.End));
        if (centre < box.X || centre > box.Right) return;
        var tip = box.Y - 3.4 - cap;
        marks.Add(new Shape(Outline.Polygon(new(centre - 1.2, tip - 1.7), new(centre + 1.2, tip - 1.7), new(centre, tip)), look.Ink));
        marks.Add(new Lettering(new Spot(centre + 2, tip - 0.1), "centre valley", Caption(look)));
    }

    // Their numbers from left to right, by which the long words name them too.
    private static void Numbers(ChartGeometry geometry, ChartWindow window, Look look, Box box, ImmutableArray<Mark>.Builder marks)
    {
        var every = Every(geometry.Pitch, look);
        var cap = Typeface.CapHeight(look.Ruler);
        var ticks = new OutlineBuilder();
        for (var p = Math.Max(1, window.FirstPleat); p <= Math.Min(geometry.Work.Pleating.Pleats, window.LastPleat); p++)
        {
            if (p % every != 0 && (p != 1 || every == 1)) continue;
            var x = geometry.LeftOf(new Pleat(p)) + geometry.Pitch / 2;
            ticks.Line(x, box.Bottom, x, box.Bottom + 1.6);
            marks.Add(Number(p, x, box.Bottom + 2.3 + cap, look));
        }
        if (!ticks.IsEmpty) marks.Add(new Shape(ticks.Build(), null, new Pen(look.Quiet, 0.15)));
        marks.Add(new Lettering(new Spot(box.X - 2.2, box.Bottom + 2.3 + cap), "pleats", Caption(look), Anchor.End));
    }

    internal static void GatheringRows(ChartGeometry geometry, Look look, Box box, ImmutableArray<Mark>.Builder marks)
    {
        var cloth = geometry.Work.Pleating.Cloth;
        var style = look.Ruler with { Face = Face.TextBold, Colour = look.Accent };
        var cap = Typeface.CapHeight(style);
        var radius = cap * 1.15;
        for (var g = 1; g <= cloth.GatheringRows; g++)
        {
            var y = geometry.Down(new GatheringRow(g));
            if (y < box.Y || y > box.Bottom) continue;
            var centre = new Spot(box.X - 2 - radius, y);
            marks.Add(new Shape(Outline.Line(box.X - 2, y, box.X, y), null, new Pen(look.Accent, 0.2)));
            marks.Add(new Shape(Outline.Circle(centre, radius), Colour.White, new Pen(look.Accent, 0.2)));
            var number = g.ToString(CultureInfo.InvariantCulture);
            var sized = number.Length < 3 ? style : style with { Points = style.Points * 0.72 };
            marks.Add(new Lettering(new Spot(centre.X, y + Typeface.CapHeight(sized) / 2), number, sized, Anchor.Middle));
        }
        for (var h = 1; h <= cloth.HoldingRowsAbove; h++) Holding(geometry.HoldingAbove(h));
        for (var h = 1; h <= cloth.HoldingRowsBelow; h++) Holding(geometry.HoldingBelow(h));

        void Holding(double y)
        {
            if (y >= box.Y && y <= box.Bottom)
                marks.Add(new Lettering(new Spot(box.X - 2, y + cap / 2), "holding", Caption(look), Anchor.End));
        }
    }

    internal static void CableRows(ChartGeometry geometry, ChartWindow window, Look look, Box box, ImmutableArray<Mark>.Builder marks)
    {
        var cap = Typeface.CapHeight(look.Ruler);
        var widths = IsStraight(geometry.Work) ? 0 : box.Right + 3 + Typeface.Width("0000", look.Ruler with { Face = Face.TextBold });
        if (widths > 0) marks.Add(new Lettering(new Spot(widths, box.Y - 2.3), "pleat mm", Caption(look)));
        var every = geometry.RowHeight >= cap * 1.45 ? 1 : geometry.RowHeight * 5 >= cap * 1.45 ? 5 : 10 * (int)Math.Ceiling(cap * 1.45 / (geometry.RowHeight * 10));
        for (var y = Math.Max(0, window.FirstRow); y <= Math.Min(geometry.Work.CableRows - 1, window.LastRow); y++)
        {
            if (y % every != 0) continue;
            var middle = geometry.Middle(new CableRow(y));
            var held = y % geometry.RowsPerSpace == 0;
            marks.Add(new Shape(Outline.Line(box.Right, middle, box.Right + 1.2, middle), null, new Pen(held ? look.Accent : look.Quiet, held ? 0.25 : 0.15)));
            var style = held ? look.Ruler with { Face = Face.TextBold, Colour = look.Accent } : look.Ruler;
            marks.Add(new Lettering(new Spot(box.Right + 2, middle + cap / 2), y.ToString(CultureInfo.InvariantCulture), style));
            if (widths > 0 && held)
                marks.Add(new Lettering(new Spot(widths, middle + cap / 2), PleatWidth(geometry.Work.Pleating, new GatheringRow(y / geometry.RowsPerSpace + 1)), look.Ruler));
        }
        marks.Add(new Lettering(new Spot(box.Right + 2, box.Y - 2.3), "rows", Caption(look)));
    }

    // Every how many pleats a number fits.
    internal static int Every(double pitch, Look look)
    {
        var wide = Typeface.Width("000", look.Ruler) * 1.25;
        foreach (var every in (ReadOnlySpan<int>)[5, 10, 20, 50, 100, 200]) if (pitch * every >= wide) return every;
        return 500;
    }

    private static Lettering Number(int number, double x, double baseline, Look look) => new(new Spot(x, baseline), number.ToString(CultureInfo.InvariantCulture), look.Ruler, Anchor.Middle);

    internal static TypeStyle Caption(Look look) => look.Ruler with { Face = Face.TextItalic };
}
