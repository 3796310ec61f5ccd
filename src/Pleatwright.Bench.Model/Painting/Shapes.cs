using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Order;

namespace Pleatwright.Bench.Model.Painting;

/// <summary>Stitches that are no cables, as numbers for the painting module: kind, thread, from, to, width (negative when faint); seven a shape.</summary>
public static class Shapes
{
    /// <summary>Bands, and what shows of them on the back; they lie under the cables.</summary>
    public static double[] OfBands(Work work)
    {
        var numbers = new List<double>();
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        foreach (var band in work.Bands)
            foreach (var pass in band.Passes)
                foreach (var shape in StitchDrawing.Shapes(pass, perSpace).Concat(StitchDrawing.Bites(pass, perSpace)))
                    Add(numbers, shape, IndexOf(work, band.Band.Thread));
        return [.. numbers];
    }

    /// <summary>Bands in the order worked; what is still to be worked is faint.</summary>
    /// <param name="order">The order.</param>
    /// <param name="done">Stitches worked of each step; none of a step not named.</param>
    public static double[] OfSteps(WorkingOrder order, IReadOnlyDictionary<BandStep, int> done)
    {
        var numbers = new List<double>();
        var worked = new Dictionary<Pass, int>(ReferenceEqualityComparer.Instance);
        foreach (var step in order.Bands.Steps) worked[step.Pass] = worked.GetValueOrDefault(step.Pass) + done.GetValueOrDefault(step);
        var perSpace = order.Work.Pleating.Gauge.CableRowsPerSpace;
        foreach (var step in order.Bands.Steps)
            if (step.First == 0)
                foreach (var (stitch, shape) in StitchDrawing.OfStitches(step.Pass, perSpace))
                    Add(numbers, stitch < worked[step.Pass] ? shape : Faint(shape), IndexOf(order.Work, step.Band.Band.Thread));
        return [.. numbers];
    }

    /// <summary>Accents; they lie over everything.</summary>
    /// <param name="work">The work.</param>
    /// <param name="done">Those worked, the others are faint; all when null.</param>
    public static double[] OfAccents(Work work, IReadOnlySet<LaidAccent>? done = null)
    {
        var numbers = new List<double>();
        foreach (var laid in work.Accents)
        {
            var thread = IndexOf(work, laid.Mark.Thread);
            foreach (var shape in laid.Accent.Shapes(laid, work.Pleating.Gauge))
                Add(numbers, done is null || done.Contains(laid) ? shape : Faint(shape), thread);
        }
        return [.. numbers];
    }

    // The painting module takes a negative width for what is faint.
    private static StitchShape Faint(StitchShape shape) => shape with { Width = -shape.Width };

    private static void Add(List<double> numbers, in StitchShape shape, int thread) =>
        numbers.AddRange([(double)shape.Kind, thread, shape.From.Across, shape.From.Down, shape.To.Across, shape.To.Down, shape.Width]);

    private static int IndexOf(Work work, Thread.ThreadKey key)
    {
        for (var i = 0; i < work.Piece.Threads.Length; i++)
            if (work.Piece.Threads[i].Key == key) return i;
        return 0;
    }
}
