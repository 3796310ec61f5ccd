using Pleatwright.Cloth;

namespace Pleatwright.Chart;

/// <summary>Where one copy of a placed figure lies.</summary>
/// <param name="Left">Valley number of its leftmost column; may be off the cloth.</param>
/// <param name="Top">Cable-row index of its top row; may be off the cloth.</param>
/// <param name="Width">Its width in valleys.</param>
/// <param name="Height">Its height in cable rows.</param>
/// <param name="Mirror">Whether it lies mirrored left to right.</param>
public readonly record struct Seat(int Left, int Top, int Width, int Height, bool Mirror)
{
    /// <summary>The seat of one copy.</summary>
    /// <param name="placement">The placement.</param>
    /// <param name="figure">The figure it places.</param>
    /// <param name="pleating">The cloth it lies on.</param>
    /// <param name="copy">Which copy, 0 to one less than the repeat's count.</param>
    public static Seat Of(Placement placement, Figure figure, PleatingPlan pleating, int copy) => new(
        placement.Left(figure, pleating, copy).Number, placement.Top(pleating).Index, figure.Width, figure.Height, placement.Mirror);

    /// <summary>Valley number of its rightmost column.</summary>
    public int Right => Left + Width - 1;

    /// <summary>Cable-row index of its bottom row.</summary>
    public int Bottom => Top + Height - 1;

    /// <summary>Whether a cell lies in it.</summary>
    public bool Contains(Valley valley, CableRow row) =>
        valley.Number >= Left && valley.Number <= Right && row.Index >= Top && row.Index <= Bottom;

    /// <summary>The figure's column, from 0, that lies on a valley; below 0 or past the width when none does.</summary>
    public int ColumnAt(Valley valley) => Mirror ? Right - valley.Number : valley.Number - Left;

    /// <summary>The valley on which a column of the figure lies.</summary>
    public Valley ValleyOf(int column) => new(Mirror ? Right - column : Left + column);
}
