using System.Collections.Immutable;
using Pleatwright.Cloth;

namespace Pleatwright.Chart.Edit;

/// <summary>
/// Changes how far a figure reaches without moving a stitch: what lay in a valley and row still lies there, in every
/// copy of every placement.
/// </summary>
internal static class Bounds
{
    /// <summary>Widens a figure so that it holds a cell, given by column and row that may lie outside it.</summary>
    /// <remarks>
    /// A figure placed on the piece's centre valley grows evenly to both sides, so that it stays centred; any other
    /// grows only where asked.
    /// </remarks>
    /// <returns>The piece, and where the cell's column and row are now; null when the figure would pass the caps.</returns>
    public static (Piece Piece, int Column, int Row)? Reach(Piece piece, string name, int column, int row)
    {
        var figure = piece.Figure(name)!;
        int left = Math.Max(0, -column), right = Math.Max(0, column - figure.Width + 1);
        int top = Math.Max(0, -row), bottom = Math.Max(0, row - figure.Height + 1);
        if (left + right + top + bottom == 0) return (piece, column, row);
        if (Change(piece, name, left, right, top, bottom) is { } oneSided) return (oneSided, column + left, row + top);
        var evenly = Math.Max(left, right);
        return Change(piece, name, evenly, evenly, top, bottom) is { } even ? (even, column + evenly, row + top) : null;
    }

    /// <summary>Takes bare rows and columns off the outside of a figure, as far as its placements allow.</summary>
    public static Piece Trim(Piece piece, string name)
    {
        var figure = piece.Figure(name)!;
        var rows = figure.Rows;
        bool RowBare(int r) => rows[r].AsSpan().IndexOfAnyExcept(Figure.Bare) < 0;
        bool ColumnBare(int c) => rows.All(r => r[c] == Figure.Bare);
        int top = 0, bottom = 0, left = 0, right = 0;
        while (top < figure.Height - 1 && RowBare(top)) top++;
        while (bottom < figure.Height - 1 - top && RowBare(figure.Height - 1 - bottom)) bottom++;
        while (left < figure.Width - 1 && ColumnBare(left)) left++;
        while (right < figure.Width - 1 - left && ColumnBare(figure.Width - 1 - right)) right++;
        foreach (var placement in piece.Placements.Where(p => p.Figure == name))
        {
            top = Math.Min(top, placement.FigureRow);
            bottom = Math.Min(bottom, figure.Height - 1 - placement.FigureRow);
        }
        if (left + right + top + bottom == 0) return piece;
        var evenly = Math.Min(left, right);
        return Change(piece, name, -left, -right, -top, -bottom) ?? Change(piece, name, -evenly, -evenly, -top, -bottom) ?? piece;
    }

    /// <summary>Adds bare columns and rows at a figure's sides; takes them off where the number is negative.</summary>
    /// <returns>Null when a placement could not follow: it is centred and the sides are uneven, its middle or its
    /// anchor row would be lost, or the figure would pass the caps.</returns>
    private static Piece? Change(Piece piece, string name, int left, int right, int top, int bottom)
    {
        var old = piece.Figure(name)!;
        int width = old.Width + left + right, height = old.Height + top + bottom;
        if (width < 1 || height < 1 || width > Figure.MostValleys || height > Figure.MostRows) return null;
        var shift = (width - 1) / 2 - old.Middle - left;
        var placements = ImmutableArray.CreateBuilder<Placement>(piece.Placements.Length);
        foreach (var placement in piece.Placements)
        {
            if (placement.Figure != name) { placements.Add(placement); continue; }
            var moved = placement with { FigureRow = placement.FigureRow + top };
            if (moved.FigureRow < 0 || moved.FigureRow >= height) return null;
            if (shift != 0)
            {
                if (placement.Centre.IsMiddle) return null;
                var across = placement.Mirror ? -shift : shift;
                var centre = placement.Centre.Valleys + across;
                if (!placement.Centre.IsHung && centre is < 1 or > PleatingPlan.MostPleats) return null;
                moved = moved with { Centre = placement.Centre.IsHung ? placement.Centre.By(across) : Centre.At(new Valley(centre)) };
            }
            placements.Add(moved);
        }
        var rows = ImmutableArray.CreateBuilder<string>(height);
        for (var r = 0; r < height; r++)
        {
            var from = r - top;
            rows.Add(from < 0 || from >= old.Height ? new string(Figure.Bare, width) : Resize(old.Rows[from], left, right));
        }
        var figure = old.WithRows(rows.MoveToImmutable(),
            [.. old.Halves.Select(h => h with { Row = h.Row + top }).Where(h => h.Row >= 0 && h.Row < height)]);
        return piece.WithFigure(figure) with { Placements = placements.MoveToImmutable() };
    }

    private static string Resize(string row, int left, int right)
    {
        var kept = row.AsSpan(Math.Max(0, -left), row.Length - Math.Max(0, -left) - Math.Max(0, -right));
        return string.Concat(new string(Figure.Bare, Math.Max(0, left)), kept, new string(Figure.Bare, Math.Max(0, right)));
    }
}
