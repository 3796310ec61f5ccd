using System.Collections.Immutable;
using Pleatwright.Chart.Accents;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>Mirrors cables and accents about a valley. Valleys keep their parity so, and every mirrored cable its level.</summary>
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

    /// <summary>
    /// Lays a patch, and the image about a valley of each of its cables. It lies as it is: an image is laid only where it has no cable itself.
    /// </summary>
    /// <param name="piece">The piece, with the patch's threads.</param>
    /// <param name="figure">The figure's name; null to begin another.</param>
    /// <param name="patch">The patch.</param>
    /// <param name="left">The valley of its upper left corner.</param>
    /// <param name="top">The row of that.</param>
    /// <param name="axis">The valley it is mirrored about.</param>
    /// <returns>The piece, the figure drawn on, and how many cells were left out for their phase.</returns>
    public static (Piece Piece, string? Figure, int LeftOut) Lay(Piece piece, string? figure, Patch patch, Valley left, CableRow top, Valley axis)
    {
        var threads = patch.CablesAt(left, top).ToList();
        var own = threads.SelectMany(t => t).ToHashSet();
        var leftOut = 0;
        foreach (var thread in threads)
        {
            var crossing = thread.ToLookup(c => own.Contains((Image(c.Valley, axis), c.Row)));
            (piece, figure, var without) = Draw(piece, figure, crossing[false], thread.Key, axis);
            (piece, figure) = Edit.Draw.Parts(piece, figure, crossing[true], thread.Key);
            leftOut += without;
        }
        return (piece, figure, leftOut);
    }

    /// <summary>The image of an accent with all its copies about a valley; null where that is the accent itself, or would not lie on the cloth.</summary>
    public static AccentMark? Image(Piece piece, AccentMark mark, Valley axis)
    {
        var pleating = new PleatingPlan(piece.Cloth);
        var centre = mark.Centre.On(pleating);
        // a set that cannot balance on a valley lies half a valley to the left of it, so its image lies half a valley to the right
        var image = Image(centre, axis).Number + ((mark.Repeat.Count - 1) * mark.Repeat.Every & 1);
        if (image == centre.Number || image < 1) return null;
        var there = mark with { Centre = mark.Centre.Mirrored(new Valley(image), pleating) };
        return Accenting.Fault(piece, there) is null ? there : null;
    }

    /// <summary>Puts an accent on, and its image about a valley after it.</summary>
    /// <exception cref="ArgumentException">It has a fault; see <see cref="Accenting.Fault"/>.</exception>
    public static Piece Put(Piece piece, AccentMark mark, Valley axis)
    {
        var with = Accenting.Put(piece, mark);
        return Image(piece, mark, axis) is { } image ? Accenting.Put(with, image) : with;
    }

    /// <summary>Takes an accent off, and the one that lies as its image about a valley.</summary>
    public static Piece TakeOff(Piece piece, int index, Valley axis) =>
        piece with { Accents = [.. piece.Accents.Where((_, i) => i != index && i != Twin(piece, index, axis))] };

    /// <summary>Takes off every accent of which a copy lies in an area or in its image about a valley.</summary>
    public static Piece TakeOff(Work work, Area area, Valley axis)
    {
        var there = Area.Between(Image(area.From, axis), area.Top, Image(area.To, axis), area.Bottom);
        var gone = work.Accents.Where(a => area.Contains(a.Valley, Accenting.RowOf(work, a)) || there.Contains(a.Valley, Accenting.RowOf(work, a))).Select(a => a.Index).ToHashSet();
        return gone.Count == 0 ? work.Piece : work.Piece with { Accents = [.. work.Piece.Accents.Where((_, i) => !gone.Contains(i))] };
    }

    /// <summary>Works an accent, and the one that lies as its image about a valley, in another thread.</summary>
    /// <exception cref="ArgumentException">No such thread.</exception>
    public static Piece Recolour(Piece piece, int index, ThreadKey thread, Valley axis)
    {
        var with = Accenting.Recolour(piece, index, thread);
        return Twin(piece, index, axis) is { } twin ? Accenting.Recolour(with, twin, thread) : with;
    }

    /// <summary>
    /// Moves an accent by valleys and cable rows, and the one that lies as its image about a valley with it, the other way across. Where they
    /// come together, or where there is no cloth for the image, one is left; moved on from there it has its image again.
    /// </summary>
    /// <exception cref="ArgumentException">It would not lie on the cloth.</exception>
    public static Piece By(Piece piece, int index, int valleys, int rows, Valley axis)
    {
        var moved = Accenting.By(piece, index, valleys, rows);
        var image = Image(piece, moved.Accents[index], axis);
        if (Twin(piece, index, axis) is not { } twin)
            return image is not null && Image(piece, piece.Accents[index], axis) is null ? Accenting.Put(moved, image) : moved;
        return image is null ? Accenting.TakeOff(moved, twin) : Accenting.Change(moved, twin, image with { Thread = piece.Accents[twin].Thread });
    }

    // The accent that lies as another's image, in the same thread before others; null where none does.
    private static int? Twin(Piece piece, int index, Valley axis)
    {
        if (Image(piece, piece.Accents[index], axis) is not { } image) return null;
        var pleating = new PleatingPlan(piece.Cloth);
        var there = image.Centre.On(pleating);
        var alike = Enumerable.Range(0, piece.Accents.Length)
            .Where(i => i != index && piece.Accents[i].Centre.On(pleating) == there && piece.Accents[i] with { Thread = image.Thread, Centre = image.Centre } == image).ToImmutableArray();
        return alike.IsEmpty ? null : alike.OrderBy(i => piece.Accents[i].Thread == image.Thread ? 0 : 1).First();
    }

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
