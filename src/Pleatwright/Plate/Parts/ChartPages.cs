using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Order;

namespace Pleatwright.Plate.Parts;

/// <summary>The chart on pages: a working chart large enough to read, and one at the size of the finished work.</summary>
internal static class ChartPages
{
    // A line of bricks this high (millimetres) can be read at the sewing table; higher ones only waste paper.
    private static (double Least, double Most) ReadableLine(Look look) => look.Large ? (3.4, 6) : (1.85, 4);

    /// <summary>The smallest size, in tenths of the finished size, at which this work's bricks can be read.</summary>
    public static double Readable(Work work, Look look) =>
        Math.Ceiling(ReadableLine(look).Least / work.Pleating.Gauge.LineHeight.Millimetres * 10) / 10;

    /// <summary>What stands beside the heading of the chart.</summary>
    public static string Lead(PlateDocument document) =>
        ChartRulers.IsStraight(document.Work) ? "every run with its step, its count and its way" : "a straight grid to count on; each row’s pleat width at its right";

    /// <summary>Something of the chart that is set across a page, or has pages of its own.</summary>
    /// <param name="Height">Its height in millimetres.</param>
    /// <param name="Draw">Draws it with its top left corner at the place given.</param>
    /// <param name="Pages">Makes its pages, the first of the number given; null where it is set across a page.</param>
    public readonly record struct ChartBand(double Height, Action<Page, double, double> Draw, Func<int, List<Page>>? Pages);

