using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>Mirrors cables about a valley. Valleys keep their parity so, and every mirrored cable its level.</summary>
internal static class Mirror
{
    /// <summary>Lays the mirror image of an area on the other side of a valley; the area itself stays.</summary>
    /// <param name="work">The work.</param>
    /// <param name="area">What is mirrored.</param>
    /// <param name="axis">The valley it is mirrored about.</param>
    public static Piece Across(Work work, Area area, Valley axis)
    {
        var left = new Valley(2 * axis.Number - area.To.Number);
        return Patch.Lift(work, area).Mirrored().LayOn(work.Piece, left, area.Top);
    }

    /// <summary>The valley that lies as far from a valley on its other side; it may lie off the cloth.</summary>
    public static Valley Image(Valley valley, Valley axis) => new(2 * axis.Number - valley.Number);

    /// <summary>Cells and their images about a valley, each once; images off the cloth among them.</summary>
    public static IEnumerable<(Valley Valley, CableRow Row)> Both(IEnumerable<(Valley Valley, CableRow Row)> cells, Valley axis) =>
        cells.SelectMany(c => new[] { c, (Image(c.Valley, axis), c.Row) }).Distinct();

    /// <summary>
    /// Draws cables as <see cref="Draw.Parts"/> does, each with its image about a valley. Where the image would lie in a figure of the other
    /// phase, held at the other level than the cable it mirrors, neither is drawn. A cable whose image falls off the cloth is drawn alone.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="figure">The figure's name; null to begin another.</param>
    /// <param name="cells">Cells of the cloth; those off it are passed over.</param>
    /// <param name="thread">One of the piece's threads.</param>
    /// <param name="axis">The valley they are mirrored about.</param>
    /// <returns>The piece, the figure drawn on, and how many cells were left out for their phase.</returns>
    /// <exception cref="ArgumentException">The piece has no such thread.</exception>
    public static (Piece Piece, string? Figure, int LeftOut) Draw(Piece piece, string? figure, IEnumerable<(Valley Valley, CableRow Row)> cells, ThreadKey thread, Valley axis)
    {
        var pleating = new PleatingPlan(piece.Cloth);
        var leftOut = 0;
        foreach (var (valley, row) in cells)
        {
            var image = Image(valley, axis);
            var (drawn, into) = Edit.Draw.Parts(piece, figure, [(valley, row), (image, row)], thread);
            if (LevelOf(drawn, pleating, valley, row) is { } here && LevelOf(drawn, pleating, image, row) is { } there && here != there) leftOut++;
            else (piece, figure) = (drawn, into);
        }
        return (piece, figure, leftOut);
    }

    // Null where no figure's cable lies.
    private static Level? LevelOf(Piece piece, PleatingPlan pleating, Valley valley, CableRow row) =>
        Spot.OfCable(piece, pleating, valley, row) is { } spot
            ? Lattice.LevelAt(valley, row, piece.Placements[spot.Placement].FlipPhase ? piece.Phase.Opposite() : piece.Phase)
            : null;

    /// <summary>Mirrors an area in its own place, left to right.</summary>
    public static Piece InPlace(Work work, Area area)
    {
        var patch = Patch.Lift(work, area).Mirrored();
        return patch.LayOn(Clear.Cables(work.Piece, area.Cells()), area.From, area.Top);
    }

    /// <summary>Turns an area top to bottom in its own place.</summary>
    public static Piece Upend(Work work, Area area)
    {
        var patch = Patch.Lift(work, area).Upended();
        return patch.LayOn(Clear.Cables(work.Piece, area.Cells()), area.From, area.Top);
    }
}
