namespace Pleatwright.Chart.Edit;

/// <summary>Opens a figure for one more cable row, or closes it over one.</summary>
internal static class Rows
{
    /// <summary>
    /// Inserts a bare row before a figure's row. The row that lies on the gathering row stays on it: rows above it move
    /// up, rows below it down.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="figure">The figure's name.</param>
    /// <param name="row">The row before which it goes, 0 to the height.</param>
    /// <exception cref="ArgumentException">No such figure or row, or the figure is as high as it may be.</exception>
    public static Piece Insert(Piece piece, string figure, int row)
    {
        var old = Found(piece, figure);
        if (row < 0 || row > old.Height) throw new ArgumentException("The figure has no such row.", nameof(row));
        if (old.Height == Figure.MostRows) throw new ArgumentException($"A figure has at most {Figure.MostRows} rows.", nameof(figure));
        var opened = old.WithRows(old.Rows.Insert(row, new string(Figure.Bare, old.Width)),
            [.. old.Halves.Select(h => h.Row >= row ? h with { Row = h.Row + 1 } : h)]);
        return Anchored(piece.WithFigure(opened), figure, p => p.FigureRow >= row ? p with { FigureRow = p.FigureRow + 1 } : p);
    }

    /// <summary>Removes a figure's row, and the figure with its last one; the rest closes up towards the gathering row.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="figure">The figure's name.</param>
    /// <param name="row">The row, 0 to one less than the height.</param>
    /// <exception cref="ArgumentException">No such figure or row.</exception>
    public static Piece Remove(Piece piece, string figure, int row)
    {
        var old = Found(piece, figure);
        if (row < 0 || row >= old.Height) throw new ArgumentException("The figure has no such row.", nameof(row));
        if (old.Height == 1) return piece.Without(figure);
        var closed = old.WithRows(old.Rows.RemoveAt(row),
            [.. old.Halves.Where(h => h.Row != row).Select(h => h.Row > row ? h with { Row = h.Row - 1 } : h)]);
        return Anchored(piece.WithFigure(closed), figure, p =>
            p.FigureRow > row || p.FigureRow == closed.Height ? p with { FigureRow = p.FigureRow - 1 } : p);
    }

    private static Figure Found(Piece piece, string figure) =>
        piece.Figure(figure) ?? throw new ArgumentException($"No figure is called “{figure}”.", nameof(figure));

    private static Piece Anchored(Piece piece, string figure, Func<Placement, Placement> anchor) =>
        piece with { Placements = [.. piece.Placements.Select(p => p.Figure == figure ? anchor(p) : p)] };
}
