using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>
/// What the hand needs to know of each run, written on the chart itself: its step, its way and its count beside the end where it begins,
/// and marks where its thread starts, ends, waits or crosses the back.
/// </summary>
internal sealed class StepMarks
{
    /// <summary>What marks the starting point of a figure.</summary>
    public const string StartWord = "start";

    private const double Apart = 0.9; // from a run to what is written beside it, in millimetres

    private readonly ChartGeometry geometry;
    private readonly ChartWindow window;
    private readonly WorkingOrder order;
    private readonly Look look;
    private readonly List<Label> labels = [];
    private readonly List<Tag> tags = [];
    private readonly HashSet<int> firsts;
    private readonly ImmutableArray<Step> steps;
    private readonly (double From, double To) bounds;
    private readonly ImmutableArray<(Spot From, Spot To)> crossings;

    /// <summary>Finds where everything stands.</summary>
    /// <param name="geometry">Where the chart's parts lie.</param>
    /// <param name="order">The working order.</param>
    /// <param name="steps">The steps marked.</param>
    /// <param name="window">What is shown: steps that begin outside of it are not marked.</param>
    /// <param name="look">How the chart is dressed.</param>
    /// <param name="bounded">Whether nothing may reach beyond the window; else labels may.</param>
    public StepMarks(ChartGeometry geometry, WorkingOrder order, IEnumerable<Step> steps, ChartWindow window, Look look, bool bounded = false)
    {
        (this.geometry, this.order, this.look, this.window) = (geometry, order, look, window);
        var box = geometry.BoxOf(window);
        bounds = bounded ? (box.X, box.Right) : (double.NegativeInfinity, double.PositiveInfinity);
        this.steps = [.. steps.Where(s => IsShown(s, Begins(s)) && FirstPleat(s) >= window.FirstPleat && FirstPleat(s) <= window.LastPleat)];
        firsts = FirstsOfFigures(order);
        crossings = [.. Crossed()];
        foreach (var row in this.steps.GroupBy(s => s.Row.Index)) Row(row.Key, [.. row.OrderBy(s => Math.Min(s.From.Number, s.To.Number))]);
    }

    /// <summary>How far to the left and right of a window its labels reach, in millimetres; 0 where they lie within.</summary>
    public (double Left, double Right) Beyond(ChartWindow window)
    {
        var box = geometry.BoxOf(window);
        double left = 0, right = 0;
        foreach (var label in (IEnumerable<Written>)[.. labels, .. bandLabels])
        {
            left = Math.Max(left, box.X + 0.6 - label.Left);
            right = Math.Max(right, label.Right - box.Right + 0.6);
        }
        return (left, right);
    }

    /// <summary>Whether some are written within the stitches, for want of room beside them.</summary>
    public bool AnyInside => tags.Count > 0;

    /// <summary>The marks, in the chart's own millimetres; they lie over the stitches.</summary>
    /// <param name="shown">The part of the chart that is shown round them, where it is more than the window.</param>
    public IEnumerable<Mark> Draw(ChartWindow? shown = null)
    {
        foreach (var mark in Leaders()) yield return mark;
        foreach (var mark in Ends()) yield return mark;
        var lettered = OnTags(shown ?? window);
        foreach (var (tag, at) in tags.Select((t, i) => (t, i)))
            foreach (var mark in tag.Draw(look, lettered.Contains(at))) yield return mark;
        foreach (var label in (IEnumerable<Written>)[.. labels, .. bandLabels])
            foreach (var mark in label.Draw(look)) yield return mark;
    }

    /// <summary>Steps of bands off the lattice, marked where they begin.</summary>
    public ImmutableArray<(int Number, BandStep Step)> Bands
    {
        init
        {
            // those that begin at one place stand one under another
            foreach (var side in value.GroupBy(b => Onward(b.Step)))
            {
                var below = double.NegativeInfinity;
                foreach (var (number, step) in side.OrderBy(b => b.Step.Begin.From.Depth).ThenBy(b => b.Number))
                {
                    var begins = Down(step.Begin.From.Depth);
                    var y = Math.Max(below, begins);
                    BandLabel At(double down, bool over) => new(number, step.Count, side.Key, (step.Begin.From.Pleat.Number - (side.Key ? 1 : 0)) * geometry.Pitch, down, begins, step.Pass.Turned, over, look);
                    // what begins in the middle stands over its own half, not over the other
                    var halved = step.Thread is BandThread.NewWithTail or BandThread.Tail || (step.Pass.GoesOn && step.Thread is not (BandThread.GoesOn or BandThread.Carry));
                    var label = At(y, halved);
                    if (Covers(label)) label = Clear(down => At(down, true), label) ?? label;
                    bandLabels.Add(label);
                    if (label.Y >= y) below = label.Y + label.Height;
                }
            }
        }
    }

