namespace Pleatwright.Letters;

/// <summary>
/// A border round letters, computed to fit: two bars on gathering rows, two rows thick, with teeth on their outer sides that come out even from corner to corner,
/// and two sides of three cables between them, stepped out by a valley at even distances.
/// </summary>
internal static class Border
{
    /// <summary>Bare valleys kept beside what it goes round, at least. Our own choice.</summary>
    public const int Beside = 5;

    /// <summary>Bare rows kept above and below it, at least. Our own choice.</summary>
    public const int Above = 3;

    private const int Tooth = LetterShape.LeastRun; // cables of a tooth, and bare valleys between two
    private const int Side = LetterShape.LeastRun;
    private const int Thick = 2;

    /// <summary>Lays it round what is on the canvas.</summary>
    /// <param name="canvas">The canvas; its row 0 lies on a gathering row.</param>
    /// <param name="perSpace">Cable rows to a space.</param>
    /// <param name="thread">Its thread.</param>
    public static void Round(Canvas canvas, int perSpace, char thread)
    {
        var (left, top, right, bottom) = canvas.Extent;
        // Its outer row lies on a gathering row: the bars are the widest, and are kept level there.
        var upper = (int)Math.Floor((top - Above - Thick) / (double)perSpace) * perSpace;
        var lower = (int)Math.Ceiling((bottom + Above + Thick) / (double)perSpace) * perSpace;
        var needed = right - left + 1 + 2 * (Beside + Side);
        var teeth = (needed - Tooth + 2 * Tooth - 1) / (2 * Tooth);
        var width = teeth * 2 * Tooth + Tooth;
        var from = left - Beside - Side - (width - needed) / 2;
        var to = from + width - 1;
        for (var row = 0; row < Thick; row++)
        {
            canvas.Run(upper + row, from, to, thread);
            canvas.Run(lower - row, from, to, thread);
        }
        for (var tooth = from; tooth <= to; tooth += 2 * Tooth)
        {
            canvas.Run(upper - 1, tooth, tooth + Tooth - 1, thread);
            canvas.Run(lower + 1, tooth, tooth + Tooth - 1, thread);
        }
        var rows = lower - upper - 2 * Thick + 1; // between the bars
        for (var i = 0; i < rows; i++)
        {
            var step = IsStep(i, rows) ? 1 : 0;
            canvas.Run(upper + Thick + i, from - step, from + Side - 1, thread);
            canvas.Run(upper + Thick + i, to - Side + 1, to + step, thread);
        }
    }

    // Two rows in four, the same from either end.
    private static bool IsStep(int row, int rows) => Math.Min(row, rows - 1 - row) % 4 is 1 or 2;
}