    /// <summary>
    /// The working chart: the whole at a glance, then every figure once, side by side where they fit. Learners have every copy, on pages of
    /// its own; a figure too large for a page goes on over several.
    /// </summary>
    /// <param name="document">The plate.</param>
    /// <param name="width">Width of a page in millimetres.</param>
    /// <param name="height">Height of a page under its heading.</param>
    /// <param name="scale">How large it is drawn: 0 as small as can be counted, 1 as large as serves.</param>
    public static IEnumerable<ChartBand> Bands(PlateDocument document, double width, double height, double scale)
    {
        var (work, order, options) = (document.Work, document.Order, document.Options);
        if (options.Edition == Edition.Learner)
        {
            yield return new(0, (_, _, _) => { }, first => Working(order, order.Steps, WorkedWindow(work), options, first));
            yield break;
        }
        var look = options.Look;
        var excerpts = Excerpts.Of(order);
        // where all is set as small as may be, the whole stands beside an excerpt that leaves it room
        var asideToo = scale < 0.1 && !look.Large && IsStripWanted(excerpts);
        var (rows, tooLarge) = Rows(order, excerpts, look, options.Levels, width, height, scale, asideToo ? r => Beside(r).Row is null ? height * Strip(scale, look) : 0 : _ => 0);
        var (beside, aside) = asideToo ? Beside(rows) : default;
        if (beside is null && IsStripWanted(excerpts))
        {
            var strip = LayoutStrip.Draw(order, excerpts, width, height * Strip(scale, look), look, options.Levels);
            yield return new(strip.View.Height, (page, x, y) => page.Figure(FigureWords.Strip, new Inset(strip.Marks, new Spot(x + (width - strip.View.Width) / 2 - strip.View.X, y - strip.View.Y))), null);
        }
        foreach (var row in beside is null ? rows : [beside, .. rows.Where(r => r != beside)])
            yield return new(Math.Max(row.Max(p => p.View.Height), row == beside ? aside!.View.Height : 0), (page, x, y) =>
            {
                if (row == beside)
                {
                    page.Figure(FigureWords.Strip, new Inset(aside!.Marks, new Spot(x - aside.View.X, y - aside.View.Y)));
                    foreach (var (i, excerpt) in row.Index())
                    {
                        var right = x + width - row.Skip(i).Sum(p => p.View.Width + Between) + Between;
                        page.Figure($"{excerpt.Title}. {FigureWords.Chart}", new Inset(excerpt.Draw(), new Spot(right - excerpt.View.X, y - excerpt.View.Y)));
                    }
                    return;
                }
                Row(page, row, x, y);
            }, null);
        var begun = rows.Count > 0 || IsStripWanted(excerpts);
        foreach (var excerpt in tooLarge)
        {
            var fits = Alone(order, excerpt, look, options.Levels, width, height, scale);
            if (fits is not null) yield return new(fits.View.Height, (page, x, y) => Row(page, [fits], x, y), null);
            else if (Alone(order, excerpt, look, options.Levels, Page.InnerOf(options.Paper.Sideways).Width, Page.InnerOf(options.Paper.Sideways).Height - Page.HeadingHeight(look), scale) is { } sideways)
                yield return new(0, (_, _, _) => { }, _ => [Sideways(sideways, begun)]);
            else yield return new(0, (_, _, _) => { }, first => Working(order, excerpt.Steps, excerpt.Window, options, first));
        }

        Page Sideways(ExcerptDrawing drawing, bool begun)
        {
            var page = new Page("Chart", options.Paper.Sideways, look);
            var y = begun ? page.RunningHead("Chart") : page.Heading("Chart", Lead(document));
            var inner = Page.InnerOf(page.Paper);
            page.Figure($"{drawing.Title}. {FigureWords.Chart}", new Inset(drawing.Draw(), new Spot(inner.X + (inner.Width - drawing.View.Width) / 2 - drawing.View.X, y - drawing.View.Y)));
            return page;
        }

        void Row(Page page, List<ExcerptDrawing> row, double x, double y)
        {
            var gap = Math.Min(14, row.Count > 1 ? (width - row.Sum(p => p.View.Width)) / (row.Count - 1) : 0);
            var left = x + (row.Count == 1 ? (width - row[0].View.Width) / 2 : (width - row.Sum(p => p.View.Width) - gap * (row.Count - 1)) / 2);
            foreach (var excerpt in row)
            {
                page.Figure($"{excerpt.Title}. {FigureWords.Chart}", new Inset(excerpt.Draw(), new Spot(left - excerpt.View.X, y - excerpt.View.Y)));
                left += excerpt.View.Width + gap;
            }
        }

        (List<ExcerptDrawing>? Row, Drawing?) Beside(List<List<ExcerptDrawing>> rows)
        {
            foreach (var row in rows.OrderBy(r => r.Sum(p => p.View.Width + Between)))
            {
                var left = width - row.Sum(p => p.View.Width + Between);
                if (left < LeastStrip) break;
                var strip = LayoutStrip.Draw(order, excerpts, left, Math.Max(row.Max(p => p.View.Height), 40), look, options.Levels);
                if (strip.View.Height <= row.Max(p => p.View.Height) + 8) return (row, strip);
            }
            return default;
        }
    }

    // Share of a page that the strip may be high.
    private static double Strip(double scale, Look look) => (look.Large ? 0.38 : 0.2) + 0.12 * scale; // type that is twice as large leaves less of it

    private const double Between = 5, LeastStrip = 62; // millimetres (our own choice)

    /// <summary>The chart for a screen, which needs no pages: the whole at a glance and every excerpt; for learners all of it in one piece.</summary>
    public static IEnumerable<(string Title, Drawing Drawing)> Drawings(PlateDocument document)
    {
        var (work, order, look) = (document.Work, document.Order, document.Options.Look);
        if (document.Options.Edition == Edition.Learner)
        {
            yield return ("all of it", WholeChart.Draw(order, document.Options));
            yield break;
        }
        const double wide = 176;
        var excerpts = Excerpts.Of(order);
        if (IsStripWanted(excerpts)) yield return ("the whole at a glance", LayoutStrip.Draw(order, excerpts, wide, 80, look, document.Options.Levels));
        var geometry = ChartGeometry.Scaled(work, Readable(work, look) * 1.2);
        foreach (var drawing in excerpts.Select(p => new ExcerptDrawing(geometry, order, p, look, document.Options.Levels))) yield return (drawing.Title, new Drawing(drawing.View, drawing.Draw()));
    }

