using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>
/// The wrong side, seen from behind with the top edge up: the last pleat lies at the left. Backsmocking as bricks, carries
/// and thread inside folds as lines, and the stitching of the front in grey.
/// </summary>
internal static class BackView
{
    internal const string Heading = "The back";

    /// <summary>Whether there is anything to see on the back: backsmocking, carries, or thread inside the folds.</summary>
    public static bool IsWanted(WorkingOrder order) =>
        !order.Backsmock.Rows.IsEmpty || order.CarriedInAll > Measure.Length.Zero || HasSlips(order.Work);

    private static bool HasSlips(Work work) => work.Bands.Any(b => b.Passes.Any(p => p.Stitches.Any(s => s.Kind == StitchKind.Slip)));

    private static bool HasCarries(WorkingOrder order) => ByThread(order, BackPathKind.Carry).Any() || BackPath.CarriesOfBacksmocking(order).Any();

    // Pleats this wide (millimetres) can be followed; narrower ones are better shown larger, in strips. Learners have them easy to follow.
    private const double Followed = 0.9, Easy = 2.4;

    // A view in one piece is easier to read, so strips must show the pleats this much wider.
    private const double WorthStrips = 1.25;

    private const double BetweenStrips = 4;

    /// <summary>Which way round it is seen.</summary>
    public static string Lead(Work work) => FormattableString.Invariant($"seen from behind: pleats {work.Pleating.Pleats} to 1 from left to right");

    /// <summary>As few strips, one under another, as make the pleats wide enough to follow, else as many as show them widest.</summary>
    /// <param name="order">The working order.</param>
    /// <param name="width">Width of the page in millimetres.</param>
    /// <param name="room">Its height.</param>
    /// <param name="look">How it is dressed.</param>
    /// <param name="easy">Whether it is to be easy to follow; else as small as serves.</param>
    public static ImmutableArray<Drawing> Strips(WorkingOrder order, double width, double room, Look look, bool easy)
    {
        var wanted = easy || look.Large ? Easy : Followed;
        var all = order.Work.Pleating.Pleats;
        var across = width - 2 * ChartRulers.Sides(look, order.Work);
        var tall = new View(order.Work, 1, 1, all).Box.Height; // for each millimetre of pitch
        var (strips, each, pitch) = (1, all, Pitch(1, all));
        for (var more = 2; pitch < wanted; more++)
        {
            var fewer = (all + (more - 1) * Tiling.OverlapPleats + more - 1) / more;
            if (fewer <= 2 * Tiling.OverlapPleats || Pitch(more, fewer) <= pitch) break;
            (strips, each, pitch) = (more, fewer, Pitch(more, fewer));
        }
        if (pitch < WorthStrips * Pitch(1, all)) (strips, each, pitch) = (1, all, Pitch(1, all));
        return
        [
            .. Enumerable.Range(0, strips).Select(i => all - i * (each - Tiling.OverlapPleats))
                .Select(last => Draw(order, new View(order.Work, pitch, Math.Max(1, last - each + 1), last), look)),
        ];

        // The widest pleats at which so many strips of so many pleats fit, one under another.
        double Pitch(int count, int pleats) =>
            Math.Min(across / pleats, (room - count * (Above + Below) - (count - 1) * BetweenStrips) / (count * tall));
    }

    /// <summary>What the view shows, for its caption.</summary>
    public static string Words(WorkingOrder order) =>
        (order.Backsmock.Rows.IsEmpty ? "" : "Bricks are backsmocking, worked first. ")
        + (order.Work.Runs.Length + order.Work.Bands.Length > 0 ? "Grey is the stitching of the front. " : "")
        + (HasCarries(order) ? "Lines are threads carried on the back. " : "") + (HasSlips(order.Work) ? "Broken lines are threads inside the folds. " : "")
        + (ByThread(order, BackPathKind.Start).Any() ? "A square is where a thread starts, a ring where it is tied off. " : "")
        + FormattableString.Invariant($"Pleats have the numbers of the front, so that seen from behind they run from {order.Work.Pleating.Pleats} at the left down to 1.");

