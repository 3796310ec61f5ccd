using System.Collections.Immutable;
using Pleatwright.Chart;

namespace Pleatwright.Plate;

/// <summary>One page's share of a chart.</summary>
/// <param name="Column">Its column among the pages, from 0.</param>
/// <param name="Row">Its row among the pages, from 0.</param>
/// <param name="Window">The part of the chart it shows, overlaps and all.</param>
internal readonly record struct Tile(int Column, int Row, ChartWindow Window);

/// <summary>
/// How a chart is shared out over pages. Neighbouring pages show a few pleats and rows twice, so that they can be trimmed
/// and joined; a figure, or a stitched area, that fits a page stands whole on one; pages without a stitch are left out.
/// </summary>
internal sealed class Tiling
{
    /// <summary>Pleats that a page shows again from the page at its left, at the least.</summary>
    public const int OverlapPleats = 4;

    /// <summary>Cable rows that a page shows again from the page above it, at the least.</summary>
    public const int OverlapRows = 2;

    private const int Few = 200; // figures and areas; of more, sheets are not tried one length after the other

    private readonly (int First, int Last)[] columns, rows;

    private Tiling(ChartGeometry geometry, ChartWindow window, Box room, IReadOnlyCollection<ChartWindow> whole)
    {
        Geometry = geometry;
        Window = window;
        columns = Share(window.FirstPleat, window.LastPleat, (int)(room.Width / geometry.Pitch + 1e-9), OverlapPleats, [.. whole.Select(w => (w.FirstPleat, w.LastPleat)).Distinct()]);
        rows = Share(window.FirstRow, window.LastRow, (int)(room.Height / geometry.RowHeight + 1e-9), OverlapRows, [.. whole.Select(w => (w.FirstRow, w.LastRow)).Distinct()]);
        IsBare = AreBare(columns, [.. whole.Select(w => (w.FirstPleat, w.LastPleat)).Where(w => columns.Any(c => c.First <= w.FirstPleat && c.Last >= w.LastPleat))])
            && AreBare(rows, [.. whole.Select(w => (w.FirstRow, w.LastRow)).Where(w => rows.Any(r => r.First <= w.FirstRow && r.Last >= w.LastRow))]);
    }

    /// <summary>Whether nothing of a figure that stands whole on one page is shown on the next as well.</summary>
    public bool IsBare { get; }

    private static bool AreBare((int First, int Last)[] sheets, (int First, int Last)[] wholes) =>
        sheets.Zip(sheets.Skip(1)).All(p => !wholes.Any(w => w.First <= p.First.Last && w.Last >= p.Second.First));

    /// <summary>Where everything lies on the chart.</summary>
    public ChartGeometry Geometry { get; }

    /// <summary>The part of the chart shared out.</summary>
    public ChartWindow Window { get; }

    /// <summary>Pages side by side.</summary>
    public int Columns => columns.Length;

    /// <summary>Pages one above another.</summary>
    public int Rows => rows.Length;

    /// <summary>Pages in all, blank ones counted.</summary>
    public long Count => (long)Columns * Rows;

    /// <summary>Pleats that a page shows again from the page at its left.</summary>
    public int PleatsAgain(int column) => column == 0 ? 0 : columns[column - 1].Last - columns[column].First + 1;

    /// <summary>Cable rows that a page shows again from the page above it.</summary>
    public int RowsAgain(int row) => row == 0 ? 0 : rows[row - 1].Last - rows[row].First + 1;

    /// <summary>Shares a part of a chart over pages with so much room, in millimetres, each.</summary>
    /// <param name="geometry">The chart.</param>
    /// <param name="window">The part of it.</param>
    /// <param name="room">The room of a page.</param>
    /// <param name="wholes">What is not to be cut, as <see cref="Wholes"/> has it: found once, however many sizes are tried.</param>
    public static Tiling Over(ChartGeometry geometry, ChartWindow window, Box room, IReadOnlyCollection<ChartWindow> wholes) => new(geometry, window, room, wholes);

    /// <summary>The part of the chart one page shows.</summary>
    public ChartWindow WindowOf(int column, int row) => new(columns[column].First, columns[column].Last, rows[row].First, rows[row].Last);

