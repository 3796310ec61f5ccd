using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>Where the needlefuls of one path end: before the cable so many into the run so many along the path.</summary>
/// <param name="Along">Index of the run along the path.</param>
/// <param name="Cable">Cables of it worked with the thread before, 0 to one fewer than it has.</param>
internal readonly record struct Break(int Along, int Cable) : IComparable<Break>
{
    /// <inheritdoc/>
    public int CompareTo(Break other) => Along != other.Along ? Along.CompareTo(other.Along) : Cable.CompareTo(other.Cable);
}

/// <summary>
/// Shares one path among as few needlefuls as can be, changing thread at the end of a run wherever that costs no start.
/// </summary>
internal sealed class Needlefuls(Layout layout)
{
    /// <summary>Fewest cables in a part of a run, where the number of starts leaves a choice (common practice, no source).</summary>
    private const int LeastPart = 3;

    private readonly ThreadCosts costs = layout.Costs;

    /// <summary>The breaks of a path, one fewer than its needlefuls.</summary>
    public List<Break> Share(ReadOnlySpan<Visit> path)
    {
        // the earliest places for the breaks, found from the far end backward
        List<Break> earliest = [];
        for (var at = Earliest(path, new Break(path.Length, 0)); at != default; at = Earliest(path, at)) earliest.Add(at);
        earliest.Reverse();
        List<Break> breaks = [];
        var from = default(Break);
        foreach (var early in earliest)
        {
            var late = Furthest(path, from);
            from = Choose(path, early, late);
            breaks.Add(from);
        }
        return breaks;
    }

    private Break Choose(ReadOnlySpan<Visit> path, Break early, Break late)
    {
        if (late.Cable == 0) return late;
        if (early.CompareTo(new Break(late.Along, 0)) <= 0) return new Break(late.Along, 0);
        var cables = layout.Work.Runs[path[late.Along].Run].Cables;
        return late with { Cable = Math.Max(early.Cable, Math.Min(late.Cable, cables - LeastPart)) };
    }

    // How far one needleful reaches that starts at a break.
    private Break Furthest(ReadOnlySpan<Visit> path, Break from)
    {
        long left = costs.Needleful;
        for (var k = from.Along; k < path.Length; k++)
        {
            var (run, cable) = (layout.Work.Runs[path[k].Run], costs.Cable(path[k].Run));
            var (begin, end) = Halves(path[k], run);
            var firstCable = k == from.Along ? from.Cable : 0;
            if (k > from.Along) left -= layout.Carry(path[k - 1].Exit, path[k].Entry);
            if (firstCable == 0) left -= begin;
            var all = (long)(run.Cables - firstCable) * cable + end;
            if (left >= all) { left -= all; continue; }
            if (!costs.MaySplit(path[k].Run) && k > from.Along) return new Break(k, 0);
            // the end half stitch stays with the last cable
            var fits = left < cable ? 0 : (int)Math.Min(left / cable, run.Cables - firstCable - 1);
            return new Break(k, firstCable + (k == from.Along ? Math.Max(1, fits) : fits));
        }
        return new Break(path.Length, 0);
    }

    // How early one needleful may start that ends at a break.
    private Break Earliest(ReadOnlySpan<Visit> path, Break until)
    {
        long left = costs.Needleful;
        for (var k = until.Cable > 0 ? until.Along : until.Along - 1; k >= 0; k--)
        {
            var (run, cable) = (layout.Work.Runs[path[k].Run], costs.Cable(path[k].Run));
            var (begin, end) = Halves(path[k], run);
            var cables = k == until.Along ? until.Cable : run.Cables;
            var last = k == until.Along || (k == until.Along - 1 && until.Cable == 0);
            if (k != until.Along) left -= end;
            var all = (long)cables * cable + begin;
            var after = last ? until : new Break(k + 1, 0);
            if (left >= all)
            {
                if (k == 0) return default;
                left -= all + layout.Carry(path[k - 1].Exit, path[k].Entry);
                continue;
            }
            if (!costs.MaySplit(path[k].Run) && !last) return after;
            var fits = left < cable ? 0 : (int)Math.Min(left / cable, cables - 1);
            if (last) fits = Math.Max(1, fits);
            return fits == 0 ? after : new Break(k, cables - fits);
        }
        return default;
    }

    /// <summary>Thread in the half stitches at the beginning and the end of a visit.</summary>
    private (int Begin, int End) Halves(Visit visit, Run run)
    {
        var (begin, end) = visit.Leftward ? (run.HalfRight, run.HalfLeft) : (run.HalfLeft, run.HalfRight);
        var half = costs.Half(visit.Run);
        return (begin ? half : 0, end ? half : 0);
    }
}
