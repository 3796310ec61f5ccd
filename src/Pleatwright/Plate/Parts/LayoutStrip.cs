using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>
/// The whole worked cloth at a glance, where every copy lies: each figure's centre line, the pleats it takes, the pleats between figures and
/// from centre to centre, its steps, and the copy that is charted.
/// </summary>
internal static class LayoutStrip
{
    private const double Lowest = 0.65; // of the height that rows have beside the pleats (our own choice)

    private const int MostLines = 3; // of measures, where figures overlap from side to side

    /// <summary>Draws it.</summary>
    /// <param name="order">The working order.</param>
    /// <param name="excerpts">What is charted.</param>
    /// <param name="width">Its width in millimetres.</param>
    /// <param name="most">Its height in millimetres at the most.</param>
    /// <param name="look">How it is dressed.</param>
    /// <param name="levels">How the work is held, for the words.</param>
    public static Drawing Draw(WorkingOrder order, ImmutableArray<Excerpt> excerpts, double width, double most, Look look, LevelWords levels)
    {
        var work = order.Work;
        var window = new ChartGeometry(work, 1, 1).Everything;
        var bands = Bands(order);
        var aside = bands.Select(b => Typeface.Width(b.Words, Strong(look)) + 2).Append(0).Max();
        var sides = Math.Max(ChartRulers.LeftOf(work, look) + 1, aside);
        var gauge = work.Pleating.Gauge;
        var figures = Figures(order);
        var lines = Measures(figures);
        double leading = look.Ruler.Points * 0.45, above = lines.Count * (leading * 2.35 + 1.8) + leading + 1.4;
        var told = Wrapping.Lines(Told(figures.Count, bands.Count), ChartRulers.Caption(look), width);
        var below = leading + 3 + told.Count * leading * 1.1;
        // rows may be drawn lower than they lie, before the whole is drawn smaller
        double across = (width - 2 * sides) / (window.Pleats * gauge.Pitch.Millimetres), down = (most - above - below) / (window.Rows * 2 * gauge.LineHeight.Millimetres);
        across = Math.Max(0.05, Math.Min(across, down / Lowest));
        var geometry = new ChartGeometry(work, gauge.Pitch.Millimetres * across, gauge.LineHeight.Millimetres * Math.Max(0.02, Math.Min(across, down)));
        var box = geometry.BoxOf(window);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        marks.Add(new Inset([.. Field(geometry, window, look), .. Marks(geometry, order, look)], default, box));
        marks.Add(new Shape(Outline.Rectangle(box), null, new Pen(look.Quiet, 0.15)));
        GatheringRows(geometry, box, look, marks);
        BandSteps(geometry, box, bands, look, marks);
        foreach (var excerpt in excerpts)
        {
            var charted = geometry.BoxOf(excerpt.Window);
            var seen = new Box(Math.Max(charted.X, box.X), Math.Max(charted.Y, box.Y), 0, 0);
            seen = seen with { Width = Math.Min(charted.Right, box.Right) - seen.X, Height = Math.Min(charted.Bottom, box.Bottom) - seen.Y };
            if (seen.Width > 0 && seen.Height > 0) marks.Add(new Shape(Outline.Rectangle(seen), null, new Pen(look.Accent, 0.35)));
        }
        var y = box.Y - 1;
        y = StepsOf(geometry, figures, look, y, leading, marks);
        foreach (var line in lines) y = Measure(geometry, line, window, look, y, leading, marks);
        Ruler(geometry, box, look, new Vocabulary(levels), marks);
        foreach (var (i, line) in told.Index())
            marks.Add(new Lettering(new Spot(box.Centre.X, box.Bottom + leading + 3 + i * leading * 1.1 + Typeface.CapHeight(look.Ruler)), line, ChartRulers.Caption(look), Anchor.Middle));
        var view = new Box(box.X - sides, box.Y - above - 1, box.Width + 2 * sides, box.Height + above + below + 1);
        return new Drawing(view, marks.ToImmutable());
    }

    // Its key: what stands round it.
    private static string Told(int figures, int bands) => "Frames: what is charted below."
        + (figures == 0 ? "" : figures == 1 ? " Above: the figure’s steps, its pleats and those beside it." : " Above: each figure’s steps, its pleats and those between, and pleats from centre to centre.")
        + (bands == 0 ? "" : " At the right: steps worked right across.");

    private static TypeStyle Strong(Look look) => look.Ruler with { Face = Face.TextBold, Colour = look.Ink };

