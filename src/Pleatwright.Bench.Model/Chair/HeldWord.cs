using System.Collections.Immutable;
using Pleatwright.Chart.Stitches;
using Pleatwright.Order;

namespace Pleatwright.Bench.Model.Chair;

/// <summary>Where the word for the next stitch stands in the picture of what is held: close by, and never over that stitch or the one after it.</summary>
public static class HeldWord
{
    /// <summary>How wide a pleat is drawn, in units of the picture.</summary>
    public const double Pleat = 62;

    /// <summary>How high a line is drawn, in units of the picture.</summary>
    public const double Line = 40;

    /// <summary>How high the word is, in units of the picture.</summary>
    public const double High = 46;

    private const double Air = 10; // between the word and what it names

    /// <summary>How wide a word is, in units of the picture.</summary>
    public static double Wide(string word) => 44 + 15 * word.Length;

    /// <summary>The middle of the word beside the next stitch of a band or of accents, in units of the picture.</summary>
    /// <param name="shapes">What is drawn, in pleats and lines as held.</param>
    /// <param name="at">The next stitch.</param>
    /// <param name="word">The word.</param>
    /// <param name="low">Whether it is told below rather than above, where both serve.</param>
    /// <param name="sideways">Whether the work is held sideways, and the word written along the pleats.</param>
    public static (double X, double Y) Beside(ImmutableArray<HeldShape> shapes, int at, string word, bool low, bool sideways)
    {
        var (halfX, halfY) = sideways ? (High / 2, Wide(word) / 2) : (Wide(word) / 2, High / 2);
        var own = shapes.Where(s => s.Stitch == at).Select(Box).ToList();
        if (own.Count == 0) return default;
        var (left, top, right, bottom) = (own.Min(b => b.Left), own.Min(b => b.Top), own.Max(b => b.Right), own.Max(b => b.Bottom));
        var (middle, centre) = ((left + right) / 2, (top + bottom) / 2);
        var near = shapes.Where(s => Math.Abs(s.Stitch - at) < 60).ToList();
        (double X, double Y) best = default;
        var least = double.PositiveInfinity;
        foreach (var (x, y, cost) in Places())
        {
            var sum = cost + near.Where(s => Meets(s, x, y, halfX, halfY)).Sum(s => s.Stitch == at ? 1000 : s.Stitch == at + 1 ? 300 : s.Stitch > at ? 20 : 8);
            if (sum < least) (best, least) = ((x, y), sum);
        }
        return best;

        IEnumerable<(double X, double Y, double Cost)> Places()
        {
            foreach (var below in new[] { low, !low })
                for (var step = 0; step <= 3; step++) // further and further off
                    foreach (var side in new[] { 0, -1, 1 })
                    {
                        var y = below ? bottom + Air + halfY + step * Line : top - Air - halfY - step * Line;
                        yield return (middle + side * (halfX + 0.5 * Pleat), y, (below == low ? 0 : 3) + 6 * step + 4 * Math.Abs(side));
                    }
            foreach (var side in new[] { -1, 1 }) // beside it
                yield return (side < 0 ? left - Air - halfX : right + Air + halfX, centre, 12);
        }
    }

    private static (double Left, double Top, double Right, double Bottom) Box(HeldShape s)
    {
        var half = Half(s);
        return (Math.Min(s.Shape.From.Across, s.Shape.To.Across) * Pleat - half, Math.Min(s.Shape.From.Down, s.Shape.To.Down) * Line - half,
            Math.Max(s.Shape.From.Across, s.Shape.To.Across) * Pleat + half, Math.Max(s.Shape.From.Down, s.Shape.To.Down) * Line + half);
    }

    /// <summary>How wide a shape is drawn, in units of the picture.</summary>
    public static double WideOf(StitchShape shape) => Math.Clamp(shape.Width * Line, 9, 34);

    private static double Half(HeldShape s) => WideOf(s.Shape) / 2;

    /// <summary>Whether a word about a place would lie over a shape.</summary>
    internal static bool Meets(HeldShape s, double x, double y, double halfX, double halfY)
    {
        const int Steps = 12;
        var (left, top, right, bottom) = Box(s);
        if (x <= left - halfX || x >= right + halfX || y <= top - halfY || y >= bottom + halfY) return false; // most lie far off
        var half = Half(s);
        for (var i = 0; i <= Steps; i++)
        {
            var (px, py) = ((s.Shape.From.Across + (s.Shape.To.Across - s.Shape.From.Across) * i / Steps) * Pleat, (s.Shape.From.Down + (s.Shape.To.Down - s.Shape.From.Down) * i / Steps) * Line);
            if (Math.Abs(px - x) < halfX + half && Math.Abs(py - y) < halfY + half) return true;
        }
        return false;
    }
}
