using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Moves;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pass = Pleatwright.Chart.Stitches.Pass;

namespace Pleatwright.Plate.Parts;

/// <summary>A stitch used in a piece, drawn large with the needle's way, and told in a line.</summary>
/// <param name="Name">The trade's word for it, with a capital.</param>
/// <param name="Words">How it is worked.</param>
/// <param name="Drawing">The drawing, at most <see cref="StitchDrawings.MostHeight"/> mm high.</param>
internal sealed record DrawnStitch(string Name, string Words, Drawing Drawing);

/// <summary>
/// Every stitch of a piece drawn over a few pleats, from the stitch's own path: points where the needle goes through the cloth are lettered in the
/// order worked, a lozenge where it comes up, a cross where it goes in, and a dashed arrow where it is inside a pleat or a fold.
/// </summary>
internal static class StitchDrawings
{
    /// <summary>How the drawings are read; no mark of theirs means something else on the chart.</summary>
    public const string Lead = "the needle comes up at a lozenge and goes in at a cross, in the order of the letters";

    /// <summary>The most a drawing is high, in millimetres of ordinary print.</summary>
    public const double MostHeight = 22;

    /// <summary>How wide every drawing is, in millimetres of ordinary print.</summary>
    public const double Width = 52;

    /// <summary>How many times larger drawings are in large print.</summary>
    public const double LargeTimes = 1.75;

    /// <summary>How the back is worked, in a line.</summary>
    public const string BackWords = "On the wrong side, cables along the gathering thread in thread near the colour of the cloth; take shallow bites, so that nothing shows on the front.";

    /// <summary>How a half stitch is worked, in a line.</summary>
    public const string HalfWords = "Once more over the last pleat alone, the thread on the other side of the needle than for the end cable; it fills the notch and squares the row off.";

    private const int LetteredStitches = 3;

    /// <summary>Every stitch used, each once: cable, half stitch, the geometric stitches and accents in the order of the piece, backsmocking.</summary>
    /// <param name="work">The work.</param>
    /// <param name="order">Its working order, for the back.</param>
    /// <param name="levels">How the work is held, for the words.</param>
    /// <param name="look">How drawings are dressed.</param>
    public static ImmutableArray<DrawnStitch> Of(Work work, WorkingOrder order, LevelWords levels, Look look)
    {
        var drawn = ImmutableArray.CreateBuilder<DrawnStitch>();
        var bench = new Sample(work.Piece.Working.Hand, RowsOf(work.Pleating.Gauge), look);
        var words = new Vocabulary(levels);
        var cable = new CableStitch();
        var row = new Band(cable.Name, new GatheringRow(2), default);
        if (work.Cables > 0) drawn.Add(new(cable.Name.Capital(), cable.Manner, bench.Stitches(6, false, bench.Passes(cable, row, 6))));
        if (HasHalves(work)) drawn.Add(new("Half stitch", HalfWords, bench.Half(bench.Passes(cable, row, 4)[0])));
        var told = new HashSet<(string, Level?)>();
        foreach (var band in work.Bands)
        {
            var passes = bench.Passes(band.Stitch, band.Band, PleatsOf(band));
            if (passes.IsEmpty || !told.Add((band.Stitch.Name, OneLevel(passes[0])))) continue;
            drawn.Add(new(NameOf(band), WordsOf(band, passes[0], words, levels), bench.Stitches(PleatsOf(band), false, passes)));
        }
        foreach (var accent in work.Accents.DistinctBy(a => (a.Accent.Name, a.Size, a.Mark.Upright)).DistinctBy(a => a.Accent.Name))
            drawn.Add(new(accent.Accent.Name.Capital(), words.Manner(accent.Accent.Manner), bench.Accent(accent)));
        if (!order.Backsmock.Rows.IsEmpty) drawn.Add(new("Backsmocking", BackWords, bench.Stitches(6, true, bench.Passes(cable, row, 6))));
        return drawn.ToImmutable();
    }

