using System.Collections.Immutable;
using Pleatwright.Chart.Stitches;
using Pleatwright.Moves;
using Pleatwright.Stitched;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Playing;

/// <summary>One moment of a film as a drawing: cloth close to, what is stitched, the thread with all its strands, the needle.</summary>
internal static class Still
{
    private static readonly Colour Steel = Colour.Parse("#a9b2bb"), Edge = Colour.Parse("#3f474f"), Gleam = Colour.Parse("#eef1f3");

    /// <summary>What the cloth lies on; the gathering thread.</summary>
    public static readonly Colour Table = Colour.Parse("#efe9dd"), GatheringColour = Colour.Parse("#2f6f79");

    /// <summary>Lines from a gathering row's cables up to its thread: a thread's width beside them.</summary>
    public const double Gathering = 1.35;

    /// <summary>By what share the wrong side of the cloth is darker.</summary>
    public const double BackDarker = 0.1;

    /// <summary>The moment of a move.</summary>
    /// <param name="film">The film.</param>
    /// <param name="index">Which move.</param>
    /// <param name="share">How far it is, from 0 to 1.</param>
    /// <param name="aspect">How high the drawing is over how wide.</param>
    /// <param name="look">How its notes are dressed.</param>
    /// <param name="painted">What lies there painted; drawn where none is given.</param>
    /// <returns>The drawing, in millimetres of the finished work; held sideways it is turned on its side.</returns>
    public static Drawing Of(Film film, int index, double share, double aspect, Look look, PaintedFilm? painted = null)
    {
        var take = film.Takes[index];
        var view = View(film, index, share, aspect);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        Cloth(marks, film, take, view);
        foreach (var (shape, thread) in film.Laid(index, share, take.Seen)) Lay(marks, film, take, shape, film.Threads[thread]);
        ImmutableArray<Mark> beneath = marks.ToImmutable(), over = Moving(film, index, share);
        if (film.Sideways) (beneath, over) = (Turned(beneath), Turned(over));
        var box = film.Sideways ? new Box(view.Y, -view.Right, view.Height, view.Width) : view;
        if (painted is not null) beneath = [new PixelPicture(box, new StillPixels(() => painted.At(index, share) is var (picture, at, _) ? (picture, at) : null, view, film.Sideways), beneath)];
        return new Drawing(box, [.. beneath, .. over]);
    }

    /// <summary>What is in sight, in millimetres of the finished work; held sideways the picture is as wide as the cloth in it is high.</summary>
    public static Box View(Film film, int index, double share, double aspect)
    {
        var (width, height) = (film.Wide * (film.Sideways ? aspect : 1), film.Wide * (film.Sideways ? 1 : aspect));
        var centre = Camera(film, index, share);
        return new Box(centre.X - width / 2, centre.Y - height / 2, width, height);
    }

    /// <summary>The thread that is led and the needle, over what lies there; not turned on its side.</summary>
    public static ImmutableArray<Mark> Moving(Film film, int index, double share)
    {
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var pose = Pose.At(film, index, share);
        foreach (var curve in pose.Threads) Strands(marks, curve, film.Threads[film.Takes[index].Thread], Gestures.Close);
        Needle(marks, pose, film.Pitch);
        return marks.ToImmutable();
    }

    /// <summary>Where the middle of the picture lies: it follows the work, and rests while the needle is in the cloth.</summary>
    public static Spot Camera(Film film, int index, double share)
    {
        var here = film.Centre(film.Takes[index]);
        if (index == 0 || film.Takes[index - 1].Seen != film.Takes[index].Seen || film.Takes[index - 1].Turned != film.Takes[index].Turned) return here;
        return Pose.Between(film.Centre(film.Takes[index - 1]), here, Pose.Ease(share / Gestures.Come));
    }

