namespace Pleatwright.Order;

/// <summary>
/// What the order of a cluster depends on, but for where it lies on the cloth: clusters with equal keys have the same
/// order. The maker's ways of working and the gauge are taken as equal.
/// </summary>
internal sealed class ClusterKey : IEquatable<ClusterKey>
{
    private readonly int[] facts;
    private readonly int hash;

    private ClusterKey(int[] facts)
    {
        this.facts = facts;
        var sum = new HashCode();
        foreach (var fact in facts) sum.Add(fact);
        hash = sum.ToHashCode();
    }

    /// <summary>The key of a cluster begun with the work lying as it does, in a work of such a size: how long it may be sought hangs on that.</summary>
    public static ClusterKey Of(Layout layout, ReadOnlySpan<int> cluster, bool turned, int size)
    {
        var facts = new List<int>(cluster.Length * 9) { size, cluster.Length, turned ? 1 : 0, (int)layout.Way, layout.ParkedThreads, layout.Costs.CarryPleats };
        var first = layout.Work.Runs[cluster[0]];
        var (area, stage) = (-1, layout.Stages.Of(cluster[0]));
        foreach (var r in cluster)
        {
            var newArea = area != (area = layout.Work.Areas.AreaOf(r)); // areas follow one another in the cluster
            facts.Add((int)layout.Outward.SideOf(r) << 3 | (layout.TouchesNext(r) ? 4 : 0) | (layout.Outward.WayOf(r) == 0 ? 2 : 0) | (newArea ? 1 : 0));
            facts.Add((layout.Stages.Of(r) - stage) << 2 | (layout.Outward.WayOf(r) + 1));
            var run = layout.Work.Runs[r];
            facts.Add(run.Row.Index - first.Row.Index);
            facts.Add(run.From.Number - first.From.Number);
            facts.Add(run.Cables << 2 | (run.HalfLeft ? 1 : 0) | (run.HalfRight ? 2 : 0));
            facts.Add(run.Thread.Letter);
            facts.Add(layout.Costs.CableIn(run.Row));
            var before = layout.Before[r];
            facts.Add(before.Length);
            foreach (var b in before) facts.Add(layout.Rank[b] - layout.Rank[r]);
        }
        return new ClusterKey([.. facts]);
    }

    /// <inheritdoc/>
    public bool Equals(ClusterKey? other) => other is not null && hash == other.hash && facts.AsSpan().SequenceEqual(other.facts);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as ClusterKey);

    /// <inheritdoc/>
    public override int GetHashCode() => hash;
}
