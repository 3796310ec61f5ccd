using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>
/// Which ends of runs lie within a carry of each other, in the same thread. Ends are numbered twice the run for its
/// left end and one more for its right.
/// </summary>
internal static class Carries
{
    /// <summary>
    /// The most pleats a thread floats over sideways on the back. Further it is cabled across, and so holds the pleats on its way (common practice, no source). Directions,
    /// moves and thread all go by it.
    /// </summary>
    public const int MostFloated = 3;

    /// <summary>Whether a carry over so many pleats, either way, is cabled across.</summary>
    public static bool IsCabled(int pleats) => Math.Abs(pleats) > MostFloated;

    /// <summary>Small cables that a carry over so many pleats takes: each lies over two and goes back through the second, and the last ends a pleat short of where it comes up.</summary>
    public static int Cables(int pleats) => IsCabled(pleats) ? Math.Abs(pleats) - 1 : 0;

    /// <summary>Pleats of it that the thread floats over.</summary>
    public static int Floated(int pleats) => Math.Abs(pleats) - Cables(pleats);

    /// <summary>For every end, the ends of other runs it can carry to or be carried to from.</summary>
    public static Lists Between(Work work, ThreadCosts costs)
    {
        var pairs = new Pairs();
        for (var y = 0; y < work.CableRows; y++)
        {
            var first = work.FirstRunIndex(new CableRow(y));
            var end = work.FirstRunIndex(new CableRow(y + 1));
            if (first == end) continue;
            for (var z = y; z <= Math.Min(y + costs.CarryRows, work.CableRows - 1); z++)
                for (var side = 0; side < 2; side++)
                    Sweep(work, pairs, first, end, side, z, costs.CarryPleats);
        }
        return pairs.ByFirst(work.Runs.Length * 2);
    }

    /// <summary>The valley an end lies in.</summary>
    public static int Valley(ReadOnlySpan<Run> runs, int end) =>
        (end & 1) == 0 ? runs[end >> 1].From.Number : runs[end >> 1].To.Number;

    // From the left (or right) ends of runs first..end to both ends of the runs in row z; each pair of runs is met once.
    private static void Sweep(Work work, Pairs pairs, int first, int end, int side, int z, int pleats)
    {
        var runs = work.Runs;
        var low = work.FirstRunIndex(new CableRow(z));
        var endZ = work.FirstRunIndex(new CableRow(z + 1));
        var sameRow = low == first;
        for (var i = first; i < end; i++)
        {
            var a = 2 * i + side;
            var at = Valley(runs, a);
            while (low < endZ && runs[low].To.Number < at - pleats) low++;
            for (var j = sameRow ? Math.Max(low, i + 1) : low; j < endZ && runs[j].From.Number <= at + pleats; j++)
            {
                if (runs[i].Thread != runs[j].Thread) continue;
                if (runs[j].From.Number >= at - pleats) Both(pairs, a, 2 * j);
                if (runs[j].To.Number <= at + pleats) Both(pairs, a, 2 * j + 1);
            }
        }
    }

    private static void Both(Pairs pairs, int a, int b)
    {
        pairs.Add(a, b);
        pairs.Add(b, a);
    }
}