    // What is worked right across, with its steps, in cable rows from the top; those of the directions' bands are B and a number.
    private static List<(double Row, string Words)> Bands(WorkingOrder order)
    {
        var work = order.Work;
        var found = new List<(double Row, string Words)>();
        foreach (var group in order.Steps.GroupBy(s => order.Parts.InOrder[order.Parts.Of(s.RunIndex)].Figure))
        {
            var box = Excerpts.BoxOf(group);
            if (box.Pleats * 3 <= work.Pleating.Pleats * 2) continue;
            var (first, last) = (group.Min(s => s.Number), group.Max(s => s.Number));
            found.Add(((box.FirstRow + box.LastRow + 1) / 2.0, first == last ? Number(first) : $"{Number(first)}–{Number(last)}"));
        }
        foreach (var band in order.Bands.Steps.Index().GroupBy(s => s.Item.Band))
            if (ThreadShapes.SpanOf(work, band.Key) is { } span)
            {
                var (first, last) = (band.Min(s => s.Index) + 1, band.Max(s => s.Index) + 1);
                found.Add(((span.FirstRow + span.LastRow + 1) / 2.0, first == last ? $"B{Number(first)}" : $"B{Number(first)}–{Number(last)}"));
            }
        return [.. found.OrderBy(b => b.Row)];
    }

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    // At the right, each beside its rows; where they lie close they are pushed apart, and a line leads to their rows.
    private static void BandSteps(ChartGeometry geometry, Box box, List<(double Row, string Words)> bands, Look look, ImmutableArray<Mark>.Builder marks)
    {
        if (bands.Count == 0) return;
        var style = Strong(look);
        var cap = Typeface.CapHeight(style);
        var apart = cap * 1.5;
        var places = bands.Select(b => b.Row * geometry.RowHeight).ToArray();
        var spread = places.ToArray();
        for (var i = 1; i < spread.Length; i++) spread[i] = Math.Max(spread[i], spread[i - 1] + apart);
        // no lower than the foot of the strip
        for (var i = spread.Length - 1; i >= 0; i--) spread[i] = Math.Min(spread[i], i + 1 < spread.Length ? spread[i + 1] - apart : box.Bottom - cap / 2);
        var lines = new OutlineBuilder();
        for (var i = 0; i < spread.Length; i++)
        {
            lines.Line(box.Right, places[i], box.Right + 1.4, spread[i]);
            marks.Add(new Lettering(new Spot(box.Right + 1.8, spread[i] + cap / 2), bands[i].Words, style));
        }
        marks.Add(new Shape(lines.Build(), null, new Pen(look.Quiet, 0.15)));
    }

    /// <summary>What of it the key explains beside its stitches; its own words stand above it.</summary>
    public static IEnumerable<Sign> Signs(Work work, Look look)
    {
        var geometry = new ChartGeometry(work, 1, 1);
        return ((IEnumerable<Mark>)[.. ChartCloth.Draw(geometry, geometry.Everything, look), .. ChartCloth.DrawCentre(geometry, geometry.Everything, look)]).Select(m => m.Means).OfType<Sign>();
    }

    private sealed record Figure(int From, int To, int First, int Last);

    // Figures with the steps they are worked in, in pleats; bands are not among them.
    private static List<Figure> Figures(WorkingOrder order)
    {
        var work = order.Work;
        var found = new List<Figure>();
        foreach (var group in order.Steps.GroupBy(s => order.Parts.InOrder[order.Parts.Of(s.RunIndex)].Figure))
        {
            var box = Excerpts.BoxOf(group);
            if (box.Pleats * 3 > work.Pleating.Pleats * 2) continue;
            found.Add(new(box.FirstPleat, box.LastPleat, group.Min(s => s.Number), group.Max(s => s.Number)));
        }
        return [.. found.OrderBy(f => f.From)];
    }

    // Lines of figures that do not overlap, so that each can be measured along one line.
    private static List<List<Figure>> Measures(List<Figure> figures)
    {
        var lines = new List<List<Figure>>();
        foreach (var figure in figures)
        {
            var line = lines.FirstOrDefault(l => l[^1].To < figure.From);
            if (line is null && lines.Count == MostLines) continue;
            if (line is null) lines.Add(line = []);
            line.Add(figure);
        }
        return lines;
    }

    private static ImmutableArray<Mark> Field(ChartGeometry geometry, ChartWindow window, Look look)
    {
        var work = geometry.Work;
        var bars = work.Piece.Threads.ToDictionary(t => t.Key, _ => new OutlineBuilder());
        foreach (var run in work.Runs)
        {
            var left = geometry.LeftOf(run.FirstPleat);
            bars[run.Thread].Rectangle(new Box(left, geometry.RowHeight * run.Row.Index, geometry.LeftOf(run.LastPleat) + geometry.Pitch - left, geometry.RowHeight));
        }
        return
        [
            .. ChartCloth.Draw(geometry, window, look),
            .. ThreadShapes.Bands(geometry, window, null),
            .. work.Piece.Threads.Where(t => !bars[t.Key].IsEmpty).Select(t => new Shape(bars[t.Key].Build(), t.Colour, new Pen(Look.Mix(t.Colour, look.Ink, 0.45), 0.06))),
            .. ThreadShapes.Accents(geometry, window, null),
            .. ChartCloth.DrawCentre(geometry, window, look),
        ];
    }

