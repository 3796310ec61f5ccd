using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Order.Telling;

namespace Pleatwright.Plate.Parts;

/// <summary>A part of the chart that is drawn once, however often it is worked: a figure, or how bands begin.</summary>
/// <param name="Window">What it shows.</param>
/// <param name="Middle">The centre its pleats are counted from, as the directions count them.</param>
/// <param name="OwnCentre">Whether that is a figure's own centre; else the piece's.</param>
/// <param name="Steps">The steps marked on it.</param>
/// <param name="Times">How often it is worked in all, on different pleats.</param>
/// <param name="Title">What it shows, in a few words.</param>
internal sealed record Excerpt(ChartWindow Window, Middle Middle, bool OwnCentre, ImmutableArray<Order.Step> Steps, int Times, string Title)
{
    /// <summary>Steps that are worked as it shows along other rows.</summary>
    public ImmutableArray<ImmutableArray<Order.Step>> Again { get; init; } = [];

    /// <summary>Where it is worked again on other rows: the first and the last step there, and how many spaces lower; fewer than 0 is higher.</summary>
    public ImmutableArray<(int First, int Last, int Lower)> Elsewhere { get; init; } = [];

    /// <summary>Steps of bands off the lattice that begin in it, with their numbers among those.</summary>
    public ImmutableArray<(int Number, BandStep Step)> Bands { get; init; } = [];
}

/// <summary>Finds what has to be charted so that every step is seen once: a figure that comes again is charted where the directions tell it.</summary>
internal static class Excerpts
{
    /// <summary>What an excerpt of bands is told by; the stitches' names come before it.</summary>
    public const string BandTitle = "from the beginning";

    // Bare pleats and cable rows shown round a figure, so that the steps can be written beside it (our own choice).
    private const int Pleats = 3, Rows = 1;

    // Pleats shown of a band from its beginning (our own choice).
    private const int BandPleats = 12;

    /// <summary>The excerpts of an order, figures first, in the order worked.</summary>
    public static ImmutableArray<Excerpt> Of(WorkingOrder order)
    {
        var work = order.Work;
        var piece = Middle.Of(work);
        var repeats = Copies.Of(order);
        var again = new bool[order.Steps.Length];
        foreach (var repeat in repeats)
            for (var i = repeat.First + repeat.Length - 1; i < repeat.End; i++) again[i] = true;
        var excerpts = new List<Excerpt>();
        foreach (var repeat in repeats)
        {
            var steps = order.Steps.Slice(repeat.First - 1, repeat.Length);
            var box = BoxOf(steps);
            excerpts.Add(new(box, Middle.Of(box.FirstPleat, box.LastPleat), true, steps, repeat.Again.Length + 1, "")
            {
                Elsewhere = [.. repeat.Again.Where(c => c.Lower != 0).Select(c => (c.First, c.First + repeat.Length - 1, c.Lower))],
            });
            for (var i = repeat.First - 1; i < repeat.Last; i++) again[i] = true;
        }
        var bands = new List<(int Begins, ChartWindow Box, ImmutableArray<Order.Step> Steps)>();
        var figures = new List<(ChartWindow Box, ImmutableArray<Order.Step> Steps)>();
        foreach (var figure in order.Steps.Where(s => !again[s.Number - 1]).GroupBy(s => order.Parts.InOrder[order.Parts.Of(s.RunIndex)].Figure))
        {
            ImmutableArray<Order.Step> steps = [.. figure];
            var box = BoxOf(steps);
            if (IsBand(work, steps, box)) bands.Add((Math.Min(steps[0].From.Number, box.LastPleat - 1), box, steps));
            else figures.Add((box, steps));
        }
        foreach (var band in order.Bands.Steps.GroupBy(s => s.Band))
            if (ThreadShapes.SpanOf(work, band.Key) is { } span) bands.Add((band.First().Begin.From.Pleat.Number, span, []));
        // what overlaps, or nearly, is one excerpt
        foreach (var (box, steps) in Together(figures, Pleats, 2 * Rows + 1))
            excerpts.Add(new(box, piece, false, steps, 1, ""));
        var begun = new List<Excerpt>();
        // bands that begin at the side together, and those that begin in the middle
        foreach (var (box, steps) in bands.GroupBy(b => Math.Max(1, b.Begins - 4) / BandPleats).SelectMany(g =>
            Together([.. g.Select(b => (b.Box with { FirstPleat = Math.Max(1, g.Min(o => o.Begins) - (g.Key == 0 ? 1 : 5)) }, b.Steps))], work.Pleating.Pleats, work.Pleating.Gauge.CableRowsPerSpace)))
        {
            var first = Math.Max(1, box.FirstPleat);
            // where the same is worked along other rows, it is charted once
            if (begun.FindIndex(b => Alike(b.Steps, steps, work.Pleating.Gauge.CableRowsPerSpace)) is var at && at >= 0) begun[at] = begun[at] with { Again = begun[at].Again.Add(steps) };
            else begun.Add(new(box with { FirstPleat = first, LastPleat = Math.Min(box.LastPleat, first + BandPleats - 1) }, piece, false, steps, 1, BandTitle));
        }
        excerpts.AddRange(begun);
        // of every kind of accent one
        foreach (var kind in ThreadShapes.AccentSpans(work).GroupBy(a => (a.Accent.Accent, a.Accent.Mark.Thread)))
            if (!kind.Any(a => excerpts.Any(p => Holds(Grown(work, p), a.Span)))) excerpts.Add(new(kind.First().Span, piece, false, [], 1, kind.Key.Accent.Name));
        return [.. excerpts.Select(p => p with { Window = Grown(work, p) }).Select(p => p with { Bands = BandsIn(order, p.Window) })];
    }