    private readonly List<BandLabel> bandLabels = [];

    private double Down(double depth) => Pleatwright.Chart.Stitches.StitchDrawing.Down(depth, geometry.RowsPerSpace) * geometry.LineHeight;

    // What begins in the middle of a band is written above or below it, whichever is nearer, and a fine line leads to where it begins.
    private BandLabel? Clear(Func<double, BandLabel> at, BandLabel label)
    {
        var step = geometry.LineHeight / 2;
        for (var off = step; off <= 4 * geometry.RowHeight; off += step)
            foreach (var y in (double[])[label.Y - off, label.Y + off])
                if (y - label.Height / 2 > window.FirstRow * geometry.RowHeight && y + label.Height / 2 < (window.LastRow + 1) * geometry.RowHeight && at(y) is var moved && !Covers(moved)
                    && !bandLabels.Any(b => b.Left < moved.Right && moved.Left < b.Right && Math.Abs(b.Y - y) < moved.Height))
                    return moved;
        return null;
    }

    // Whether it lies over a stitch.
    private bool Covers(BandLabel label)
    {
        double left = label.Ground.From, right = label.Ground.To, top = label.Y - label.Height / 2, bottom = label.Y + label.Height / 2;
        foreach (var band in geometry.Work.Bands)
            foreach (var pass in band.Passes)
                foreach (var stitch in pass.Stitches)
                {
                    double a = (Math.Min(stitch.From.Pleat.Number, stitch.To.Pleat.Number) - 1) * geometry.Pitch, b = Math.Max(stitch.From.Pleat.Number, stitch.To.Pleat.Number) * geometry.Pitch;
                    if (a >= right - 0.1 || b <= left + 0.1) continue;
                    double from = Down(Math.Min(stitch.From.Depth, stitch.To.Depth)) - 0.8 * geometry.LineHeight, to = Down(Math.Max(stitch.From.Depth, stitch.To.Depth)) + 0.8 * geometry.LineHeight;
                    if (from < bottom && to > top) return true;
                }
        foreach (var brick in geometry.Bricks(window))
            if (brick.Box.X < right && brick.Box.Right > left && brick.Box.Y < bottom && brick.Box.Bottom > top) return true;
        return false;
    }

    private IEnumerable<Mark> Leaders()
    {
        var lines = new OutlineBuilder();
        foreach (var label in bandLabels)
            if (Math.Abs(label.Y - label.Begins) > label.Height) lines.Line(label.At, label.Y, label.At, label.Begins);
        if (lines.IsEmpty) yield break;
        yield return new Shape(lines.Build(), null, new Pen(Colour.White, 0.45));
        yield return new Shape(lines.Build(), null, new Pen(look.Ink, 0.18));
    }

    private static bool Onward(BandStep step) => step.End.To.Pleat.Number >= step.Begin.From.Pleat.Number;

    private bool Rightward(Step step) => order.TravelsRight(step);

    // The edge it begins at, in pleats from the left edge of pleat 1.
    private int Begins(Step step) => Rightward(step) ? step.From.Number - 1 : step.From.Number + 1;

    private bool IsShown(Step step, int edge) => edge >= window.FirstPleat - 1 && edge <= window.LastPleat && step.Row.Index >= window.FirstRow && step.Row.Index <= window.LastRow;

    private int FirstPleat(Step step) => (Rightward(step) ? step.From.LeftPleat : step.From.RightPleat).Number;

    private int Ends(Step step) => Rightward(step) ? step.To.Number + 1 : step.To.Number - 1;