    /// <summary>A row with a half stitch at its end: one more over the last pleat alone, with the thread on the other side of the needle.</summary>
    internal static Pass WithHalf(Pass row) => row with { Stitches = [.. row.Stitches, row.Stitches[^1] with { From = row.Stitches[^1].To, Level = row.Stitches[^1].Level.Opposite() }] };

    // Lines too many would be too fine to be seen, and with too few a half stitch would be as high as a space.
    private static int RowsOf(Gauge gauge) => Math.Clamp(gauge.CableRowsPerSpace, 3, 5);

    private static bool HasHalves(Work work)
    {
        foreach (ref readonly var run in work.Runs)
            if (run.HalfStitches > 0) return true;
        return false;
    }

    // From one turn past the next, so far as pleats can still be told apart; even, so that there is a centre valley.
    private static int PleatsOf(LaidBand band) => Math.Clamp(band.Stitch.RepeatOf(band.Band) + 2, 6, 10) is var pleats && pleats % 2 == 0 ? pleats : pleats + 1;

    private static Level? OneLevel(Pass pass) => pass.Stitches.All(s => s.Level == pass.Stitches[0].Level) ? pass.Stitches[0].Level : null;

    private static string NameOf(LaidBand band) => band.Stitch is OutlineStitch && band.Band.UpsideDown ? "Stem" : band.Stitch.Name.Capital();

    private static string WordsOf(LaidBand band, Pass first, Vocabulary words, LevelWords levels) => words.Manner(band.Stitch.Manner)
        + (OneLevel(first) is { } level ? $" Keep {Phrases.Thread(level, levels)}{(band.Stitch.JourneysOf(band.Band).Length > 1 ? " for the first" : "")}." : "");

    // Pleats large, on which a stitch is worked: places across in pleats, down in lines from the upper edge of cable row 0.
    private sealed class Sample(Hand hand, int rowsPerSpace, Look look)
    {
        private const double Around = 1;     // mm beyond all that is drawn
        private const double Gathering = 1.35; // lines from a row's middle up to its gathering thread: a thread's width beside its cables
        private readonly Gauge gauge = new(Gauge.Common.Pitch, Gauge.Common.TakeUp, Gauge.Common.RowSpacing, rowsPerSpace);
        private readonly double times = look.Large ? LargeTimes : 1;
        private const double Flank = 0.2;    // of a pleat, from its edge to where the needle goes through

        /// <summary>A band of a stitch laid over so many pleats, worked from the side.</summary>
        public ImmutableArray<Pass> Passes(BandStitch stitch, Band band, int pleats) => LaidBand.Lay(0,
            band with { GatheringRow = new GatheringRow(2), Offset = 0, Drop = 0, Rows = 1, Panel = null, From = null, To = null, Ends = BandEnds.Cut, WorkFrom = WorkFrom.Side },
            stitch, pleats, rowsPerSpace, hand).Passes;

        public Drawing Stitches(int pleats, bool back, ImmutableArray<Pass> passes)
        {
            var shapes = passes.SelectMany(p => StitchDrawing.Shapes(p, rowsPerSpace)).ToList();
            var points = Points(Sewing.Stitches(passes[0], gauge).Where(m => m.Stitch < LetteredStitches), m => m.LastStitch < LetteredStitches);
            // the thread of the first loop, from where it came up
            if (passes[0].Stitches[0].Kind == StitchKind.Loop) shapes.Insert(0, new StitchShape(ShapeKind.Bar, points[0].At, points[2].At, 0.55));
            // two lines that touch: no letter stands between them
            List<StitchShape> other = passes.Length == 2 && passes[0].Stitches.Zip(passes[1].Stitches).All(s => s.First is { IsLevel: true, Kind: StitchKind.Over } && s.Second is { IsLevel: true, Kind: StitchKind.Over } && s.First.Level != s.Second.Level)
                ? [.. StitchDrawing.Shapes(passes[1], rowsPerSpace)] : [];
            return Draw(pleats, back, shapes, points, other);
        }

        public Drawing Half(Pass row)
        {
            var pass = WithHalf(row);
            var shapes = StitchDrawing.Shapes(pass, rowsPerSpace).ToList();
            var points = Points(Sewing.Stitches(pass, gauge).Where(m => m.Stitch >= pass.Stitches.Length - 2), _ => true);
            return Draw(row.Stitches.Length + 1, false, shapes, points);
        }

