using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>Turns a settled labelling into a figure with threads, half stitches and figures to show.</summary>
internal sealed class TraceMaker(
    TracingOptions options, Raster prepared, BrickSamples samples, ImmutableArray<Floss> threads, BrickCosts costs, byte[] labels, Weights weights,
    ImmutableArray<long> energies)
{
    // A half stitch is worked where the picture fills at least this much of its place.
    private const double FilledEnough = 0.6;

    private readonly int width = samples.Width;

    public Traced Make()
    {
        var (left, top, right, bottom) = Extent();
        var key = Keys(left, top, right, bottom, out var used);
        var rows = ImmutableArray.CreateBuilder<string>();
        for (var y = top; y <= bottom; y++)
        {
            var row = y;
            rows.Add(string.Create(right - left + 1, 0, (text, _) =>
            {
                for (var i = 0; i < text.Length; i++)
                    text[i] = labels[row * width + left + i] is var l and > 0 ? key[l - 1] : Figure.Bare;
            }));
        }
        var halves = options.HalfStitches ? Halves(left, top, right, bottom) : [];
        var figure = new Figure(options.Name, rows.ToImmutable());
        var squared = options.HalfStitches && EverySquare(figure, halves);
        var (cables, runs, difference) = Count();
        return new Traced
        {
            Figure = squared ? figure with { Square = true } : figure with { Halves = halves },
            Threads = used,
            BaseRow = Rows.Widest(labels, width) - top,
            Phase = (left + top) % 2 == 0 ? samples.Phase : samples.Phase.Opposite(),
            Samples = samples,
            Offset = (left, top),
            Prepared = prepared,
            Weights = weights,
            Energies = energies,
            Cables = cables,
            Runs = runs,
            MeanDifference = difference,
        };
    }

    private (int Left, int Top, int Right, int Bottom) Extent()
    {
        int left = width, right = -1, top = -1, bottom = -1;
        for (var y = 0; y < samples.Height; y++)
        {
            var row = labels.AsSpan(y * width, width);
            var first = row.IndexOfAnyExcept((byte)0);
            if (first < 0) continue;
            if (top < 0) top = y;
            bottom = y;
            left = Math.Min(left, first);
            right = Math.Max(right, row.LastIndexOfAnyExcept((byte)0));
        }
        if (top < 0) throw new ArgumentException("nothing is left to stitch at this size; make the figure wider or raise the fidelity");
        if (options.Mirror) (left, right) = (Math.Min(left, width - 1 - right), Math.Max(right, width - 1 - left));
        return (left, top, right, bottom);
    }

    // The letter of each label; a stash keeps its own letters where they are all different.
    private char[] Keys(int left, int top, int right, int bottom, out ImmutableArray<Floss> used)
    {
        var cables = new int[threads.Length];
        foreach (var l in labels) if (l > 0) cables[l - 1]++;
        var order = Enumerable.Range(0, threads.Length).Where(t => cables[t] > 0).OrderByDescending(t => cables[t]).ThenBy(t => t).ToArray();
        var own = options.Stash.Select(t => t.Key).Distinct().Count() == options.Stash.Length && !options.Stash.IsEmpty;
        var key = new char[threads.Length];
        var names = new HashSet<string>();
        var taken = new HashSet<char>();
        var builder = ImmutableArray.CreateBuilder<Floss>();
        foreach (var t in order)
        {
            var thread = threads[t];
            if (thread.Name.Length == 0) thread = thread with { Name = Naming.Unlike(ColourWords.For(thread.Colour), names) };
            if (!own) thread = thread with { Key = Naming.Letter(thread.Name, taken) };
            key[t] = thread.Key.Letter;
            builder.Add(thread);
        }
        used = builder.ToImmutable();
        return key;
    }

    private ImmutableArray<HalfMark> Halves(int left, int top, int right, int bottom)
    {
        var marks = ImmutableArray.CreateBuilder<HalfMark>();
        for (var y = top; y <= bottom; y++)
        {
            var row = labels.AsSpan(y * width, width);
            var first = row.IndexOfAnyExcept((byte)0);
            if (first < 0) continue;
            var last = row.LastIndexOfAnyExcept((byte)0);
            bool atLeft = IsFilled(first, y, RunEnd.Left), atRight = IsFilled(last, y, RunEnd.Right);
            if (options.Mirror) atLeft = atRight = atLeft && atRight;
            if (atLeft) marks.Add(new HalfMark(y - top, RunEnd.Left));
            if (atRight) marks.Add(new HalfMark(y - top, RunEnd.Right));
        }
        return marks.ToImmutable();
    }

    private bool IsFilled(int column, int row, RunEnd end) => samples.Half(column, row, end).Cover >= FilledEnough;

    // One word instead of many marks, when every row is one unbroken stretch and both its ends are to be squared.
    private static bool EverySquare(Figure figure, ImmutableArray<HalfMark> halves) =>
        halves.Length == 2 * figure.Height && figure.Rows.All(r => !r.Trim(Figure.Bare).Contains(Figure.Bare));

    private (int Cables, int Runs, double MeanDifference) Count()
    {
        int cables = 0, runs = 0;
        var apart = 0.0;
        for (var i = 0; i < labels.Length; i++)
        {
            if (labels[i] == 0) continue;
            cables++;
            if (i % width == 0 || labels[i - 1] != labels[i]) runs++;
            apart += costs.Apart(i, labels[i] - 1);
        }
        return (cables, runs, apart / cables);
    }
}
