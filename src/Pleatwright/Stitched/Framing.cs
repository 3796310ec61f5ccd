namespace Pleatwright.Stitched;

/// <summary>A part of the picture, in millimetres of the finished piece, its upper left corner first.</summary>
internal readonly record struct Frame(double X, double Y, double Width, double Height)
{
    /// <summary>How many pixels high it is that is so many wide, at least 1.</summary>
    public int PixelsHigh(int wide) => Math.Max(1, (int)Math.Round(wide * Height / Width));

    /// <summary>The frame so much larger on every side.</summary>
    public Frame Grown(double by) => new(X - by, Y - by, Width + 2 * by, Height + 2 * by);
}
