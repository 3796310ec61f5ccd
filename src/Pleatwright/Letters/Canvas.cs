using System.Collections.Immutable;
using Pleatwright.Chart;

namespace Pleatwright.Letters;

/// <summary>Cables put together to a figure, on rows and valleys of any number.</summary>
internal sealed class Canvas
{
    private readonly Dictionary<(int Row, int Valley), char> cells = [];

    /// <summary>The leftmost and rightmost valley and the highest and lowest row that are worked.</summary>
    public (int Left, int Top, int Right, int Bottom) Extent =>
        (cells.Keys.Min(c => c.Valley), cells.Keys.Min(c => c.Row), cells.Keys.Max(c => c.Valley), cells.Keys.Max(c => c.Row));

    /// <summary>Lays a letter on it.</summary>
    public void Lay(LetterShape shape, int left, int baseRow, char thread)
    {
        for (var y = shape.Top; y <= shape.Bottom; y++)
            for (var x = 0; x < shape.Width; x++)
                if (shape.Row(y)[x] == LetterShape.Cable) cells[(baseRow + y, left + x)] = thread;
    }

    /// <summary>Lays a run on it, both ends counted in.</summary>
    public void Run(int row, int from, int to, char thread)
    {
        for (var x = from; x <= to; x++) cells[(row, x)] = thread;
    }

    /// <summary>Its rows, as a figure has them.</summary>
    public ImmutableArray<string> Rows()
    {
        var (left, top, right, bottom) = Extent;
        return [.. Enumerable.Range(top, bottom - top + 1).Select(y => string.Create(right - left + 1, (cells, y, left), static (row, at) =>
        {
            for (var x = 0; x < row.Length; x++) row[x] = at.cells.GetValueOrDefault((at.y, at.left + x), Figure.Bare);
        }))];
    }
}
