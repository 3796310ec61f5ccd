using Pleatwright.Cloth;

namespace Pleatwright.Chart.Edit;

/// <summary>Takes cables off the cloth.</summary>
internal static class Clear
{
    /// <summary>
    /// Clears cells; afterwards none of them shows a figure's cable, and nothing else on the cloth has changed but the
    /// same cells of a figure's other copies. A band under them stays. A figure left wholly bare is taken away with its
    /// placements.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="cells">Cells of the cloth.</param>
    public static Piece Cables(Piece piece, IEnumerable<(Valley Valley, CableRow Row)> cells)
    {
        var pleating = new PleatingPlan(piece.Cloth);
        var touched = new HashSet<string>();
        foreach (var (valley, row) in cells)
            while (Spot.OfCable(piece, pleating, valley, row) is { } spot)
            {
                var figure = spot.FigureIn(piece).WithLetter(spot.Column, spot.Row, Figure.Bare);
                touched.Add(figure.Name);
                piece = piece.WithFigure(figure);
            }
        foreach (var name in touched)
            piece = piece.Figure(name)!.Rows.All(r => r.AsSpan().IndexOfAnyExcept(Figure.Bare) < 0) ? piece.Without(name) : Bounds.Trim(piece, name);
        return piece;
    }
}