    // The first step of every border and figure.
    private static HashSet<int> FirstsOfFigures(WorkingOrder order)
    {
        var seen = new HashSet<int>();
        var firsts = new HashSet<int>();
        foreach (var step in order.Steps)
            if (seen.Add(order.Parts.InOrder[order.Parts.Of(step.RunIndex)].Figure)) firsts.Add(step.Number);
        return firsts;
    }

    // Labels of one row: beside the run where there is room, else beside the run before it on the same way, else within the stitches.
    private void Row(int row, List<Step> along)
    {
        var taken = new List<(double From, double To)>();
        foreach (var run in geometry.Work.RunsIn(new CableRow(row)))
            taken.Add((geometry.LeftOf(run.FirstPleat), geometry.LeftOf(run.LastPleat) + geometry.Pitch));
        var y = geometry.Middle(new CableRow(row));
        Side(along.Where(Rightward), rightward: true);
        Side(along.Where(s => !Rightward(s)).Reverse(), rightward: false);

        void Side(IEnumerable<Step> one, bool rightward)
        {
            Label? last = null;
            foreach (var step in one)
            {
                var alone = Uncrossed(at => new Label([step], rightward, at, y, this), Begins(step) * geometry.Pitch, rightward, last);
                // where there is no room for the word its number stands on a tag, as it does on the stitches
                if (!Free(alone) && firsts.Contains(step.Number)) alone = new Label([step], rightward, Begins(step) * geometry.Pitch, y, this, worded: false);
                if (Free(alone))
                {
                    if (last is not null) Keep(last);
                    last = alone;
                    continue;
                }
                if (last is not null && new Label([.. last.Steps, step], rightward, last.At, y, this) is var longer && longer.Steps.Length <= 5 && Free(longer)) last = longer;
                else Inside(step);
            }
            if (last is not null) Keep(last);
        }

        // Beyond threads that cross the back beside the run, if they cross near it.
        Label Uncrossed(Func<double, Label> at, double begins, bool rightward, Label? before)
        {
            var label = at(begins);
            for (var moved = label; ;)
            {
                if (CrossingUnder(moved.Plate) is not { } crossed)
                    return Free(moved) && (before is null || moved.Left >= before.Right || moved.Right <= before.Left) ? moved : label;
                moved = at(rightward ? moved.At - (moved.Plate.Right - crossed.From) - 0.3 : moved.At + (crossed.To - moved.Plate.X) + 0.3);
                if (Math.Abs(moved.At - begins) > FurthestMoved) return label;
            }
        }

        bool Free(Label label) => label.Left >= bounds.From && label.Right <= bounds.To && !taken.Any(t => t.From < label.Ground.To - 0.05 && t.To > label.Ground.From + 0.05);

        void Keep(Label label)
        {
            labels.Add(label);
            taken.Add(label.Ground);
        }
    }

    private const double FurthestMoved = 5; // millimetres from its run, at the most (our own choice)

    // From where to where across threads cross the back under a box; null where none does.
    private (double From, double To)? CrossingUnder(Box box)
    {
        (double From, double To)? under = null;
        foreach (var (from, to) in crossings)
            foreach (var (a, b) in Within(from, to, box))
                under = (Math.Min(under?.From ?? a, a), Math.Max(under?.To ?? b, b));
        return under;

        static IEnumerable<(double, double)> Within(Spot from, Spot to, Box box)
        {
            var parts = Beside(from, to, (0, 1), box).ToList();
            if (parts is [(0, 1)]) yield break;
            double enters = parts.Where(p => p.From == 0).Select(p => p.To).DefaultIfEmpty(0).First(), leaves = parts.Where(p => p.To == 1).Select(p => p.From).DefaultIfEmpty(1).Last();
            double a = from.X + enters * (to.X - from.X), b = from.X + leaves * (to.X - from.X);
            yield return (Math.Min(a, b), Math.Max(a, b));
        }
    }

    private double Radius => Math.Clamp(geometry.LineHeight * 0.27, 0.28, 0.75);

    private Spot At(Step step, bool end)
    {
        var level = end ? step.End : step.Begin;
        var across = end ? Ends(step) : Begins(step);
        var inward = (Rightward(step) == end ? -1 : 1) * Radius * 0.9;
        return new Spot(across * geometry.Pitch + inward, geometry.TopOf(Lattice.LineOf(step.Row, level)) + geometry.LineHeight / 2);
    }

