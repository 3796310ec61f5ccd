namespace Pleatwright.Letters;

/// <summary>
/// How large letters are: rows from one of their lines to the next, a whole number of spaces so that every line lies on a gathering row, and how many
/// times as wide as drawn. Letters of twice the least height are drawn twice as large; between, their upright strokes are longer.
/// </summary>
/// <param name="Zone">Cable rows from one line to the next.</param>
/// <param name="Scale">How many times as large as drawn: 1, 2, 4, …</param>
internal readonly record struct LetterSize(int Zone, int Scale)
{
    /// <summary>The least size: whole spaces of at least <see cref="DrawnLetter.LeastZone"/> rows.</summary>
    public static LetterSize Least(int cableRowsPerSpace) =>
        new((DrawnLetter.LeastZone + cableRowsPerSpace - 1) / cableRowsPerSpace * cableRowsPerSpace, 1);

    /// <summary>So many times the least size.</summary>
    public static LetterSize Times(int cableRowsPerSpace, int times)
    {
        var scale = 1;
        while (scale * 2 <= times) scale *= 2;
        return new LetterSize(Least(cableRowsPerSpace).Zone * times, scale);
    }

    /// <summary>The size whose capitals come nearest to so many rows; the lower of two.</summary>
    public static LetterSize For(int cableRowsPerSpace, int zones, int rows)
    {
        var least = Least(cableRowsPerSpace).Zone * zones;
        return Times(cableRowsPerSpace, Math.Max(1, (int)Math.Ceiling((rows - 1) / (double)least - 0.5)));
    }

    /// <summary>Rows of a capital.</summary>
    public int Capitals(int zones) => Zone * zones + 1;
}
