namespace Pleatwright.Chart;

/// <summary>Worked valleys side by side in one row with no bare valley between, whatever their threads.</summary>
/// <param name="Row">Its cable row.</param>
/// <param name="From">Its leftmost valley.</param>
/// <param name="To">Its rightmost valley.</param>
/// <param name="FirstRun">Index in the work's runs of its leftmost run.</param>
/// <param name="EndRun">One past the index of its rightmost run.</param>
public readonly record struct Stretch(CableRow Row, Valley From, Valley To, int FirstRun, int EndRun)
{
    /// <summary>Cables in it.</summary>
    public int Cables => To.Number - From.Number + 1;
}

/// <summary>
/// A stacked figure as it lies on the cloth: stretches that hang together, each sharing a valley with one in a
/// neighbouring row. A row on its own is an area of one stretch.
/// </summary>
/// <param name="Index">Its index, by its first stretch from the top down and from left to right.</param>
/// <param name="Top">Its highest cable row.</param>
/// <param name="Bottom">Its lowest cable row.</param>
/// <param name="From">Its leftmost valley.</param>
/// <param name="To">Its rightmost valley.</param>
/// <param name="Widest">The row with the most cables of the area; among equals the one that leaves most to the way worked first.</param>
/// <param name="WidestCables">Cables of the area in its widest row.</param>
/// <param name="Base">
/// The base row, where it is begun: the row the maker pinned, when the area reaches it; else the widest row on a
/// gathering row, when it is nearly the widest of all; else the widest.
/// </param>
/// <param name="Cables">Cables in all.</param>
public readonly record struct WorkedArea(
    int Index, CableRow Top, CableRow Bottom, Valley From, Valley To, CableRow Widest, int WidestCables, CableRow Base, int Cables)
{
    /// <summary>How wide a row on a gathering row must be, beside the widest, to be begun with in its stead (common practice, no source).</summary>
    public const double NearlyWidest = 0.9;

    /// <summary>Whether it has more than one row.</summary>
    public bool IsStacked => Bottom.Index > Top.Index;
}

/// <summary>The stretches and areas of a work; found once and shared through <see cref="Work.Areas"/>.</summary>
public sealed class Areas
{
    private readonly Stretch[] stretches;
    private readonly int[] rowStart; // rowStart[y] .. rowStart[y + 1]: the stretches of cable row y
    private readonly int[] firstAbove; // the first stretch of the row above that ends no further left than this one begins
    private readonly int[] firstBelow;
    private readonly int[] areaOf; // by stretch
    private readonly int[] areaOfRun;
    private readonly WorkedArea[] areas;

    private Areas(Work work, Stretch[] stretches, int[] rowStart, int[] firstAbove, int[] firstBelow, int[] areaOf, WorkedArea[] areas)
    {
        this.stretches = stretches;
        this.rowStart = rowStart;
        this.firstAbove = firstAbove;
        this.firstBelow = firstBelow;
        this.areaOf = areaOf;
        this.areas = areas;
        areaOfRun = new int[work.Runs.Length];
        for (var i = 0; i < stretches.Length; i++)
            areaOfRun.AsSpan(stretches[i].FirstRun, stretches[i].EndRun - stretches[i].FirstRun).Fill(areaOf[i]);
    }

    /// <summary>How many areas there are.</summary>
    public int Count => areas.Length;

    /// <summary>Every area, by the place of its first stretch from the top down and from left to right.</summary>
    public ReadOnlySpan<WorkedArea> All => areas;

    /// <summary>Every stretch, from the top row down and from left to right.</summary>
    public ReadOnlySpan<Stretch> Stretches => stretches;

    /// <summary>The stretches of one row by their indices, first and one past the last.</summary>
    public (int First, int End) In(CableRow row) => (rowStart[row.Index], rowStart[row.Index + 1]);

    /// <summary>The area of a run, by the run's index in the work; an index in <see cref="All"/>.</summary>
    public int AreaOf(int run) => areaOfRun[run];

    /// <summary>The area of a stretch, by the stretch's index; an index in <see cref="All"/>.</summary>
    public int AreaOfStretch(int stretch) => areaOf[stretch];

    /// <summary>The stretches of the row above that share a valley with this one, by their indices, first and one past the last.</summary>
    public (int First, int End) Above(int stretch) => Sharing(stretch, firstAbove[stretch], stretches[stretch].Row.Index - 1);

    /// <summary>The stretches of the row below that share a valley with this one, by their indices, first and one past the last.</summary>
    public (int First, int End) Below(int stretch) => Sharing(stretch, firstBelow[stretch], stretches[stretch].Row.Index + 1);

    private (int First, int End) Sharing(int stretch, int first, int row)
    {
        var end = first;
        if ((uint)row >= (uint)(rowStart.Length - 1)) return (first, end);
        while (end < rowStart[row + 1] && stretches[end].From.Number <= stretches[stretch].To.Number) end++;
        return (first, end);
    }