    private static void Cloth(ImmutableArray<Mark>.Builder marks, Film film, Take take, Box view)
    {
        marks.Add(new Shape(Outline.Rectangle(view), Table));
        var tones = Gestures.Pleat.Length;
        for (var tone = 0; tone < tones; tone++)
        {
            var strip = new OutlineBuilder();
            for (var p = 0; p + 1 < film.Valleys.Length; p++)
            {
                double a = film.Place(p, 1, take.Turned, take.Seen).X, b = film.Place(p + 1, 1, take.Turned, take.Seen).X, left = Math.Min(a, b), wide = Math.Abs(b - a);
                if (left + wide >= view.X && left <= view.Right) strip.Rectangle(new Box(left + wide * tone / tones, view.Y, wide / tones * 1.04, view.Height));
            }
            var shade = Gestures.Pleat[tone] - (take.Seen == ClothSide.Wrong ? BackDarker : 0);
            if (!strip.IsEmpty) marks.Add(new Shape(strip.Build(), shade < 0 ? Look.Darker(film.Cloth, -shade) : Look.Lighter(film.Cloth, shade)));
        }
        var thread = new OutlineBuilder();
        for (var row = 0; row < film.GatheringRows; row++)
        {
            var y = film.Place(0, row * film.LinesPerSpace + 1 - Gathering, take.Turned, take.Seen).Y;
            if (y < view.Y || y > view.Bottom) continue;
            for (var p = 0; p + 1 < film.Valleys.Length; p++)
            {
                double a = film.Place(p + 0.28, 1, take.Turned, take.Seen).X, b = film.Place(p + 0.72, 1, take.Turned, take.Seen).X;
                if (Math.Max(a, b) > view.X && Math.Min(a, b) < view.Right) thread.Line(a, y, b, y);
            }
        }
        if (!thread.IsEmpty) marks.Add(new Shape(thread.Build(), null, new Pen(GatheringColour, 0.12 * film.Pitch)));
    }

    private static void Lay(ImmutableArray<Mark>.Builder marks, Film film, Take take, StitchShape shape, FilmThread thread)
    {
        Spot a = film.Place(shape.From.Across, shape.From.Down, take.Turned, take.Seen), b = film.Place(shape.To.Across, shape.To.Down, take.Turned, take.Seen);
        var room = shape.Width * film.Line * 1.17; // as the stitched picture has it
        switch (shape.Kind)
        {
            case ShapeKind.Hidden:
                return;
            case ShapeKind.Knot:
                marks.Add(new Shape(Outline.Circle(a, room * 0.4), thread.Colour, new Pen(Look.Darker(thread.Colour, 0.45), 0.06 * film.Pitch)));
                marks.Add(new Shape(Outline.Circle(a, room * 0.16), Look.Darker(thread.Colour, 0.3)));
                return;
            case ShapeKind.Drop:
                foreach (var side in (ReadOnlySpan<int>)[-1, 1])
                {
                    double x = -(b.Y - a.Y) * 0.3 * side, y = (b.X - a.X) * 0.3 * side;
                    Strands(marks, new(a, new(a.X + (b.X - a.X) * 0.3 + x, a.Y + (b.Y - a.Y) * 0.3 + y), new(a.X + (b.X - a.X) * 0.9 + x, a.Y + (b.Y - a.Y) * 0.9 + y), b), thread, 0.6);
                }
                return;
            default:
                var ribbon = thread.Strands * thread.Diameter;
                Strands(marks, ThreadCurve.Straight(a, b), thread, Math.Min(1, room / Math.Max(1e-6, ribbon)), pinched: true);
                return;
        }
    }

