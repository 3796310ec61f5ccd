namespace Pleatwright.Letters;

/// <summary>
/// How far apart two letters stand. What the eye compares is the white between them, not the distance of their nearest points (as lettering is taught:
/// E. Johnston, Writing and Illuminating and Lettering, 1906; the measure below is our own). It is measured along the rows that both letters have: bare
/// valleys from the right side of the one to the left side of the other, a row counting no more than <see cref="Deepest"/>, for what lies deeper belongs to
/// the letter's own form. The letters stand as near as they can with the mean at least what the alphabet asks for, and never so near that two cables of
/// theirs have fewer than <see cref="Least"/> bare valleys between them, on one row or on two rows next to each other.
/// </summary>
internal static class Spacing
{
    /// <summary>Bare valleys that always stay between two letters: two, so that a whole pleat stays bare.</summary>
    public const int Least = 2;

    /// <summary>The most bare valleys that a row counts for.</summary>
    public const int Deepest = 7;

    /// <summary>The most white that can be asked for.</summary>
    public const int Most = Deepest;

    /// <summary>The column of the left letter on which the right letter's first column lies.</summary>
    /// <param name="left">The left letter.</param>
    /// <param name="right">The right letter.</param>
    /// <param name="white">The white wanted between them, bare valleys a row on the mean, <see cref="Least"/> to <see cref="Most"/>.</param>
    /// <param name="scale">How many times as large as drawn the letters are; so many times as far apart they stand.</param>
    public static int Column(LetterShape left, LetterShape right, double white, int scale)
    {
        white = Math.Min(white, Most);
        var column = Nearest(left, right);
        while (Mean(left, right, column, scale) is { } mean && mean < white * scale) column++;
        return column;
    }

    /// <summary>The mean white between two letters; null where they have no row in common.</summary>
    public static double? Mean(LetterShape left, LetterShape right, int column, int scale)
    {
        int top = Math.Max(left.Top, right.Top), bottom = Math.Min(left.Bottom, right.Bottom);
        if (top > bottom) return null;
        double sum = 0;
        for (var y = top; y <= bottom; y++)
            sum += left.Last(y) is >= 0 and var last && right.First(y) is >= 0 and var first ? Math.Min(Deepest * scale, column + first - last - 1) : Deepest * scale;
        return sum / (bottom - top + 1);
    }

    /// <summary>The nearest the right letter can stand.</summary>
    public static int Nearest(LetterShape left, LetterShape right)
    {
        int? column = null;
        for (var y = left.Top; y <= left.Bottom; y++)
            if (left.Last(y) is >= 0 and var last)
                for (var z = y - 1; z <= y + 1; z++)
                    if (right.First(z) is >= 0 and var first)
                        column = Math.Max(column ?? int.MinValue, last + 1 + Least - first);
        return column ?? left.Width + Least; // one wholly above the other
    }
}
