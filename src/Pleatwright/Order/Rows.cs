using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>One row of a part as it may be worked: the ends at which its runs are begun, right across from either side.</summary>
/// <param name="Rightward">From left to right on the chart.</param>
/// <param name="Leftward">From right to left.</param>
internal sealed record RowToWork(int[] Rightward, int[] Leftward)
{
    /// <summary>Whether it is worked with the top edge up, as the first row of every figure is.</summary>
    public bool IsPlain { get; init; }

    /// <summary>Whether its runs may be worked in any order in which each butts worked ones, and each in any direction.</summary>
    public bool IsFree { get; init; }

    /// <summary>Runs in it.</summary>
    public int Length => Rightward.Length;

    /// <summary>The ends in the direction so named: 0 rightward, 1 leftward.</summary>
    public int[] Going(int direction) => direction == 0 ? Rightward : Leftward;
}

/// <summary>The rows of a cluster one after the other, as working row by row has them.</summary>
internal static class Rows
{
    /// <summary>
    /// Part by part in the hand's order, outward from the base row: all of the way worked first, then all of the other.
    /// </summary>
    /// <param name="layout">The work.</param>
    /// <param name="cluster">Its runs, in the order of rank.</param>
    /// <param name="otherWayFirst">Whether the two ways change places.</param>
    public static List<RowToWork> Of(Layout layout, ReadOnlySpan<int> cluster, bool otherWayFirst = false)
    {
        var groups = new List<List<int>>();
        foreach (var r in cluster)
        {
            if (groups.Count == 0 || layout.Stages.Of(groups[^1][0]) != layout.Stages.Of(r)) groups.Add([]);
            groups[^1].Add(r);
        }
        if (otherWayFirst)
        {
            var outward = layout.Outward;
            groups = [.. groups.GroupBy(g => layout.Parts.Of(g[0])).SelectMany(part => part.OrderBy(g =>
                outward.WayOf(g[0]) == 0 ? 0 : outward.GenerationOf(g[0]) > 0 ? 3 : outward.WayOf(g[0]) < 0 == (layout.Work.Piece.Working.First != FirstWay.Down) ? 2 : 1))];
        }
        var part = -1;
        return groups.ConvertAll(g => Row(layout, g) with { IsPlain = part != (part = layout.Parts.Of(g[0])) });
    }

    /// <summary>The runs of an order, so many at a time set free; one alone is a row by itself, to be begun at either end.</summary>
    /// <param name="visits">The order.</param>
    /// <param name="free">How many at a time.</param>
    /// <param name="first">How many at the beginning, before so many at a time; 0 for as many.</param>
    public static List<RowToWork> Freed(ReadOnlySpan<Visit> visits, int free, int first)
    {
        var rows = new List<RowToWork>(visits.Length / free + 2);
        for (int at = 0, count = first > 0 ? first : free; at < visits.Length; at += count, count = free)
        {
            var lot = visits.Slice(at, Math.Min(count, visits.Length - at));
            var entries = new int[lot.Length];
            for (var i = 0; i < lot.Length; i++) entries[i] = 2 * lot[i].Run;
            rows.Add(new RowToWork(entries, Array.ConvertAll(entries, e => e + 1)) { IsFree = lot.Length > 1 });
        }
        return rows;
    }

    /// <summary>
    /// All rows of the work with the runs fixed to places put there: the row they fall into goes on after them.
    /// </summary>
    public static List<RowToWork> Pinned(Layout layout, ReadOnlySpan<int> all)
    {
        var rows = new List<RowToWork>();
        var free = new Queue<(int Run, int Row)>();
        var number = 0;
        foreach (var row in Of(layout, all))
        {
            var plain = row.Going(layout.PlainEntry(0) & 1);
            foreach (var entry in plain)
                if (!layout.Pins.Has(entry >> 1)) free.Enqueue((entry >> 1, number));
            number++;
        }
        var run = new List<int>();
        var of = -1;
        for (var place = 0; place < all.Length; place++)
        {
            if (layout.Pins.RunAt(place) is var pinned and >= 0)
            {
                Close();
                rows.Add(new RowToWork([2 * pinned], [2 * pinned + 1]));
                continue;
            }
            var next = free.Dequeue();
            if (next.Row != of) Close();
            of = next.Row;
            run.Add(next.Run);
        }
        Close();
        return rows;

        void Close()
        {
            if (run.Count > 0) rows.Add(Row(layout, run));
            run = [];
        }
    }

    // Right across; but a row never begins with an arm, which has nothing to butt yet: it begins at the first run
    // that has, goes on to the end, and then takes the arms before it, the nearest first.
    private static RowToWork Row(Layout layout, List<int> runs)
    {
        runs.Sort();
        return new RowToWork([.. Across(layout, runs).Select(r => 2 * r)], [.. Across(layout, [.. runs.AsEnumerable().Reverse()]).Select(r => 2 * r + 1)]);
    }

    private static List<int> Across(Layout layout, List<int> runs)
    {
        var order = new List<int>(runs.Count);
        for (var i = 0; i < runs.Count;)
        {
            var end = i + 1;
            while (end < runs.Count && layout.Outward.StretchOf(runs[end]) == layout.Outward.StretchOf(runs[i])) end++;
            var first = i;
            while (first < end - 1 && layout.Outward.IsArm(runs[first])) first++;
            if (layout.Outward.IsArm(runs[first])) first = i;
            for (var k = first; k < end; k++) order.Add(runs[k]);
            for (var k = first - 1; k >= i; k--) order.Add(runs[k]);
            i = end;
        }
        return order;
    }
}
