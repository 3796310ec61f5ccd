using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>The two ways out from a base row: no run of the second is worked before all of the first in its area.</summary>
internal enum Side : byte
{
    /// <summary>Of neither way.</summary>
    Neither,

    /// <summary>Of the way worked first.</summary>
    First,

    /// <summary>Of the way worked second.</summary>
    Second,
}

/// <summary>
/// Which runs must be worked before which. Every area is worked outward from its own base row: all the way up from it,
/// then all the way down (or the reverse), and back again into whatever hangs or stands beyond. Each run waits for every run
/// it butts on its inner side, so it always butts worked rows and is never squeezed between two finished ones.
/// </summary>
internal sealed class Outward
{
    private const sbyte NotYet = 2;
    private readonly Work work;
    private readonly Areas areas;
    private readonly int[] stretchOf;  // of a run
    private readonly sbyte[] way;      // per stretch: -1 worked upward, 1 downward, 0 on the base row
    private readonly int[] generation; // per stretch: how often the way has turned on the way out from the base

    private readonly Side[] side;      // per stretch

    private Outward(Work work)
    {
        this.work = work;
        areas = work.Areas;
        var stretches = areas.Stretches;
        stretchOf = new int[work.Runs.Length];
        for (var s = 0; s < stretches.Length; s++)
            stretchOf.AsSpan(stretches[s].FirstRun, stretches[s].EndRun - stretches[s].FirstRun).Fill(s);
        way = new sbyte[stretches.Length];
        generation = new int[stretches.Length];
        Spread();
        var first = work.Piece.Working.First;
        side = new Side[stretches.Length];
        for (var s = 0; s < side.Length && first != FirstWay.Either; s++)
            if (generation[s] == 0 && way[s] != 0) side[s] = way[s] < 0 == (first == FirstWay.Up) ? Side.First : Side.Second;
        Before = FindBefore();
    }

    /// <summary>For each run, the runs that must be worked before it.</summary>
    public Lists Before { get; }

    /// <summary>Works out which runs wait for which, in time near linear in the runs.</summary>
    public static Outward From(Work work) => new(work);

    /// <summary>-1 when the run is worked upward from its base, 1 downward, 0 on the base row.</summary>
    public int WayOf(int run) => way[stretchOf[run]];

    /// <summary>
    /// The run's side of its area's base row. What was reached only by turning back is on neither: it follows what it butts.
    /// </summary>
    public Side SideOf(int run) => side[stretchOf[run]];

    // From the base rows up and down as far as each way leads; then, from what was reached, the other way into what
    // still waits, and so on. What is reached upward has nothing worked above it, and the reverse.
    private void Spread()
    {
        Array.Fill(way, NotYet);
        var stretches = areas.Stretches;
        Queue<int> reached = new();
        List<int> up = [], down = [];
        for (var s = 0; s < stretches.Length; s++)
        {
            if (stretches[s].Row != areas.All[areas.AreaOfStretch(s)].Base) continue;
            way[s] = 0;
            up.Add(s);
            down.Add(s);
        }
        for (var turned = 0; up.Count + down.Count > 0; turned++)
        {
            var nowUp = Reach(up, -1, turned, reached);
            var nowDown = Reach(down, 1, turned, reached);
            (up, down) = (nowDown, nowUp);
        }
    }

    private List<int> Reach(List<int> from, sbyte direction, int turned, Queue<int> queue)
    {
        List<int> found = [];
        foreach (var s in from) queue.Enqueue(s);
        while (queue.TryDequeue(out var s))
        {
            var (first, end) = direction < 0 ? areas.Above(s) : areas.Below(s);
            for (var t = first; t < end; t++)
            {
                if (way[t] != NotYet) continue;
                way[t] = direction;
                generation[t] = turned;
                found.Add(t);
                queue.Enqueue(t);
            }
        }
        return found;
    }

    private Lists FindBefore()
    {
        var runs = work.Runs;
        var pairs = new Pairs(); // a run, and one it waits for
        for (var y = 0; y + 1 < work.CableRows; y++)
        {
            int i = work.FirstRunIndex(new CableRow(y)), j = work.FirstRunIndex(new CableRow(y + 1));
            int endI = j, endJ = work.FirstRunIndex(new CableRow(y + 2));
            while (i < endI && j < endJ)
            {
                if (runs[i].To.Number >= runs[j].From.Number && runs[j].To.Number >= runs[i].From.Number)
                {
                    int upper = stretchOf[i], lower = stretchOf[j];
                    if (way[upper] < 0 && generation[lower] <= generation[upper]) pairs.Add(i, j);
                    else if (way[lower] > 0 && generation[upper] <= generation[lower]) pairs.Add(j, i);
                }
                if (runs[i].To.Number < runs[j].To.Number) i++; else j++;
            }
        }
        return pairs.ByFirst(runs.Length);
    }

    /// <summary>
    /// Whether the run has nothing on its inner side, though it is off the base row: an arm, which butts a run beside it in its row.
    /// </summary>
    public bool IsArm(int run) => way[stretchOf[run]] != 0 && Before[run].IsEmpty;

    /// <summary>The stretch a run belongs to, an index in <see cref="Areas.Stretches"/>.</summary>
    public int StretchOf(int run) => stretchOf[run];

    /// <summary>How often the way has turned on the way out from the base row to a run.</summary>
    public int GenerationOf(int run) => generation[stretchOf[run]];

    /// <summary>-1 when a stretch is worked upward from its base, 1 downward, 0 on the base row.</summary>
    public int WayOfStretch(int stretch) => way[stretch];
}
