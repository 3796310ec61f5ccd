using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Bench;

/// <summary>Stitches that are no cables, as numbers for the painting module: kind, thread, from, to, width; seven a shape.</summary>
internal static class Shapes
{
    /// <summary>Bands; they lie under the cables.</summary>
    public static double[] OfBands(Work work)
    {
        var numbers = new List<double>();
        foreach (var band in work.Bands)
            foreach (var pass in band.Passes)
                foreach (var shape in StitchDrawing.Shapes(pass, work.Pleating.Gauge.CableRowsPerSpace))
                    Add(numbers, shape, IndexOf(work, band.Band.Thread));
        return [.. numbers];
    }

    /// <summary>Accents; they lie over everything.</summary>
    public static double[] OfAccents(Work work)
    {
        var numbers = new List<double>();
        foreach (var laid in work.Accents)
            foreach (var shape in laid.Accent.Shapes(laid, work.Pleating.Gauge))
                Add(numbers, shape, IndexOf(work, laid.Mark.Thread));
        return [.. numbers];
    }

    private static void Add(List<double> numbers, in StitchShape shape, int thread) =>
        numbers.AddRange([(double)shape.Kind, thread, shape.From.Across, shape.From.Down, shape.To.Across, shape.To.Down, shape.Width]);

    private static int IndexOf(Work work, Thread.ThreadKey key)
    {
        for (var i = 0; i < work.Piece.Threads.Length; i++)
            if (work.Piece.Threads[i].Key == key) return i;
        return 0;
    }
}
