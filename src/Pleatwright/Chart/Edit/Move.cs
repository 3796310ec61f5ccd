namespace Pleatwright.Chart.Edit;

/// <summary>Moves cables to another place on the cloth.</summary>
internal static class Move
{
    /// <summary>Moves what lies in an area; cables that would leave the cloth are lost, so an area is moved within it.</summary>
    /// <param name="work">The work.</param>
    /// <param name="area">What is moved.</param>
    /// <param name="valleys">Valleys to the right; to the left when negative.</param>
    /// <param name="rows">Cable rows down; up when negative.</param>
    /// <exception cref="ArgumentException">The area would leave the cloth.</exception>
    public static Piece Cables(Work work, Area area, int valleys, int rows)
    {
        var (left, top) = (new Valley(area.From.Number + valleys), new CableRow(area.Top.Index + rows));
        if (!work.OnCloth(left, top) || !work.OnCloth(new Valley(area.To.Number + valleys), new CableRow(area.Bottom.Index + rows)))
            throw new ArgumentException("That would move cables off the cloth.");
        if (valleys == 0 && rows == 0) return work.Piece;
        return Patch.Lift(work, area).LayOn(Clear.Cables(work.Piece, area.Cells()), left, top);
    }
}
