using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>What each label costs in each valley by itself: how far its thread is from what lies there, in hundredths of CIEDE2000.</summary>
internal sealed class BrickCosts
{
    private readonly int labels;

    /// <param name="samples">What lies under each stitch.</param>
    /// <param name="threads">The threads, at least one.</param>
    /// <param name="shape">See <see cref="Weights.Shape"/>.</param>
    /// <param name="mirror">Whether each valley and its image are judged together, so that the cheapest labels are symmetric.</param>
    public BrickCosts(BrickSamples samples, ImmutableArray<Floss> threads, int shape, bool mirror)
    {
        labels = threads.Length + 1;
        Values = new int[samples.Width * samples.Height * labels];
        var labs = threads.Select(t => Lab.From(t.Colour)).ToArray();
        for (var y = 0; y < samples.Height; y++)
        {
            var row = Values.AsSpan(y * samples.Width * labels, samples.Width * labels);
            for (var x = 0; x < samples.Width; x++) Fill(row.Slice(x * labels, labels), samples.Cable(x, y), labs, shape);
            if (mirror) Fold(row, samples.Width);
        }
    }

    /// <summary>The costs, by row, then valley, then label.</summary>
    public int[] Values { get; }

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

    private static void Fill(Span<int> costs, BrickSample sample, Lab[] threads, int shape)
    {
        var empty = (1 - sample.Cover) * shape;
        if (sample.Cover == 0)
        {
            costs[0] = 0;
            costs[1..].Fill(shape);
            return;
        }
        var lab = Lab.From(sample.Light);
        double least = double.MaxValue, most = 0;
        for (var t = 0; t < threads.Length; t++)
        {
            var apart = 100 * ColourDifference.Between(lab, threads[t]) * sample.Cover;
            least = Math.Min(least, apart);
            most = Math.Max(most, apart);
            costs[t + 1] = (int)Math.Round(apart + empty);
        }
        // However far off the best thread is, what the picture shows is rather stitched than left bare. Where it shows
        // itself in full, bare is worse than the worst thread: a gap must never stand in for a colour that will not fit.
        costs[0] = (int)Math.Round(least + sample.Cover * shape + Math.Max(0, 2 * sample.Cover - 1) * (most - least));
    }

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
