using Pleatwright.Measure;
using Pleatwright.Plate.Parts;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Teaching;

/// <summary>A label for every kit, tiled over the paper with lines to cut along.</summary>
internal static class KitLabels
{
    private const double Pad = 5;
    private const int MostSwatches = 4;
    private const double LeastPoints = 8; // smaller cannot be read at a table
    private const double LeastShrink = 0.86; // and is set only where a label would be taller than the page

    public static List<Page> Of(ClassPack pack)
    {
        var grid = Fit(pack);
        List<Page> pages = [];
        for (var kit = 0; kit < pack.Cutting.Kits; kit++)
        {
            var onPage = kit % (grid.Columns * grid.Rows);
            if (onPage == 0) pages.Add(NewPage(pack, grid, Math.Min(grid.Columns * grid.Rows, pack.Cutting.Kits - kit), kit == 0));
            var box = pages[^1].Inner;
            double width = box.Width / grid.Columns, height = grid.Height;
            grid.Label.Draw(pages[^1], new Box(box.X + onPage % grid.Columns * width, box.Y + onPage / grid.Columns * height, width, height), kit + 1);
        }
        return pages;
    }

    /// <summary>The letters of the threads cut from a floss, as "r and s"; none for the thread of the back.</summary>
    public static string Letters(ClassPack pack, ClassFloss floss) =>
        string.Join(" and ", floss.Threads.Where(t => !pack.IsForTheBack(t)).Select(t => t.Key.ToString()).Order(StringComparer.Ordinal));

    /// <summary>The name of a floss.</summary>
    public static string Name(ClassPack pack, ClassFloss floss) =>
        pack.IsForTheBack(floss.Threads[0]) ? "For the back, cloth-coloured" : Tidy.Line(floss.Threads[0].Name);

    /// <summary>What is threaded: "7 needlefuls of 4 strands", each thread apart where several are cut from one floss; and when, where that is not in class.</summary>
    public static string Needlefuls(ClassPack pack, ClassFloss floss) => (pack.IsForTheBack(floss.Threads[0]) ? "before the class: " : "") + string.Join("; ", floss.Threads.Select(t =>
        $"{(floss.Threads.Length > 1 ? t.Key + ": " : "")}{Counting.Of(floss.NeedlefulsOf(t), "needleful")} of {Counting.Of(t.Strands, "strand")}"));

    /// <summary>Why there is more than one needle: "at most 2 threads wait in needles of their own".</summary>
    public static string Waiting(ClassPack pack) => pack.Needles == 2 ? "a thread waits in a needle of its own" : $"at most {pack.Needles - 1} threads wait in needles of their own";

    private sealed record Grid(int Columns, int Rows, double Height, Label Label);

    // As many labels to the page as hold everything in full; the type shrinks a little for more of them, and much only
    // where one page is too little for one label.
    private static Grid Fit(ClassPack pack)
    {
        var look = pack.Plate.Options.Look;
        var inner = Page.InnerOf(pack.Plate.Options.Paper);
        const double leastHeight = 54;
        Grid? best = null;
        var bestScore = 0.0;
        foreach (var shrink in look.Large ? (double[])[1] : [1, 0.92, LeastShrink])
            foreach (var (columns, threadColumns) in look.Large ? ((int, int)[])[(1, 1)] : [(2, 1), (1, 2), (1, 1)])
            {
                var label = new Label(pack, inner.Width / columns, threadColumns, shrink);
                var rows = (int)(inner.Height / Math.Max(leastHeight, label.Height));
                var score = rows * columns * shrink * shrink;
                if (score <= bestScore) continue;
                (best, bestScore) = (new Grid(columns, rows, inner.Height / rows, label), score);
            }
        if (best is not null) return best;
        var small = 0.95;
        while (small > 0.3 && new Label(pack, inner.Width, 2, small).Height > inner.Height) small -= 0.05;
        return new Grid(1, 1, inner.Height, new Label(pack, inner.Width, 2, small));
    }

