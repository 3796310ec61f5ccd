using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>What each label costs in each valley by itself: how far its thread is from what lies there, in hundredths of CIEDE2000.</summary>
internal sealed class BrickCosts
{
    private readonly int labels;
    private readonly Lab[] threads;
    private readonly Dictionary<int, double[]> known = []; // pictures show the same colours again and again
    private readonly double[]?[] apart; // of each cable, how far each thread is from what it covers; null where that is nothing

    /// <param name="samples">What lies under each stitch.</param>
    /// <param name="threads">The threads, at least one.</param>
    /// <param name="shape">See <see cref="Weights.Shape"/>.</param>
    /// <param name="mirror">Whether each valley and its image are judged together, so that the cheapest labels are symmetric.</param>
    public BrickCosts(BrickSamples samples, ImmutableArray<Floss> threads, int shape, bool mirror)
    {
        labels = threads.Length + 1;
        Values = new int[samples.Width * samples.Height * labels];
        apart = new double[]?[samples.Width * samples.Height];
        this.threads = [.. threads.Select(t => Lab.From(t.Colour))];
        for (var y = 0; y < samples.Height; y++)
        {
            var row = Values.AsSpan(y * samples.Width * labels, samples.Width * labels);
            for (var x = 0; x < samples.Width; x++)
            {
                var sample = samples.Cable(x, y);
                if (sample.Cover > 0) apart[y * samples.Width + x] = Apart(sample.Light);
                Fill(row.Slice(x * labels, labels), sample.Cover, apart[y * samples.Width + x], shape);
            }
            if (mirror) Fold(row, samples.Width);
        }
    }

    /// <summary>The costs, by row, then valley, then label.</summary>
    public int[] Values { get; }

    /// <summary>How far a thread is from what a cable covers (CIEDE2000); 0 where it covers nothing.</summary>
    public double Apart(int cell, int thread) => apart[cell]?[thread] ?? 0;

    /// <summary>The cheapest label of each valley by itself.</summary>
    public byte[] Cheapest()
    {
        var cheapest = new byte[Values.Length / labels];
        for (var i = 0; i < cheapest.Length; i++)
        {
            var costs = Values.AsSpan(i * labels, labels);
            for (var l = 1; l < labels; l++)
                if (costs[l] < costs[cheapest[i]]) cheapest[i] = (byte)l;
        }
        return cheapest;
    }

    private static void Fill(Span<int> costs, double cover, double[]? apart, int shape)
    {
        if (apart is null)
        {
            costs[0] = 0;
            costs[1..].Fill(shape);
            return;
        }
        var empty = (1 - cover) * shape;
        double least = double.MaxValue, most = 0;
        for (var t = 0; t < apart.Length; t++)
        {
            var cost = 100 * apart[t] * cover;
            least = Math.Min(least, cost);
            most = Math.Max(most, cost);
            costs[t + 1] = (int)Math.Round(cost + empty);
        }
        // However far off the best thread is, what the picture shows is rather stitched than left bare. Where it shows
        // itself in full, bare is worse than the worst thread: a gap must never stand in for a colour that will not fit.
        costs[0] = (int)Math.Round(least + cover * shape + Math.Max(0, 2 * cover - 1) * (most - least));
    }

    // Light is told apart in 255 steps of its square root, about as fine as the picture's own steps.
    private double[] Apart(LinearRgb light)
    {
        int r = Step(light.Red), g = Step(light.Green), b = Step(light.Blue);
        var key = r << 16 | g << 8 | b;
        if (known.TryGetValue(key, out var distances)) return distances;
        var lab = Lab.From(new LinearRgb(r * r / (Steps * Steps), g * g / (Steps * Steps), b * b / (Steps * Steps)));
        distances = new double[threads.Length];
        for (var t = 0; t < distances.Length; t++) distances[t] = ColourDifference.Between(lab, threads[t]);
        return known[key] = distances;
    }

    private const double Steps = 255;

    private static int Step(double light) => (int)(Math.Sqrt(Math.Clamp(light, 0, 1)) * Steps + 0.5);

    // Both halves of a row carry half of what the two cost together; an odd sum leans neither way.
    private void Fold(Span<int> row, int width)
    {
        for (var x = 0; x < width / 2; x++)
            for (var l = 0; l < labels; l++)
            {
                ref var left = ref row[x * labels + l];
                ref var right = ref row[(width - 1 - x) * labels + l];
                left = right = (left + right) / 2;
            }
    }
}
