using Pleatwright.Chart.Stitches;

namespace Pleatwright.Chart;

/// <summary>Where pleats would have to lie closer than a pleat is thick.</summary>
internal static class Crowding
{
    /// <summary>
    /// Whether that happens and matters on a row of the cloth: on a row with stitching, and at the neck of a bishop, whose
    /// pleats must come to that length whether stitched or not.
    /// </summary>
    public static bool At(Work work, CableRow row) => IsTooClose(work, row)
        && (!work.RunsIn(row).IsEmpty || work.Bands.Any(b => Lies(work, b, row)) || (row.Index == 0 && work.Piece.Cloth.Form.FirstRowIsMeasured));

    /// <summary>Whether no needle gets between the pleats on a row, stitched or not.</summary>
    public static bool IsTooClose(Work work, CableRow row) => work.Pleating.PitchAt(row.Index) < work.Pleating.Gauge.PleatThickness;

    /// <summary>Whether a band off the lattice reaches over a row, the nearest to its highest bite and to its lowest counted in.</summary>
    public static bool Lies(Work work, LaidBand band, CableRow row)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        return !band.Passes.IsEmpty && row.Index >= Math.Round(band.Highest * perSpace) && row.Index <= Math.Round(band.Lowest * perSpace);
    }
}
