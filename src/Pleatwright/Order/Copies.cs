using System.Collections.Immutable;
using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>One more time that a stretch of the order is worked, step for step, on another part of the cloth.</summary>
/// <param name="First">Number of its first step.</param>
/// <param name="Shift">Pleats it lies further right than the stretch it copies; negative when further left.</param>
/// <param name="Swapped">Whether every level is the other: it lies an odd number of valleys off on the same phase.</param>
/// <param name="Lower">Spaces it lies nearer the bottom edge; negative when nearer the top edge. It and the shift are never both 0.</param>
internal readonly record struct Copy(int First, int Shift, bool Swapped, int Lower);

/// <summary>A stretch of steps that is worked again, straight after, on copies of the same figure.</summary>
/// <param name="First">Number of its first step.</param>
/// <param name="Length">Steps in it, and in every copy.</param>
/// <param name="Again">Its copies, one after the other.</param>
internal sealed record Repeated(int First, int Length, ImmutableArray<Copy> Again)
{
    /// <summary>Number of its own last step, before the copies.</summary>
    public int Last => First + Length - 1;

    /// <summary>Number of the last step of the last copy.</summary>
    public int End => First + Length * (Again.Length + 1) - 1;
}

/// <summary>
/// Finds what an order works again and again: whole parts, one or a few together, worked by steps that are the same but for
/// where they lie. So directions can say a figure once and name where its copies are.
/// </summary>
internal sealed class Copies
{
    private const int MostAreas = 8; // areas that one figure may come to

    private readonly WorkingOrder order;
    private readonly int perSpace;
    private readonly List<(int Start, int Length)> blocks = [];

    private Copies(WorkingOrder order)
    {
        this.order = order;
        perSpace = order.Work.Pleating.Gauge.CableRowsPerSpace;
        for (int i = 0, start = 0; i < order.Steps.Length; i++)
        {
            if (i + 1 < order.Steps.Length && AreaOf(i + 1) == AreaOf(start)) continue;
            blocks.Add((start, i + 1 - start));
            start = i + 1;
        }
    }

    /// <summary>Every stretch worked again, in the order of the steps; none reaches into another.</summary>
    public static ImmutableArray<Repeated> Of(WorkingOrder order)
    {
        var copies = new Copies(order);
        var found = ImmutableArray.CreateBuilder<Repeated>();
        for (var block = 0; block < copies.blocks.Count;)
        {
            var (best, areas) = copies.At(block);
            if (best is not null) found.Add(best);
            block += areas;
        }
        return found.ToImmutable();
    }

    // What is worked again from a block on, and the blocks that takes; where several ways serve, the one that saves most steps.
    private (Repeated? Found, int Blocks) At(int block)
    {
        Repeated? best = null;
        var (taken, most) = (1, 0);
        for (var areas = 1; areas <= MostAreas && block + 2 * areas <= blocks.Count; areas++)
        {
            var start = blocks[block].Start;
            var length = blocks[block + areas - 1].Start + blocks[block + areas - 1].Length - start;
            var again = ImmutableArray.CreateBuilder<Copy>();
            for (var next = block + areas; next + areas <= blocks.Count; next += areas)
            {
                if (CopyAt(start, length, blocks[next].Start, blocks[next + areas - 1]) is not { } copy) break;
                again.Add(copy);
            }
            // told in full they take a line a step; told once, a line a step of one of them, a line for each, and two to say so
            var saved = again.Count * length - (again.Count + 1) - 2;
            if (saved <= most) continue;
            most = saved;
            best = new Repeated(start + 1, length, again.ToImmutable());
            taken = areas * (again.Count + 1);
        }
        return (best, taken);
    }

    private Copy? CopyAt(int start, int length, int at, (int Start, int Length) last)
    {
        if (last.Start + last.Length - at != length) return null;
        var shift = order.Steps[at].From.Number - order.Steps[start].From.Number;
        var rows = order.Steps[at].Row.Index - order.Steps[start].Row.Index;
        if (rows % perSpace != 0 || (shift, rows) == (0, 0)) return null; // its rows lie otherwise to the gathering rows
        var swapped = order.Steps[at].Begin != order.Steps[start].Begin;
        for (var i = 0; i < length; i++)
            if (!Alike(order.Steps[start + i], order.Steps[at + i], start, at - start, shift, rows, swapped)) return null;
        return new Copy(at + 1, shift, swapped, rows / perSpace);
    }

    private bool Alike(Step a, Step b, int start, int later, int shift, int rows, bool swapped) =>
        (a.Thread, a.Row.Index + rows, a.Cables, a.Turned, a.Starts, a.CarriedPleats, a.CarriedRows) == (b.Thread, b.Row.Index, b.Cables, b.Turned, b.Starts, b.CarriedPleats, b.CarriedRows)
        && (a.Continues, a.GoesOn, a.Parks, a.TieOff, a.HalfAtBegin, a.HalfAtEnd) == (b.Continues, b.GoesOn, b.Parks, b.TieOff, b.HalfAtBegin, b.HalfAtEnd)
        && b.From.Number - a.From.Number == shift && b.To.Number - a.To.Number == shift
        && a.Begin != b.Begin == swapped && a.End != b.End == swapped
        && order.TravelsRight(a) == order.TravelsRight(b)
        && order.Outward.WayOf(a.RunIndex) == order.Outward.WayOf(b.RunIndex)
        && BaseOf(b).Index - BaseOf(a).Index == rows
        // a thread taken up again was left within the very stretch
        && (a.Starts == StartKind.New || (order.LastStepOf(a) > start && order.LastStepOf(b) - order.LastStepOf(a) == later));

    private int AreaOf(int index) => order.Parts.Of(order.Steps[index].RunIndex);

    private CableRow BaseOf(Step step) => order.Work.Areas.All[order.Work.Areas.AreaOf(step.RunIndex)].Base;
}