    private IEnumerable<Mark> Ends() => EndSpots().SelectMany(e => End(e.Sign, e.At, Radius, look));

    private IEnumerable<(Sign Sign, Spot At)> EndSpots()
    {
        foreach (var step in steps)
        {
            var end = step.TieOff || step.GoesOn ? Sign.ThreadEnds : step.Parks ? Sign.ThreadWaits : (Sign?)null;
            if (end is { } sign && IsShown(step, Ends(step))) yield return (sign, At(step, true)); // a long run may end beyond what is shown
            var begin = step.Starts == StartKind.New ? Sign.ThreadStarts : order.Steps[step.Number - 2].Needleful != step.Needleful ? Sign.ThreadTakenUp : (Sign?)null;
            if (begin is { } first) yield return (first, At(step, false));
        }
    }

    /// <summary>A square where a thread starts, a ring where it is tied off, a drop where it waits, a filled one where it is taken up again.</summary>
    public static IEnumerable<Mark> End(Sign sign, Spot at, double r, Look look) => sign switch
    {
        Sign.ThreadStarts => [new Shape(Outline.Rectangle(new Box(at.X - r, at.Y - r, 2 * r, 2 * r)), look.Ink, new Pen(Colour.White, r * 0.35)) { Means = sign }],
        Sign.ThreadEnds => [new Shape(Outline.Circle(at, r), Colour.White, new Pen(look.Ink, r * 0.4)) { Means = sign }],
        _ =>
        [
            new Shape(new OutlineBuilder().MoveTo(at.X, at.Y - 1.5 * r)
                .CurveTo(new(at.X + 2.2 * r, at.Y + 1.6 * r), new(at.X - 2.2 * r, at.Y + 1.6 * r), new(at.X, at.Y - 1.5 * r)).Close().Build(), sign == Sign.ThreadTakenUp ? look.Ink : Colour.White, sign == Sign.ThreadTakenUp ? new Pen(Colour.White, r * 0.3) : new Pen(look.Ink, r * 0.4)) { Means = sign },
        ],
    };

    /// <summary>A thread across the back.</summary>
    public static IEnumerable<Mark> Crossing(Outline outline, Look look) =>
        [new Shape(outline, null, new Pen(Colour.White, 0.7)), new Shape(outline, null, new Pen(look.Ink, 0.3) { Dashes = (1, 0.7) }) { Means = Sign.Crossing }];

    /// <summary>Threads that cross the back further than a hand would take them by itself, from where one is left to where it is taken up.</summary>
    public ImmutableArray<(Spot From, Spot To)> CrossingLines => crossings;

    /// <summary>They lie over the stitches and under the threads' letters, and are broken where something is written.</summary>
    public IEnumerable<Mark> Crossings(ChartWindow? shown = null)
    {
        var written = Plates().Concat(LettersOf(shown ?? window).Select(l => new Box(l.Centre.X, l.Centre.Y, 0, 0).Grown(l.Radius))).Select(b => b.Grown(0.15)).ToList();
        var lines = new OutlineBuilder();
        foreach (var (from, to) in crossings)
        {
            List<(double From, double To)> parts = [(0, 1)];
            foreach (var box in written) parts = [.. parts.SelectMany(p => Beside(from, to, p, box))];
            var length = Math.Sqrt(Math.Pow(to.X - from.X, 2) + Math.Pow(to.Y - from.Y, 2));
            if (parts.Sum(p => p.To - p.From) * length < LeastSeen) parts = [(0, 1)]; // else nothing would be seen of it
            foreach (var (a, b) in parts)
            {
                var (begin, end) = (On(from, to, a), On(from, to, b));
                lines.Line(begin.X, begin.Y, end.X, end.Y);
            }
        }
        return lines.IsEmpty ? [] : Crossing(lines.Build(), look);
    }

    private static Spot On(Spot from, Spot to, double share) => share >= 1 ? to : new(from.X + share * (to.X - from.X), from.Y + share * (to.Y - from.Y)); // to the very end, without rounding

    /// <summary>Less of a crossing thread than this, in millimetres, would not be seen for one.</summary>
    public const double LeastSeen = 1.2;