    /// <summary>Draws it in one piece.</summary>
    /// <param name="order">The working order.</param>
    /// <param name="width">Its width in millimetres, rulers and all.</param>
    /// <param name="look">How the plate looks.</param>
    public static Drawing Draw(WorkingOrder order, double width, Look look)
    {
        var pleats = order.Work.Pleating.Pleats;
        return Draw(order, new View(order.Work, (width - 2 * ChartRulers.Sides(look, order.Work)) / pleats, 1, pleats), look);
    }

    // Room for the numbers above, and a little below, in millimetres.
    private const double Above = 9, Below = 2;

    private static Drawing Draw(WorkingOrder order, View view, Look look)
    {
        var box = view.Box;
        var sides = ChartRulers.Sides(look, order.Work);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        Cloth(view, look, marks);
        Front(view, look, marks);
        Rows(view, look, marks);
        Hidden(view, marks);
        Carries(view, order, marks);
        Backsmocking(view, order, look, marks);
        Ends(view, order, marks);
        return new Drawing(new Box(box.X - sides, box.Y - Above, box.Width + 2 * sides, box.Height + Above + Below),
            [new Inset(marks.ToImmutable(), default, box), .. Rulers(view, look)]);
    }

    private static void Cloth(View view, Look look, ImmutableArray<Mark>.Builder marks)
    {
        var pleats = new OutlineBuilder();
        for (var p = view.First; p <= view.Last; p++) pleats.Rectangle(new Box(view.X(p) + view.Pitch * 0.08, view.Box.Y, view.Pitch * 0.84, view.Box.Height));
        marks.Add(new Shape(pleats.Build(), look.Pleat));
    }

    private static void Front(View view, Look look, ImmutableArray<Mark>.Builder marks)
    {
        var grey = Look.Darker(look.Pleat, 0.16);
        var runs = new OutlineBuilder();
        foreach (var run in view.Work.Runs)
            if (view.Shows(run.FirstPleat.Number - 1, run.LastPleat.Number)) runs.Rectangle(new Box(view.X(run.LastPleat.Number), 2 * run.Row.Index * view.Line, run.Cables * view.Pitch + view.Pitch, 2 * view.Line));
        if (!runs.IsEmpty) marks.Add(new Shape(runs.Build(), grey));
        var bands = new OutlineBuilder();
        foreach (var shape in view.Shapes)
            if (shape.Kind != ShapeKind.Hidden && view.Shows(shape)) bands.Line(view.X(shape.From.Across), shape.From.Down * view.Line, view.X(shape.To.Across), shape.To.Down * view.Line);
        if (!bands.IsEmpty) marks.Add(new Shape(bands.Build(), null, new Pen(grey, view.Line * 0.7)));
    }

    private static void Rows(View view, Look look, ImmutableArray<Mark>.Builder marks)
    {
        var rows = new OutlineBuilder();
        for (var g = 0; g < view.Work.Piece.Cloth.GatheringRows; g++) rows.Line(view.Box.X, view.Y(g), view.Box.Right, view.Y(g));
        marks.Add(new Shape(rows.Build(), null, new Pen(look.Accent, 0.2)));
        var centre = view.X(view.Work.Pleating.CentreValley);
        marks.Add(new Shape(Outline.Line(centre, view.Box.Y, centre, view.Box.Bottom), null, new Pen(look.Ink, 0.2) { Dashes = (1.6, 0.8) }));
    }

