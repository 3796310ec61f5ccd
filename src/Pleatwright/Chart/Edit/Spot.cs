using Pleatwright.Cloth;

namespace Pleatwright.Chart.Edit;

/// <summary>A cell of the cloth traced back to the figure that lies there.</summary>
/// <param name="Placement">Which placement, from 0.</param>
/// <param name="Copy">Which of its copies, from 0.</param>
/// <param name="Column">The figure's column, from 0 at its own left.</param>
/// <param name="Row">The figure's row, from 0 at the top.</param>
public readonly record struct Spot(int Placement, int Copy, int Column, int Row)
{
    /// <summary>The figure whose cable shows here, the topmost one; null where pleats are bare or only a band lies.</summary>
    public static Spot? OfCable(Piece piece, PleatingPlan pleating, Valley valley, CableRow row) =>
        Topmost(piece, pleating, valley, row, cableOnly: true);

    /// <summary>The topmost figure in whose bounds a cell lies, worked there or not.</summary>
    public static Spot? Within(Piece piece, PleatingPlan pleating, Valley valley, CableRow row) =>
        Topmost(piece, pleating, valley, row, cableOnly: true) ?? Topmost(piece, pleating, valley, row, cableOnly: false);

    /// <summary>
    /// The figure whose bounds come nearest to a cell, no more than <paramref name="reach"/> valleys and rows away;
    /// its column and row may then lie outside the figure.
    /// </summary>
    public static Spot? Near(Piece piece, PleatingPlan pleating, Valley valley, CableRow row, int reach)
    {
        if (Within(piece, pleating, valley, row) is { } inside) return inside;
        return Nearest(piece, pleating, null, valley, row, reach);
    }

    /// <summary>The copy of a figure whose bounds come nearest to a cell, however far away; null when the figure lies nowhere.</summary>
    public static Spot? Nearest(Piece piece, PleatingPlan pleating, string figure, Valley valley, CableRow row) =>
        Nearest(piece, pleating, figure, valley, row, int.MaxValue - 1);

    private static Spot? Nearest(Piece piece, PleatingPlan pleating, string? only, Valley valley, CableRow row, int reach)
    {
        Spot? best = null;
        var least = reach + 1;
        for (var i = piece.Placements.Length - 1; i >= 0; i--)
        {
            var placement = piece.Placements[i];
            if (only is not null && placement.Figure != only) continue;
            var figure = piece.Figure(placement.Figure)!;
            for (var copy = 0; copy < placement.Repeat.Count; copy++)
            {
                var seat = Seat.Of(placement, figure, pleating, copy);
                var away = Math.Max(
                    Math.Max(seat.Left - valley.Number, valley.Number - seat.Right),
                    Math.Max(seat.Top - row.Index, row.Index - seat.Bottom));
                if (away >= least) continue;
                least = away;
                best = new Spot(i, copy, seat.ColumnAt(valley), row.Index - seat.Top);
            }
        }
        return best;
    }

    /// <summary>A cell as one copy of a placement sees it; its column and row may lie outside the figure.</summary>
    public static Spot In(Piece piece, PleatingPlan pleating, int placement, int copy, Valley valley, CableRow row)
    {
        var seat = SeatOf(piece, pleating, placement, copy);
        return new Spot(placement, copy, seat.ColumnAt(valley), row.Index - seat.Top);
    }

    /// <summary>Where one copy of a placement of the piece lies.</summary>
    public static Seat SeatOf(Piece piece, PleatingPlan pleating, int placement, int copy)
    {
        var placed = piece.Placements[placement];
        return Seat.Of(placed, piece.Figure(placed.Figure)!, pleating, copy);
    }

    /// <summary>The figure it lies in.</summary>
    public Figure FigureIn(Piece piece) => piece.Figure(piece.Placements[Placement].Figure)!;

    private static Spot? Topmost(Piece piece, PleatingPlan pleating, Valley valley, CableRow row, bool cableOnly)
    {
        for (var i = piece.Placements.Length - 1; i >= 0; i--)
        {
            var placement = piece.Placements[i];
            var figure = piece.Figure(placement.Figure)!;
            for (var copy = placement.Repeat.Count - 1; copy >= 0; copy--)
            {
                var seat = Seat.Of(placement, figure, pleating, copy);
                if (!seat.Contains(valley, row)) continue;
                var spot = new Spot(i, copy, seat.ColumnAt(valley), row.Index - seat.Top);
                if (!cableOnly || figure.Rows[spot.Row][spot.Column] != Figure.Bare) return spot;
            }
        }
        return null;
    }
}