    /// <summary>What is drawn on the chart beside stitches, which the key explains.</summary>
    public static HashSet<Sign> Signs(WorkingOrder order, PlateOptions options)
    {
        var (work, look) = (order.Work, options.Look);
        var geometry = ChartGeometry.Scaled(work, Readable(work, look));
        var drawn = new HashSet<Sign>();
        if (work.Runs.Length == 0 && !ThreadShapes.Spans(work).Any()) return drawn;
        if (options.Edition == Edition.Learner || options.TrueScaleChart)
            drawn.UnionWith(((IEnumerable<Mark>)[.. ChartCloth.Draw(geometry, WorkedWindow(work), look), .. ChartCloth.DrawCentre(geometry, WorkedWindow(work), look)]).Select(m => m.Means).OfType<Sign>());
        if (options.Edition == Edition.Learner)
        {
            var window = WorkedWindow(work);
            var steps = new StepMarks(geometry, order, order.Steps, window, look, bounded: true) { Bands = Excerpts.BandsIn(order, window) };
            drawn.UnionWith(steps.Crossings(window).Concat(steps.Draw(window)).Select(m => m.Means).OfType<Sign>());
            return drawn;
        }
        var excerpts = Excerpts.Of(order);
        if (IsStripWanted(excerpts)) drawn.UnionWith(LayoutStrip.Signs(work, look));
        foreach (var excerpt in excerpts) drawn.UnionWith(new ExcerptDrawing(geometry, order, excerpt, look, options.Levels).Signs());
        return drawn;
    }

    // One excerpt that shows all there is needs no strip.
    private static bool IsStripWanted(ImmutableArray<Excerpt> excerpts) => excerpts.Length != 1 || excerpts[0].OwnCentre || excerpts[0].Title.Length > 0;

    // Panels side by side at one size. Pleats are drawn as wide to their rows as they lie, or narrower where that takes less of the page.
    private static (List<List<ExcerptDrawing>> Rows, List<Excerpt> TooLarge) Rows(WorkingOrder order, ImmutableArray<Excerpt> excerpts, Look look, LevelWords levels, double width, double height, double scale, Func<List<List<ExcerptDrawing>>, double> more)
    {
        var gauge = order.Work.Pleating.Gauge;
        var (line, pitch) = (gauge.LineHeight.Millimetres, gauge.Pitch.Millimetres);
        var (least, most) = ReadableLine(look);
        var times = Math.Max(Readable(order.Work, look), Math.Floor((least + (most - least) * scale) / line * 10) / 10);
        (List<List<ExcerptDrawing>> Rows, List<Excerpt> TooLarge, double Height)? best = null;
        for (var share = 1.0; share > Math.Min(1, 0.95 * line / pitch) - 0.01 || best is null; share -= 0.05)
        {
            var geometry = new ChartGeometry(order.Work, pitch * times * share, line * times);
            var tooLarge = new List<Excerpt>();
            var rows = new List<List<(ExcerptDrawing Drawing, int At)>>();
            foreach (var (i, excerpt) in excerpts.Index().OrderByDescending(p => p.Item.Window.Rows).ThenBy(p => p.Index))
            {
                var drawing = new ExcerptDrawing(geometry, order, excerpt, look, levels);
                if (drawing.View.Width > width + 0.01 || drawing.View.Height > height + 0.01)
                {
                    tooLarge.Add(excerpt);
                    continue;
                }
                var row = rows.FirstOrDefault(r => r.Sum(p => p.Drawing.View.Width + Between) + drawing.View.Width <= width);
                if (row is null) rows.Add(row = []);
                row.Add((drawing, i));
            }
            var ordered = rows.OrderBy(r => r.Min(p => p.At)).Select(r => r.OrderBy(p => p.At).Select(p => p.Drawing).ToList()).ToList();
            var tall = rows.Sum(r => r.Max(p => p.Drawing.View.Height)) + tooLarge.Count * height + more(ordered);
            if (best is null || tall < best.Value.Height - height * 0.06) best = (ordered, tooLarge, tall);
        }
        return (best!.Value.Rows, best.Value.TooLarge);
    }

