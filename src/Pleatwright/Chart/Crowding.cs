using Pleatwright.Cloth;

namespace Pleatwright.Chart;

/// <summary>Where pleats would have to lie closer than a pleat is thick.</summary>
public static class Crowding
{
    /// <summary>
    /// Whether that happens and matters on a row of the cloth: on a row with stitching, and at the neck of a bishop, whose
    /// pleats must come to that length whether stitched or not.
    /// </summary>
    public static bool At(Work work, CableRow row)
    {
        var matters = !work.RunsIn(row).IsEmpty || (row.Index == 0 && work.Piece.Cloth.Form is Round);
        return matters && work.Pleating.PitchAt(row.Index) < work.Pleating.Gauge.PleatThickness;
    }
}
