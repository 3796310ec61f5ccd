using System.Globalization;

namespace Pleatwright.Plate.Parts;

/// <summary>Pages side by side and one above another, and the number of each that is printed.</summary>
/// <param name="Columns">Pages side by side.</param>
/// <param name="Rows">Pages one above another.</param>
/// <param name="Numbers">Page number by place; blank pages have none.</param>
internal sealed record PageGrid(int Columns, int Rows, IReadOnlyDictionary<(int Column, int Row), int> Numbers)
{
    /// <summary>What a page is called by its place: columns have letters, rows have numbers.</summary>
    public static string NameOf(int column, int row) => string.Create(CultureInfo.InvariantCulture, $"{Letters(column)}{row + 1}");

    private static string Letters(int column) => (column >= 26 ? Letters(column / 26 - 1) : "") + (char)('A' + column % 26);
}

/// <summary>One page's place among the pages of a grid.</summary>
/// <param name="Column">Its column, from 0.</param>
/// <param name="Row">Its row, from 0.</param>
/// <param name="Placed">Where its share of the drawing lies on it.</param>
/// <param name="Overlap">By how much it shows again what the page at its left, and the page above it, show.</param>
/// <param name="Outside">Room kept round the drawing for numbers, at the sides and at the ends.</param>
internal readonly record struct GridPlace(int Column, int Row, Box Placed, Spot Overlap, Spot Outside);
