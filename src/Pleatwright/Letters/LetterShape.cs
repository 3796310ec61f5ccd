using System.Collections.Immutable;

namespace Pleatwright.Letters;

/// <summary>
/// A letter as it is stitched: rows of cables on the lattice, counted from its base line, which is row 0; rows above it are negative. Its
/// first column is its leftmost valley.
/// </summary>
/// <param name="Top">Its highest row.</param>
/// <param name="Rows">Its rows from the top, equally long; <see cref="Cable"/> is a cable, '.' bare.</param>
internal sealed record LetterShape(int Top, ImmutableArray<string> Rows)
{
    /// <summary>The character of a cable.</summary>
    public const char Cable = '#';

    /// <summary>The character of a bare valley.</summary>
    public const char Bare = '.';

    /// <summary>The fewest cables in a run: what the proof takes for worth a start and a tie-off.</summary>
    public const int LeastRun = 3;

    /// <summary>Its lowest row.</summary>
    public int Bottom => Top + Rows.Length - 1;

    /// <summary>Its width in valleys.</summary>
    public int Width => Rows[0].Length;

    /// <summary>One of its rows; empty where it has none.</summary>
    public ReadOnlySpan<char> Row(int row) => row >= Top && row <= Bottom ? Rows[row - Top] : [];

    /// <summary>The leftmost worked column of a row; -1 where it is bare.</summary>
    public int First(int row) => Row(row).IndexOf(Cable);

    /// <summary>The rightmost worked column of a row; -1 where it is bare.</summary>
    public int Last(int row) => Row(row).LastIndexOf(Cable);

    /// <summary>Runs of cables in a row of text, from left to right, both ends counted in.</summary>
    public static IEnumerable<(int From, int To)> Runs(string row)
    {
        for (var i = 0; i < row.Length; i++)
        {
            if (row[i] != Cable) continue;
            var from = i;
            while (i + 1 < row.Length && row[i + 1] == Cable) i++;
            yield return (from, i);
        }
    }

    /// <summary>Cut down to its worked rows and columns.</summary>
    /// <returns>The shape; null where nothing is worked. Columns cut off at the left are told.</returns>
    public static LetterShape? Of(int top, IReadOnlyList<string> rows)
    {
        int first = -1, last = -1, left = int.MaxValue, right = -1;
        for (var i = 0; i < rows.Count; i++)
        {
            var at = rows[i].IndexOf(Cable);
            if (at < 0) continue;
            if (first < 0) first = i;
            last = i;
            left = Math.Min(left, at);
            right = Math.Max(right, rows[i].LastIndexOf(Cable));
        }
        if (first < 0) return null;
        return new LetterShape(top + first, [.. Enumerable.Range(first, last - first + 1).Select(i => rows[i].PadRight(right + 1, Bare)[left..(right + 1)])]);
    }

    /// <summary>This shape with another laid beside or over it.</summary>
    /// <param name="other">The other.</param>
    /// <param name="column">The column of this one on which the other's first column lies; may be less than 0.</param>
    /// <param name="lower">Rows by which it lies lower than its own base line says.</param>
    public LetterShape With(LetterShape other, int column, int lower = 0)
    {
        int top = Math.Min(Top, other.Top + lower), bottom = Math.Max(Bottom, other.Bottom + lower);
        int left = Math.Min(0, column), width = Math.Max(Width, column + other.Width) - left;
        var rows = new List<string>();
        for (var y = top; y <= bottom; y++)
        {
            var row = new char[width];
            Array.Fill(row, Bare);
            Lay(row, Row(y), -left);
            Lay(row, other.Row(y - lower), column - left);
            rows.Add(new string(row));
        }
        return new LetterShape(top, [.. rows]);
    }

    private static void Lay(char[] row, ReadOnlySpan<char> text, int at)
    {
        for (var i = 0; i < text.Length; i++)
            if (text[i] == Cable) row[at + i] = Cable;
    }
}