    // What of a part of a line lies outside of a box, as shares of the line.
    private static IEnumerable<(double From, double To)> Beside(Spot from, Spot to, (double From, double To) part, Box box)
    {
        var (enters, leaves) = part;
        foreach (var (start, way, low, high) in ((double, double, double, double)[])[(from.X, to.X - from.X, box.X, box.Right), (from.Y, to.Y - from.Y, box.Y, box.Bottom)])
        {
            if (Math.Abs(way) < 1e-9)
            {
                if (start <= low || start >= high) return [part];
                continue;
            }
            double a = (low - start) / way, b = (high - start) / way;
            (enters, leaves) = (Math.Max(enters, Math.Min(a, b)), Math.Min(leaves, Math.Max(a, b)));
        }
        return enters >= leaves ? [part] : new[] { (part.From, enters), (leaves, part.To) }.Where(p => p.Item2 > p.Item1 + 1e-9);
    }

    private IEnumerable<(Spot From, Spot To)> Crossed()
    {
        foreach (var step in steps)
        {
            if (!Order.Telling.RunLine.Crosses(step)) continue;
            var last = order.LastStepOf(step);
            if (last > 0 && IsShown(order.Steps[last - 1], Ends(order.Steps[last - 1]))) yield return (At(order.Steps[last - 1], true), At(step, false));
        }
    }

    // The step on the first brick and the count on the last, as tags: a step's is pointed the way it goes.
    private void Inside(Step step)
    {
        var first = new Tag(this, step, step.From, FirstPleat(step), step.Begin, step.Number, true);
        if (first.Points < ThreadLetters.SmallestLetter) return;
        tags.Add(first);
        if (step.Cables > 4) tags.Add(new Tag(this, step, step.To, (Rightward(step) ? step.To.RightPleat : step.To.LeftPleat).Number, step.End, step.Cables, false));
        tags.RemoveAll(t => !t.IsShown); // it begins or ends beyond what is shown
    }

    // Which tags bear the letter of a stretch on which there is no other room for it.
    private HashSet<int> OnTags(ChartWindow shown)
    {
        var crowded = Lettered(shown).Crowded.ToHashSet();
        var found = new HashSet<int>();
        if (crowded.Count == 0) return found;
        foreach (var (i, tag) in tags.Index())
            if (tag.IsStep && crowded.Remove(Patches.Of(geometry.Work).PatchOf(tag.Step.RunIndex))) found.Add(i);
        return found;
    }

    private (ChartWindow Shown, ImmutableArray<ThreadLetter> Letters, ImmutableArray<int> Crowded)? lettered;

    private (ImmutableArray<ThreadLetter> Letters, ImmutableArray<int> Crowded) Lettered(ChartWindow shown)
    {
        if (lettered is { } known && known.Shown == shown) return (known.Letters, known.Crowded);
        var (letters, crowded) = ThreadLetters.Of(geometry, shown, look, this);
        lettered = (shown, letters, crowded);
        return (letters, crowded);
    }

    /// <summary>Where the threads' letters stand.</summary>
    public ImmutableArray<ThreadLetter> LettersOf(ChartWindow shown) => Lettered(shown).Letters;

    /// <summary>The threads' letters.</summary>
    public IEnumerable<Mark> Letters(ChartWindow shown) => LettersOf(shown).SelectMany(l => ThreadLetters.Draw(l.Thread, l.Centre, l.Radius, look));

    /// <summary>What is written and marked, and where: labels, tags, where threads begin and end.</summary>
    public IEnumerable<Box> Taken => Plates().Concat(EndSpots().Select(e => new Box(e.At.X, e.At.Y, 0, 0).Grown(Radius * 1.2, Radius * 1.5)));

    // What crosses the back is broken under it.
    private IEnumerable<Box> Plates() => labels.Select(l => l.Plate).Concat(bandLabels.Select(l => l.Plate)).Concat(tags.Select(t => t.Box));

    // A number on a stitch, in a shape that neither letters nor other marks have: pointed the way the step goes; of a count, with straight ends.
    private sealed class Tag
    {
        private readonly TypeStyle type;
        private readonly double half, high, point;
        private readonly Spot centre;
        private readonly StepMarks marks;
        private readonly string words;

