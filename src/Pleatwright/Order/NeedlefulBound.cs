namespace Pleatwright.Order;

/// <summary>
/// A bound on the starts of a group of runs by column generation (Dantzig and Wolfe, 1960; Gilmore and Gomory, 1961). Every needleful
/// is a column: cables of a first run up to its end, whole runs each within a carry of the one before, and cables of a last run from
/// its beginning. Wherever one begins within a run, another must have ended within it. The least sum of needlefuls that cover all
/// cables, fractions allowed, is no more than the starts of any order. Whatever prices are put on the cables, so long as no needleful is worth more than 1, their sum is a bound too; so
/// the search may stop at any time.
/// </summary>
internal sealed class NeedlefulBound
{
    private const int Unit = 200;      // micrometres: thread is reckoned in these, rounded so that a needleful holds the more
    private const int Columns = 24;    // taken from one pricing
    private readonly Layout layout;
    private readonly int[] runs;
    private readonly int capacity;     // in units
    private readonly int longer;
    private readonly List<(int Entry, int Carry)>[] next; // by exit: local ends
    private readonly double[] need;
    private readonly double[][] worth; // by exit and thread used: the most worth of what ends there; below 0 when nothing does
    private readonly int[][] came;     // by the same: the exit before, or -1 - cables worked of the run when it is the first
    private readonly int[][] cameUsed; // thread used there
    private long looked;

    private NeedlefulBound(Layout layout, int[] runs, Func<int, ReadOnlySpan<int>> followers)
    {
        (this.layout, this.runs) = (layout, runs);
        capacity = (layout.Costs.Needleful + Unit - 1) / Unit;
        longer = (layout.Costs.Needleful + layout.Costs.Longer + Unit - 1) / Unit - capacity;
        need = Array.ConvertAll(runs, r => (double)layout.Work.Runs[r].Cables);
        var local = new Dictionary<int, int>();
        for (var k = 0; k < runs.Length; k++) local[runs[k]] = k;
        next = new List<(int, int)>[2 * runs.Length];
        worth = new double[2 * runs.Length][];
        came = new int[2 * runs.Length][];
        cameUsed = new int[2 * runs.Length][];
        var may = new HashSet<int>();
        for (var k = 0; k < runs.Length; k++)
        {
            may.Clear();
            foreach (var i in followers(runs[k])) may.Add(i);
            for (var side = 0; side < 2; side++)
            {
                var exit = 2 * runs[k] + side;
                var list = next[2 * k + side] = [];
                worth[2 * k + side] = new double[capacity + longer + 1];
                came[2 * k + side] = new int[capacity + longer + 1];
                cameUsed[2 * k + side] = new int[capacity + longer + 1];
                if (!layout.MayEnter(exit ^ 1)) continue;
                foreach (var entry in layout.Carries[exit])
                    if (may.Contains(entry >> 1) && layout.MayEnter(entry)) list.Add((2 * local[entry >> 1] + (entry & 1), layout.Carry(exit, entry) / Unit));
            }
        }
    }

    /// <summary>The bound, at least 1; sought until it reaches a number of starts that is known to do, or so much was looked at.</summary>
    /// <param name="layout">The work.</param>
    /// <param name="runs">The runs of one group, that no carry leaves.</param>
    /// <param name="followers">The runs that may follow a run on its thread.</param>
    /// <param name="known">Starts that are known to do.</param>
    /// <param name="most">Steps of the pricing at the most.</param>
    /// <param name="cancel">Stops it.</param>
    public static int Of(Layout layout, int[] runs, Func<int, ReadOnlySpan<int>> followers, int known, long most, CancellationToken cancel) =>
        new NeedlefulBound(layout, runs, followers).Find(known, most, cancel);

    private int Find(int known, long most, CancellationToken cancel)
    {
        var program = new LinearProgram(need, runs.Length);
        for (var k = 0; k < runs.Length; k++) program.Add(Alone(k));
        var bound = 1.0;
        for (int from = 0, added = runs.Length; looked < most;)
        {
            cancel.ThrowIfCancellationRequested();
            program.Improve(from, 400 + 4 * runs.Length);
            var (best, columns) = Price(program.Prices);
            double sum = 0;
            for (var k = 0; k < runs.Length; k++) sum += Math.Max(0, program.Prices[k]) * need[k];
            bound = Math.Max(bound, sum / Math.Max(1, best));
            if (Whole(bound) >= known || best <= 1 + 1e-7 || Whole(bound) >= Whole(program.Value)) break;
            if (columns.Count == 0) break;
            from = added;
            foreach (var column in columns) program.Add(column);
            added += columns.Count;
        }
        return Math.Min(Whole(bound), known);
    }

    private static int Whole(double bound) => (int)Math.Ceiling(bound - 1e-6);

    // A run on its own: all of it, or as much of its beginning as a needleful holds.
    private (int Row, double Amount)[] Alone(int k) =>
        layout.Costs.Run(runs[k]) <= layout.Costs.Needleful + layout.Costs.Longer ? [(k, need[k])]
            : [(k, Math.Clamp((long)capacity * Unit / layout.Costs.Cable(runs[k]), 1, need[k] - 1)), (runs.Length + k, 1)];