    private static Page NewPage(ClassPack pack, Grid grid, int labels, bool first)
    {
        var page = new Page("Kit labels", pack.Plate.Options.Paper, pack.Plate.Options.Look);
        if (first) page.Bookmark("Kit labels", 0, 0);
        var box = page.Inner;
        var rows = (labels + grid.Columns - 1) / grid.Columns;
        var cut = new Pen(page.Look.Quiet, 0.2) { Dashes = (2, 1.4) };
        for (var row = 0; row <= rows; row++)
        {
            var wide = row == rows && labels % grid.Columns != 0 ? labels % grid.Columns * box.Width / grid.Columns : box.Width;
            page.Rule(box.X, box.Y + row * grid.Height, box.X + wide, box.Y + row * grid.Height, cut);
        }
        for (var column = 0; column <= grid.Columns; column++)
        {
            var full = labels / grid.Columns + (column <= labels % grid.Columns && labels % grid.Columns != 0 ? 1 : 0);
            page.Rule(box.X + column * box.Width / grid.Columns, box.Y, box.X + column * box.Width / grid.Columns, box.Y + full * grid.Height, cut);
        }
        return page;
    }

    // One label's words, measured once; only the number differs.
    private sealed class Label
    {
        private readonly ClassPack pack;
        private readonly double inner;
        private readonly int threadColumns;
        private readonly TypeStyle title, strong, note;
        private readonly double leading, noteLeading;
        private readonly IReadOnlyList<string> titleLines, foot;
        private readonly List<(ClassFloss Floss, IReadOnlyList<string> Name, IReadOnlyList<string> Under, double Height)> entries;

        public Label(ClassPack pack, double width, int threadColumns, double shrink)
        {
            this.pack = pack;
            this.threadColumns = threadColumns;
            inner = width - 2 * Pad;
            var look = pack.Plate.Options.Look;
            title = Scaled(look.Heading, 0.8);
            strong = Scaled(look.Strong, 1);
            note = Scaled(look.Note, 1);
            leading = look.Leading * shrink;
            noteLeading = note.Points * 0.45;
            titleLines = Wrapping.Lines(pack.Plate.Title, title, inner - Typeface.Width("Kit 200 of 200", strong) - 4);
            if (titleLines.Count > 1) titleLines = [titleLines[0], Wrapping.Shorten(string.Join(" ", titleLines.Skip(1)), title, inner)];
            var cutting = pack.Cutting;
            foot = Wrapping.Lines($"Lengths of {cutting.WorkingLength.Say(pack.Plate.Options.Units)}; strip the strands, lay them together anew."
                + (pack.Needles > 1 ? $" {Waiting(pack).Capital()}." : "")
                + (pack.Options.ExtraLengths > 0 && !cutting.Flosses.IsEmpty ? $" {Counting.Of(pack.Options.ExtraLengths, "length")} of each to spare." : ""), note, inner);
            entries = [.. cutting.Flosses.Select(f =>
            {
                var room = EntryWidth - Swatches(f) - Typeface.Width(Lengths(f), strong) - 5;
                var name = Wrapping.Lines(Name(pack, f), strong, room).Take(2).Select(l => Wrapping.Shorten(l, strong, room)).ToList();
                var under = Wrapping.Lines(Needlefuls(pack, f), note, EntryWidth - Swatches(f) - 2);
                return (f, name, under, name.Count * leading + under.Count * noteLeading + 2.2 * shrink);
            })];

            TypeStyle Scaled(TypeStyle style, double by) => style with { Points = Math.Max(shrink < LeastShrink ? 0 : LeastPoints, Math.Round(style.Points * by * shrink, 2)) };
        }

        private double EntryWidth => (inner - (threadColumns - 1) * 6) / threadColumns;

        private double SwatchWidth => leading * 1.5;

        private double SwatchHeight => Math.Max(leading * 0.72, Math.Min(leading * 0.85, 3.3)); // holds a letter of the least size

        private double Top => Pad + titleLines.Count * title.Points * 0.42 + leading * 2.1;

        private double Foot => foot.Count * noteLeading + leading + 3;

