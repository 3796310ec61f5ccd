using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>
/// Draws cables on the cloth. What is drawn belongs to a figure, so every copy of it changes alike: where a cable lies
/// already, its own figure changes; on bare pleats the figure drawn into grows, and where there is none nearby a new
/// one begins.
/// </summary>
internal static class Draw
{
    /// <summary>How near a figure must be, in valleys and rows, for a cable on bare pleats to join it.</summary>
    public const int Nearby = 2;

    /// <summary>Draws cables; afterwards each of these cells shows the thread, and no cell that lay in no figure has moved.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="cells">Cells of the cloth; those off it are passed over.</param>
    /// <param name="thread">One of the piece's threads.</param>
    /// <param name="into">Placement and copy drawn into; null to take the one nearest to the first cell.</param>
    /// <returns>The piece, and the placement and copy drawn into; as given when no cell lay on the cloth.</returns>
    /// <exception cref="ArgumentException">The piece has no such thread.</exception>
    public static (Piece Piece, (int Placement, int Copy)? Into) Cables(
        Piece piece, IEnumerable<(Valley Valley, CableRow Row)> cells, ThreadKey thread, (int Placement, int Copy)? into = null)
    {
        var pleating = Known(piece, thread);
        foreach (var (valley, row) in cells)
        {
            if (!OnCloth(pleating, valley, row)) continue;
            if (Over(piece, pleating, valley, row, thread) is { } over)
            {
                piece = over.Piece;
                into ??= (over.At.Placement, over.At.Copy);
                continue;
            }
            var spot = into is { } i
                ? Spot.In(piece, pleating, i.Placement, i.Copy, valley, row)
                : Spot.Near(piece, pleating, valley, row, Nearby);
            (piece, into) = OnBare(piece, pleating, spot, valley, row, thread);
        }
        return (piece, into);
    }

    /// <summary>
    /// Draws cables as parts of one figure, however far apart they lie: on bare pleats the copy of it that lies nearest grows.
    /// Where another figure's cable lies, that one changes.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="figure">The figure's name; null, or a figure that lies nowhere, to begin another.</param>
    /// <param name="cells">Cells of the cloth; those off it are passed over.</param>
    /// <param name="thread">One of the piece's threads.</param>
    /// <returns>The piece, and the figure drawn on; as given when every cell lay on a cable or off the cloth.</returns>
    /// <exception cref="ArgumentException">The piece has no such thread.</exception>
    public static (Piece Piece, string? Figure) Parts(Piece piece, string? figure, IEnumerable<(Valley Valley, CableRow Row)> cells, ThreadKey thread)
    {
        var pleating = Known(piece, thread);
        foreach (var (valley, row) in cells)
        {
            if (!OnCloth(pleating, valley, row)) continue;
            if (Over(piece, pleating, valley, row, thread) is { } over) { piece = over.Piece; continue; }
            var spot = figure is null ? null : Spot.Nearest(piece, pleating, figure, valley, row);
            (piece, var into) = OnBare(piece, pleating, spot, valley, row, thread);
            figure = piece.Placements[into.Placement].Figure;
        }
        return (piece, figure);
    }

    private static PleatingPlan Known(Piece piece, ThreadKey thread) => piece.Thread(thread) is null
        ? throw new ArgumentException($"No thread has the letter '{thread}'.", nameof(thread))
        : new PleatingPlan(piece.Cloth);

    private static bool OnCloth(PleatingPlan pleating, Valley valley, CableRow row) =>
        valley.Number >= 1 && valley.Number <= pleating.Valleys && (uint)row.Index < (uint)pleating.CableRows;

    // Over a figure's cable: that figure changes.
    private static (Piece Piece, Spot At)? Over(Piece piece, PleatingPlan pleating, Valley valley, CableRow row, ThreadKey thread) =>
        Spot.OfCable(piece, pleating, valley, row) is { } there
            ? (piece.WithFigure(there.FigureIn(piece).WithLetter(there.Column, there.Row, thread.Letter)), there)
            : null;

    // On bare pleats: the figure at the spot grows as far as it can, else another begins.
    private static (Piece Piece, (int Placement, int Copy) Into) OnBare(Piece piece, PleatingPlan pleating, Spot? spot, Valley valley, CableRow row, ThreadKey thread)
    {
        if (spot is { } s && Bounds.Reach(piece, s.FigureIn(piece).Name, s.Column, s.Row) is { } reached)
        {
            var name = s.FigureIn(piece).Name;
            return (reached.Piece.WithFigure(reached.Piece.Figure(name)!.WithLetter(reached.Column, reached.Row, thread.Letter)), (s.Placement, s.Copy));
        }
        return (Begin(piece, pleating, valley, row, thread), (piece.Placements.Length, 0));
    }

    // A figure of one cable. Its bounds reach to the nearest gathering row, which anchors it.
    private static Piece Begin(Piece piece, PleatingPlan pleating, Valley valley, CableRow row, ThreadKey thread)
    {
        var perSpace = pleating.Gauge.CableRowsPerSpace;
        var anchor = Math.Clamp((row.Index + perSpace / 2) / perSpace + 1, 1, pleating.Cloth.GatheringRows);
        var away = row.Index - (anchor - 1) * perSpace; // rows below the anchor, or above it when negative
        var rows = Enumerable.Repeat(Figure.Bare.ToString(), Math.Abs(away) + 1).ToArray();
        rows[Math.Max(0, away)] = thread.Letter.ToString();
        var figure = new Figure(piece.FreeName("figure"), [.. rows]);
        var centre = valley.Number == pleating.CentreValley ? Centre.Middle : Centre.At(valley);
        return piece with
        {
            Figures = piece.Figures.Add(figure),
            Placements = piece.Placements.Add(new Placement(figure.Name, centre, new GatheringRow(anchor), Math.Max(0, -away))),
        };
    }
}