    private static void Hidden(View view, ImmutableArray<Mark>.Builder marks)
    {
        foreach (var band in view.Work.Bands)
        {
            var slips = new OutlineBuilder();
            foreach (var shape in band.Passes.SelectMany(p => StitchDrawing.Shapes(p, view.PerSpace)))
                if (shape.Kind == ShapeKind.Hidden && view.Shows(shape)) slips.Line(view.X(shape.From.Across), shape.From.Down * view.Line, view.X(shape.To.Across), shape.To.Down * view.Line);
            if (!slips.IsEmpty)
                marks.Add(new Shape(slips.Build(), null, new Pen(view.Work.Piece.Thread(band.Band.Thread)!.Colour, Math.Min(0.4, view.Pitch * 0.3)) { Dashes = (0.7, 0.5) }));
        }
    }

    private static void Carries(View view, WorkingOrder order, ImmutableArray<Mark>.Builder marks)
    {
        foreach (var (thread, paths) in ByThread(order, BackPathKind.Carry))
        {
            var outline = new OutlineBuilder();
            foreach (var path in paths)
                for (var i = 0; i + 1 < path.Points.Length; i++)
                {
                    if (!view.Shows(path.Points[i].Pleat, path.Points[i + 1].Pleat)) continue;
                    Spot from = view.At(path.Points[i]), to = view.At(path.Points[i + 1]);
                    outline.Line(from.X, from.Y, to.X, to.Y);
                }
            if (!outline.IsEmpty) marks.Add(new Shape(outline.Build(), null, new Pen(Look.Darker(thread.Colour, 0.15), Math.Max(0.25, view.Line * 0.35)) { Round = true }));
        }
    }

    // Where threads start, as squares, and where they are tied off, as rings, as on the chart; over the backsmocking, which is worked first.
    private static void Ends(View view, WorkingOrder order, ImmutableArray<Mark>.Builder marks)
    {
        var r = Math.Clamp(Math.Min(view.Line * 0.7, view.Pitch * 0.45), 0.22, 0.9);
        foreach (var (thread, paths) in ByThread(order, BackPathKind.TieOff))
        {
            var rings = new OutlineBuilder();
            foreach (var path in paths.Where(p => view.Shows(p.Points[^1].Pleat, p.Points[^1].Pleat))) rings.Circle(view.At(path.Points[^1]), r);
            if (!rings.IsEmpty) marks.Add(new Shape(rings.Build(), Colour.White, new Pen(Look.Darker(thread.Colour, 0.15), r * 0.55)));
        }
        foreach (var (thread, paths) in ByThread(order, BackPathKind.Start))
        {
            var squares = new OutlineBuilder();
            foreach (var path in paths.Where(p => view.Shows(p.Points[^1].Pleat, p.Points[^1].Pleat))) squares.Rectangle(new Box(view.At(path.Points[^1]).X, view.At(path.Points[^1]).Y, 0, 0).Grown(r * 0.9));
            if (!squares.IsEmpty) marks.Add(new Shape(squares.Build(), thread.Colour, new Pen(Look.Darker(thread.Colour, 0.35), r * 0.25)));
        }
    }

    private static IEnumerable<(Floss Thread, IEnumerable<BackPath> Paths)> ByThread(WorkingOrder order, BackPathKind kind)
    {
        var paths = order.BackPaths().AddRange(BackPath.OfBands(order)).Where(p => p.Kind == kind).ToLookup(p => p.Thread);
        foreach (var thread in order.Work.Piece.Threads)
            if (paths.Contains(thread.Key)) yield return (thread, paths[thread.Key]);
    }