    // What is too large at the size of the others, smaller or with narrower pleats, if that can be counted still; the largest that fits.
    private static ExcerptDrawing? Alone(WorkingOrder order, Excerpt excerpt, Look look, LevelWords levels, double width, double height, double scale)
    {
        var gauge = order.Work.Pleating.Gauge;
        var (line, pitch) = (gauge.LineHeight.Millimetres, gauge.Pitch.Millimetres);
        var (least, most) = ReadableLine(look);
        var from = Readable(order.Work, look);
        for (var times = Math.Max(from, Math.Floor((least + (most - least) * scale) / line * 10) / 10); times > from - 0.01; times -= 0.1)
            for (var share = 1.0; share > Math.Min(1, 0.95 * line / pitch) - 0.01; share -= 0.05)
            {
                var drawing = new ExcerptDrawing(new ChartGeometry(order.Work, pitch * times * share, line * times), order, excerpt, look, levels);
                if (drawing.View.Height > height + 0.01) break;
                if (drawing.View.Width <= width + 0.01) return drawing;
            }
        return null;
    }

    // A part of the chart on pages of its own.
    private static List<Page> Working(WorkingOrder order, IReadOnlyCollection<Order.Step> steps, ChartWindow window, PlateOptions options, int firstPage)
    {
        var work = order.Work;
        var (tiling, paper) = Fit(work, window, options);
        var gauge = work.Pleating.Gauge;
        var (across, down) = (tiling.Geometry.Pitch / gauge.Pitch.Millimetres, tiling.Geometry.LineHeight / gauge.LineHeight.Millimetres);
        var lead = ChartRulers.IsStraight(work)
            ? across > down - 0.01 ? FormattableString.Invariant($"{down:0.#} times the finished size") : FormattableString.Invariant($"rows {down:0.#} times, pleats {across:0.#} times as wide as in the work")
            : "a straight grid to count on; each row’s pleat width at its right";
        return Pages(tiling, paper, options, "Chart", lead, firstPage, null, order, steps);
    }

    /// <summary>The chart at the size of the finished work, with a line to check the printing by.</summary>
    public static List<Page> TrueScale(Work work, PlateOptions options, int firstPage)
    {
        if (work.Piece.Cloth.Form.SurfaceOf(work.Piece.Cloth).Drawn(new TrueCharts(work)) is { } laid)
            return TruePages.Of(TrueScaleHeading, laid.Lead, laid.Drawing, options, firstPage);
        var look = options.Look;
        var geometry = ChartGeometry.Scaled(work, 1);
        var window = WorkedWindow(work);
        var (tiling, paper) = Better(geometry, window, options, CheckLine.Height(look), Tiling.Wholes(work));
        return Pages(tiling, paper, options, TrueScaleHeading, "lay it beside the pleats", firstPage, options.Units, null, []);
    }

