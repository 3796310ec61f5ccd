using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>All that ordering a work in one way asks about it, worked out once.</summary>
internal sealed class Layout
{
    private readonly bool leftHanded;
    private readonly bool mayTurn;
    private readonly Stages stages;
    private int[]? clusterOf;

    /// <summary>Works it out, in time near linear in the runs.</summary>
    public Layout(Work work) : this(work, work.Piece.Working.Way, new ThreadCosts(work), Outward.From(work), null)
    {
    }

    private Layout(Work work, WayOfWorking way, ThreadCosts costs, Outward outward, Layout? like)
    {
        (Work, Way, Costs, Outward) = (work, way, costs, outward);
        var working = work.Piece.Working;
        leftHanded = working.Hand == Hand.Left;
        mayTurn = working.MayTurn;
        ParkedThreads = working.ParkedThreads;
        Before = outward.Before;
        After = like?.After ?? Reverse(Before);
        Parts = like?.Parts ?? new Parts(work, outward);
        Rank = like?.Rank ?? RankRuns();
        Pins = like?.Pins ?? new Pins(work);
        Carries = like is not null && like.Costs.CarryPleats == costs.CarryPleats ? like.Carries : Order.Carries.Between(work, costs);
        stages = like?.Way == way ? like.stages : new Stages(this);
        Clusters = like is not null && like.Way == way && like.Costs.CarryPleats == costs.CarryPleats ? like.Clusters : FindClusters();
    }

    /// <summary>The same work in another way of working, or kept to fewer parked threads or shorter carries.</summary>
    public Layout With(WayOfWorking way, int parkedThreads, int carryPleats) =>
        new(Work, way, Costs.With(carryPleats), Outward, this) { ParkedThreads = parkedThreads };

    public Work Work { get; }

    /// <summary>The way of working kept to.</summary>
    public WayOfWorking Way { get; }

    public int Runs => Work.Runs.Length;

    public int ParkedThreads { get; private init; }

    public ThreadCosts Costs { get; }

    public Outward Outward { get; }

    /// <summary>Borders and figures, in the order a hand takes them.</summary>
    public Parts Parts { get; }

    /// <summary>For each run, the runs worked before it.</summary>
    public Lists Before { get; }

    /// <summary>For each run, the runs that wait for it.</summary>
    public Lists After { get; }

    /// <summary>What is finished before what in the way of working.</summary>
    public Stages Stages => stages;

    /// <summary>For each end, the ends within a carry of it.</summary>
    public Lists Carries { get; }

    /// <summary>Each run's place when every run is begun afresh: part by part in the hand's order, outward from the base.</summary>
    public int[] Rank { get; }

    /// <summary>
    /// The runs that have to do with one another, each list in the order of rank, the lists by their first: areas, and
    /// areas so near that a thread can be carried between them. What is planned in one cluster does not touch another.
    /// </summary>
    public Lists Clusters { get; }

    /// <summary>The cluster of each run, an index in <see cref="Clusters"/>.</summary>
    public int[] ClusterOf
    {
        get
        {
            if (clusterOf is not null) return clusterOf;
            var found = new int[Runs];
            for (var c = 0; c < Clusters.Count; c++)
                foreach (var r in Clusters[c]) found[r] = c;
            return clusterOf = found;
        }
    }

    /// <summary>Runs the maker fixed to places in the order.</summary>
    public Pins Pins { get; }

    /// <summary>Whether a run begun at this end is worked with the work turned.</summary>
    public bool TurnedAt(int entry) => (entry & 1) == 1 != leftHanded;

    /// <summary>Whether a run may be begun at this end.</summary>
    public bool MayEnter(int entry) => mayTurn || !TurnedAt(entry);

    /// <summary>The end at which a run is begun when the work is not turned.</summary>
    public int PlainEntry(int run) => 2 * run + (leftHanded ? 1 : 0);

    /// <summary>What a carry from one end to another takes.</summary>
    public int Carry(int exit, int entry)
    {
        var runs = Work.Runs;
        return Costs.Carry(Order.Carries.Valley(runs, entry) - Order.Carries.Valley(runs, exit),
            runs[exit >> 1].Row.Index, runs[entry >> 1].Row.Index);
    }

