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
