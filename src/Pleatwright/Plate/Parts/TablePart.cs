using System.Collections.Immutable;
using Pleatwright.Order.Telling;

namespace Pleatwright.Plate.Parts;

/// <summary>The directions' table on paper: a box to tick before each line, lines on gathering rows in the accent's colour.</summary>
internal static class TablePart
{
    private const double Gap = 3.4;
    // a little air, where lines need not stand as close as may be
    private static double AfterLine(Look look) => look.Large ? 0.35 : Math.Clamp(0.15 + (look.Tight - 0.85) * 2, 0.15, 0.4);
    private static double Close(Look look) => look.Large ? 0.95 : 0.78; // of the leading of running text: lines have rules between them
    private const double Indent = 6;

    /// <summary>Sets the lines of a block, in line with those of the blocks that have the same columns.</summary>
    public static void Lay(TableBlock block, ImmutableArray<TableBlock> alike, Flow flow) => SetLines(block, Widths(block, alike, flow.Look), flow);

    private static double Box(Look look) => look.Leading * 0.62 + 2;

    // Blocks with the same columns line up under each other.
    private static double[] Widths(TableBlock block, ImmutableArray<TableBlock> all, Look look)
    {
        var alike = all.Where(b => b.Lines.Length > 0 && b.Columns.SequenceEqual(block.Columns)).ToList();
        return [.. Enumerable.Range(0, block.Columns.Length - (block.LastBeneath ? 1 : 0)).Select(i =>
            Math.Max(Typeface.Width(block.Columns[i], look.Note), alike.Max(b => b.Lines.Max(l => Typeface.Width(l.Cells[i], Style(look, i))))))];
    }

    private static TypeStyle Style(Look look, int column) => column == 0 ? look.Strong : look.Body;

    // No cell is broken: columns that do not fit are set beneath the others, so that a line is read in order.
    private static void SetLines(TableBlock block, double[] widths, Flow flow)
    {
        var look = flow.Look;
        var box = Box(look);
        var room = flow.Width - box;
        var gap = widths.Sum() + Gap * (widths.Length - 1) > room ? Gap / 2 : Gap;
        var fit = widths.Length;
        while (fit > 1 && widths[..fit].Sum() + gap * (fit - 1) > room) fit--;
        if (fit < widths.Length) (fit, gap) = (block.Apart(fit), Gap); // with room again
        var rows = fit < widths.Length ? 2 : 1;
        var leading = look.Leading * Close(look);
        var headHeight = rows * leading * 0.9 + 0.6;
        var first = true;
        var table = new Tag(Role.Table);
        var names = new List<Tag>();
        foreach (var line in block.Lines)
        {
            var beneath = block.LastBeneath ? Wrapping.Lines(line.Cells[^1], look.Body, room - Indent) : [];
            var height = (rows + beneath.Count) * leading + AfterLine(look);
            // the names of the columns stand above the first line, and above the first of a new page
            var named = height > flow.Left || (first && !(rows == 1 && flow.Page.TableColumns.SequenceEqual(block.Columns)));
            var unnamed = first && !named;
            flow.Add(height + (named ? headHeight : 0), (page, x, y) =>
            {
                if (named)
                {
                    Set(page, new Tag(Role.Row, table), Role.ColumnName, block.Columns, x + box, y, leading * 0.9, _ => look.Note);
                    y += headHeight;
                }
                // they stand above a table before it on the page, in the same places
                if (unnamed)
                {
                    var head = new Tag(Role.Row, table);
                    foreach (var name in block.Columns) names.Add(new Tag(Role.ColumnName, head) { Alternate = name });
                }
                page.Rule(x, y, x + box + widths[..fit].Sum() + gap * (fit - 1), y, look.Fine);
                var side = leading * 0.66;
                page.Put(new Shape(Outline.Rounded(new Box(x, y + leading * 0.16 + 0.2, side, side), 0.4), null, new Pen(look.Quiet, look.Large ? 0.35 : 0.2)));
                var row = new Tag(Role.Row, table);
                Set(page, row, Role.Cell, line.Cells, x + box, y + 0.2, leading, i => line.IsLevel && i > 0 ? Style(look, i) with { Colour = look.Accent } : Style(look, i));
                if (!block.LastBeneath) return;
                using var _ = page.As(new Tag(Role.Cell, row));
                for (var n = 0; n < beneath.Count; n++) page.Text(x + box + Indent, y + 0.2 + leading * (rows + n) + (leading + Typeface.CapHeight(look.Body)) / 2, beneath[n], look.Body);
            }, keep: block.Lines.Length > 1 && line == block.Lines[^2] ? height : 0); // the last is never alone on a page
            flow.Page.TableColumns = rows == 1 ? block.Columns : [];
            first = false;
        }
        flow.Gap(1.2);

        void Set(Page page, Tag row, Role role, ImmutableArray<string> cells, double x, double y, double leading, Func<int, TypeStyle> style)
        {
            var left = x;
            for (var i = 0; i < widths.Length; i++)
            {
                if (i == fit) (x, y) = (left + Indent, y + leading);
                // names that stand again on a new page are not read again
                var tag = new Tag(role, row) { Again = role == Role.ColumnName ? names.ElementAtOrDefault(i) : null };
                if (role == Role.ColumnName && names.Count == i) names.Add(tag);
                page.Text(tag, x, y + (leading + Typeface.CapHeight(style(i))) / 2, cells[i], style(i)); // in the middle between its rules
                x += widths[i] + gap;
            }
            // the name of a column whose cells stand beneath is not printed
            if (block.LastBeneath && role == Role.ColumnName) _ = new Tag(role, row) { Alternate = cells[^1] };
        }
    }
}
