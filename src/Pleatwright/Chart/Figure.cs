using System.Collections.Immutable;
using Pleatwright.Cloth;

namespace Pleatwright.Chart;

/// <summary>A half stitch asked for at one end of a figure's row: at the outer end of the row's outermost run.</summary>
/// <param name="Row">The figure's row, 0 at the top.</param>
/// <param name="End">Which end.</param>
public readonly record struct HalfMark(int Row, RunEnd End);

/// <summary>
/// A figure: rows of stacked cables, one character a valley, a thread's letter or '.' for bare pleats. All rows are
/// equally long.
/// </summary>
public sealed record Figure
{
    /// <summary>The character for bare pleats.</summary>
    public const char Bare = '.';

    /// <summary>The most cable rows a figure may have: as many as a piece.</summary>
    public const int MostRows = PleatingPlan.MostCableRows;

    /// <summary>The most valleys a figure may be wide: as many as a piece.</summary>
    public const int MostValleys = PleatingPlan.MostPleats - 1;

    /// <summary>The longest name, in characters.</summary>
    public const int LongestName = 100;

    /// <summary>A figure.</summary>
    /// <param name="name">Its name in the piece.</param>
    /// <param name="rows">Its rows from the top, 1 to <see cref="MostRows"/> of them, each 1 to <see cref="MostValleys"/> valleys wide.</param>
    /// <exception cref="ArgumentException">No rows, uneven rows, or a character that is neither a letter nor '.'.</exception>
    public Figure(string name, ImmutableArray<string> rows)
    {
        if (rows.IsDefaultOrEmpty || rows[0].Length == 0)
            throw new ArgumentException("A figure has at least one row and one valley.", nameof(rows));
        foreach (var row in rows)
        {
            if (row.Length != rows[0].Length) throw new ArgumentException("A figure's rows are equally long.", nameof(rows));
            foreach (var c in row)
                if (c != Bare && !char.IsAsciiLetter(c))
                    throw new ArgumentException($"A figure's rows hold thread letters and '.', not '{c}'.", nameof(rows));
        }
        Name = name;
        Rows = rows;
    }

    /// <summary>Its name in the piece.</summary>
    public string Name { get; init; }

    /// <summary>Its rows from the top.</summary>
    public ImmutableArray<string> Rows { get; private init; }

    /// <summary>Whether every run end is squared with a half stitch where one can be made.</summary>
    public bool Square { get; init; }

    /// <summary>
    /// What it says, where it is lettering: at most <see cref="MostLetters"/> characters, empty for any other figure. The counters of letters and
    /// their arms on gathering rows are meant, and the proof takes them so.
    /// </summary>
    public string Letters { get; init; } = "";

    /// <summary>The most characters of <see cref="Letters"/>.</summary>
    public const int MostLetters = 200;

    /// <summary>Half stitches asked for one by one.</summary>
    public ImmutableArray<HalfMark> Halves { get; init; } = [];

    /// <summary>Which figure of the maker's drawer it came from, and which state of it; null when it came from none.</summary>
    public FigureOrigin? From { get; init; }

    /// <summary>Width in valleys.</summary>
    public int Width => Rows[0].Length;

    /// <summary>Height in cable rows.</summary>
    public int Height => Rows.Length;

    /// <summary>The figure's middle valley, counted from 0 at its left; the left one of the middle pair when the width is even.</summary>
    public int Middle => (Width - 1) / 2;

    /// <summary>The figure mirrored left to right, its half stitches with it.</summary>
    public Figure Mirrored() => new(Name, [.. Rows.Select(Reverse)])
    {
        Square = Square,
        Letters = Letters,
        From = From,
        Halves = [.. Halves.Select(h => h with { End = h.End == RunEnd.Left ? RunEnd.Right : RunEnd.Left })],
    };

    /// <summary>The figure with one cell changed.</summary>
    /// <param name="column">Its column, 0 to one less than the width.</param>
    /// <param name="row">Its row, 0 to one less than the height.</param>
    /// <param name="letter">A thread's letter, or '.'.</param>
    /// <exception cref="ArgumentException">The character is neither.</exception>
    public Figure WithLetter(int column, int row, char letter)
    {
        if (letter != Bare && !char.IsAsciiLetter(letter))
            throw new ArgumentException($"A figure's rows hold thread letters and '.', not '{letter}'.", nameof(letter));
        var text = Rows[row];
        if (text[column] == letter) return this;
        return this with { Rows = Rows.SetItem(row, string.Concat(text.AsSpan(0, column), new ReadOnlySpan<char>(in letter), text.AsSpan(column + 1))) };
    }

    private static string Reverse(string row)
    {
        var letters = row.ToCharArray();
        Array.Reverse(letters);
        return new string(letters);
    }
}
