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
    private int longer; // what a needleful may hold over the usual where it ends at the end of a run

    /// <summary>The breaks of a path, one fewer than its needlefuls; needlefuls are cut longer only where that saves a start.</summary>
    public List<Break> Share(ReadOnlySpan<Visit> path)
    {
        longer = costs.Longer;
        var fewest = Cut(path);
        if (longer == 0 || !NeedsLonger(path, fewest)) return fewest;
        longer = 0;
        var usual = Cut(path);
        if (usual.Count > fewest.Count) return fewest;
        foreach (var b in usual)
            if (b.Cable > 0 && !costs.MaySplit(path[b.Along].Run)) return fewest;
        return usual;
    }

    private bool NeedsLonger(ReadOnlySpan<Visit> path, List<Break> breaks)
    {
        var from = default(Break);
        for (var i = 0; i <= breaks.Count; i++)
        {
            var to = i < breaks.Count ? breaks[i] : new Break(path.Length, 0);
            if (Takes(path, from, to) > costs.Needleful) return true;
            from = to;
        }
        return false;
    }

    /// <summary>Thread in the stitches and carries between two breaks.</summary>
    public long Takes(ReadOnlySpan<Visit> path, Break from, Break to)
    {
        long takes = 0;
        for (var k = from.Along; k < path.Length && (k < to.Along || (k == to.Along && to.Cable > 0)); k++)
        {
            var run = layout.Work.Runs[path[k].Run];
            var (begin, end) = Halves(path[k], run);
            var (first, last) = (k == from.Along ? from.Cable : 0, k == to.Along ? to.Cable : run.Cables);
            takes += (long)(last - first) * costs.Cable(path[k].Run) + (first == 0 ? begin : 0) + (last == run.Cables ? end : 0);
            if (k > from.Along) takes += layout.Carry(path[k - 1].Exit, path[k].Entry);
        }
        return takes;
    }

    private List<Break> Cut(ReadOnlySpan<Visit> path)
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
            if (left + longer >= all) { left -= all; continue; }
            if (!costs.MaySplit(path[k].Run) && k > from.Along) return new Break(k, 0);
            // the end half stitch stays with the last cable
            var fits = left < cable ? 0 : (int)Math.Min(left / cable, run.Cables - firstCable - 1);
            return new Break(k, firstCable + (k == from.Along ? Math.Max(1, fits) : fits));
        }
        return new Break(path.Length, 0);
    }

    // How early one needleful may start that ends at a break or, cut longer, at the end of the run it lies in.
    private Break Earliest(ReadOnlySpan<Visit> path, Break until)
    {
        var early = StartOf(path, until);
        if (longer == 0 || until.Cable == 0) return early;
        var whole = StartOf(path, new Break(until.Along + 1, 0));
        return whole.CompareTo(early) < 0 ? whole : early;
    }

    // How early one needleful may start that ends at a break.
    private Break StartOf(ReadOnlySpan<Visit> path, Break until)
    {
        long left = costs.Needleful + (until.Cable == 0 ? longer : 0);
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
