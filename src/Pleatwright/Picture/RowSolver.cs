namespace Pleatwright.Picture;

/// <summary>
/// Finds the best labelling of one row while its two neighbours stand still: exactly, by dynamic programming from left to
/// right. A state is the valley's label and how long its run is by now (1, 2, 3 or more); for bare valleys, whether the one
/// before was bare too, since only then may the valley before hold nothing up. One valley costs a few steps a thread,
/// because a change comes from the cheapest other thread or, if that is its own, from the second cheapest.
/// </summary>
/// <remarks>
/// With mirror symmetry only the left half and the middle are solved, each cost counted as often as it occurs in the
/// whole row, and the run across the middle measured whole.
/// </remarks>
internal sealed class RowSolver
{
    private const int Far = int.MaxValue / 2;

    private readonly Energy energy;
    private readonly bool mirror;
    private readonly int cells, labels, threads;
    private readonly int[] own; // costs of each label, the neighbours counted in
    private readonly byte[] held; // rows stacked on this one that have a cable here: two over the base row at most
    private readonly int[] one, two, many; // best cost so far that ends in a run of 1, 2, 3 or more of a thread
    private readonly int[] leave; // best cost so far whose last run, of this thread, ends here
    private readonly byte[] how; // how each state was reached; see the bits below
    private readonly byte[] best, second; // cheapest and second cheapest thread whose run ends here, a valley
    private readonly byte[] bareHow;

    // How a state was reached, a byte a valley and thread: from which length its run was left, and whence it came.
    private const byte LeftAsTwo = 1, LeftAsMany = 2, OneFromBare = 4, ManyFromMany = 8;

    // The same for bare valleys, a byte a valley.
    private const byte LeftAsAgain = 1, AgainFromAgain = 2;

    public RowSolver(Energy energy, bool mirror)
    {
        this.energy = energy;
        this.mirror = mirror;
        cells = mirror ? (energy.Width + 1) / 2 : energy.Width;
        labels = energy.Labels;
        threads = labels - 1;
        own = new int[cells * labels];
        held = new byte[cells];
        one = new int[threads];
        two = new int[threads];
        many = new int[threads];
        leave = new int[threads];
        how = new byte[cells * threads];
        best = new byte[cells];
        second = new byte[cells];
        bareHow = new byte[cells];
    }

    /// <summary>Puts the best labelling of a row in <paramref name="solution"/>, given the whole figure's labels.</summary>
    /// <returns>What the row then costs, with all that depends on it; see <see cref="Energy.OfRowAmong"/>.</returns>
    public long Solve(int row, ReadOnlySpan<byte> figure, Span<byte> solution)
    {
        CountNeighbours(row, figure);
        Forward();
        var cost = Back(solution);
        if (mirror) for (var x = 0; x < cells; x++) solution[energy.Width - 1 - x] = solution[x];
        return cost;
    }

    // In mirrored work every cell stands for itself and its image, except the middle one of an odd row.
    private int Times(int x) => mirror && x != energy.Width - 1 - x ? 2 : 1;

    private void CountNeighbours(int row, ReadOnlySpan<byte> figure)
    {
        var width = energy.Width;
        var costs = energy.CostsOf(row);
        for (var x = 0; x < cells; x++)
            for (var l = 0; l < labels; l++)
                own[x * labels + l] = mirror && x != width - 1 - x
                    ? costs[x * labels + l] + costs[(width - 1 - x) * labels + l]
                    : costs[x * labels + l];
        Array.Clear(held);
        for (var near = row - 1; near <= row + 1; near += 2)
        {
            if (near < 0 || near >= energy.Height) continue;
            var other = figure.Slice(near * width, width);
            for (var x = 0; x < cells; x++)
            {
                for (var l = 0; l < labels; l++) own[x * labels + l] += Times(x) * energy.RaggedBetween((byte)l, other[x]);
                if (other[x] != 0 && near != energy.BaseRow && energy.Support(near) == row) held[x]++;
                if (row != energy.BaseRow && energy.Support(row) == near && !Energy.IsHeld(other, x))
                    for (var l = 1; l < labels; l++) own[x * labels + l] += Times(x) * energy.Weights.Overhang;
            }
        }
    }

    private int bareFirst; // best cost so far that ends bare after a worked valley
    private int bareAgain; // best cost so far that ends bare after a bare valley or the edge