    /// <summary>The part of the chart with stitches, a few bare pleats and a gathering row more on every side where there are any.</summary>
    public static ChartWindow WorkedWindow(Work work)
    {
        const int bare = 4;
        var all = new ChartGeometry(work, 1, 1).Everything;
        int left = int.MaxValue, right = 0, top = int.MaxValue, bottom = 0;
        foreach (var run in work.Runs)
        {
            left = Math.Min(left, run.FirstPleat.Number);
            right = Math.Max(right, run.LastPleat.Number);
            top = Math.Min(top, run.Row.Index);
            bottom = Math.Max(bottom, run.Row.Index);
        }
        foreach (var span in ThreadShapes.Spans(work))
        {
            left = Math.Min(left, span.FirstPleat);
            right = Math.Max(right, span.LastPleat);
            top = Math.Min(top, span.FirstRow);
            bottom = Math.Max(bottom, span.LastRow);
        }
        if (right == 0) return all;
        var space = work.Pleating.Gauge.CableRowsPerSpace;
        var above = (int)Math.Floor((top - 1.0) / space) * space - 1;
        var below = ((bottom + 1) / space + 1) * space + 1;
        return new ChartWindow(
            left - bare <= 1 ? all.FirstPleat : left - bare,
            right + bare >= work.Pleating.Pleats ? all.LastPleat : right + bare,
            Math.Max(all.FirstRow, above), Math.Min(all.LastRow, below));
    }

    /// <summary>What the chart at true size is called.</summary>
    public const string TrueScaleHeading = "Chart at true size";

    private const double FootHeight = 9;

    // Pleats may be drawn narrower than they lie to their rows, where that keeps more of the picture together: at the narrowest a cable is
    // about twice as wide as it is high (our own choice). The largest readable size, then, at which the chart takes no more pages.
    private static (Tiling Tiling, Paper Paper) Fit(Work work, ChartWindow window, PlateOptions options)
    {
        var gauge = work.Pleating.Gauge;
        var (line, pitch) = (gauge.LineHeight.Millimetres, gauge.Pitch.Millimetres);
        var from = Readable(work, options.Look) * 10;
        var to = Math.Max(from, Math.Floor(ReadableLine(options.Look).Most / line * 10));
        var wholes = Tiling.Wholes(work);
        var (best, narrow) = (Sized(from, 1), 1.0);
        for (var share = 0.9; share > Math.Min(1, 0.95 * line / pitch); share -= 0.1)
        {
            if (best.Tiling.Count == 1) break;
            var narrower = Sized(from, share);
            if (narrower.Tiling.Count == 1 || narrower.Tiling.Count * 3 <= best.Tiling.Count * 2) (best, narrow) = (narrower, share);
        }
        // the largest that shows no part of a figure beside another's sheet; else the largest
        (Tiling Tiling, Paper Paper)? largest = null;
        for (var tenths = to; tenths > from; tenths--)
        {
            var larger = Sized(tenths, narrow);
            if (larger.Tiling.Count > best.Tiling.Count) continue;
            if (larger.Tiling.IsBare) return larger;
            largest ??= larger;
        }
        return best.Tiling.IsBare ? best : largest ?? best;

        (Tiling Tiling, Paper Paper) Sized(double tenths, double share) => Better(new ChartGeometry(work, pitch * tenths / 10 * share, line * tenths / 10), window, options, FootHeight, wholes);
    }

    // Upright or sideways paper, whichever takes fewer pages.
    private static (Tiling Tiling, Paper Paper) Better(ChartGeometry geometry, ChartWindow window, PlateOptions options, double below, ImmutableArray<ChartWindow> wholes)
    {
        var upright = Tiling.Over(geometry, window, Room(geometry.Work, options.Paper, options.Look, below), wholes);
        var sideways = Tiling.Over(geometry, window, Room(geometry.Work, options.Paper.Sideways, options.Look, below), wholes);
        return sideways.Count < upright.Count ? (sideways, options.Paper.Sideways) : (upright, options.Paper);
    }

    // What a page has left for the chart when its heading, rulers and joining marks are drawn.
    private static Box Room(Work work, Paper paper, Look look, double below)
    {
        var inner = Page.InnerOf(paper);
        double sides = ChartRulers.Sides(look, work), ends = ChartRulers.Ends(look), heading = Page.HeadingHeight(look);
        return new Box(inner.X + sides, inner.Y + heading + ends, inner.Width - 2 * sides, inner.Height - heading - 2 * ends - below);
    }

