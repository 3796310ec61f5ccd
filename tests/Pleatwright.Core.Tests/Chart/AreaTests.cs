using CsCheck;
using Pleatwright.Chart;

namespace Pleatwright.Tests.Chart;

public class AreaTests
{
    private static readonly Gen<Piece> Any = Gen.OneOf(Drawn.Pieces, PieceGen.Pieces);

    private static IEnumerable<(int V, int Y)> Cells(Work work) =>
        from y in Enumerable.Range(0, work.CableRows)
        from v in Enumerable.Range(1, work.Valleys)
        where work.IsWorked(new Valley(v), new CableRow(y))
        select (v, y);

    // Cell by cell, the slow way: the areas as sets of cells.
    private static List<HashSet<(int V, int Y)>> Flood(Work work)
    {
        var left = Cells(work).ToHashSet();
        var areas = new List<HashSet<(int, int)>>();
        foreach (var start in Cells(work))
        {
            if (!left.Remove(start)) continue;
            var area = new HashSet<(int, int)> { start };
            var queue = new Queue<(int V, int Y)>([start]);
            while (queue.TryDequeue(out var c))
                foreach (var next in ((int, int)[])[(c.V - 1, c.Y), (c.V + 1, c.Y), (c.V, c.Y - 1), (c.V, c.Y + 1)])
                    if (left.Remove(next)) { area.Add(next); queue.Enqueue(next); }
            areas.Add(area);
        }
        return areas;
    }

    [Fact]
    public void Areas_are_what_a_flood_of_the_cells_finds() => Any.Sample(piece =>
    {
        var work = Work.Lay(piece);
        var flooded = Flood(work);
        Assert.Equal(flooded.Count, work.Areas.Count);
        foreach (ref readonly var area in work.Areas.All)
        {
            var cells = flooded[area.Index];
            Assert.Equal(cells.Count, area.Cables);
            Assert.Equal((cells.Min(c => c.Y), cells.Max(c => c.Y), cells.Min(c => c.V), cells.Max(c => c.V)),
                (area.Top.Index, area.Bottom.Index, area.From.Number, area.To.Number));
            var widths = cells.GroupBy(c => c.Y).ToDictionary(g => g.Key, g => g.Count());
            Assert.Equal(widths.Values.Max(), area.WidestCables);
            Assert.Equal(widths[area.Widest.Index], area.WidestCables);
            Assert.Contains(area.Base.Index, widths.Keys);
            Assert.True(widths[area.Base.Index] >= area.WidestCables * WorkedArea.NearlyWidest);
        }
        for (var i = 0; i < work.Runs.Length; i++)
            Assert.Contains((work.Runs[i].From.Number, work.Runs[i].Row.Index), flooded[work.Areas.AreaOf(i)]);
    });

    [Fact]
    public void Stretches_cover_the_runs_once_and_know_their_neighbours() => Any.Sample(piece =>
    {
        var work = Work.Lay(piece);
        var areas = work.Areas;
        var run = 0;
        for (var i = 0; i < areas.Stretches.Length; i++)
        {
            var s = areas.Stretches[i];
            Assert.Equal(run, s.FirstRun);
            run = s.EndRun;
            Assert.Equal((s.From, s.To), (work.Runs[s.FirstRun].From, work.Runs[s.EndRun - 1].To));
            Assert.False(work.IsWorked(new Valley(s.From.Number - 1), s.Row) || work.IsWorked(new Valley(s.To.Number + 1), s.Row));
            foreach (var (way, (first, end)) in new[] { (-1, areas.Above(i)), (1, areas.Below(i)) })
            {
                var sharing = Enumerable.Range(0, areas.Stretches.Length).Where(j => areas.Stretches[j] is var t
                    && t.Row.Index == s.Row.Index + way && t.From.Number <= s.To.Number && t.To.Number >= s.From.Number);
                Assert.Equal(sharing, Enumerable.Range(first, end - first));
            }
        }
        Assert.Equal(work.Runs.Length, run);
    });