    // Where threads begin and end along runs longer than one needleful reaches.
    private static IEnumerable<Mark> Marks(ChartGeometry geometry, WorkingOrder order, Look look)
    {
        var (dots, rings) = (new OutlineBuilder(), new OutlineBuilder());
        var begun = new List<(bool Right, double X, double Y, int Number)>();
        var r = Math.Clamp(geometry.RowHeight * 0.5, 0.4, 0.7);
        foreach (var step in order.Steps.Where(s => s.Continues || s.GoesOn))
        {
            var right = order.TravelsRight(step);
            var y = geometry.Middle(step.Row);
            var begins = (right ? step.From.Number - 1 : step.From.Number + 1) * geometry.Pitch + (right ? r : -r);
            begun.Add((right, begins, y, step.Number));
            dots.Rectangle(new Box(begins - r * 0.85, y - r * 0.85, r * 1.7, r * 1.7));
            rings.Circle(new Spot((right ? step.To.Number + 1 : step.To.Number - 1) * geometry.Pitch + (right ? -r : r), y), r);
        }
        if (!rings.IsEmpty) yield return new Shape(rings.Build(), Colour.White, new Pen(look.Ink, r * 0.35));
        // those that begin at one place are told together, above the highest of them
        var style = Strong(look);
        var cap = Typeface.CapHeight(style);
        foreach (var place in Together(begun, cap * 1.6))
        {
            var words = string.Join(", ", place.Select(b => Number(b.Number)));
            var (x, y, wide) = (place[0].X + (place[0].Right ? 1 : -1) * r * 2, place.Min(b => b.Y) - geometry.RowHeight * 0.5 - 0.6, Typeface.Width(words, style));
            yield return new Shape(Outline.Rounded(new Box(place[0].Right ? x - 0.4 : x - wide - 0.4, y - cap - 0.3, wide + 0.8, cap + 0.6), 0.4), Colour.White);
            yield return new Lettering(new Spot(x, y), words, style, place[0].Right ? Anchor.Start : Anchor.End);
        }
        if (!dots.IsEmpty) yield return new Shape(dots.Build(), look.Ink, new Pen(Colour.White, r * 0.3));
    }

    private static IEnumerable<List<(bool Right, double X, double Y, int Number)>> Together(List<(bool Right, double X, double Y, int Number)> begun, double apart)
    {
        foreach (var column in begun.GroupBy(b => (b.Right, Math.Round(b.X))))
        {
            var last = new List<(bool Right, double X, double Y, int Number)>();
            foreach (var one in column.OrderBy(b => b.Y))
            {
                if (last.Count > 0 && one.Y - last[^1].Y > apart)
                {
                    yield return last;
                    last = [];
                }
                last.Add(one);
            }
            yield return last;
        }
    }

    private static double StepsOf(ChartGeometry geometry, List<Figure> figures, Look look, double y, double leading, ImmutableArray<Mark>.Builder marks)
    {
        var style = look.Ruler with { Face = Face.TextBold, Colour = look.Ink };
        var right = double.NegativeInfinity;
        foreach (var figure in figures)
        {
            var words = figure.First == figure.Last ? FormattableString.Invariant($"{figure.First}") : FormattableString.Invariant($"{figure.First}–{figure.Last}");
            var (x, wide) = ((figure.From - 1 + figure.To) / 2.0 * geometry.Pitch, Typeface.Width(words, style));
            if (x - wide / 2 < right + 1) continue;
            marks.Add(new Lettering(new Spot(x, y - 0.4), words, style, Anchor.Middle));
            right = x + wide / 2;
        }
        return figures.Count > 0 ? y - leading - 0.4 : y;
    }