    /// <summary>Pleats that a carry passes sideways besides going along the pleat; 0 when it does only one of both.</summary>
    public int Slant(int exit, int entry)
    {
        var runs = Work.Runs;
        return runs[exit >> 1].Row == runs[entry >> 1].Row ? 0 : Math.Abs(Order.Carries.Valley(runs, entry) - Order.Carries.Valley(runs, exit));
    }

    /// <summary>Whether a run touches the next in its row.</summary>
    public bool TouchesNext(int run) => run + 1 < Runs && Outward.StretchOf(run) == Outward.StretchOf(run + 1);

    /// <summary>Whether a run lies between two in its row that touch it.</summary>
    public bool LiesBetween(int run) => run > 0 && TouchesNext(run) && TouchesNext(run - 1);

    private static Lists Reverse(Lists before)
    {
        var pairs = new Pairs();
        for (var r = 0; r < before.Count; r++)
            foreach (var b in before[r]) pairs.Add(b, r);
        return pairs.ByFirst(before.Count);
    }

    private Lists FindClusters()
    {
        // the areas hang together by themselves; carries may join them further
        var areas = Work.Areas;
        var parent = Roots.Apart(areas.Count);
        for (var end = 0; end < Carries.Count; end++)
            foreach (var other in Carries[end]) Roots.Join(parent, areas.AreaOf(end >> 1), areas.AreaOf(other >> 1));
        if (Way == WayOfWorking.RowByRow) JoinFigures(parent);
        var byRank = new int[Runs];
        for (var r = 0; r < byRank.Length; r++) byRank[Rank[r]] = r;
        var number = new int[areas.Count];
        var count = 0;
        var pairs = new Pairs();
        var together = Runs <= Search.ExactRuns; // so few that turns from one to the next are weighed as well
        foreach (var r in byRank)
        {
            ref var cluster = ref number[together ? 0 : Roots.Of(parent, areas.AreaOf(r))];
            if (cluster == 0) cluster = ++count;
            pairs.Add(cluster - 1, r);
        }
        return pairs.ByFirst(count);
    }

    // Where figures lie so near one another that they are planned together, each figure is planned whole, so that one can
    // be finished before the next.
    private void JoinFigures(int[] parent)
    {
        var parts = Parts.InOrder;
        if (parts.IsEmpty) return;
        var figureOf = new int[Work.Areas.Count]; // the first figure met in an area's group
        Array.Fill(figureOf, -1);
        var several = new bool[parts[^1].Figure + 1];
        foreach (var part in parts)
        {
            ref var first = ref figureOf[Roots.Of(parent, part.Area)];
            if (first < 0) first = part.Figure;
            else if (first != part.Figure) several[first] = several[part.Figure] = true;
        }
        var area = new int[several.Length];
        Array.Fill(area, -1);
        foreach (var part in parts)
        {
            if (!several[part.Figure]) continue;
            if (area[part.Figure] < 0) area[part.Figure] = part.Area;
            else Roots.Join(parent, area[part.Figure], part.Area);
        }
    }

    private int[] RankRuns()
    {
        const long most = 8192; // more than the pleats and the cable rows there can be
        var runs = Work.Runs;
        var keys = new (int Part, int Generation, long Within)[runs.Length];
        var order = new int[runs.Length];
        var firstUp = Work.Piece.Working.First != FirstWay.Down;
        for (var i = 0; i < keys.Length; i++)
        {
            var (way, generation) = (Outward.WayOf(i), Outward.GenerationOf(i));
            var place = way == 0 ? 0 : generation > 0 ? (way > 0 ? 1 : 2) : way < 0 == firstUp ? 1 : 2;
            var distance = way < 0 ? most - 1 - runs[i].Row.Index : runs[i].Row.Index;
            keys[i] = (Parts.Of(i), generation, (place * most + distance) * most + Across(i));
            order[i] = i;
        }
        Array.Sort(keys, order);
        var rank = new int[runs.Length];
        for (var place = 0; place < order.Length; place++) rank[order[place]] = place;
        return rank;
    }

    // The place of a run across the cloth, in the direction of the hand.
    private int Across(int run) => leftHanded ? Work.Valleys + 1 - Work.Runs[run].To.Number : Work.Runs[run].From.Number;
}
