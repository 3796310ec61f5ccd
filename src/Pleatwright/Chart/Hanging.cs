using Pleatwright.Cloth;

namespace Pleatwright.Chart;

/// <summary>How a figure lies on the panel it hangs on.</summary>
internal static class Hanging
{
    /// <summary>
    /// How far the stitches of a placement reach over the edge of its panel, and the pleats a panel needs for them with everything where it hangs; null when they
    /// keep on it, or it hangs on none.
    /// </summary>
    public static (int Valleys, int Has, int Needs)? Over(Placement placement, Figure figure, PleatingPlan pleating)
    {
        if (placement.Centre.Panel is not { } panel || pleating.Panel(panel) is not { } share || Worked(placement.Mirror ? figure.Mirrored() : figure) is not { } worked) return null;
        var left = placement.Left(figure, pleating, 0).Number + worked.First;
        var right = placement.Left(figure, pleating, placement.Repeat.Count - 1).Number + worked.Last;
        // A stitch in a join lies over a pleat of either panel, so a panel's own valleys end one before its last pleat.
        var over = Math.Max(share.First - left, right - (share.Last - 1));
        return over <= 0 ? null : (over, share.Pleats, Needed(placement.Centre.From, left - share.First + 1, right - share.First + 1, share.Pleats));
    }

    // The fewest pleats, an even number, on which a stretch of valleys keeps its distance from what it hangs on and lies between the edges.
    private static int Needed(CountedFrom from, int left, int right, int has) => Even(from switch
    {
        CountedFrom.Left => left < 1 ? has : right + 1, // over the left edge no width helps
        CountedFrom.Right => right > has - 1 ? has : has + 1 - left,
        _ => 2 * (Math.Max(has / 2 - left, right - has / 2) + 1),
    });

    private static int Even(int pleats) => pleats + (pleats & 1);

    private static (int First, int Last)? Worked(Figure figure)
    {
        int first = figure.Width, last = -1;
        foreach (var row in figure.Rows)
        {
            var at = row.AsSpan().IndexOfAnyExcept(Figure.Bare);
            if (at < 0) continue;
            (first, last) = (Math.Min(first, at), Math.Max(last, row.AsSpan().LastIndexOfAnyExcept(Figure.Bare)));
        }
        return last < 0 ? null : (first, last);
    }
}
