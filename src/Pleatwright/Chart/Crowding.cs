using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Chart;

/// <summary>Where pleats would have to lie closer than a pleat is thick.</summary>
public static class Crowding
{
    /// <summary>
    /// Every cable row on which that happens and matters, from the top, with the pitch there: the rows with stitching,
    /// and the neck of a bishop, whose pleats must come to that length whether stitched or not.
    /// </summary>
    public static IEnumerable<(CableRow Row, Length Pitch)> Rows(Work work)
    {
        var thickness = work.Pleating.Gauge.PleatThickness;
        for (var y = 0; y < work.CableRows; y++)
        {
            var pitch = work.Pleating.PitchAt(y);
            var matters = !work.RunsIn(new CableRow(y)).IsEmpty || (y == 0 && work.Piece.Cloth.Form is Round);
            if (matters && pitch < thickness) yield return (new CableRow(y), pitch);
        }
    }
}
