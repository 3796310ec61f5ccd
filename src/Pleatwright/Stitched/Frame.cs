namespace Pleatwright.Stitched;

/// <summary>A part of the picture, in millimetres of the finished piece, its upper left corner first.</summary>
internal readonly record struct Frame(double X, double Y, double Width, double Height)
{
    /// <summary>How many pixels high it is that is so many wide, at least 1.</summary>
    public int PixelsHigh(int wide) => Math.Max(1, (int)Math.Round(wide * Height / Width));

    /// <summary>The frame so much larger on every side.</summary>
    public Frame Grown(double by) => new(X - by, Y - by, Width + 2 * by, Height + 2 * by);

    /// <summary>Its right edge.</summary>
    public double Right => X + Width;

    /// <summary>Its lower edge.</summary>
    public double Bottom => Y + Height;

    /// <summary>Whether all of another lies in it.</summary>
    public bool Holds(Frame other) => other.X >= X - Hair && other.Y >= Y - Hair && other.Right <= Right + Hair && other.Bottom <= Bottom + Hair;

    /// <summary>Whether any of another lies in it.</summary>
    public bool Meets(Frame other) => other.X < Right - Hair && other.Right > X + Hair && other.Y < Bottom - Hair && other.Bottom > Y + Hair;

    /// <summary>The least frame that holds both.</summary>
    public Frame With(Frame other) => Of(Math.Min(X, other.X), Math.Min(Y, other.Y), Math.Max(Right, other.Right), Math.Max(Bottom, other.Bottom));

    /// <summary>What lies in both; they must meet.</summary>
    public Frame Within(Frame other) => Of(Math.Max(X, other.X), Math.Max(Y, other.Y), Math.Min(Right, other.Right), Math.Min(Bottom, other.Bottom));

    /// <summary>A frame of its edges.</summary>
    public static Frame Of(double left, double top, double right, double bottom) => new(left, top, right - left, bottom - top);

    private const double Hair = 0.02; // millimetres: a fifth of the finest strand at most; pleats drawn in leave an edge by less
}
