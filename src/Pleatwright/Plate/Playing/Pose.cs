using System.Collections.Immutable;
using Pleatwright.Moves;

namespace Pleatwright.Plate.Playing;

/// <summary>A length of thread, as a cubic Bézier curve in millimetres.</summary>
internal readonly record struct ThreadCurve(Spot A, Spot B, Spot C, Spot D)
{
    /// <summary>A place on it.</summary>
    /// <param name="t">From 0 at its beginning to 1 at its end.</param>
    public Spot At(double t)
    {
        double s = 1 - t, a = s * s * s, b = 3 * s * s * t, c = 3 * s * t * t, d = t * t * t;
        return new(a * A.X + b * B.X + c * C.X + d * D.X, a * A.Y + b * B.Y + c * C.Y + d * D.Y);
    }

    /// <summary>A straight one.</summary>
    public static ThreadCurve Straight(Spot from, Spot to) => new(from, Pose.Between(from, to, 1 / 3.0), Pose.Between(from, to, 2 / 3.0), to);
}

/// <summary>
/// How a move is played: when the needle comes, goes in and is drawn through, and how large its gestures are. The player on a page is given these numbers; what it does with
/// them is what <see cref="Pose"/> does (our own choice, by eye).
/// </summary>
internal static class Gestures
{
    /// <summary>Shares of a move at which the needle has come to where it goes in, its point is out again, all of it is drawn through, and the thread lies.</summary>
    public const double Come = 0.34, Entered = 0.52, Drawn = 0.88, Lies = 0.96;

    /// <summary>The share at which a still shows a move best: the needle through the pleat, the thread held on its side.</summary>
    public const double Still = Entered;

    /// <summary>In pitches: how long the needle is; how far it is drawn beyond where it came out; how far from the pleat it waits; how high it is swung.</summary>
    public const double Needle = 3.2, Beyond = 1.1, Before = 0.15, Swing = 0.9;

    /// <summary>In lines: how far the slack of the thread is held beside the needle.</summary>
    public const double Slack = 2.4;

    /// <summary>How close the strands lie in the hand, over how they lie side by side.</summary>
    public const double Close = 0.65;

    /// <summary>How wide the thread in hand is at its ends, over its middle, and the share of its length over which it widens.</summary>
    public const double Gathered = 0.4, Gathering = 0.14;

    /// <summary>How a pleat is shaded from its left edge to its right, light from the upper left: lighter than the cloth, or darker where negative.</summary>
    public static ImmutableArray<double> Pleat { get; } = [-0.34, -0.1, 0.16, 0.4, 0.46, 0.34, 0.18, 0.04, -0.06, -0.13, -0.22, -0.36];

    /// <summary>In pitches: how far the needle's point is out when it has entered.</summary>
    public const double Point = 0.9;
}

/// <summary>Where needle and thread are at a moment of a move, in millimetres as seen; what is hidden by the cloth is left out.</summary>
/// <param name="Threads">The thread under way where it is seen, from where it comes out of the cloth.</param>
/// <param name="Eye">The needle's eye.</param>
/// <param name="Tip">Its point.</param>
/// <param name="Seen">Which parts of the needle are seen, in shares from its eye to its point.</param>
internal sealed record Pose(ImmutableArray<ThreadCurve> Threads, Spot Eye, Spot Tip, ImmutableArray<(double From, double To)> Seen)
{
    /// <summary>A place between two.</summary>
    public static Spot Between(Spot a, Spot b, double t) => new(a.X + (b.X - a.X) * t, a.Y + (b.Y - a.Y) * t);

    /// <summary>How a change begins and ends gently.</summary>
    public static double Ease(double t) => t <= 0 ? 0 : t >= 1 ? 1 : t * t * (3 - 2 * t);

    /// <summary>The pose at a share of a move.</summary>
    /// <param name="film">The film.</param>
    /// <param name="index">Which of its moves.</param>
    /// <param name="share">How far it is, from 0 to 1.</param>
    public static Pose At(Film film, int index, double share)
    {
        var take = film.Takes[index];
        var move = take.Move;
        Spot from = film.Place(take, move.From), into = film.Place(take, move.In), outOf = film.Place(take, move.Out);
        var length = Gestures.Needle * film.Pitch;
        if (!move.Pierces) return Travel(film, take, share, from, into, length);
        var (startSeen, endSeen) = (move.Lies == take.Seen, move.Emerges == take.Seen);
        var way = Along(film, take);
        var width = Math.Sqrt(Math.Pow(outOf.X - into.X, 2) + Math.Pow(outOf.Y - into.Y, 2));
        // How far the needle's point is past where it goes in.
        double before = -Gestures.Before * film.Pitch, entered = width + Gestures.Point * film.Pitch, drawn = width + length + Gestures.Beyond * film.Pitch;
        var point = share < Gestures.Come ? before
            : share < Gestures.Entered ? before + (entered - before) * Ease((share - Gestures.Come) / (Gestures.Entered - Gestures.Come))
            : entered + (drawn - entered) * Ease((share - Gestures.Entered) / (Gestures.Drawn - Gestures.Entered));
        Spot eye = new(into.X + way.X * (point - length), into.Y + way.Y * (point - length)), tip = new(into.X + way.X * point, into.Y + way.Y * point);
        var seen = ImmutableArray.CreateBuilder<(double, double)>(2);
        if (share < Gestures.Come)
        {
            // It swings over from where it was drawn out last.
            var (lastEye, lastWay) = Last(film, index, eye, way);
            var t = Ease(share / Gestures.Come);
            double a = Math.Atan2(lastWay.Y, lastWay.X), turn = Math.Atan2(way.Y, way.X) - a;
            turn -= 2 * Math.PI * Math.Ceiling((turn - Math.PI - 0.01) / (2 * Math.PI)); // half a turn is always made the same way
            var angle = a + turn * t;
            var mid = Between(lastEye, eye, t);
            eye = mid with { Y = mid.Y - Gestures.Swing * film.Pitch * Math.Sin(Math.PI * t) };
            tip = new(eye.X + Math.Cos(angle) * length, eye.Y + Math.Sin(angle) * length);
            if (startSeen) seen.Add((0, 1));
        }
        else
        {
            double enters = Math.Clamp(1 - point / length, 0, 1), leaves = Math.Clamp(1 - (point - width) / length, 0, 1);
            if (startSeen && enters > 0) seen.Add((0, enters));
            if (endSeen && leaves < 1) seen.Add((leaves, 1));
        }
        var threads = ImmutableArray.CreateBuilder<ThreadCurve>(2);
        if (startSeen)
        {
            var lies = Ease((share - Gestures.Entered) / (Gestures.Lies - Gestures.Entered));
            var slack = Gestures.Slack * film.Line * Math.Min(1, share / Gestures.Come) * (1 - lies);
            var side = take.Turned ? -take.Side : take.Side;
            var up = side == 0 ? -slack / 2 : side * slack;
            var (restFrom, restTo) = Rest(film, take, from, into);
            Spot a = Between(from, restFrom, lies), d = point < length || share < Gestures.Come ? eye : Between(into, restTo, lies);
            Spot b = Between(a, d, 0.25), c = Between(a, d, 0.75);
            threads.Add(new(a, b with { Y = b.Y + up }, c with { Y = c.Y + up }, d));
        }
        if (endSeen && share >= Gestures.Come && point - length > width) threads.Add(ThreadCurve.Straight(outOf, eye));
        return new(threads.ToImmutable(), eye, tip, seen.ToImmutable());
    }

