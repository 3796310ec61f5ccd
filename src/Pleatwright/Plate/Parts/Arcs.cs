namespace Pleatwright.Plate.Parts;

/// <summary>Arcs of circles about the origin, as curves. Angles run from straight down toward the right, in radians.</summary>
internal static class Arcs
{
    // A twelfth of a turn drawn as one cubic strays from the circle by less than a millionth of its radius.
    private const double MostTurn = Math.PI / 6;

    /// <summary>The spot at a radius and an angle.</summary>
    public static Spot At(double radius, double angle) => new(radius * Math.Sin(angle), radius * Math.Cos(angle));

    /// <summary>Adds an arc as a figure of its own.</summary>
    public static OutlineBuilder Arc(this OutlineBuilder outline, double radius, double from, double to)
    {
        var parts = Math.Max(1, (int)Math.Ceiling(Math.Abs(to - from) / MostTurn - 1e-9));
        var turn = (to - from) / parts;
        var handle = 4.0 / 3 * Math.Tan(turn / 4) * radius;
        var at = At(radius, from);
        outline.MoveTo(at.X, at.Y);
        for (var i = 0; i < parts; i++)
        {
            double a = from + i * turn, b = i == parts - 1 ? to : a + turn;
            Spot start = At(radius, a), end = At(radius, b);
            // The tangent at angle a points along (cos a, -sin a).
            outline.CurveTo(
                new Spot(start.X + handle * Math.Cos(a), start.Y - handle * Math.Sin(a)),
                new Spot(end.X - handle * Math.Cos(b), end.Y + handle * Math.Sin(b)), end);
        }
        return outline;
    }

    /// <summary>Adds a straight line along a radius.</summary>
    public static OutlineBuilder Spoke(this OutlineBuilder outline, double angle, double from, double to)
    {
        Spot start = At(from, angle), end = At(to, angle);
        return outline.Line(start.X, start.Y, end.X, end.Y);
    }
}
