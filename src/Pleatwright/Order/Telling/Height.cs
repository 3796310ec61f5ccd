using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Order.Telling;

/// <summary>A height on the cloth, counted from a gathering row, exactly.</summary>
/// <param name="From">The gathering row.</param>
/// <param name="Eighths">Eighths of a space toward the bottom edge; negative toward the top edge.</param>
/// <param name="Rows">Cable rows further toward the bottom edge; negative toward the top edge.</param>
internal readonly record struct Height(GatheringRow From, int Eighths, int Rows)
{
    /// <summary>The height of a depth made up of eighths of a space and cable rows, as all depths of bands and accents are.</summary>
    /// <param name="depth">Spaces below gathering row 1.</param>
    /// <param name="perSpace">Cable rows in a space.</param>
    public static Height Of(double depth, int perSpace)
    {
        var above = (int)Math.Floor(depth + Stitch.Hair);
        if (above < 0) above = 0;
        var rest = depth - above;
        // as few cable rows as will do, either way
        for (var rows = 0; rows <= perSpace; rows++)
            foreach (var way in (ReadOnlySpan<int>)[1, -1])
            {
                var eighths = (rest - (double)way * rows / perSpace) * 8;
                if (Math.Abs(eighths - Math.Round(eighths)) < 8 * Stitch.Hair) return new(new GatheringRow(above + 1), (int)Math.Round(eighths), way * rows);
            }
        return new(new GatheringRow(above + 1), (int)Math.Round(rest * 8), 0); // of no stitch there is; reading back finds that it is not the very height
    }

    /// <summary>The height of a cable row, counted from the gathering row it was last met on the way out.</summary>
    public static Height Of(CableRow row, int perSpace, bool fromBelow)
    {
        var over = row.Index % perSpace;
        var above = row.Index / perSpace + 1; // the gathering row on it or above it
        return over == 0 ? new(new GatheringRow(above), 0, 0) : fromBelow ? new(new GatheringRow(above + 1), 0, over - perSpace) : new(new GatheringRow(above), 0, over);
    }
}