        public Tag(StepMarks marks, Step step, Valley valley, int pleat, Level level, int number, bool isStep)
        {
            (this.marks, Step, IsStep) = (marks, step, isStep);
            var geometry = marks.geometry;
            var box = geometry.CableBox(valley, step.Row, level);
            words = number.ToString(CultureInfo.InvariantCulture);
            type = new TypeStyle(isStep ? Face.TextBold : step.Turned ? Face.TextItalic : Face.Text, Math.Round(Math.Min(marks.look.Ruler.Points, Typeface.PointsOfCap(geometry.RowHeight * 0.5)), 2), marks.look.Ink);
            Points = type.Points;
            var wide = Typeface.Width(words, type);
            if (wide > box.Width * 0.9) type = type with { Points = Math.Round(type.Points * box.Width * 0.9 / wide, 2) };
            var cap = Typeface.CapHeight(type);
            (half, high, point) = (Typeface.Width(words, type) / 2 + 0.35, Math.Min(geometry.RowHeight * 0.9, cap * 1.7), isStep ? cap * 0.55 : 0);
            IsShown = marks.IsShown(step, pleat) && pleat >= marks.window.FirstPleat;
            // a cable at the edge of what is shown is shown in half
            var shown = geometry.BoxOf(marks.window);
            centre = new Spot(Math.Max(Math.Min(box.Centre.X, shown.Right - half - point), shown.X + half + point), geometry.Middle(step.Row));
        }

        public Step Step { get; }

        public bool IsStep { get; }

        public bool IsShown { get; }

        /// <summary>Size of its number, where it has room.</summary>
        public double Points { get; }

        private bool Rightward => marks.Rightward(Step);

        public Box Box => new(centre.X - half - (Rightward ? 0 : point), centre.Y - high / 2, 2 * half + point, high);

        public IEnumerable<Mark> Draw(Look look, bool lettered)
        {
            var start = IsStep && marks.firsts.Contains(Step.Number);
            var (fill, ink) = start ? (look.Accent, look.Accent.LetterOn) : (Colour.White, look.Ink);
            yield return new Shape(Shaped(Box, point, Rightward), fill, new Pen(look.Ink, 0.18)) { Means = start ? Sign.FigureStarts : Sign.RunWithin };
            var (at, style) = (centre.X, type with { Colour = ink });
            if (lettered)
            {
                // the letter's disc before the number, both smaller
                var radius = Math.Min(half * 0.45, high * 0.44);
                style = style with { Points = Math.Round(style.Points * Math.Min(1, (2 * half - 2 * radius) / Typeface.Width(words, style)), 2) };
                foreach (var mark in ThreadLetters.Draw(marks.geometry.Work.Piece.Thread(Step.Thread)!, new(centre.X - half + radius, centre.Y), radius, look)) yield return mark;
                at = centre.X + radius;
            }
            yield return new Lettering(new Spot(at, centre.Y + Typeface.CapHeight(style) / 2), words, style, Anchor.Middle) { Means = Sign.RunWithin };
        }
    }

    /// <summary>The shape of a step's tag: a box with a point, at its right or at its left.</summary>
    public static Outline Shaped(Box box, double point, bool rightward) => rightward
        ? Outline.Polygon(new(box.Right, box.Centre.Y), new(box.Right - point, box.Bottom), new(box.X, box.Bottom), new(box.X, box.Y), new(box.Right - point, box.Y))
        : Outline.Polygon(new(box.X, box.Centre.Y), new(box.X + point, box.Bottom), new(box.Right, box.Bottom), new(box.Right, box.Y), new(box.X + point, box.Y));

    // Something written beside the place where it begins, with an arrow that points onward.
    private abstract class Written(bool rightward, double at, double y, bool turned, bool over = false)
    {
        protected const double Arrow = 1.5, Gap = 0.9;

        private readonly List<(string Words, TypeStyle Style, double Offset, bool OnTag)> words = [];

        protected abstract Sign Means { get; }

        public double At => at;

        public double Y => y;

        public double Width { get; private set; } = Gap + Arrow + Apart;

        public double Left => rightward != over ? At - Width : At;

        public double Right => Left + Width;

        /// <summary>The white it stands on, from left to right.</summary>
        public (double From, double To) Ground => rightward ? (Left - 0.3, Right) : (Left, Right + 0.1);

        public double Height => Typeface.CapHeight(words[0].Style) * 1.75;

