using Pleatwright.Cloth;

namespace Pleatwright.Chart.Edit;

/// <summary>Opens a figure for one more valley, or closes it over one.</summary>
internal static class Columns
{
    /// <summary>
    /// Inserts a bare valley before a figure's column. What lies to its left in the figure stays and the rest moves on;
    /// a figure placed on the piece's centre valley stays centred instead.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="figure">The figure's name.</param>
    /// <param name="column">The column before which it goes, 0 to the width.</param>
    /// <exception cref="ArgumentException">No such figure or column, or the figure is as wide as it may be.</exception>
    public static Piece Insert(Piece piece, string figure, int column)
    {
        var old = Found(piece, figure);
        if (column < 0 || column > old.Width) throw new ArgumentException("The figure has no such valley.", nameof(column));
        if (old.Width == Figure.MostValleys) throw new ArgumentException($"A figure is at most {Figure.MostValleys} valleys wide.", nameof(figure));
        var opened = old.WithRows([.. old.Rows.Select(r => r.Insert(column, Figure.Bare.ToString()))], old.Halves);
        return Centred(piece.WithFigure(opened), figure, opened.Middle - old.Middle);
    }

    /// <summary>Removes a figure's column, and the figure with its last one.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="figure">The figure's name.</param>
    /// <param name="column">The column, 0 to one less than the width.</param>
    /// <exception cref="ArgumentException">No such figure or column.</exception>
    public static Piece Remove(Piece piece, string figure, int column)
    {
        var old = Found(piece, figure);
        if (column < 0 || column >= old.Width) throw new ArgumentException("The figure has no such valley.", nameof(column));
        if (old.Width == 1) return piece.Without(figure);
        var closed = old.WithRows([.. old.Rows.Select(r => r.Remove(column, 1))], old.Halves);
        return Centred(piece.WithFigure(closed), figure, closed.Middle - old.Middle);
    }

    private static Figure Found(Piece piece, string figure) =>
        piece.Figure(figure) ?? throw new ArgumentException($"No figure is called “{figure}”.", nameof(figure));

    private static Piece Centred(Piece piece, string figure, int shift) => shift == 0 ? piece : piece with
    {
        Placements = [.. piece.Placements.Select(p => p.Figure != figure || p.Centre.IsMiddle ? p : p with { Centre = Shifted(p, shift) })],
    };

    private static Centre Shifted(Placement placement, int shift)
    {
        var across = placement.Mirror ? -shift : shift;
        return placement.Centre.IsHung ? placement.Centre.By(across) : Centre.At(new Valley(Math.Clamp(placement.Centre.Valleys + across, 1, PleatingPlan.MostPleats)));
    }
}