        public double Height => Top + Columns().Max(c => c.Sum(e => e.Height)) + Foot + Pad;

        public void Draw(Page page, Box box, int kit)
        {
            var look = page.Look;
            double x = box.X + Pad, right = box.Right - Pad, y = box.Y + Pad;
            var number = $"Kit {kit} of {pack.Cutting.Kits}";
            page.Text(right, y + Typeface.CapHeight(title), number, strong with { Colour = look.Accent }, Anchor.End);
            foreach (var line in titleLines)
            {
                page.Text(x, y + Typeface.CapHeight(title), line, title);
                y += title.Points * 0.42;
            }
            y += leading * 1.15;
            var spare = kit > pack.Cutting.Students;
            page.Text(x, y, spare ? "Spare kit" : "Name", note);
            if (!spare) page.Rule(x + Typeface.Width("Name", note) + 2, y + 0.4, right, y + 0.4, new Pen(look.Hairline, 0.25));
            var top = box.Y + Top;
            foreach (var (i, column) in Columns().Index())
            {
                var at = top;
                foreach (var entry in column)
                {
                    Entry(page, x + i * (EntryWidth + 6), at, entry);
                    at += entry.Height;
                }
            }
            y = box.Bottom - Pad - Foot + leading * 0.4;
            page.Rule(x, y - 1.4, right, y - 1.4, look.Fine);
            for (var i = 0; i < foot.Count; i++) page.Text(x, y + 1.4 + noteLeading * (i + 0.7), foot[i], note);
            y += 1.4 + noteLeading * foot.Count + leading * 0.9;
            var needle = $"{Counting.Of(pack.Needles, "needle")}, counted out";
            page.Text(x, y, needle, note);
            var tick = x + Typeface.Width(needle, note) + 1.6;
            Tick(page, tick, y);
            page.Text(tick + SwatchHeight + 3, y, "and back", note);
            Tick(page, tick + SwatchHeight + 4.6 + Typeface.Width("and back", note), y);
        }

        private void Tick(Page page, double x, double baseline) =>
            page.Put(new Shape(Outline.Rounded(new Box(x, baseline - SwatchHeight * 0.86, SwatchHeight, SwatchHeight), 0.4), null, new Pen(page.Look.Quiet, 0.25)));

        private void Entry(Page page, double x, double y, (ClassFloss Floss, IReadOnlyList<string> Name, IReadOnlyList<string> Under, double Height) entry)
        {
            var at = x;
            foreach (var thread in entry.Floss.Threads.Take(MostSwatches))
            {
                var brick = new Box(at, y + leading * 0.12, SwatchWidth, SwatchHeight);
                page.Put(pack.IsForTheBack(thread)
                    ? [new Shape(Outline.Rounded(brick, SwatchHeight * 0.28), thread.Colour, new Pen(page.Look.Quiet, 0.2))]
                    : KeyPart.Swatch(thread, brick, page.Look));
                at += SwatchWidth + 1.2;
            }
            at = x + Swatches(entry.Floss) + 2;
            page.Text(x + EntryWidth, y + leading * 0.75, Lengths(entry.Floss), strong, Anchor.End);
            for (var i = 0; i < entry.Name.Count; i++) page.Text(at, y + leading * (i + 0.75), entry.Name[i], strong);
            for (var i = 0; i < entry.Under.Count; i++) page.Text(at, y + leading * entry.Name.Count + noteLeading * (i + 0.7), entry.Under[i], note);
        }

        private double Swatches(ClassFloss floss) => Math.Min(MostSwatches, floss.Threads.Length) * (SwatchWidth + 1.2) - 1.2;

        private static string Lengths(ClassFloss floss) => Counting.Of(floss.LengthsInKit, "length");

        private List<List<(ClassFloss Floss, IReadOnlyList<string> Name, IReadOnlyList<string> Under, double Height)>> Columns()
        {
            var each = Math.Max(1, (entries.Count + threadColumns - 1) / threadColumns);
            return entries.Count == 0 ? [[]] : [.. entries.Chunk(each).Select(c => c.ToList())];
        }
    }
}