        public Drawing Accent(LaidAccent laid)
        {
            var pleats = Math.Max(6, (laid.Accent.Across(laid) + 3) / 2 * 2);
            var here = laid with { Valley = new Valley(pleats / 2), Depth = 1, Mark = laid.Mark with { Offset = 0, Drop = 0 } };
            return Draw(pleats, false, [.. here.Accent.Shapes(here, gauge)], Points(Sewing.Accent(here, 0, gauge, hand).Where(m => m.Out != m.From || m.Emerges == ClothSide.Right), _ => true));
        }

        // Where the needle goes through the front: in and out again, or once where it comes from the back or goes to it.
        private List<NeedlePoint> Points(IEnumerable<Move> moves, Func<Move, bool> whole)
        {
            List<NeedlePoint> points = [];
            foreach (var move in moves)
            {
                // where the thread of the first comes from; it comes up in the valley itself, by no pleat's side
                if (points.Count == 0 && move.Lies == ClothSide.Right) points.Add(new(true, move.From.On(gauge), move.From.Toward));
                if (move.Kind == MoveKind.ComeUp)
                {
                    points.Add(new(true, move.Out.On(gauge), 0));
                    continue;
                }
                if (move.Lies == ClothSide.Right) points.Add(new(false, move.In.On(gauge), move.In.Toward));
                if (move.Emerges == ClothSide.Right && whole(move)) points.Add(new(true, move.Out.On(gauge), move.Out.Toward));
            }
            return points;
        }

