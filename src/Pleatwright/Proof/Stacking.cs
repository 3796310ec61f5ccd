using Pleatwright.Chart;

namespace Pleatwright.Proof;

/// <summary>Which runs are stacked: only there must the thread hide the cloth.</summary>
internal static class Stacking
{
    /// <summary>
    /// A run is stacked when at least half of it has stitching right over or right under it; a long band that a figure
    /// merely touches is not.
    /// </summary>
    public static bool Holds(Work work, Run run)
    {
        var stacked = 0;
        var over = run.Row.Index > 0 ? work.CellsOf(new CableRow(run.Row.Index - 1)) : [];
        var under = run.Row.Index + 1 < work.CableRows ? work.CellsOf(new CableRow(run.Row.Index + 1)) : [];
        for (var v = run.From.Number; v <= run.To.Number; v++)
            if ((!over.IsEmpty && over[v - 1] != 0) || (!under.IsEmpty && under[v - 1] != 0))
                stacked++;
        return stacked * 2 >= run.Cables;
    }
}
