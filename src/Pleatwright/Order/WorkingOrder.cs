using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>The order in which to work every run, and what it costs.</summary>
public sealed class WorkingOrder
{
    internal WorkingOrder(Work work, CableRow baseRow, ImmutableArray<Step> steps, int lowerBoundStarts)
    {
        Work = work;
        BaseRow = baseRow;
        Steps = steps;
        LowerBoundStarts = lowerBoundStarts;
    }

    /// <summary>The work ordered.</summary>
    public Work Work { get; }

    /// <summary>The row worked first.</summary>
    public CableRow BaseRow { get; }

    /// <summary>The steps, in order; empty when nothing is worked.</summary>
    public ImmutableArray<Step> Steps { get; }

    /// <summary>Thread starts.</summary>
    public int Starts => Steps.Count(s => s.Starts == StartKind.New);

    /// <summary>Times the work is turned over from one step to the next.</summary>
    public int Turns => Steps.Zip(Steps.Skip(1)).Count(p => p.First.Turned != p.Second.Turned) + (Steps is [{ Turned: true }, ..] ? 1 : 0);

    /// <summary>Thread carried on the back in all.</summary>
    public Length Carried => Steps.Aggregate(Length.Zero, (sum, s) => sum + s.Carried);

    /// <summary>No order can have fewer starts than this.</summary>
    public int LowerBoundStarts { get; }

    /// <summary>What is used of each thread of the piece, in the order of its key.</summary>
    public ImmutableArray<ThreadUse> ThreadUses()
    {
        var pleating = Work.Pleating;
        var uses = ImmutableArray.CreateBuilder<ThreadUse>(Work.Piece.Threads.Length);
        foreach (var thread in Work.Piece.Threads)
        {
            int cables = 0, halves = 0, starts = 0;
            var length = Length.Zero;
            foreach (var step in Steps)
            {
                if (step.Thread != thread.Key) continue;
                var pitch = pleating.PitchAt(step.Row.Index);
                cables += step.Cables;
                halves += step.HalfStitches;
                length += Usage.Cable(pitch, pleating.Gauge.LineHeight) * step.Cables
                    + Usage.HalfStitch(pitch, pleating.Gauge.LineHeight) * step.HalfStitches + step.Carried;
                if (step.Starts == StartKind.New) starts++;
            }
            uses.Add(new ThreadUse(thread, cables, halves, length + Work.Piece.Working.Tails * starts, starts));
        }
        return uses.MoveToImmutable();
    }
}
