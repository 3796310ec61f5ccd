using System.Globalization;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>What helps to join the pages of a chart: trim marks, which page comes next, and a plan of the pages.</summary>
internal static class Joins
{
    public static void Draw(Page page, Tiling tiling, Tile tile, Dictionary<(int Column, int Row), int> numbers, Box placed)
    {
        TrimMarks(page, placed);
        Overlaps(page, tiling, tile, numbers, placed);
        Neighbours(page, tile, numbers, placed);
        PlanOfPages(page, tiling, tile, numbers);
    }

    private static void TrimMarks(Page page, Box box)
    {
        const double from = 0.8, to = 4;
        var marks = new OutlineBuilder();
        foreach (var x in (ReadOnlySpan<double>)[box.X, box.Right])
            marks.Line(x, box.Y - to, x, box.Y - from).Line(x, box.Bottom + from, x, box.Bottom + to);
        foreach (var y in (ReadOnlySpan<double>)[box.Y, box.Bottom])
            marks.Line(box.X - to, y, box.X - from, y).Line(box.Right + from, y, box.Right + to, y);
        page.Put(new Shape(marks.Build(), null, new Pen(page.Look.Ink, 0.15)));
    }

    // What the page at the left, or above, shows too: lay that page over this one up to the broken line.
    private static void Overlaps(Page page, Tiling tiling, Tile tile, Dictionary<(int Column, int Row), int> numbers, Box box)
    {
        var lines = new OutlineBuilder();
        if (numbers.ContainsKey((tile.Column - 1, tile.Row)))
        {
            var x = box.X + Tiling.OverlapPleats * tiling.Geometry.Pitch;
            lines.Line(x, box.Y, x, box.Bottom);
        }
        if (numbers.ContainsKey((tile.Column, tile.Row - 1)))
        {
            var y = box.Y + Tiling.OverlapRows * tiling.Geometry.RowHeight;
            lines.Line(box.X, y, box.Right, y);
        }
        if (!lines.IsEmpty) page.Put(new Shape(lines.Build(), null, new Pen(page.Look.Alarm, 0.25) { Dashes = (2, 1.2) }));
    }

    private static void Neighbours(Page page, Tile tile, Dictionary<(int Column, int Row), int> numbers, Box box)
    {
        var style = page.Look.Note;
        var outside = ChartRulers.Sides(page.Look) + 1;
        if (numbers.TryGetValue((tile.Column - 1, tile.Row), out var left))
            page.Put(new Lettering(new Spot(box.X - outside, box.Centre.Y), Words(left), style, Anchor.Middle) { Upward = true });
        if (numbers.TryGetValue((tile.Column + 1, tile.Row), out var right))
            page.Put(new Lettering(new Spot(box.Right + outside + Typeface.CapHeight(style), box.Centre.Y), Words(right), style, Anchor.Middle) { Upward = true });
        var below = ChartRulers.Ends(page.Look);
        if (numbers.TryGetValue((tile.Column, tile.Row - 1), out var above))
            page.Text(box.Right, box.Y - below + 2, Words(above), style, Anchor.End);
        if (numbers.TryGetValue((tile.Column, tile.Row + 1), out var under))
            page.Text(box.Right, box.Bottom + below, Words(under), style, Anchor.End);

        static string Words(int number) => string.Create(CultureInfo.InvariantCulture, $"joins page {number}");
    }

    // A small plan at the foot of the page, this page's place filled in.
    private static void PlanOfPages(Page page, Tiling tiling, Tile tile, Dictionary<(int Column, int Row), int> numbers)
    {
        const double most = 10;
        var size = Math.Min(2.6, most / Math.Max(tiling.Rows, tiling.Columns / 3.0));
        var inner = page.Inner;
        double x = inner.Right - tiling.Columns * size, y = inner.Bottom - tiling.Rows * size;
        var empty = new OutlineBuilder();
        for (var row = 0; row < tiling.Rows; row++)
            for (var column = 0; column < tiling.Columns; column++)
                if (numbers.ContainsKey((column, row))) empty.Rectangle(new Box(x + column * size, y + row * size, size, size).Grown(-size * 0.08));
        page.Put(new Shape(empty.Build(), Colour.White, new Pen(page.Look.Quiet, 0.15)));
        page.Fill(new Box(x + tile.Column * size, y + tile.Row * size, size, size).Grown(-size * 0.08), page.Look.Accent);
    }
}