    private static void Backsmocking(View view, WorkingOrder order, Look look, ImmutableArray<Mark>.Builder marks)
    {
        var bricks = new OutlineBuilder();
        foreach (var row in order.Backsmock.Rows)
            for (var p = Math.Max(row.From.Number, view.First - 1); p < Math.Min(row.To.Number, view.Last + 1); p++)
            {
                var up = (p - row.From.Number & 1) == 0;
                bricks.Rectangle(new Box(view.X(p + 1), view.Y(row.Row.Number - 1) - (up ? view.Line : 0), 2 * view.Pitch, view.Line).Grown(-Math.Min(0.1, view.Line * 0.06)));
            }
        if (bricks.IsEmpty) return;
        var carries = new OutlineBuilder();
        foreach (var points in BackPath.CarriesOfBacksmocking(order))
            for (var i = 0; i + 1 < points.Length; i++)
            {
                Spot from = view.At(points[i]), to = view.At(points[i + 1]);
                carries.Line(from.X, from.Y, to.X, to.Y);
            }
        if (!carries.IsEmpty) marks.Add(new Shape(carries.Build(), null, new Pen(Look.Darker(order.Backsmock.Thread.Colour, 0.3), Math.Max(0.25, view.Line * 0.35)) { Round = true }));
        marks.Add(new Shape(bricks.Build(), Look.Darker(order.Backsmock.Thread.Colour, 0.12), new Pen(look.Ink, Math.Min(0.14, view.Line * 0.08))));
    }

    private static IEnumerable<Mark> Rulers(View view, Look look)
    {
        var box = view.Box;
        yield return new Shape(Outline.Rectangle(box), null, new Pen(look.Quiet, look.Large ? 0.3 : 0.15));
        var every = view.Pitch * 10 >= 5 ? 10 : view.Pitch * 50 >= 5 ? 50 : 500;
        for (var p = view.First; p <= view.Last; p++)
            if (p == view.First || p == view.Last || (p % every == 0 && p > view.First + every / 2 && p < view.Last - every / 2))
                yield return new Lettering(new Spot(view.X(p) + view.Pitch / 2, box.Y - 2.3), p.ToString(CultureInfo.InvariantCulture), look.Ruler, Anchor.Middle);
        var style = look.Ruler with { Face = Face.TextBold, Colour = look.Accent };
        for (var g = 1; g <= view.Work.Piece.Cloth.GatheringRows; g++)
            yield return new Lettering(new Spot(box.X - 2, view.Y(g - 1) + Typeface.CapHeight(style) / 2), g.ToString(CultureInfo.InvariantCulture), style, Anchor.End);
    }

    /// <summary>Where things lie seen from behind, in millimetres.</summary>
    /// <param name="work">The work.</param>
    /// <param name="pitch">From one pleat to the next.</param>
    /// <param name="first">The lowest pleat shown, at the right.</param>
    /// <param name="last">The highest pleat shown, at the left.</param>
    private sealed class View(Work work, double pitch, int first, int last)
    {
        public Work Work => work;

        public double Pitch => pitch;

        public double Line { get; } = work.Pleating.Gauge.LineHeight / work.Pleating.Gauge.Pitch * pitch;

        public int First => first;

        public int Last => last;

        public int PerSpace => work.Pleating.Gauge.CableRowsPerSpace;

        public Box Box => new(0, -3 * Line, (last - first + 1) * pitch, (2 * work.CableRows + 6) * Line);

        public IEnumerable<StitchShape> Shapes =>
            work.Bands.SelectMany(b => b.Passes).SelectMany(p => StitchDrawing.Shapes(p, PerSpace));

        /// <summary>Whether anything shows of what lies between two places, in pleats from the left edge of the front.</summary>
        public bool Shows(double from, double to) => Math.Max(from, to) >= first - 1 && Math.Min(from, to) <= last;

        /// <summary>Whether anything shows of a stitch.</summary>
        public bool Shows(StitchShape shape) => Shows(shape.From.Across, shape.To.Across);

        /// <summary>How far across a place lies that is so many pleats from the left edge of the front.</summary>
        public double X(double across) => (last - across) * pitch;

        /// <summary>Where a place on the wrong side lies.</summary>
        public Spot At(BackPoint point) => new(X(point.Pleat - 0.5), point.Row * 2 * Line);

        /// <summary>How far down a depth lies, in spaces below gathering row 1.</summary>
        public double Y(double depth) => StitchDrawing.Down(depth, PerSpace) * Line;
    }
}