    // Two lines: the pleats of figures and between them; from centre to centre.
    private static double Measure(ChartGeometry geometry, List<Figure> line, ChartWindow window, Look look, double y, double leading, ImmutableArray<Mark>.Builder marks)
    {
        var ticks = new OutlineBuilder();
        double near = y - leading * 0.35, far = near - leading * 1.35 - 0.9, over = double.NegativeInfinity;
        var cap = Typeface.CapHeight(look.Ruler);
        int first = Math.Max(1, window.FirstPleat), last = Math.Min(geometry.Work.Pleating.Pleats, window.LastPleat);
        var edges = new List<int> { first - 1 };
        foreach (var figure in line) edges.AddRange([figure.From - 1, figure.To]);
        edges.Add(last);
        for (var i = 0; i + 1 < edges.Count; i++) Between(edges[i], edges[i + 1], near, edges[i + 1] - edges[i], i % 2 == 1 ? look.Ruler with { Face = Face.TextBold, Colour = look.Ink } : look.Ruler, 0.8);
        over = double.NegativeInfinity;
        for (var i = 0; i + 1 < line.Count; i++)
        {
            double a = (line[i].From - 1 + line[i].To) / 2.0, b = (line[i + 1].From - 1 + line[i + 1].To) / 2.0;
            Between(a, b, far, b - a, look.Ruler, 1.2);
        }
        marks.Add(new Shape(ticks.Build(), null, new Pen(look.Quiet, 0.15)));
        return line.Count > 1 ? far - leading * 0.65 : near - leading * 0.65;

        void Between(double from, double to, double at, double count, TypeStyle style, double tick)
        {
            if (to <= from) return;
            double a = from * geometry.Pitch, b = to * geometry.Pitch;
            ticks.Line(a, at - tick, a, at + tick).Line(b, at - tick, b, at + tick);
            var words = count.ToString("0.#", CultureInfo.InvariantCulture);
            var wide = Typeface.Width(words, style) + 1.2;
            var middle = (a + b) / 2;
            if (wide > b - a)
            {
                ticks.Line(a, at, b, at);
                // over its line, smaller where its neighbours do so too
                var small = style with { Points = style.Points * 0.8 };
                wide = Typeface.Width(words, small) + 0.6;
                if (middle - wide / 2 < over) return;
                over = middle + wide / 2;
                marks.Add(new Lettering(new Spot(middle, at - tick - 0.3), words, small, Anchor.Middle));
                return;
            }
            ticks.Line(a, at, middle - wide / 2, at).Line(middle + wide / 2, at, b, at);
            marks.Add(new Lettering(new Spot(middle, at + cap / 2), words, style, Anchor.Middle));
        }
    }

    // Every gathering row, numbered where there is room.
    private static void GatheringRows(ChartGeometry geometry, Box box, Look look, ImmutableArray<Mark>.Builder marks)
    {
        var style = look.Ruler with { Face = Face.TextBold, Colour = look.Accent };
        var cap = Typeface.CapHeight(style);
        var space = geometry.RowHeight * geometry.RowsPerSpace;
        var every = Math.Max(1, (int)Math.Ceiling(cap * 1.35 / space));
        for (var g = 1; g <= geometry.Work.Pleating.Cloth.GatheringRows; g++)
            if ((g - 1) % every == 0)
                marks.Add(new Lettering(new Spot(box.X - 1.5, geometry.Down(new GatheringRow(g)) + cap / 2), g.ToString(CultureInfo.InvariantCulture), style, Anchor.End));
    }

    // Pleats from the centre both ways.
    private static void Ruler(ChartGeometry geometry, Box box, Look look, Vocabulary words, ImmutableArray<Mark>.Builder marks)
    {
        var work = geometry.Work;
        var every = ChartRulers.Every(geometry.Pitch, look);
        if (geometry.Pitch * every < 9) every *= 2;
        var middle = Order.Telling.Middle.Of(work);
        var cap = Typeface.CapHeight(look.Ruler);
        var ticks = new OutlineBuilder();
        for (var p = 1; p <= work.Pleating.Pleats; p++)
        {
            var away = middle.To(new Pleat(p), false).Count;
            if (away % every != 0) continue;
            var x = (p - 0.5) * geometry.Pitch;
            ticks.Line(x, box.Bottom, x, box.Bottom + 1);
            marks.Add(new Lettering(new Spot(x, box.Bottom + 1.5 + cap), away.ToString(CultureInfo.InvariantCulture), look.Ruler, Anchor.Middle));
        }
        var centre = geometry.Across(new Valley(work.Pleating.CentreValley));
        marks.Add(new Shape(Outline.Polygon(new(centre - 1, box.Bottom + 2), new(centre + 1, box.Bottom + 2), new(centre, box.Bottom + 0.3)), look.Ink));
        if (!ticks.IsEmpty) marks.Add(new Shape(ticks.Build(), null, new Pen(look.Quiet, 0.15)));
        marks.Add(new Lettering(new Spot(box.X - 1.5, box.Bottom + 1.5 + cap), words.Letter(Flank.Left), ChartRulers.Caption(look), Anchor.End));
        marks.Add(new Lettering(new Spot(box.Right + 1.5, box.Bottom + 1.5 + cap), words.Letter(Flank.Right), ChartRulers.Caption(look)));
    }
}
