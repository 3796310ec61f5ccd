using System.Collections.Immutable;

namespace Pleatwright.Plate;

/// <summary>A step along an outline.</summary>
public enum Stroke : byte
{
    /// <summary>Begin a figure; takes one spot.</summary>
    Move,

    /// <summary>A straight line; takes one spot.</summary>
    Line,

    /// <summary>A cubic Bézier curve; takes two handles and its end.</summary>
    Curve,

    /// <summary>Back to where the figure began; takes none.</summary>
    Close,
}

/// <summary>Any number of figures of lines and curves, in millimetres; drawn as one, so that many bricks cost little.</summary>
public sealed class Outline
{
    internal Outline(ImmutableArray<Stroke> strokes, ImmutableArray<Spot> spots)
    {
        Strokes = strokes;
        Spots = spots;
    }

    /// <summary>The steps.</summary>
    public ImmutableArray<Stroke> Strokes { get; }

    /// <summary>The spots they take, in order.</summary>
    public ImmutableArray<Spot> Spots { get; }

    /// <summary>One upright rectangle.</summary>
    public static Outline Rectangle(Box box) => new OutlineBuilder().Rectangle(box).Build();

    /// <summary>One rectangle with rounded corners.</summary>
    public static Outline Rounded(Box box, double radius) => new OutlineBuilder().Rounded(box, radius).Build();

    /// <summary>One straight line.</summary>
    public static Outline Line(double x1, double y1, double x2, double y2) => new OutlineBuilder().Line(x1, y1, x2, y2).Build();

    /// <summary>One closed figure through the spots.</summary>
    public static Outline Polygon(params ReadOnlySpan<Spot> spots) => new OutlineBuilder().Polygon(spots).Build();

    /// <summary>One circle.</summary>
    public static Outline Circle(Spot centre, double radius) => new OutlineBuilder().Circle(centre, radius).Build();
}

/// <summary>Gathers an <see cref="Outline"/> figure by figure.</summary>
internal sealed class OutlineBuilder
{
    // Handle length of a quarter circle drawn as one cubic: 4/3·tan(π/8).
    private const double QuarterCircle = 0.5522847498307936;

    private readonly ImmutableArray<Stroke>.Builder strokes = ImmutableArray.CreateBuilder<Stroke>();
    private readonly ImmutableArray<Spot>.Builder spots = ImmutableArray.CreateBuilder<Spot>();

    /// <summary>Whether nothing was gathered yet.</summary>
    public bool IsEmpty => strokes.Count == 0;

    /// <summary>Begins a figure.</summary>
    public OutlineBuilder MoveTo(double x, double y) => Add(Stroke.Move, x, y);

    /// <summary>Goes on in a straight line.</summary>
    public OutlineBuilder LineTo(double x, double y) => Add(Stroke.Line, x, y);

    /// <summary>Goes on in a curve.</summary>
    public OutlineBuilder CurveTo(Spot handle1, Spot handle2, Spot end)
    {
        strokes.Add(Stroke.Curve);
        spots.Add(handle1);
        spots.Add(handle2);
        spots.Add(end);
        return this;
    }

    /// <summary>Closes the figure.</summary>
    public OutlineBuilder Close()
    {
        strokes.Add(Stroke.Close);
        return this;
    }

    /// <summary>A straight line of its own.</summary>
    public OutlineBuilder Line(double x1, double y1, double x2, double y2) => MoveTo(x1, y1).LineTo(x2, y2);

    /// <summary>A straight line there and back. With a round pen it looks like a line, yet many of them are drawn as one.</summary>
    public OutlineBuilder Thread(double x1, double y1, double x2, double y2) => Line(x1, y1, x2, y2).Close();

    /// <summary>An upright rectangle.</summary>
    public OutlineBuilder Rectangle(Box box) =>
        MoveTo(box.X, box.Y).LineTo(box.Right, box.Y).LineTo(box.Right, box.Bottom).LineTo(box.X, box.Bottom).Close();

    /// <summary>A closed figure through the spots.</summary>
    public OutlineBuilder Polygon(params ReadOnlySpan<Spot> corners)
    {
        for (var i = 0; i < corners.Length; i++) Add(i == 0 ? Stroke.Move : Stroke.Line, corners[i].X, corners[i].Y);
        return Close();
    }

    /// <summary>A rectangle with rounded corners; the radius is held to half the shorter side.</summary>
    public OutlineBuilder Rounded(Box box, double radius)
    {
        var r = Math.Min(radius, Math.Min(box.Width, box.Height) / 2);
        if (r <= 0) return Rectangle(box);
        var k = r * (1 - QuarterCircle);
        double x = box.X, y = box.Y, right = box.Right, bottom = box.Bottom;
        MoveTo(x + r, y).LineTo(right - r, y);
        CurveTo(new(right - k, y), new(right, y + k), new(right, y + r)).LineTo(right, bottom - r);
        CurveTo(new(right, bottom - k), new(right - k, bottom), new(right - r, bottom)).LineTo(x + r, bottom);
        CurveTo(new(x + k, bottom), new(x, bottom - k), new(x, bottom - r)).LineTo(x, y + r);
        return CurveTo(new(x, y + k), new(x + k, y), new(x + r, y)).Close();
    }

    /// <summary>A circle.</summary>
    public OutlineBuilder Circle(Spot centre, double radius) =>
        Rounded(new Box(centre.X - radius, centre.Y - radius, 2 * radius, 2 * radius), radius);

    /// <summary>What was gathered.</summary>
    public Outline Build() => new(strokes.ToImmutable(), spots.ToImmutable());

    private OutlineBuilder Add(Stroke stroke, double x, double y)
    {
        strokes.Add(stroke);
        spots.Add(new Spot(x, y));
        return this;
    }
}