        private Drawing Draw(int pleats, bool back, List<StitchShape> shapes, List<NeedlePoint> points, List<StitchShape>? other = null)
        {
            var (pitch, dot) = (Width * times / pleats, 0.5 * times);
            var top = shapes.Min(s => Math.Min(s.From.Down, s.To.Down) - s.Width / 2);
            var bottom = shapes.Max(s => Math.Max(s.From.Down, s.To.Down) + s.Width / 2);
            // Stitches shrink to the height there is, letters only where that is not enough.
            var (style, cap, line) = (look.Body, 0.0, 0.0);
            List<Label> labels = [];
            foreach (var letter in (ReadOnlySpan<double>)[7, 6])
            {
                style = new TypeStyle(Face.TextBold, letter * times, look.Ink);
                cap = Typeface.CapHeight(style);
                for (line = pitch * 0.27, labels = Labels(); View().Height > MostHeight * times && line > pitch * 0.03; labels = Labels()) line *= 0.96;
                if (View().Height <= MostHeight * times) break;
            }
            var view = View();
            var marks = ImmutableArray.CreateBuilder<Mark>();
            Pleats();
            GatheringRows();
            foreach (var shape in shapes) Thread(shape);
            for (var i = 1; i < points.Count; i++)
                if (!points[i - 1].Up) Inside(At(points[i - 1]), At(points[i]));
            foreach (var label in labels)
                marks.Add(new Shape(Outline.Line(label.At.X, label.At.Y, label.Plate.Centre.X, label.Plate.Centre.Y), null, new Pen(look.Ink, 0.15 * times)));
            foreach (var label in labels)
                marks.AddRange(label.Up ? Up(label.At) : In(label.At));
            foreach (var label in labels)
            {
                marks.Add(new Shape(Outline.Rounded(label.Plate, cap * 0.7), Pleatwright.Thread.Colour.White));
                marks.Add(new Lettering(new(label.Plate.Centre.X, label.Plate.Centre.Y + cap / 2), label.Letters, style, Anchor.Middle));
            }
            return new Drawing(view, marks.ToImmutable());

            Box View()
            {
                var from = Math.Min((top - 1) * line, labels.Min(l => l.Plate.Y)) - Around;
                return new Box(0, from, Width * times, Math.Max((bottom + 1) * line, labels.Max(l => l.Plate.Bottom)) + Around - from);
            }

            IEnumerable<Mark> Up(Spot at) =>
                [new Shape(Outline.Polygon(new(at.X, at.Y - 1.35 * dot), new(at.X + 1.35 * dot, at.Y), new(at.X, at.Y + 1.35 * dot), new(at.X - 1.35 * dot, at.Y)), Pleatwright.Thread.Colour.White, new Pen(look.Ink, 0.25 * times))];

            IEnumerable<Mark> In(Spot at)
            {
                var cross = new OutlineBuilder().Line(at.X - dot, at.Y - dot, at.X + dot, at.Y + dot).Line(at.X - dot, at.Y + dot, at.X + dot, at.Y - dot).Build();
                return [new Shape(cross, null, new Pen(Pleatwright.Thread.Colour.White, 0.8 * times)), new Shape(cross, null, new Pen(look.Ink, 0.35 * times))];
            }

            Spot At(NeedlePoint point) => new((point.At.Across + point.Toward * Flank) * pitch, point.At.Down * line);

            // Letters of points where the needle comes up stand above, those where it goes in below; those of one place together, and none over
            // another or over a point.
            List<Label> Labels()
            {
                var places = points.Select((p, i) => (p.Up, At: At(p), Letter: (char)('A' + i))).GroupBy(p => (p.Up, Math.Round(p.At.X, 3), Math.Round(p.At.Y, 3)))
                    .Select(g => (g.First().Up, g.First().At, Letters: string.Join(" ", g.Select(p => p.Letter)))).ToList();
                var placed = new List<Label>();
                foreach (var (up, at, letters) in places)
                {
                    var wide = Typeface.Width(letters, style) + cap * 0.6;
                    var x = Math.Clamp(at.X, wide / 2, Width * times - wide / 2);
                    var plate = new Box(x - wide / 2, at.Y + (up ? -1 : 1) * (Math.Min(line, 1.6 * times) + cap / 2 + times) - cap * 0.8, wide, cap * 1.6);
                    while (placed.Any(l => Overlap(l.Plate, plate)) || (other ?? []).Any(s => Overlap(Covered(s), plate)) || places.Any(p => p.At != at && Overlap(new Box(p.At.X, p.At.Y, 0, 0).Grown(dot), plate)))
                        plate = plate.Moved(0, up ? -0.4 : 0.4);
                    placed.Add(new Label(at, up, letters, plate));
                }
                return placed;
            }

            Box Covered(StitchShape s) => new(Math.Min(s.From.Across, s.To.Across) * pitch, (Math.Min(s.From.Down, s.To.Down) - 0.5) * line, Math.Abs(s.To.Across - s.From.Across) * pitch, (Math.Abs(s.To.Down - s.From.Down) + 1) * line);

            static bool Overlap(Box a, Box b) => a.X < b.Right && b.X < a.Right && a.Y < b.Bottom && b.Y < a.Bottom;

            void Pleats()
            {
                OutlineBuilder light = new(), shade = new();
                for (var p = 0; p < pleats; p++)
                {
                    light.Rectangle(new Box((p + 0.05) * pitch, view.Y, 0.9 * pitch, view.Height));
                    shade.Rectangle(new Box((p + 0.7) * pitch, view.Y, 0.25 * pitch, view.Height));
                }
                var cloth = back ? Look.Darker(look.Pleat, 0.12) : look.Pleat;
                marks.Add(new Shape(light.Build(), cloth));
                marks.Add(new Shape(shade.Build(), Look.Darker(cloth, 0.07)));
            }

            void GatheringRows()
            {
                var row = new OutlineBuilder();
                for (var space = 0; StitchDrawing.Down(space, rowsPerSpace) * line <= view.Bottom; space++)
                {
                    var y = (StitchDrawing.Down(space, rowsPerSpace) - Gathering) * line;
                    if (y < view.Y) continue;
                    for (var p = 0; p < pleats; p++) row.Line((p + 0.25) * pitch, y, (p + 0.75) * pitch, y);
                }
                if (!row.IsEmpty) marks.Add(new Shape(row.Build(), null, new Pen(look.Accent, 0.3)));
            }

            void Thread(StitchShape shape)
            {
                Spot from = new(shape.From.Across * pitch, shape.From.Down * line), to = new(shape.To.Across * pitch, shape.To.Down * line);
                var width = Math.Clamp(shape.Width * line, 0.8, pitch * 0.3);
                switch (shape.Kind)
                {
                    case ShapeKind.Hidden:
                        break; // the needle's own arrow shows it
                    case ShapeKind.Knot:
                        marks.Add(new Shape(Outline.Circle(from, width * 0.6), Fill, new Pen(Edge, 0.25)));
                        break;
                    case ShapeKind.Drop:
                        marks.Add(new Shape(Loop(from, to, width), Fill, new Pen(Edge, 0.25)));
                        break;
                    default:
                        var cut = Math.Min(0.45, width / 2 / Math.Max(1e-6, Math.Sqrt(Math.Pow(to.X - from.X, 2) + Math.Pow(to.Y - from.Y, 2))));
                        double dx = (to.X - from.X) * cut, dy = (to.Y - from.Y) * cut;
                        var bar = new OutlineBuilder().Thread(from.X + dx, from.Y + dy, to.X - dx, to.Y - dy).Build();
                        marks.Add(new Shape(bar, null, new Pen(Edge, width) { Round = true }));
                        marks.Add(new Shape(bar, null, new Pen(Fill, width - 0.4) { Round = true }));
                        if (shape.Kind == ShapeKind.Coil) marks.Add(new Shape(Ribs(from, to, width), null, new Pen(Edge, 0.2)));
                        break;
                }
            }

            void Inside(Spot from, Spot to)
            {
                double dx = to.X - from.X, dy = to.Y - from.Y, length = Math.Sqrt(dx * dx + dy * dy);
                if (length < 0.2) return;
                var tip = new Spot(to.X - dx / length * 0.7, to.Y - dy / length * 0.7);
                marks.Add(new Shape(Outline.Line(from.X, from.Y, tip.X, tip.Y), null, new Pen(look.Ink, 0.3) { Dashes = (0.8, 0.5) }));
                double bx = tip.X - dx / length * 1.1, by = tip.Y - dy / length * 1.1, nx = -dy / length * 0.5, ny = dx / length * 0.5;
                marks.Add(new Shape(Outline.Polygon(tip, new(bx + nx, by + ny), new(bx - nx, by - ny)), look.Ink));
            }
        }

