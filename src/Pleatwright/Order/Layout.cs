using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>All that ordering a work asks about it, worked out once.</summary>
internal sealed class Layout
{
    private readonly bool leftHanded;
    private readonly bool mayTurn;
    private readonly int[] firstSide;

    /// <summary>Works it out, in time near linear in the runs.</summary>
    public Layout(Work work)
    {
        Work = work;
        var working = work.Piece.Working;
        leftHanded = working.Hand == Hand.Left;
        mayTurn = working.MayTurn;
        ParkedThreads = working.ParkedThreads;
        Costs = new ThreadCosts(work);
        Outward = Outward.From(work);
        Before = Outward.Before;
        After = Reverse(Before);
        Carries = Order.Carries.Between(work, Costs);
        Rank = RankRuns();
        (firstSide, SecondSide) = Sides();
        Clusters = FindClusters();
        Pins = new Pins(work);
    }

    public Work Work { get; }

    public int Runs => Work.Runs.Length;

    public int ParkedThreads { get; }

    public ThreadCosts Costs { get; }

    public Outward Outward { get; }

    /// <summary>For each run, the runs worked before it.</summary>
    public Lists Before { get; }

    /// <summary>For each run, the runs that wait for it.</summary>
    public Lists After { get; }

    /// <summary>For each area, the runs of the way worked second, which wait for all of the first besides.</summary>
    public Lists SecondSide { get; }

    /// <summary>How many runs of an area's first way the second waits for.</summary>
    public ReadOnlySpan<int> FirstSide => firstSide;

    /// <summary>For each end, the ends within a carry of it.</summary>
    public Lists Carries { get; }

    /// <summary>Each run's place when every run is begun afresh: outward from the base, area by area.</summary>
    public int[] Rank { get; }

    /// <summary>
    /// The runs that have to do with one another, each list in the order of rank, the lists by their first: areas, and
    /// areas so near that a thread can be carried between them. What is planned in one cluster does not touch another.
    /// </summary>
    public Lists Clusters { get; }

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

    /// <summary>Whether a run is worked before another because its way from the base row is worked before the other's.</summary>
    public bool SideBefore(int run, int other) => Outward.SideOf(run) == Side.First && Outward.SideOf(other) == Side.Second
        && Work.Areas.AreaOf(run) == Work.Areas.AreaOf(other);

    private (int[] First, Lists Second) Sides()
    {
        var first = new int[Work.Areas.Count];
        var second = new Pairs();
        for (var r = 0; r < Runs; r++)
        {
            var side = Outward.SideOf(r);
            if (side == Side.First) first[Work.Areas.AreaOf(r)]++;
            else if (side == Side.Second) second.Add(Work.Areas.AreaOf(r), r);
        }
        return (first, second.ByFirst(first.Length));
    }

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

    private int[] RankRuns()
    {
        const long most = 8192; // more than the pleats and the cable rows there can be
        var runs = Work.Runs;
        var areas = Work.Areas;
        var areaOrder = AreaOrder();
        var keys = new long[runs.Length];
        var order = new int[runs.Length];
        var firstUp = Work.Piece.Working.First != FirstWay.Down;
        for (var i = 0; i < keys.Length; i++)
        {
            var area = areas.AreaOf(i);
            var way = Outward.WayOf(i) switch { 0 => 0, < 0 => firstUp ? 1 : 2, _ => firstUp ? 2 : 1 };
            var below = runs[i].Row.Index - areas.All[area].Base.Index;
            var distance = 2 * Math.Abs(below) + (below < 0 ? 1 : 0);
            keys[i] = ((areaOrder[area] * 3L + way) * 2 * most + distance) * most + Across(i);
            order[i] = i;
        }
        Array.Sort(keys, order);
        var rank = new int[runs.Length];
        for (var place = 0; place < order.Length; place++) rank[order[place]] = place;
        return rank;
    }

    // The place of a run across the cloth, in the direction of the hand.
    private int Across(int run) => leftHanded ? Work.Valleys + 1 - Work.Runs[run].To.Number : Work.Runs[run].From.Number;

    // Areas from the piece's base row outward; areas on one row in the direction of the hand.
    private int[] AreaOrder()
    {
        const long most = 8192;
        var areas = Work.Areas;
        var cables = new long[areas.Count];
        var across = new int[areas.Count];
        Array.Fill(across, int.MaxValue);
        for (var i = 0; i < Work.Runs.Length; i++)
        {
            var area = areas.AreaOf(i);
            if (Work.Runs[i].Row != areas.All[area].Base) continue;
            cables[area] += Work.Runs[i].Cables;
            across[area] = Math.Min(across[area], Across(i));
        }
        var firstUp = Work.Piece.Working.First != FirstWay.Down;
        var start = 0;
        for (var a = 1; a < areas.Count; a++)
            if (cables[a] > cables[start] || (cables[a] == cables[start]
                && (across[a], areas.All[a].Base).CompareTo((across[start], areas.All[start].Base)) < 0)) start = a;
        var pieceBase = areas.Count > 0 ? areas.All[start].Base.Index : 0;
        foreach (var area in areas.All)
            if (Work.Piece.Working.BaseRow == area.Base) pieceBase = area.Base.Index;
        var keys = new long[areas.Count];
        var order = new int[areas.Count];
        for (var a = 0; a < keys.Length; a++)
        {
            var away = areas.All[a].Base.Index - pieceBase;
            var second = away != 0 && away < 0 != firstUp;
            keys[a] = ((second ? 1L : 0L) * most + Math.Abs(away)) * most + across[a];
            order[a] = a;
        }
        Array.Sort(keys, order);
        var place = new int[order.Length];
        for (var i = 0; i < order.Length; i++) place[order[i]] = i;
        return place;
    }
}
