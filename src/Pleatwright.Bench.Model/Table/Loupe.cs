using Pleatwright.Chart;

namespace Pleatwright.Bench.Model.Table;

/// <summary>What is free of the view, in pixels from its left and top.</summary>
public readonly record struct Pane(double Left, double Top, double Right, double Bottom);

/// <summary>
/// What a finger that draws covers, shown enlarged beside it, and named: valley, level, thread. It lies above the finger; where there is
/// no room, beside it, over the side on which no hand lies. Never under the finger.
/// </summary>
/// <param name="X">Pixels from the view's left to the place looked at.</param>
/// <param name="Y">Pixels from its top.</param>
/// <param name="Left">Pixels from the view's left to the loupe.</param>
/// <param name="Top">Pixels from its top.</param>
/// <param name="Words">What lies under the finger.</param>
public sealed record Loupe(double X, double Y, double Left, double Top, string Words)
{
    /// <summary>Pixels across.</summary>
    public const double Width = 196;

    /// <summary>Pixels high, the line of words among them.</summary>
    public const double Height = 128;

    /// <summary>How much it enlarges.</summary>
    public const double Nearer = 1.8;

    /// <summary>Pixels from the place under the finger's tip within which nothing of it lies. Our own choice: a fingertip is about 45 wide.</summary>
    public const double Clear = 34;

    private const double Edge = 6;

    /// <summary>The loupe over a place.</summary>
    /// <param name="x">Pixels from the view's left.</param>
    /// <param name="y">Pixels from its top.</param>
    /// <param name="free">What is free of the view.</param>
    /// <param name="hand">The hand that draws.</param>
    /// <param name="words">What lies there.</param>
    public static Loupe Over(double x, double y, Pane free, Hand hand, string words)
    {
        var (least, most) = (free.Left + Edge, Math.Max(free.Left + Edge, free.Right - Edge - Width));
        var above = y - Clear - Height;
        if (above >= free.Top + Edge) return new(x, y, Math.Clamp(x - Width / 2, least, most), above, words);
        var (left, right) = (x - Clear - Width, x + Clear);
        var (roomLeft, roomRight) = (left >= free.Left, right + Width <= free.Right);
        var beside = hand == Hand.Right ? roomLeft || !roomRight : roomLeft && !roomRight;
        return new(x, y, beside ? left : right, free.Top + Edge, words);
    }
}
