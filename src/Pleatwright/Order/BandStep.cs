using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;

namespace Pleatwright.Order;

/// <summary>How a step of a band gets its thread.</summary>
public enum BandThread
{
    /// <summary>A new needleful.</summary>
    New,

    /// <summary>A new needleful at the centre, half of it left hanging at the back for the other half of the band.</summary>
    NewWithTail,

    /// <summary>The half left hanging at the centre.</summary>
    Tail,

    /// <summary>A new needleful where the one before ran out.</summary>
    GoesOn,

    /// <summary>The thread in hand, carried on the back from the end of the step before.</summary>
    Carry,
}

/// <summary>Stitches of a band worked with one thread, in one direction.</summary>
/// <param name="Band">The band.</param>
/// <param name="Pass">The pass they belong to.</param>
/// <param name="First">The first of them, counted from 0 in the pass.</param>
/// <param name="Count">How many, at least 1.</param>
/// <param name="Thread">How the thread comes.</param>
/// <param name="Length">Thread in them, tails apart.</param>
public sealed record BandStep(LaidBand Band, Pass Pass, int First, int Count, BandThread Thread, Length Length)
{
    /// <summary>The first stitch.</summary>
    public Stitch Begin => Pass.Stitches[First];

    /// <summary>The last stitch.</summary>
    public Stitch End => Pass.Stitches[First + Count - 1];

    /// <summary>Whether the pass goes on after it with another needleful.</summary>
    public bool Continues => First + Count < Pass.Stitches.Length;

    /// <summary>Whether it begins a needleful.</summary>
    public bool Starts => Thread is BandThread.New or BandThread.NewWithTail or BandThread.GoesOn;

    /// <summary>Whether a newly cut length is threaded for it, rather than what was left after an earlier tie-off.</summary>
    public bool Threads { get; init; }

    /// <summary>Where it begins with what was left of an earlier needleful: number, among the steps of bands from 1, of that after which it was tied off; else 0.</summary>
    internal int RestFrom { get; init; }

    /// <summary>Thread carried on the back to reach it; nothing on a new start.</summary>
    public Length Carried { get; init; }

    /// <summary>Pleats passed sideways by the carry, toward the right on the chart when positive.</summary>
    public int CarriedPleats { get; init; }

    /// <summary>Spaces passed by the carry, downward on the chart when positive.</summary>
    public double CarriedSpaces { get; init; }

    /// <summary>Whether the thread is tied off after it; else it is carried to the next step.</summary>
    public bool TieOff { get; init; } = true;

    /// <summary>The cable rows and valleys it lies over, so far as they are on the cloth.</summary>
    public ((CableRow Top, CableRow Bottom) Rows, (Valley From, Valley To) Valleys) Reach(Work work)
    {
        var (top, bottom) = Stitch.Reach(Pass.Stitches.AsSpan().Slice(First, Count));
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        int a = Begin.Valley.Number, b = End.Valley.Number;
        return ((Row(top), Row(bottom)), (Across(Math.Min(a, b)), Across(Math.Max(a, b))));

        CableRow Row(double depth) => new(Math.Clamp((int)Math.Round(depth * perSpace), 0, work.CableRows - 1));
        Valley Across(int valley) => new(Math.Clamp(valley, 1, work.Valleys));
    }

    /// <summary>Thread it takes in all, save what a start and a tie-off lose.</summary>
    public Length Takes => Length + Carried;
}

/// <summary>One accent, begun and fastened on the back by itself.</summary>
/// <param name="Laid">The accent in its place.</param>
/// <param name="Length">Thread in it, tails apart.</param>
/// <param name="Threads">Whether a needle is threaded for it, rather than what was left after the accent before.</param>
public readonly record struct AccentStep(LaidAccent Laid, Length Length, bool Threads);