        // Letters of one point, on a plate of their own.
        private readonly record struct Label(Spot At, bool Up, string Letters, Box Plate);

        private Pleatwright.Thread.Colour Fill => Look.Lighter(look.Accent, 0.72);

        private Pleatwright.Thread.Colour Edge => Look.Darker(look.Accent, 0.25);

        private static Outline Loop(Spot from, Spot to, double width)
        {
            double dx = to.X - from.X, dy = to.Y - from.Y, length = Math.Max(1e-6, Math.Sqrt(dx * dx + dy * dy));
            double nx = -dy / length * width * 0.8, ny = dx / length * width * 0.8;
            return new OutlineBuilder().MoveTo(from.X, from.Y)
                .CurveTo(new(from.X + dx * 0.4 + nx, from.Y + dy * 0.4 + ny), new(to.X + nx, to.Y + ny), to)
                .CurveTo(new(to.X - nx, to.Y - ny), new(from.X + dx * 0.4 - nx, from.Y + dy * 0.4 - ny), from).Close().Build();
        }

        private static Outline Ribs(Spot from, Spot to, double width)
        {
            double dx = to.X - from.X, dy = to.Y - from.Y, length = Math.Max(1e-6, Math.Sqrt(dx * dx + dy * dy));
            double nx = -dy / length * width * 0.42, ny = dx / length * width * 0.42;
            var ribs = new OutlineBuilder();
            var turns = Math.Clamp((int)(length / 0.9), 3, 40);
            for (var i = 1; i < turns; i++)
            {
                double x = from.X + dx * i / turns, y = from.Y + dy * i / turns;
                ribs.Line(x + nx - dx / length * 0.25, y + ny - dy / length * 0.25, x - nx + dx / length * 0.25, y - ny + dy / length * 0.25);
            }
            return ribs.Build();
        }
    }
}