    /// <summary>The areas of a work, in time linear in its runs.</summary>
    internal static Areas Find(Work work)
    {
        var (stretches, rowStart) = Stretch(work);
        var firstAbove = Facing(stretches, rowStart, -1);
        var firstBelow = Facing(stretches, rowStart, +1);
        var root = Join(stretches, rowStart, firstAbove);
        var areaOf = new int[stretches.Length];
        var count = 0;
        for (var i = 0; i < stretches.Length; i++) areaOf[i] = root[i] == i ? count++ : areaOf[root[i]];
        return new Areas(work, stretches, rowStart, firstAbove, firstBelow, areaOf, Measure(work, stretches, areaOf, count));
    }

    private static (Stretch[] Stretches, int[] RowStart) Stretch(Work work)
    {
        var runs = work.Runs;
        var stretches = new List<Stretch>(runs.Length);
        var rowStart = new int[work.CableRows + 1];
        var i = 0;
        for (var y = 0; y < work.CableRows; y++)
        {
            rowStart[y] = stretches.Count;
            var end = work.FirstRunIndex(new CableRow(y + 1));
            while (i < end)
            {
                var first = i++;
                while (i < end && runs[i].From.Number == runs[i - 1].To.Number + 1) i++;
                stretches.Add(new Stretch(new CableRow(y), runs[first].From, runs[i - 1].To, first, i));
            }
        }
        rowStart[work.CableRows] = stretches.Count;
        return ([.. stretches], rowStart);
    }

    private static int[] Facing(Stretch[] stretches, int[] rowStart, int way)
    {
        var first = new int[stretches.Length];
        for (var y = 0; y < rowStart.Length - 1; y++)
        {
            var other = y + way;
            if ((uint)other >= (uint)(rowStart.Length - 1)) continue;
            var j = rowStart[other];
            for (var i = rowStart[y]; i < rowStart[y + 1]; i++)
            {
                while (j < rowStart[other + 1] && stretches[j].To.Number < stretches[i].From.Number) j++;
                first[i] = j;
            }
        }
        return first;
    }

    // Each stretch's root: the first stretch, from the top down and from left to right, of those it hangs together with.
    private static int[] Join(Stretch[] stretches, int[] rowStart, int[] firstAbove)
    {
        var parent = Roots.Apart(stretches.Length);
        for (var y = 1; y < rowStart.Length - 1; y++)
            for (var i = rowStart[y]; i < rowStart[y + 1]; i++)
                for (var j = firstAbove[i]; j < rowStart[y] && stretches[j].From.Number <= stretches[i].To.Number; j++) Roots.Join(parent, i, j);
        for (var i = 0; i < parent.Length; i++) parent[i] = Roots.Of(parent, i);
        return parent;
    }

    // The stretches come row by row, so one pass sums each area's row before it turns to the next.
    private static WorkedArea[] Measure(Work work, Stretch[] stretches, int[] areaOf, int count)
    {
        var areas = new WorkedArea[count];
        var rows = new (int Row, int Cables, int BestGathering, int BestGatheringCables)[count];
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var working = work.Piece.Working;
        for (var i = 0; i < stretches.Length; i++)
        {
            var s = stretches[i];
            ref var area = ref areas[areaOf[i]];
            ref var row = ref rows[areaOf[i]];
            if (area.Cables == 0)
            {
                area = new WorkedArea(areaOf[i], s.Row, s.Row, s.From, s.To, s.Row, 0, s.Row, 0);
                row.Row = s.Row.Index;
            }
            else if (row.Row != s.Row.Index)
            {
                Close(ref area, ref row);
                row = row with { Row = s.Row.Index, Cables = 0 };
            }
            row.Cables += s.Cables;
            area = area with
            {
                Bottom = s.Row,
                From = s.From.Number < area.From.Number ? s.From : area.From,
                To = s.To.Number > area.To.Number ? s.To : area.To,
                Cables = area.Cables + s.Cables,
            };
        }
        for (var k = 0; k < count; k++)
        {
            Close(ref areas[k], ref rows[k]);
            var area = areas[k];
            areas[k] = area with
            {
                Base = working.BaseRow is { } pinned && pinned.Index >= area.Top.Index && pinned.Index <= area.Bottom.Index ? pinned
                    : rows[k].BestGatheringCables >= area.WidestCables * WorkedArea.NearlyWidest ? new CableRow(rows[k].BestGathering)
                    : area.Widest,
            };
        }
        return areas;

        void Close(ref WorkedArea area, ref (int Row, int Cables, int BestGathering, int BestGatheringCables) row)
        {
            var (cables, upFirst) = (row.Cables, working.First != FirstWay.Down);
            if (cables > area.WidestCables || (cables == area.WidestCables && upFirst)) area = area with { Widest = new CableRow(row.Row), WidestCables = row.Cables };
            if (row.Row % perSpace == 0 && (cables > row.BestGatheringCables || (cables == row.BestGatheringCables && upFirst)))
                (row.BestGathering, row.BestGatheringCables) = (row.Row, row.Cables);
        }
    }
}
