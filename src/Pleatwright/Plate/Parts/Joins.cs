using System.Globalization;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>What helps to join pages: trim marks, which page comes next, and a plan of the pages.</summary>
internal static class Joins
{
    public static void Draw(Page page, PageGrid grid, GridPlace place)
    {
        using var _ = page.As(Tag.Ornament);
        TrimMarks(page, place.Placed);
        Overlaps(page, grid, place);
        Neighbours(page, grid, place);
        PlanOfPages(page, grid, place);
        Words(page, grid, place);
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
    private static void Overlaps(Page page, PageGrid grid, GridPlace place)
    {
        var lines = new OutlineBuilder();
        var box = place.Placed;
        if (grid.Numbers.ContainsKey((place.Column - 1, place.Row)))
            lines.Line(box.X + place.Overlap.X, box.Y, box.X + place.Overlap.X, box.Bottom);
        if (grid.Numbers.ContainsKey((place.Column, place.Row - 1)))
            lines.Line(box.X, box.Y + place.Overlap.Y, box.Right, box.Y + place.Overlap.Y);
        if (!lines.IsEmpty) page.Put(new Shape(lines.Build(), null, new Pen(page.Look.Alarm, 0.25) { Dashes = (2, 1.2) }));
    }

    // What the marks mean, where they stand.
    private static void Words(Page page, PageGrid grid, GridPlace place)
    {
        var style = page.Look.Note;
        var before = grid.Numbers.ContainsKey((place.Column - 1, place.Row)) || grid.Numbers.ContainsKey((place.Column, place.Row - 1));
        var words = (before ? "Up to the broken line it shows what the page before it shows. " : "") + "The squares are all the pages, joined; this one is filled.";
        using var _ = page.As(new Tag(Role.Paragraph));
        page.Text(page.Inner.X, page.Inner.Bottom - 1, Wrapping.Shorten(words, style, page.Inner.Width - 14), style);
    }

    private static void Neighbours(Page page, PageGrid grid, GridPlace place)
    {
        var style = page.Look.Note;
        var (column, row, box) = (place.Column, place.Row, place.Placed);
        var aside = place.Outside.X + 1;
        if (grid.Numbers.TryGetValue((column - 1, row), out var left))
            page.Put(new Lettering(new Spot(box.X - aside, box.Centre.Y), Words(left), style, Anchor.Middle) { Upward = true });
        if (grid.Numbers.TryGetValue((column + 1, row), out var right))
            page.Put(new Lettering(new Spot(box.Right + aside + Typeface.CapHeight(style), box.Centre.Y), Words(right), style, Anchor.Middle) { Upward = true });
        if (grid.Numbers.TryGetValue((column, row - 1), out var above))
            page.Text(box.Right, box.Y - place.Outside.Y + 2, Words(above), style, Anchor.End);
        if (grid.Numbers.TryGetValue((column, row + 1), out var under))
            page.Text(box.Right, box.Bottom + place.Outside.Y, Words(under), style, Anchor.End);

        static string Words(int number) => string.Create(CultureInfo.InvariantCulture, $"joins page {number}");
    }

    // A small plan at the foot of the page, this page's place filled in.
    private static void PlanOfPages(Page page, PageGrid grid, GridPlace place)
    {
        const double most = 10;
        var size = Math.Min(2.6, most / Math.Max(grid.Rows, grid.Columns / 3.0));
        var inner = page.Inner;
        double x = inner.Right - grid.Columns * size, y = inner.Bottom - grid.Rows * size;
        var empty = new OutlineBuilder();
        for (var row = 0; row < grid.Rows; row++)
            for (var column = 0; column < grid.Columns; column++)
                if (grid.Numbers.ContainsKey((column, row))) empty.Rectangle(new Box(x + column * size, y + row * size, size, size).Grown(-size * 0.08));
        page.Put(new Shape(empty.Build(), Colour.White, new Pen(page.Look.Quiet, 0.15)));
        page.Fill(new Box(x + place.Column * size, y + place.Row * size, size, size).Grown(-size * 0.08), page.Look.Accent);
    }
}
