using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>
/// What a way of working finishes before what, over and above what every run must butt. Runs are gathered in stages, and the
/// stages of one way out from a base row make a chain. Row by row, a stage is a row of a part, and the stages follow one
/// another as they are numbered; space by space, it is the rows between two gathering rows, opened when the one before it
/// in its chain is finished. Everywhere the way worked second from an area's base row waits for all of the first.
/// </summary>
internal sealed class Stages
{
    private readonly Layout layout;
    private readonly int[] stageOf; // per run, numbered in the order of rank
    private readonly int[] chainOf; // per run: the part and the way out it belongs to, numbered likewise
    private readonly int[] need;    // per gate: runs to be finished before it opens

    public Stages(Layout layout)
    {
        this.layout = layout;
        var (runs, areas, outward) = (layout.Runs, layout.Work.Areas, layout.Outward);
        stageOf = new int[runs];
        chainOf = new int[runs];
        Number();
        Pairs feeds = new(), opens = new(), awaits = new();
        var gates = areas.Count; // the first way of each area
        for (var r = 0; r < runs; r++)
        {
            var side = outward.SideOf(r);
            if (side == Side.First) feeds.Add(r, areas.AreaOf(r));
            else if (side == Side.Second) Wait(r, areas.AreaOf(r));
        }
        if (layout.Way == WayOfWorking.SpaceBySpace)
        {
            var (baseStage, firstOf) = (new int[layout.Parts.InOrder.Length], new Dictionary<int, int>());
            Array.Fill(baseStage, -1);
            for (var r = 0; r < runs; r++)
            {
                feeds.Add(r, gates + stageOf[r]);
                if (outward.WayOf(r) == 0) baseStage[layout.Parts.Of(r)] = stageOf[r];
                firstOf[chainOf[r]] = Math.Min(firstOf.GetValueOrDefault(chainOf[r], int.MaxValue), stageOf[r]);
            }
            for (var r = 0; r < runs; r++)
            {
                if (stageOf[r] > firstOf[chainOf[r]]) Wait(r, gates + stageOf[r] - 1);
                else if (outward.WayOf(r) != 0 && outward.GenerationOf(r) == 0 && baseStage[layout.Parts.Of(r)] is var first and >= 0) Wait(r, gates + first);
            }
            gates += Count;
        }
        Feeds = feeds.ByFirst(runs);
        Awaits = awaits.ByFirst(runs);
        Opens = opens.ByFirst(gates);
        need = new int[gates];
        for (var r = 0; r < runs; r++)
            foreach (var gate in Feeds[r]) need[gate]++;

        void Wait(int run, int gate)
        {
            opens.Add(gate, run);
            awaits.Add(run, gate);
        }
    }

    /// <summary>How many stages there are.</summary>
    public int Count { get; private set; }

    /// <summary>For each run, the gates that are the nearer to opening when it is done.</summary>
    public Lists Feeds { get; }

    /// <summary>For each run, the gates that must be open for it.</summary>
    public Lists Awaits { get; }

    /// <summary>For each gate, the runs that wait for it.</summary>
    public Lists Opens { get; }

    /// <summary>How many gates there are.</summary>
    public int Gates => need.Length;

    /// <summary>How many runs must be done before a gate opens.</summary>
    public int Need(int gate) => need[gate];

    /// <summary>The stage of a run.</summary>
    public int Of(int run) => stageOf[run];

    /// <summary>Whether a run is worked before another because of the way of working, whatever lies between them.</summary>
    public bool IsBefore(int run, int other)
    {
        var (areas, outward) = (layout.Work.Areas, layout.Outward);
        if (areas.AreaOf(run) == areas.AreaOf(other) && outward.SideOf(run) == Side.First && outward.SideOf(other) == Side.Second) return true;
        if (layout.Way == WayOfWorking.FewestStarts) return false;
        if (layout.Way == WayOfWorking.RowByRow && layout.Work.Piece.Working.First != FirstWay.Either) return stageOf[run] < stageOf[other];
        if (chainOf[run] == chainOf[other]) return stageOf[run] < stageOf[other];
        return layout.Parts.Of(run) == layout.Parts.Of(other) && outward.WayOf(run) == 0 && outward.GenerationOf(other) == 0;
    }

    private void Number()
    {
        var outward = layout.Outward;
        var perSpace = layout.Work.Pleating.Gauge.CableRowsPerSpace;
        var byRank = new int[layout.Runs];
        for (var r = 0; r < byRank.Length; r++) byRank[layout.Rank[r]] = r;
        (int, int, int) chain = (-1, 0, 0);
        var (chains, within) = (0, -1);
        foreach (var r in byRank)
        {
            var (part, way, generation) = (layout.Parts.Of(r), outward.WayOf(r), outward.GenerationOf(r));
            var row = layout.Work.Runs[r].Row.Index;
            // a space ends with the row that lies on the next gathering row
            var stage = layout.Way == WayOfWorking.RowByRow || way == 0 ? row : way < 0 ? row / perSpace : (row + perSpace - 1) / perSpace;
            if (chain != (part, generation, way))
            {
                chain = (part, generation, way);
                chains++;
                Count++;
            }
            else if (stage != within) Count++;
            within = stage;
            chainOf[r] = chains - 1;
            stageOf[r] = Count - 1;
        }
    }
}