        protected void Put(string text, TypeStyle style, double after, bool onTag = false)
        {
            if (onTag) Width += 0.4;
            words.Add((text, style, Width - Gap - Arrow - Apart, onTag));
            Width += Typeface.Width(text, style) + after + (onTag ? 0.4 : 0);
        }

        protected void Space(double wide) => Width += wide;

        /// <summary>The white that is drawn under it.</summary>
        public Box Plate => new Box(Left - 0.3, y - Typeface.CapHeight(words[0].Style) * 0.8, Width - Apart + 0.5, Typeface.CapHeight(words[0].Style) * 1.6).Moved(rightward ? 0 : Apart - 0.2, 0);

        public IEnumerable<Mark> Draw(Look look)
        {
            var cap = Typeface.CapHeight(words[0].Style);
            yield return new Shape(Outline.Rounded(Plate, cap * 0.5), Colour.White);
            var left = rightward ? Left : Left + Apart + Arrow + Gap;
            foreach (var (text, style, offset, onTag) in words)
            {
                if (onTag)
                {
                    var point = cap * 0.55;
                    yield return new Shape(Shaped(new Box(left + offset - 0.35 - (rightward ? 0 : point), y - cap * 0.8, Typeface.Width(text, style) + 0.7 + point, cap * 1.6), point, rightward), look.Accent, new Pen(look.Ink, 0.18)) { Means = Sign.FigureStarts };
                }
                yield return new Lettering(new Spot(left + offset, y + cap / 2), text, onTag ? style with { Colour = look.Accent.LetterOn } : style) { Means = text == StartWord ? Sign.FigureStarts : null };
            }
            double tip = rightward ? Right - Apart : Left + Apart, back = rightward ? tip - Arrow : tip + Arrow, half = Math.Min(0.8, cap * 0.55);
            yield return new Shape(Outline.Polygon(new(tip, y), new(back, y - half), new(back, y + half)), turned ? Colour.White : look.Ink, new Pen(look.Ink, 0.2)) { Means = Means };
        }

        protected bool IsTurned => turned;
    }

    // A step of a band, and its stitches.
    private sealed class BandLabel : Written
    {
        public BandLabel(int number, int stitches, bool rightward, double at, double y, double begins, bool turned, bool over, Look look) : base(rightward, at, y, turned, over)
        {
            Begins = begins;
            var style = look.Ruler with { Face = Face.TextBold, Colour = look.Ink };
            Put(FormattableString.Invariant($"B{number}"), style, 0.75);
            Put(stitches.ToString(CultureInfo.InvariantCulture), style with { Face = turned ? Face.TextItalic : Face.Text }, 0);
        }

        protected override Sign Means => Sign.BandRun;

        /// <summary>How far down it begins, which need not be where it is written.</summary>
        public double Begins { get; }
    }

    // One or several steps, told beside the end where the first of them begins.
    private sealed class Label : Written
    {
        private const double Pair = 0.75, Before = 1.2;

        public Label(ImmutableArray<Step> steps, bool rightward, double at, double y, StepMarks marks, bool worded = true) : base(rightward, at, y, steps[0].Turned)
        {
            Steps = steps;
            var small = Math.Min(marks.look.Ruler.Points, Typeface.PointsOfCap(marks.geometry.RowHeight * 0.62));
            var number = marks.look.Ruler with { Face = Face.TextBold, Points = small, Colour = marks.look.Ink };
            var count = number with { Face = steps[0].Turned ? Face.TextItalic : Face.Text };
            var start = number with { Face = Face.TextItalic, Colour = marks.look.Accent };
            // in the order they are worked in
            foreach (var (i, step) in steps.Index())
            {
                if (i > 0) Space(Before);
                if (worded && marks.firsts.Contains(step.Number)) Put(StartWord, start, Pair);
                Put(step.Number.ToString(CultureInfo.InvariantCulture), number, Pair, !worded && marks.firsts.Contains(step.Number));
                Put(step.Cables.ToString(CultureInfo.InvariantCulture) + (i + 1 < steps.Length ? "," : ""), count, 0);
            }
        }

        public ImmutableArray<Step> Steps { get; }

        protected override Sign Means => IsTurned ? Sign.TurnedRun : Sign.Run;
    }
}