    /// <summary>What steps cover.</summary>
    public static ChartWindow BoxOf(IEnumerable<Order.Step> steps)
    {
        int left = int.MaxValue, right = 0, top = int.MaxValue, bottom = 0;
        foreach (var s in steps)
        {
            left = Math.Min(left, Math.Min(s.From.Number, s.To.Number));
            right = Math.Max(right, Math.Max(s.From.Number, s.To.Number) + 1);
            top = Math.Min(top, s.Row.Index);
            bottom = Math.Max(bottom, s.Row.Index);
        }
        return new ChartWindow(left, right, top, bottom);
    }

    /// <summary>Steps of bands off the lattice that begin in a part of the chart.</summary>
    public static ImmutableArray<(int Number, BandStep Step)> BandsIn(WorkingOrder order, ChartWindow window)
    {
        var perSpace = order.Work.Pleating.Gauge.CableRowsPerSpace;
        return
        [
            .. order.Bands.Steps.Select((s, i) => (Number: i + 1, Step: s)).Where(b => b.Step.First == 0).Where(b => b.Step.Begin.From is var at
                && at.Pleat.Number >= window.FirstPleat && at.Pleat.Number <= window.LastPleat && at.Depth * perSpace >= window.FirstRow - 1 && at.Depth * perSpace <= window.LastRow + 1),
        ];
    }

    // A band is much longer than it is high, and lies along most of the piece.
    private static bool IsBand(Work work, ImmutableArray<Order.Step> steps, ChartWindow box) =>
        box.Pleats * 3 > work.Pleating.Pleats * 2 && box.Rows * 8 < box.Pleats && box.Pleats > 2 * BandPleats && steps.Length <= 8 * box.Rows;

    // Whether steps are the same but for their rows, which lie alike to the gathering rows.
    private static bool Alike(ImmutableArray<Order.Step> a, ImmutableArray<Order.Step> b, int perSpace) =>
        a.Length > 0 && a.Length == b.Length && (b[0].Row.Index - a[0].Row.Index) % perSpace == 0 && a.Zip(b).All(p =>
            p.Second.Row.Index - p.First.Row.Index == b[0].Row.Index - a[0].Row.Index
            && (p.First.Thread, p.First.From, p.First.To, p.First.Begin, p.First.Turned, p.First.Starts, p.First.TieOff, p.First.Parks) == (p.Second.Thread, p.Second.From, p.Second.To, p.Second.Begin, p.Second.Turned, p.Second.Starts, p.Second.TieOff, p.Second.Parks));

    private static bool Holds(ChartWindow a, ChartWindow b) => a.FirstPleat <= b.FirstPleat && a.LastPleat >= b.LastPleat && a.FirstRow <= b.FirstRow && a.LastRow >= b.LastRow;

    private static List<(ChartWindow Box, ImmutableArray<Order.Step> Steps)> Together(List<(ChartWindow Box, ImmutableArray<Order.Step> Steps)> boxes, int pleats, int rows)
    {
        var together = new List<(ChartWindow Box, ImmutableArray<Order.Step> Steps)>();
        foreach (var box in boxes)
        {
            var (at, steps) = box;
            for (var i = 0; i < together.Count; i++)
            {
                if (!ThreadShapes.Meet(new(at.FirstPleat - pleats, at.LastPleat + pleats, at.FirstRow - rows, at.LastRow + rows), together[i].Box)) continue;
                at = Join(at, together[i].Box);
                steps = together[i].Steps.AddRange(steps);
                together.RemoveAt(i);
                i = -1; // it may reach others now
            }
            together.Add((at, steps));
        }
        return together;
    }

    private static ChartWindow Join(ChartWindow a, ChartWindow b) =>
        new(Math.Min(a.FirstPleat, b.FirstPleat), Math.Max(a.LastPleat, b.LastPleat), Math.Min(a.FirstRow, b.FirstRow), Math.Max(a.LastRow, b.LastRow));

    // With bare cloth round it, up to a gathering row, on which its starting point is found.
    private static ChartWindow Grown(Work work, Excerpt excerpt)
    {
        var (window, space) = (excerpt.Window, work.Pleating.Gauge.CableRowsPerSpace);
        var all = new ChartGeometry(work, 1, 1).Everything;
        int top = window.FirstRow - Rows, bottom = window.LastRow + Rows;
        if (Enumerable.Range(top, bottom - top + 1).All(r => r % space != 0)) top = (int)Math.Floor((double)top / space) * space;
        return new ChartWindow(Math.Max(all.FirstPleat, window.FirstPleat - Pleats), Math.Min(all.LastPleat, window.LastPleat + Pleats), Math.Max(all.FirstRow, top), Math.Min(all.LastRow, bottom));
    }
}
