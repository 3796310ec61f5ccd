using Pleatwright.Cloth;

namespace Pleatwright.Chart.Edit;

/// <summary>Puts figures on the cloth, moves them and takes them off.</summary>
internal static class Placing
{
    /// <summary>Puts one more placement of a figure on the cloth, its middle on a cell.</summary>
    /// <exception cref="ArgumentException">No such figure.</exception>
    public static Piece Add(Piece piece, string figure, Valley valley, CableRow row)
    {
        var found = piece.Figure(figure) ?? throw new ArgumentException($"No figure is called “{figure}”.", nameof(figure));
        var added = piece with { Placements = piece.Placements.Add(new Placement(figure, Centre.Middle, new GatheringRow(1), 0)) };
        return To(added, added.Placements.Length - 1, valley, row.Index - found.Height / 2);
    }

    /// <summary>Puts a second placement like this one on the cloth, some valleys and rows away.</summary>
    public static Piece Copy(Piece piece, int placement, int valleys, int rows)
    {
        var added = piece with { Placements = piece.Placements.Add(piece.Placements[placement]) };
        return By(added, added.Placements.Length - 1, valleys, rows);
    }

    /// <summary>Moves a placement with all its copies; what would leave the cloth altogether stays at its edge.</summary>
    public static Piece By(Piece piece, int placement, int valleys, int rows)
    {
        if (valleys == 0 && rows == 0) return piece;
        var pleating = new PleatingPlan(piece.Cloth);
        var old = piece.Placements[placement];
        var centre = old.Centre.On(pleating).Number + valleys;
        return To(piece, placement, new Valley(centre), Spot.SeatOf(piece, pleating, placement, 0).Top + rows);
    }

    /// <summary>Takes a placement off; its figure stays among the piece's figures.</summary>
    public static Piece Remove(Piece piece, int placement) => piece with { Placements = piece.Placements.RemoveAt(placement) };

    /// <summary>Mirrors a placement left to right.</summary>
    public static Piece Turn(Piece piece, int placement) =>
        piece.WithPlacement(placement, piece.Placements[placement] with { Mirror = !piece.Placements[placement].Mirror });

    /// <summary>Hangs a placement on a panel, or on nothing; it stays where it lies.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="placement">Which placement.</param>
    /// <param name="panel">The panel's name; null for none.</param>
    /// <param name="from">What its place is counted from.</param>
    /// <exception cref="ArgumentException">The cloth has no such panel.</exception>
    public static Piece Hang(Piece piece, int placement, string? panel, CountedFrom from)
    {
        var pleating = new PleatingPlan(piece.Cloth);
        var old = piece.Placements[placement].Centre;
        return piece.WithPlacement(placement, piece.Placements[placement] with { Centre = panel is null ? old.Unhung(pleating) : old.HungOn(panel, from, pleating) });
    }

    /// <summary>Gives a placement the other phase.</summary>
    public static Piece FlipPhase(Piece piece, int placement) =>
        piece.WithPlacement(placement, piece.Placements[placement] with { FlipPhase = !piece.Placements[placement].FlipPhase });

    /// <summary>Repeats a placement evenly about its centre.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="placement">Which placement.</param>
    /// <param name="count">Copies in all, 1 to <see cref="Chart.Repeat.MostCount"/>.</param>
    /// <param name="every">Valleys from one copy to the next, 1 to 5,000.</param>
    /// <exception cref="ArgumentException">Out of these ranges.</exception>
    public static Piece Repeat(Piece piece, int placement, int count, int every)
    {
        if (new Repeat(count, every).Fault is { } fault) throw new ArgumentException(fault);
        var repeat = count == 1 ? Chart.Repeat.Once : new Repeat(count, every);
        return piece.WithPlacement(placement, piece.Placements[placement] with { Repeat = repeat });
    }

    /// <summary>Lays a placement over all others.</summary>
    public static Piece Raise(Piece piece, int placement)
    {
        var raised = piece.Placements[placement];
        return piece with { Placements = piece.Placements.RemoveAt(placement).Add(raised) };
    }

    // A figure hangs from one of its own rows; to lie between two gathering rows it may need bare rows to reach one.
    private static Piece To(Piece piece, int placement, Valley valley, int top)
    {
        var pleating = new PleatingPlan(piece.Cloth);
        var perSpace = pleating.Gauge.CableRowsPerSpace;
        var old = piece.Placements[placement];
        var figure = piece.Figure(old.Figure)!;
        top = Math.Clamp(top, 1 - figure.Height, pleating.CableRows - 1);
        var centre = Math.Clamp(valley.Number, 1, pleating.Valleys);
        var middleRow = top + figure.Height / 2;
        var anchor = Math.Clamp((middleRow + perSpace / 2) / perSpace, 0, pleating.Cloth.GatheringRows - 1);
        var figureRow = anchor * perSpace - top;
        if (figureRow < 0 || figureRow >= figure.Height)
        {
            var (reached, _, row) = Bounds.Reach(piece, figure.Name, 0, figureRow)!.Value;
            (piece, figureRow) = (reached, row);
        }
        return piece.WithPlacement(placement, piece.Placements[placement] with
        {
            Centre = old.Centre.To(new Valley(centre), pleating),
            GatheringRow = new GatheringRow(anchor + 1),
            FigureRow = figureRow,
        });
    }
}