    private static List<Page> Pages(Tiling tiling, Paper paper, PlateOptions options, string heading, string lead, int firstPage, UnitSystem? checkLine, WorkingOrder? order, IReadOnlyCollection<Order.Step> steps)
    {
        var look = options.Look;
        var tiles = tiling.Tiles();
        var pages = new List<Page>(tiles.Length);
        var numbers = tiles.Select((tile, i) => (tile, i)).ToDictionary(t => (t.tile.Column, t.tile.Row), t => firstPage + t.i);
        foreach (var tile in tiles)
        {
            var part = tiles.Length == 1 ? "" : PartOf(tile.Window, tiling);
            var page = new Page(part.Length == 0 ? heading : $"{heading} {part}", paper, look);
            var title = part.Length == 0 ? heading : $"{heading} · {part}";
            page.Heading(title, lead, depth: pages.Count == 0 ? 0 : 1);
            Draw(page, tiling, tile, numbers, options.Levels, checkLine is null ? FootHeight : CheckLine.Height(look), $"{title}. {(checkLine is null ? FigureWords.Chart : FigureWords.TrueChart)}", order is null ? null : new StepMarks(tiling.Geometry, order, steps, tile.Window, look, bounded: true) { Bands = Excerpts.BandsIn(order, tile.Window) });
            if (checkLine is { } units) CheckLine.Draw(page, units);
            pages.Add(page);
        }
        return pages;
    }

    // A sheet is told by what it shows.
    private static string PartOf(ChartWindow window, Tiling tiling)
    {
        var work = tiling.Geometry.Work;
        var pleats = FormattableString.Invariant($"pleats {Math.Max(1, window.FirstPleat)} to {Math.Min(work.Pleating.Pleats, window.LastPleat)}");
        var rows = FormattableString.Invariant($"rows {Math.Max(0, window.FirstRow)} to {Math.Min(work.CableRows - 1, window.LastRow)}");
        return tiling.Rows == 1 ? pleats : tiling.Columns == 1 ? rows : $"{pleats}, {rows}";
    }

    private static void Draw(Page page, Tiling tiling, Tile tile, Dictionary<(int, int), int> numbers, LevelWords levels, double below, string alternate, StepMarks? steps)
    {
        var geometry = tiling.Geometry;
        var look = page.Look;
        var room = Room(geometry.Work, page.Paper, look, below);
        var box = geometry.BoxOf(tile.Window);
        var move = new Spot(room.X + (room.Width - box.Width) / 2 - box.X, room.Y - box.Y);
        var placed = box.Moved(move.X, move.Y);
        page.Figure(alternate,
            new Inset([.. ChartField.Draw(geometry, tile.Window, look, steps: steps), .. steps?.Draw(tile.Window) ?? []], move, placed),
            new Inset(ChartRulers.Draw(geometry, tile.Window, look, levels), move));
        if (tiling.Count > 1)
            Joins.Draw(page, new PageGrid(tiling.Columns, tiling.Rows, numbers), new GridPlace(tile.Column, tile.Row, placed,
                new Spot(tiling.PleatsAgain(tile.Column) * geometry.Pitch, tiling.RowsAgain(tile.Row) * geometry.RowHeight),
                new Spot(ChartRulers.Sides(look, geometry.Work), ChartRulers.Ends(look))));
    }

    // The chart laid as the cloth lies; a flat one is so already.
    private sealed class TrueCharts(Work work) : ISurfaceDrawings<(string Lead, TrueDrawing Drawing)?>
    {
        public (string, TrueDrawing)? Of(FlatSurface flat) => null;

        public (string, TrueDrawing)? Of(FanSurface fan) => ("on the arcs it is blocked to; pleat widths, in mm, at the rows’ ends", new RoundChart(work, fan));

        public (string, TrueDrawing)? Of(GlobeSurface globe) => ("in strips from pole to pole; pleat widths, in mm, at the right", new BallChart(work, globe));
    }
}