    // Forward over the thread used: what is worth most of all that uses so much and comes out at an end. Of two at one end the one that is
    // worth no more and has used no less is not followed.
    private (double Best, List<(int Row, double Amount)[]> Columns) Price(ReadOnlySpan<double> prices)
    {
        var ends = 2 * runs.Length;
        var top = capacity + longer;
        var n0 = runs.Length;
        var runWorth = new double[runs.Length];
        var runTakes = new int[runs.Length];
        var cable = new int[runs.Length];
        for (var k = 0; k < runs.Length; k++)
        {
            runWorth[k] = Math.Max(0, prices[k]) * need[k];
            runTakes[k] = (int)Math.Min(int.MaxValue / 2, layout.Costs.Run(runs[k]) / Unit);
            cable[k] = layout.Costs.Cable(runs[k]);
        }
        var bestTo = new double[ends];   // worth of the best that was followed so far
        var endsBest = new (double Worth, int Exit, int Used, int LastEntry, int LastCables)[ends];
        for (var e = 0; e < ends; e++)
        {
            Array.Fill(worth[e], double.NegativeInfinity);
            endsBest[e].Worth = double.NegativeInfinity;
            bestTo[e] = double.NegativeInfinity;
            if (!layout.MayEnter(2 * runs[e >> 1] + (e & 1 ^ 1))) continue;
            // begun with the last so many cables of a run
            var k = e >> 1;
            var cables = (int)need[k];
            var least = layout.Costs.MaySplit(runs[k]) ? 1 : cables;
            for (var n = least; n <= cables; n++)
            {
                var used = n == cables ? runTakes[k] : (int)((long)n * cable[k] / Unit);
                if (used > top) break;
                var value = Math.Max(0, prices[k]) * n - (n < cables ? Math.Max(0, prices[n0 + k]) : 0);
                if (value > worth[e][used]) (worth[e][used], came[e][used]) = (value, -1 - n);
            }
        }
        for (var used = 0; used <= top; used++)
            for (var e = 0; e < ends; e++)
            {
                var here = worth[e][used];
                if (here <= bestTo[e]) continue;
                bestTo[e] = here;
                Consider(e, here, e, used, -1, 0);
                foreach (var (entry, carry) in next[e])
                {
                    looked++;
                    var k = entry >> 1;
                    var there = used + carry;
                    var all = there + runTakes[k];
                    var exit = entry ^ 1;
                    if (all <= top)
                    {
                        var value = here + runWorth[k];
                        if (value > worth[exit][all]) (worth[exit][all], came[exit][all], cameUsed[exit][all]) = (value, e, used);
                    }
                    if (layout.Costs.MaySplit(runs[k]) && there < capacity)
                    {
                        var n = (int)Math.Min(need[k] - 1, (long)(capacity - there) * Unit / cable[k]);
                        if (n > 0) Consider(entry, here + Math.Max(0, prices[k]) * n + Math.Max(0, prices[n0 + k]), e, used, entry, n);
                    }
                }
            }
        // one run alone, begun at its beginning or within it and ended within it
        for (var k = 0; k < runs.Length; k++)
        {
            if (!layout.Costs.MaySplit(runs[k])) continue;
            var n = (int)Math.Min(need[k] - 1, (long)capacity * Unit / cable[k]);
            if (n > 0) Consider(2 * k, Math.Max(0, prices[k]) * n + Math.Max(0, prices[n0 + k]), -1, 0, 2 * k, n);
        }
        var best = 0.0;
        var order = Enumerable.Range(0, ends).Where(e => endsBest[e].Worth > 1 + 1e-7).OrderByDescending(e => endsBest[e].Worth).ThenBy(e => e).ToArray();
        foreach (var end in endsBest) best = Math.Max(best, end.Worth);
        return (best, [.. order.Take(Columns).Select(e => Column(endsBest[e]))]);

        void Consider(int at, double value, int exit, int used, int lastEntry, int lastCables)
        {
            if (value > endsBest[at].Worth) endsBest[at] = (value, exit, used, lastEntry, lastCables);
        }
    }

    private (int Row, double Amount)[] Column((double Worth, int Exit, int Used, int LastEntry, int LastCables) end)
    {
        var amounts = new SortedDictionary<int, double>();
        if (end.LastEntry >= 0)
        {
            amounts[end.LastEntry >> 1] = end.LastCables;
            amounts[runs.Length + (end.LastEntry >> 1)] = 1;
        }
        for (var (exit, used) = (end.Exit, end.Used); exit >= 0;)
        {
            var from = came[exit][used];
            amounts[exit >> 1] = amounts.GetValueOrDefault(exit >> 1) + (from < 0 ? -1 - from : need[exit >> 1]);
            if (from < 0 && -1 - from < need[exit >> 1]) amounts[runs.Length + (exit >> 1)] = amounts.GetValueOrDefault(runs.Length + (exit >> 1)) - 1;
            (exit, used) = (from, from < 0 ? 0 : cameUsed[exit][used]);
        }
        return [.. amounts.Select(a => (a.Key, a.Value))];
    }
}