    [Fact]
    public void Contacts_are_what_the_cells_say() => Any.Sample(piece =>
    {
        var work = Work.Lay(piece);
        int RunAt(int v, int y)
        {
            for (var i = 0; i < work.Runs.Length; i++)
                if (work.Runs[i].Row.Index == y && work.Runs[i].Contains(new Valley(v))) return i;
            return -1;
        }
        var slow = new HashSet<(int, int)>();
        foreach (var (v, y) in Cells(work))
        {
            if (work.IsWorked(new Valley(v), new CableRow(y + 1))) slow.Add((RunAt(v, y), RunAt(v, y + 1)));
            if (work.IsWorked(new Valley(v + 1), new CableRow(y)) && RunAt(v, y) != RunAt(v + 1, y)) slow.Add((RunAt(v, y), RunAt(v + 1, y)));
        }
        var contacts = Contacts.Of(work).ToList();
        Assert.Equal(contacts.Count, contacts.Select(c => (c.First, c.Second)).Distinct().Count());
        Assert.Equal(slow.Order(), contacts.Select(c => (c.First, c.Second)).Order());
    });

    [Fact]
    public void Every_cable_knows_the_cell_it_was_drawn_in() => Any.Sample(piece =>
    {
        var work = Work.Lay(piece);
        foreach (var (v, y) in Cells(work))
        {
            var key = work.ThreadAt(new Valley(v), new CableRow(y))!.Value;
            if (work.OriginAt(new Valley(v), new CableRow(y)) is { } origin)
            {
                var placed = work.Footprints[origin.Placement];
                Assert.Equal(key.Letter, placed.Figure.Rows[origin.Row][origin.Column]);
                Assert.InRange(v, placed.From.Number, placed.To.Number);
                Assert.InRange(y, placed.Top.Index, placed.Bottom.Index);
            }
            else
                Assert.Contains(piece.Bands, b => b.Thread == key);
        }
    });

    [Fact]
    public void The_base_row_is_the_widest_on_a_gathering_row_when_it_is_nearly_the_widest()
    {
        // Widest in row 1; row 0 is on a gathering row and nine tenths as wide, then less.
        Assert.Equal(0, Drawn.Work(3, ".aaaaaaaaa.", "aaaaaaaaaa.").Areas.All[0].Base.Index);
        Assert.Equal(1, Drawn.Work(3, "..aaaaaaaa.", "aaaaaaaaaa.").Areas.All[0].Base.Index);
    }

    [Fact]
    public void The_maker_may_pin_the_base_row()
    {
        var piece = Drawn.Piece(3, "aaaaaaa", "..aaa..", "...a...");
        Assert.Equal(0, Work.Lay(piece).Areas.All[0].Base.Index);
        Assert.Equal(2, Work.Lay(piece with { Working = piece.Working with { BaseRow = new CableRow(2) } }).Areas.All[0].Base.Index);
        Assert.Equal(0, Work.Lay(piece with { Working = piece.Working with { BaseRow = new CableRow(3) } }).Areas.All[0].Base.Index);
    }

    [Fact]
    public void A_row_s_pleats_are_held_or_loose_or_in_a_short_gap() => Any.Sample(piece =>
    {
        var work = Work.Lay(piece);
        var loose = Holding.Loose(work);
        for (var g = 1; g <= piece.Cloth.GatheringRows; g++)
        {
            var row = new GatheringRow(g);
            var y = row.CableRow(work.Pleating.Gauge.CableRowsPerSpace);
            bool Held(int p) => work.IsWorked(new Valley(p - 1), y) || work.IsWorked(new Valley(p), y);
            bool Loose(int p) => loose.Any(l => l.Row == row && l.From.Number <= p && l.To.Number >= p);
            var gap = 0;
            var rowIsBare = !Enumerable.Range(1, work.Pleating.Pleats).Any(Held);
            for (var p = 1; p <= work.Pleating.Pleats; p++)
            {
                Assert.False(Held(p) && Loose(p));
                Assert.True(!rowIsBare || Loose(p));
                gap = Held(p) || Loose(p) ? 0 : gap + 1;
                Assert.True(gap <= Holding.MostLoose);
            }
        }
    });
}
