using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Proof.Rules;

/// <summary>Moves a figure up or down so that its widest row lies on the nearest gathering row.</summary>
internal static class LevelMend
{
    /// <summary>The mend, where the area is all of one placement and the move touches nothing else; else null.</summary>
    public static Mend? Of(Work work, in WorkedArea area)
    {
        if (Whole(work, area) is not { } placed) return null;
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var below = area.Widest.Index % perSpace;
        // The nearer gathering row first, the upper one of two equally near.
        int up = -below, down = perSpace - below;
        Span<int> ways = below <= perSpace - below ? [up, down] : [down, up];
        foreach (var rows in ways)
        {
            if (!Mending.MayMove(work, placed, 0, rows)) continue;
            var gathering = new GatheringRow((area.Widest.Index + rows) / perSpace + 1);
            var figureRow = area.Widest.Index - placed.Placement.Top(work.Pleating).Index;
            return new Mend($"Move it {(rows < 0 ? "up" : "down")} {Counting.Of(Math.Abs(rows), "row")}, onto gathering row {gathering.Number}",
                piece => piece.WithPlacement(placed.Index, p => p with { GatheringRow = gathering, FigureRow = figureRow }));
        }
        return null;
    }

    // The placement of which each copy is exactly such an area as this one, if there is one.
    private static Footprint? Whole(Work work, in WorkedArea area)
    {
        foreach (var placed in work.Footprints)
        {
            if (placed.Top != area.Top || placed.Bottom != area.Bottom || placed.Width != area.To.Number - area.From.Number + 1) continue;
            var repeat = placed.Placement.Repeat;
            var offset = area.From.Number - placed.From.Number;
            if (offset >= 0 && offset % repeat.Every == 0 && offset / repeat.Every < repeat.Count && (repeat.Count == 1 || repeat.Every > placed.Width))
                return placed;
        }
        return null;
    }
}