    // A few places along each strand; where it goes through one hole the strands are drawn together.
    private static void Strands(ImmutableArray<Mark>.Builder marks, ThreadCurve curve, FilmThread thread, double close, bool pinched = false)
    {
        const int parts = 14;
        OutlineBuilder all = new();
        for (var strand = 0; strand < thread.Strands; strand++)
        {
            var off = (strand - (thread.Strands - 1) / 2.0) * thread.Diameter * close;
            for (var i = 0; i <= parts; i++)
            {
                var t = i / (double)parts;
                Spot at = curve.At(t), before = curve.At(Math.Max(0, t - 0.02)), after = curve.At(Math.Min(1, t + 0.02));
                double dx = after.X - before.X, dy = after.Y - before.Y, length = Math.Sqrt(dx * dx + dy * dy);
                if (length < 1e-9) (dx, dy, length) = (1, 0, 1);
                var by = off * Width(t);
                double x = at.X - dy / length * by, y = at.Y + dx / length * by;
                if (i == 0) all.MoveTo(x, y);
                else all.LineTo(x, y);
            }
        }
        var outline = all.Build();
        marks.Add(new Shape(outline, null, new Pen(Look.Darker(thread.Colour, 0.42), thread.Diameter * 1.25) { Round = true }));
        marks.Add(new Shape(outline, null, new Pen(thread.Colour, thread.Diameter * 0.9) { Round = true }));
        marks.Add(new Shape(outline, null, new Pen(Look.Lighter(thread.Colour, 0.3), thread.Diameter * 0.22) { Round = true }));
        // Two plies show as slanting lines, two to a turn, as on a thread that lies painted.
        double long_ = 0;
        for (var i = 0; i < parts; i++) long_ += Far(curve.At(i / (double)parts), curve.At((i + 1.0) / parts));
        var turns = (int)Math.Min(MostTurns, Math.Round(long_ / (thread.Diameter * Stitched.Strands.TurnInDiameters / 2)));
        if (turns == 0) return;
        OutlineBuilder plies = new();
        for (var strand = 0; strand < thread.Strands; strand++)
            for (var i = 0; i < turns; i++)
            {
                var t = (i + (0.5 + 0.62 * strand) % 1) / turns;
                Spot at = curve.At(t), before = curve.At(Math.Max(0, t - 0.02)), after = curve.At(Math.Min(1, t + 0.02));
                double dx = after.X - before.X, dy = after.Y - before.Y, length = Math.Sqrt(dx * dx + dy * dy);
                if (length < 1e-9) continue;
                (dx, dy) = (dx / length, dy / length);
                var off = (strand - (thread.Strands - 1) / 2.0) * thread.Diameter * close * Width(t);
                double half = 0.4 * thread.Diameter, on = 0.5 * thread.Diameter;
                plies.Line(at.X - dy * (off - half) - dx * on, at.Y + dx * (off - half) - dy * on, at.X - dy * (off + half) + dx * on, at.Y + dx * (off + half) + dy * on);
            }
        if (!plies.IsEmpty) marks.Add(new Shape(plies.Build(), null, new Pen(Look.Darker(thread.Colour, 0.2), thread.Diameter * 0.16) { Round = true }));

        // A thread that lies is pinched as a stitch is; one that is led goes through a hole at one end and the needle's eye at the other.
        double Width(double t) => pinched ? Strand.Pinch((float)(2 * t - 1)) : Math.Min(1, Gestures.Gathered + (1 - Gestures.Gathered) * Math.Min(t, 1 - t) / Gestures.Gathering);
    }

    private const int MostTurns = 60;

    private static double Far(Spot a, Spot b) => Math.Sqrt(Math.Pow(a.X - b.X, 2) + Math.Pow(a.Y - b.Y, 2));

    private static void Needle(ImmutableArray<Mark>.Builder marks, Pose pose, double pitch)
    {
        var thick = 0.2 * pitch;
        double dx = pose.Tip.X - pose.Eye.X, dy = pose.Tip.Y - pose.Eye.Y, length = Math.Sqrt(dx * dx + dy * dy);
        if (length < 1e-6) return;
        double nx = -dy / length, ny = dx / length;
        foreach (var (from, to) in pose.Seen)
        {
            // It grows finer toward its point, and is a little finer behind the eye.
            var outline = new OutlineBuilder();
            List<Spot> corners = [];
            const int parts = 12;
            for (var i = 0; i <= parts; i++) corners.Add(Flank(from + (to - from) * i / parts, 1));
            for (var i = parts; i >= 0; i--) corners.Add(Flank(from + (to - from) * i / parts, -1));
            marks.Add(new Shape(outline.Polygon([.. corners]).Build(), Steel, new Pen(Edge, 0.035 * pitch) { Round = true }));
            double a = Math.Max(from, 0.14), b = Math.Min(to, 0.86);
            if (a < b) marks.Add(new Shape(Outline.Line(On(a).X - nx * thick * 0.1, On(a).Y - ny * thick * 0.1, On(b).X - nx * thick * 0.1, On(b).Y - ny * thick * 0.1), null, new Pen(Gleam, thick * 0.2) { Round = true }));
            if (from < 0.02 && to > 0.11) marks.Add(new Shape(Outline.Line(On(0.025).X, On(0.025).Y, On(0.09).X, On(0.09).Y), null, new Pen(Edge, thick * 0.34) { Round = true }));
        }

        Spot On(double share) => new(pose.Eye.X + dx * share, pose.Eye.Y + dy * share);
        Spot Flank(double share, int side)
        {
            var half = thick / 2 * (share < 0.12 ? 0.75 + share / 0.48 : share > 0.6 ? Math.Sqrt(Math.Max(0, (1 - share) / 0.4)) : 1) * side;
            return new(On(share).X + nx * half, On(share).Y + ny * half);
        }
    }

    // A quarter turn to the left: up is left, and away from the maker is up.
    private static ImmutableArray<Mark> Turned(ImmutableArray<Mark> marks) =>
        [.. marks.Select(m => m is Shape s ? s with { Outline = new Outline(s.Outline.Strokes, [.. s.Outline.Spots.Select(p => new Spot(p.Y, -p.X))]) } : m)];
}
