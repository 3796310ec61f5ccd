namespace Pleatwright.Plate;

/// <summary>A place on paper.</summary>
/// <param name="X">Millimetres to the right.</param>
/// <param name="Y">Millimetres down.</param>
public readonly record struct Spot(double X, double Y);

/// <summary>An upright rectangle on paper, in millimetres.</summary>
/// <param name="X">Its left edge.</param>
/// <param name="Y">Its top edge.</param>
/// <param name="Width">Its width, 0 or more.</param>
/// <param name="Height">Its height, 0 or more.</param>
public readonly record struct Box(double X, double Y, double Width, double Height)
{
    /// <summary>Its right edge.</summary>
    public double Right => X + Width;

    /// <summary>Its bottom edge.</summary>
    public double Bottom => Y + Height;

    /// <summary>Its middle.</summary>
    public Spot Centre => new(X + Width / 2, Y + Height / 2);

    /// <summary>The box grown by so many millimetres on every side; shrunk when negative.</summary>
    public Box Grown(double by) => Grown(by, by);

    /// <summary>The box grown sideways and up and down.</summary>
    public Box Grown(double sideways, double upright) =>
        new(X - sideways, Y - upright, Width + 2 * sideways, Height + 2 * upright);

    /// <summary>Whether a spot lies in it, its edges counted in.</summary>
    public bool Holds(Spot spot) => spot.X >= X && spot.X <= Right && spot.Y >= Y && spot.Y <= Bottom;

    /// <summary>The box moved.</summary>
    public Box Moved(double right, double down) => this with { X = X + right, Y = Y + down };
}