    /// <summary>The pages that show a stitch, from left to right and from the top down.</summary>
    public ImmutableArray<Tile> Tiles()
    {
        var tiles = ImmutableArray.CreateBuilder<Tile>();
        for (var row = 0; row < Rows; row++)
            for (var column = 0; column < Columns; column++)
            {
                var window = WindowOf(column, row);
                if (HasStitch(window)) tiles.Add(new Tile(column, row, window));
            }
        return tiles.ToImmutable();
    }

    private bool HasStitch(ChartWindow window)
    {
        for (var y = Math.Max(0, window.FirstRow); y <= Math.Min(window.LastRow, Geometry.Work.CableRows - 1); y++)
            foreach (var run in Geometry.Work.RunsIn(new CableRow(y)))
                if (run.FirstPleat.Number <= window.LastPleat && run.LastPleat.Number >= window.FirstPleat) return true;
        return Parts.ThreadShapes.Spans(Geometry.Work).Any(span => Parts.ThreadShapes.Meet(span, window));
    }

    /// <summary>What is not to be cut where it fits: every copy of a figure, and every stitched area.</summary>
    public static ImmutableArray<ChartWindow> Wholes(Work work)
    {
        var wholes = ImmutableArray.CreateBuilder<ChartWindow>();
        foreach (var footprint in work.Footprints.ToArray())
            for (var copy = 0; copy < footprint.Placement.Repeat.Count; copy++)
            {
                var from = footprint.From.Number + copy * footprint.Placement.Repeat.Every;
                wholes.Add(new(from, from + footprint.Width, footprint.Top.Index, footprint.Bottom.Index));
            }
        foreach (var area in Enumerable.Range(0, work.Runs.Length).GroupBy(work.Areas.AreaOf).Select(g => g.Select(r => work.Runs[r]).ToList()))
            wholes.Add(new(area.Min(r => r.FirstPleat.Number), area.Max(r => r.LastPleat.Number), area[0].Row.Index, area[^1].Row.Index));
        return wholes.ToImmutable();
    }

    // The pages a length takes: as few as will do, each as long as the others as nearly as may be.
    private static (int First, int Last)[] Share(int first, int last, int room, int overlap, (int First, int Last)[] wholes)
    {
        room = Math.Max(room, overlap + 1);
        wholes = [.. wholes.Where(w => w.Last - w.First < room && w.First >= first && w.Last <= last)];
        // what is shown twice is bare of the figures that stand on the next page, where that takes no page more
        var between = Filled(room, between: true);
        var pages = Filled(room, between: false);
        var bare = between.Length <= pages.Length;
        if (bare) pages = between;
        int least = Math.Max(overlap + 1, wholes.Select(w => w.Last - w.First + 1).DefaultIfEmpty().Max()), most = room;
        while (least < most)
        {
            var each = (least + most) / 2;
            if (Filled(each, bare) is var even && even.Length <= pages.Length) (pages, most) = (even, each);
            else least = each + 1;
        }
        // a little longer, where then no figure shows a part of itself on the sheet before or after its own
        if (wholes.Length <= Few)
            for (var each = most; each <= room && !AreBare(pages, wholes); each++)
                if (Filled(each, bare) is var longer && longer.Length == pages.Length && AreBare(longer, wholes)) return longer;
        return pages;

        (int First, int Last)[] Filled(int each, bool between)
        {
            var filled = new List<(int, int)>();
            for (var from = first; ;)
            {
                var to = Math.Min(from + each - 1, last);
                if (to == last)
                {
                    filled.Add((from, to));
                    return [.. filled];
                }
                var (next, contained) = (to + 1 - overlap, 0);
                foreach (var whole in wholes)
                    if (whole.First > from && whole.First <= to && whole.Last > to) next = Math.Min(next, whole.First); // it stands whole on the next
                var cut = wholes.Where(w => w.First > from && w.First <= to && w.Last > to).Select(w => w.First).DefaultIfEmpty(last + 1).Min();
                foreach (var whole in wholes)
                    if (whole.First >= from && whole.Last <= to) contained = Math.Max(contained, whole.Last);
                if (between && cut <= to && cut - overlap > from && wholes.All(w => w.First != cut || w.Last - (cut - overlap) < each))
                {
                    filled.Add((from, Math.Max(contained, cut - 1)));
                    from = cut - overlap;
                    continue;
                }
                filled.Add((from, Math.Min(to, Math.Max(contained, next + overlap - 1)))); // no more of what is cut than it takes to join the sheets
                from = next;
            }
        }
    }
}