    private void Forward()
    {
        // Changes and lengths come twice in mirrored work; only the run across the middle is single.
        var both = mirror ? 2 : 1;
        int change = both * energy.Weights.Change, half = change / 2;
        bareFirst = Far;
        bareAgain = own[0];
        bareHow[0] = AgainFromAgain;
        for (var t = 0; t < threads; t++)
        {
            one[t] = own[t + 1] + half;
            two[t] = many[t] = Far;
            how[t] = OneFromBare;
        }
        for (var x = 1; x < cells; x++)
        {
            var (cheapest, next) = LeaveThreads(x - 1, both * energy.Weights.Lone, both * energy.Weights.Short);
            var leaveBare = Math.Min(bareFirst, bareAgain);
            if (bareAgain < bareFirst) bareHow[x - 1] |= LeftAsAgain;

            var costs = own.AsSpan(x * labels + 1, threads);
            var into = how.AsSpan(x * threads, threads);
            int bestThread = best[x - 1], change1 = cheapest + change, change2 = next + change, fromBare = leaveBare + half;
            for (var t = 0; t < threads; t++)
            {
                var grown = Math.Min(two[t], many[t]);
                var bits = many[t] <= two[t] ? ManyFromMany : (byte)0;
                two[t] = Math.Min(Far, one[t] + costs[t]);
                many[t] = Math.Min(Far, grown + costs[t]);
                var begun = t == bestThread ? change2 : change1;
                if (fromBare <= begun) (begun, bits) = (fromBare, (byte)(bits | OneFromBare));
                one[t] = Math.Min(Far, begun + costs[t]);
                into[t] = bits;
            }

            var bareCost = own[x * labels];
            var again = bareAgain + Unheld(x - 1);
            bareHow[x] = again <= bareFirst ? AgainFromAgain : (byte)0;
            bareAgain = Math.Min(Far, Math.Min(again, bareFirst) + bareCost);
            bareFirst = Math.Min(Far, cheapest + half + bareCost);
        }
    }

    // Ends every thread's run at a valley, and finds the two cheapest threads to come from.
    private (int Cheapest, int Next) LeaveThreads(int x, int lone, int pair)
    {
        int cheapest = Far, next = Far;
        byte bestThread = 0, secondThread = 0;
        var into = how.AsSpan(x * threads, threads);
        for (var t = 0; t < threads; t++)
        {
            var cost = many[t];
            var bits = LeftAsMany;
            if (two[t] + pair < cost) (cost, bits) = (two[t] + pair, LeftAsTwo);
            if (one[t] + lone < cost) (cost, bits) = (one[t] + lone, 0);
            into[t] |= bits;
            if (cost < cheapest) (next, secondThread, cheapest, bestThread) = (cheapest, bestThread, cost, (byte)t);
            else if (cost < next) (next, secondThread) = (cost, (byte)t);
        }
        (best[x], second[x]) = (bestThread, secondThread);
        return (cheapest, next);
    }

    // What a bare valley between bare ones costs when a cable is stacked over it.
    private int Unheld(int x) => held[x] * Times(x) * energy.Weights.Overhang;

    private long Back(Span<byte> solution)
    {
        // The far end: the edge of the figure, or in mirrored work its middle, across which a run goes on.
        var last = cells - 1;
        var atMiddle = energy.Width % 2 == 1 ? 1 : 0; // one less for the middle valley they share
        var edge = mirror ? 0 : energy.Weights.Change / 2;
        var cost = Math.Min(bareFirst, bareAgain + Unheld(last));
        int thread = -1, run = bareAgain + Unheld(last) < bareFirst ? 2 : 1;
        for (var t = 0; t < threads; t++)
        {
            Take(t, 1, one[t]);
            Take(t, 2, two[t]);
            Take(t, 3, many[t]);
        }
        for (var x = last; ; x--)
        {
            solution[x] = (byte)(thread + 1);
            if (x == 0) return cost;
            (thread, run) = Before(x, thread, run);
        }

        void Take(int t, int length, int soFar)
        {
            var total = soFar + edge + energy.LengthCost(mirror ? 2 * length - atMiddle : length);
            if (total < cost) (cost, thread, run) = (total, t, length);
        }
    }

    // The state of the valley before, for the state of this one; a bare state is thread -1, with run 2 after a bare valley.
    private (int Thread, int Run) Before(int x, int thread, int run)
    {
        if (thread >= 0 && run > 1) return (thread, run == 2 ? 1 : (how[x * threads + thread] & ManyFromMany) != 0 ? 3 : 2);
        if (thread < 0 && run == 2) return (-1, (bareHow[x] & AgainFromAgain) != 0 ? 2 : 1);
        if (thread >= 0 && (how[x * threads + thread] & OneFromBare) != 0) return (-1, (bareHow[x - 1] & LeftAsAgain) != 0 ? 2 : 1);
        var from = thread == best[x - 1] ? second[x - 1] : best[x - 1];
        return (from, (how[(x - 1) * threads + from] & (LeftAsTwo | LeftAsMany)) switch { LeftAsMany => 3, LeftAsTwo => 2, _ => 1 });
    }
}
