using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>Stitches off the lattice: geometric bands, which lie under the cables, and accents, which lie over them.</summary>
internal static class ThreadShapes
{
    private const int LetterEvery = 12; // pleats

    /// <summary>Draws the bands as they show in a part of the chart.</summary>
    /// <param name="geometry">Where everything lies.</param>
    /// <param name="window">The part of the chart.</param>
    /// <param name="look">How charts are dressed; null draws thread as it lies on the finished cloth.</param>
    /// <param name="steps">What is written on the chart, which the threads' letters keep clear of; or null.</param>
    public static ImmutableArray<Mark> Bands(ChartGeometry geometry, ChartWindow window, Look? look, StepMarks? steps = null)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var letters = new List<Mark>();
        ImmutableArray<Box> taken = [.. steps?.Taken ?? []];
        foreach (var band in geometry.Work.Bands)
        {
            if (geometry.Work.Piece.Thread(band.Band.Thread) is not { } thread || Span(band, geometry.RowsPerSpace) is not { } span || !Shows(span, window)) continue;
            var pen = new ShapePen(geometry, thread, look);
            foreach (var pass in band.Passes)
            {
                foreach (var shape in StitchDrawing.Shapes(pass, geometry.RowsPerSpace))
                    if (Math.Max(shape.From.Across, shape.To.Across) >= window.FirstPleat - 1 && Math.Min(shape.From.Across, shape.To.Across) <= window.LastPleat)
                        pen.Add(shape);
                if (look is not null) letters.AddRange(Letters(geometry, window, pass, thread, look, taken));
            }
            marks.AddRange(pen.Marks());
        }
        marks.AddRange(letters);
        return marks.ToImmutable();
    }

    /// <summary>Draws the accents as they show in a part of the chart.</summary>
    /// <inheritdoc cref="Bands"/>
    public static ImmutableArray<Mark> Accents(ChartGeometry geometry, ChartWindow window, Look? look)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var gauge = geometry.Work.Pleating.Gauge;
        foreach (var accent in geometry.Work.Accents)
        {
            if (geometry.Work.Piece.Thread(accent.Mark.Thread) is not { } thread || !Shows(Span(accent, geometry.RowsPerSpace), window)) continue;
            var pen = new ShapePen(geometry, thread, look);
            foreach (var shape in accent.Accent.Shapes(accent, gauge)) pen.Add(shape);
            marks.AddRange(pen.Marks());
            if (look is not null) marks.AddRange(Letter(geometry, new(accent.Valley.Number, StitchDrawing.Down(accent.Depth, geometry.RowsPerSpace)), thread, look));
        }
        return marks.ToImmutable();
    }

    /// <summary>The parts of the chart that bands and accents reach into, each as a window; those beyond the cloth left out.</summary>
    internal static IEnumerable<ChartWindow> Spans(Work work)
    {
        var cloth = new ChartGeometry(work, 1, 1).Everything with { FirstPleat = 1, LastPleat = work.Pleating.Pleats };
        var rows = work.Pleating.Gauge.CableRowsPerSpace;
        return work.Bands.Select(band => Span(band, rows))
            .Concat(work.Accents.Select(accent => (Extent?)Span(accent, rows)))
            .OfType<Extent>()
            .Select(span => OnCloth(work, span))
            .Where(window => Meet(window, cloth));
    }

    /// <summary>The part of the chart that a band off the lattice reaches into; null where nothing of it is stitched.</summary>
    internal static ChartWindow? SpanOf(Work work, LaidBand band) => Span(band, work.Pleating.Gauge.CableRowsPerSpace) is { } span ? OnCloth(work, span) : null;

    /// <summary>The parts of the chart that accents reach into.</summary>
    internal static IEnumerable<(LaidAccent Accent, ChartWindow Span)> AccentSpans(Work work) =>
        work.Accents.Where(a => a.IsOnCloth(work)).Select(a => (a, OnCloth(work, Span(a, work.Pleating.Gauge.CableRowsPerSpace))));

    private static ChartWindow OnCloth(Work work, Extent span) =>
        new(Math.Max(1, span.FirstPleat), Math.Min(work.Pleating.Pleats, span.LastPleat), (int)Math.Floor(span.Top), (int)Math.Ceiling(span.Bottom) - 1);

    /// <summary>Whether windows have a pleat and a row in common.</summary>
    internal static bool Meet(ChartWindow a, ChartWindow b) =>
        a.FirstPleat <= b.LastPleat && b.FirstPleat <= a.LastPleat && a.FirstRow <= b.LastRow && b.FirstRow <= a.LastRow;

    // In cable rows from the upper edge of row 0, and in pleats.
    private readonly record struct Extent(int FirstPleat, int LastPleat, double Top, double Bottom);

    private static bool Shows(Extent span, ChartWindow window) =>
        span.FirstPleat <= window.LastPleat && span.LastPleat >= window.FirstPleat && span.Top <= window.LastRow + 1 && span.Bottom >= window.FirstRow;

    private static Extent? Span(LaidBand band, int rowsPerSpace)
    {
        if (band.Passes.IsEmpty) return null;
        int first = int.MaxValue, last = 0;
        foreach (var pass in band.Passes)
        {
            int a = pass.Stitches[0].From.Pleat.Number, b = pass.Stitches[^1].To.Pleat.Number;
            (first, last) = (Math.Min(first, Math.Min(a, b)), Math.Max(last, Math.Max(a, b)));
        }
        return new Extent(first, last, (StitchDrawing.Down(band.Highest, rowsPerSpace) - 1) / 2, (StitchDrawing.Down(band.Lowest, rowsPerSpace) + 1) / 2);
    }

    private static Extent Span(LaidAccent accent, int rowsPerSpace)
    {
        var middle = StitchDrawing.Down(accent.Depth, rowsPerSpace) / 2;
        var half = Math.Max(2, accent.Accent.Across(accent) / 2 + 1);
        return new Extent(accent.Valley.Number - half + 1, accent.Valley.Number + half, middle - 1.5 - accent.Size, middle + 1.5 + accent.Size);
    }

    // The thread's letter on the first stitch of a pass, and again every so many pleats, where nothing is written.
    private static IEnumerable<Mark> Letters(ChartGeometry geometry, ChartWindow window, Pass pass, Floss thread, Look look, ImmutableArray<Box> taken)
    {
        var points = Math.Round(Math.Min(ChartBricks.LetterPoints(geometry), 14), 2);
        if (points < ThreadLetters.SmallestLetter) yield break;
        var radius = points * Disc;
        var due = false;
        for (var i = 0; i < pass.Stitches.Length; i++)
        {
            var stitch = pass.Stitches[i];
            var pleat = Math.Min(stitch.From.Pleat.Number, stitch.To.Pleat.Number);
            due |= i == 0 || (pleat % LetterEvery == 0 && stitch.From.Pleat != stitch.To.Pleat);
            if (!due || pleat < window.FirstPleat || pleat > window.LastPleat) continue;
            var at = new Spot((stitch.From.Pleat.Number + stitch.To.Pleat.Number - 1) / 2.0 * geometry.Pitch, StitchDrawing.Down((stitch.From.Depth + stitch.To.Depth) / 2, geometry.RowsPerSpace) * geometry.LineHeight);
            // else on the next stitch that has room
            if (taken.Any(b => b.Grown(radius).Holds(at))) continue;
            due = false;
            foreach (var mark in ThreadLetters.Draw(thread, at, radius, look)) yield return mark;
        }
    }

    private const double Disc = Typeface.MillimetresPerPoint * 0.62; // its radius in points of the letter

    private static IEnumerable<Mark> Letter(ChartGeometry geometry, ChartPlace at, Floss thread, Look look)
    {
        var points = Math.Round(Math.Min(ChartBricks.LetterPoints(geometry), 14), 2);
        return points < ThreadLetters.SmallestLetter ? [] : ThreadLetters.Draw(thread, new Spot(at.Across * geometry.Pitch, at.Down * geometry.LineHeight), points * Disc, look);
    }

    // Gathers shapes of one thread, all of one width together.
    private sealed class ShapePen(ChartGeometry geometry, Floss thread, Look? look)
    {
        private readonly SortedDictionary<double, OutlineBuilder> bars = [];
        private readonly OutlineBuilder hidden = new();
        private readonly OutlineBuilder solids = new();
        private readonly OutlineBuilder ribs = new();

        public void Add(StitchShape shape)
        {
            var from = At(shape.From);
            var to = At(shape.To);
            var width = shape.Width * geometry.LineHeight;
            switch (shape.Kind)
            {
                case ShapeKind.Hidden:
                    if (look is not null) hidden.Line(from.X, from.Y, to.X, to.Y);
                    break;
                case ShapeKind.Bar:
                    Bar(from, to, width);
                    break;
                case ShapeKind.Coil:
                    Bar(from, to, width);
                    Ribs(from, to, width);
                    break;
                case ShapeKind.Knot:
                    var r = width / 2;
                    solids.Circle(from, r);
                    ribs.MoveTo(from.X - r * 0.5, from.Y + r * 0.2).CurveTo(new(from.X - r * 0.6, from.Y - r * 0.7), new(from.X + r * 0.6, from.Y - r * 0.7), new(from.X + r * 0.5, from.Y + r * 0.2));
                    break;
                default:
                    Drop(from, to, width);
                    break;
            }
        }

        public IEnumerable<Mark> Marks()
        {
            var edge = look is null ? Look.Darker(thread.Colour, 0.26) : Look.Mix(thread.Colour, look.Ink, 0.45);
            if (!hidden.IsEmpty && look is not null)
                yield return new Shape(hidden.Build(), null, new Pen(look.Quiet, Math.Min(0.25, geometry.LineHeight * 0.15)) { Dashes = (geometry.LineHeight * 0.4, geometry.LineHeight * 0.3) });
            foreach (var (width, outline) in bars) yield return new Shape(outline.Build(), null, new Pen(edge, width) { Round = true });
            foreach (var (width, outline) in bars) yield return new Shape(outline.Build(), null, new Pen(thread.Colour, Math.Max(width * 0.78, width - 0.3)) { Round = true });
            if (look is null)
                foreach (var (width, outline) in bars)
                    if (width >= 0.3) yield return new Shape(outline.Build(), null, new Pen(Look.Lighter(thread.Colour, 0.25), width * 0.14) { Round = true });
            var fine = Math.Min(0.2, geometry.LineHeight * 0.12);
            if (!solids.IsEmpty) yield return new Shape(solids.Build(), thread.Colour, new Pen(edge, fine));
            if (!ribs.IsEmpty) yield return new Shape(ribs.Build(), null, new Pen(edge, fine) { Round = true });
        }

        private Spot At(ChartPlace place) => new(place.Across * geometry.Pitch, place.Down * geometry.LineHeight);

        // The round ends stay inside the stitch.
        private void Bar(Spot from, Spot to, double width)
        {
            double dx = to.X - from.X, dy = to.Y - from.Y;
            var length = Math.Sqrt(dx * dx + dy * dy);
            var cut = length <= width ? 0.45 : width / 2 / length;
            width = Math.Round(width, 4);
            if (!bars.TryGetValue(width, out var outline)) bars[width] = outline = new OutlineBuilder();
            outline.Thread(from.X + dx * cut, from.Y + dy * cut, to.X - dx * cut, to.Y - dy * cut);
        }

        private void Ribs(Spot from, Spot to, double width)
        {
            double dx = to.X - from.X, dy = to.Y - from.Y;
            var length = Math.Max(1e-6, Math.Sqrt(dx * dx + dy * dy));
            double nx = -dy / length * width * 0.4, ny = dx / length * width * 0.4;
            var turns = Math.Clamp((int)(length / (width * 0.35)), 2, 40);
            for (var i = 1; i < turns; i++)
            {
                double x = from.X + dx * i / turns, y = from.Y + dy * i / turns, lean = width * 0.12;
                ribs.Line(x + nx - dx / length * lean, y + ny - dy / length * lean, x - nx + dx / length * lean, y - ny + dy / length * lean);
            }
        }

        // A loop: its point where it begins, its belly where it ends.
        private void Drop(Spot from, Spot to, double width)
        {
            double dx = to.X - from.X, dy = to.Y - from.Y;
            var length = Math.Max(1e-6, Math.Sqrt(dx * dx + dy * dy));
            double nx = -dy / length * width * 0.75, ny = dx / length * width * 0.75;
            solids.MoveTo(from.X, from.Y)
                .CurveTo(new(from.X + dx * 0.4 + nx, from.Y + dy * 0.4 + ny), new(to.X + nx, to.Y + ny), to)
                .CurveTo(new(to.X - nx, to.Y - ny), new(from.X + dx * 0.4 - nx, from.Y + dy * 0.4 - ny), from).Close();
            ribs.Line(from.X + dx * 0.35, from.Y + dy * 0.35, from.X + dx * 0.75, from.Y + dy * 0.75);
        }
    }
}