    /// <summary>Which way the needle goes, as seen; of length 1.</summary>
    public static Spot Along(Film film, Take take)
    {
        Spot into = film.Place(take, take.Move.In), outOf = film.Place(take, take.Move.Out);
        double x = outOf.X - into.X, y = outOf.Y - into.Y, length = Math.Sqrt(x * x + y * y);
        if (length > 1e-6) return new(x / length, y / length);
        // Straight through the cloth it is seen aslant: coming toward the hand, or going from it.
        var on = take.Way * (take.Turned != (take.Seen == ClothSide.Wrong) ? -1 : 1);
        return take.Move.Emerges == take.Seen ? new(0.85 * on, -0.526782687642637) : new(-0.85 * on, 0.526782687642637);
    }

    // Where the stitch's thread lies in the end: as the chart draws it, where that is one length.
    private static (Spot From, Spot To) Rest(Film film, Take take, Spot from, Spot into)
    {
        if (take.Move.Shows is not [{ Kind: Chart.Stitches.ShapeKind.Bar } only]) return (from, into);
        return (film.Place(only.From.Across, only.From.Down, take.Turned, take.Seen), film.Place(only.To.Across, only.To.Down, take.Turned, take.Seen));
    }

    private static (Spot Eye, Spot Way) Last(Film film, int index, Spot eye, Spot way)
    {
        // From out of sight, along its own way, where nothing led here.
        var far = (new Spot(eye.X - way.X * 2 * film.Pitch, eye.Y - way.Y * 2 * film.Pitch), way);
        if (index == 0) return far;
        var (last, take) = (film.Takes[index - 1], film.Takes[index]);
        if (last.Seen != take.Seen || last.Turned != take.Turned || last.Move.Emerges != last.Seen || last.Move.Out != take.Move.From) return far;
        var at = film.Place(last, last.Move.Out);
        if (!last.Move.Pierces) return (at, way);
        var along = Along(film, last);
        return (new(at.X + along.X * Gestures.Beyond * film.Pitch, at.Y + along.Y * Gestures.Beyond * film.Pitch), along);
    }

    // The thread is led along the back, or hangs there, and nothing is gone through.
    private static Pose Travel(Film film, Take take, double share, Spot from, Spot into, double length)
    {
        if (take.Seen == ClothSide.Right || take.Move.Kind == MoveKind.Turn) return new([], from, from, []);
        var t = Ease(share);
        if (take.Move.Kind != MoveKind.Carry)
        {
            var hangs = take.Move.Kind == MoveKind.TakeUp ? 1 - t : t;
            Spot hung = new(from.X, from.Y + (Gestures.Beyond + hangs) * film.Pitch);
            return new([ThreadCurve.Straight(from, hung)], hung, hung with { Y = hung.Y + length }, [(0, 1)]);
        }
        List<Spot> path = [from, .. take.Move.Via.Select(v => film.Place(take, v)), into];
        var lengths = path.Zip(path.Skip(1), (a, b) => Math.Sqrt(Math.Pow(b.X - a.X, 2) + Math.Pow(b.Y - a.Y, 2))).ToList();
        var left = lengths.Sum() * t;
        var threads = ImmutableArray.CreateBuilder<ThreadCurve>();
        Spot at = from, way = new(0, 1);
        for (var i = 0; i < lengths.Count; i++)
        {
            if (lengths[i] < 1e-9) continue;
            way = new((path[i + 1].X - path[i].X) / lengths[i], (path[i + 1].Y - path[i].Y) / lengths[i]);
            at = Between(path[i], path[i + 1], Math.Min(1, left / lengths[i]));
            threads.Add(ThreadCurve.Straight(path[i], at));
            if (left <= lengths[i]) break;
            left -= lengths[i];
        }
        return new(threads.ToImmutable(), at, new(at.X + way.X * length, at.Y + way.Y * length), [(0, 1)]);
    }
}
