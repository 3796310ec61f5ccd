using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>
/// Traces pictures: prepares, samples on the bricks, chooses threads, and lowers the energy. The same picture and
/// options always give the same figure.
/// </summary>
internal static class Tracer
{
    /// <summary>Traces a picture.</summary>
    /// <param name="raster">The picture.</param>
    /// <param name="options">How.</param>
    /// <param name="progress">Told of each stage and sweep, on the calling thread.</param>
    /// <param name="cancel">Stops between two rows.</param>
    /// <exception cref="ArgumentException">An option is out of range, or the picture shows nothing to trace.</exception>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public static Traced Trace(Raster raster, TracingOptions options, IProgress<TraceProgress>? progress = null, CancellationToken cancel = default)
    {
        var tracing = new Tracing(raster, options);
        foreach (var step in tracing.Steps(cancel)) progress?.Report(step);
        return tracing.Result!;
    }
}

/// <summary>A trace taken step by step, for callers that must do other things in between.</summary>
internal sealed class Tracing
{
    private const int MostSweeps = 100;
    private const int MostRounds = 5;

    private readonly Raster raster;
    private readonly TracingOptions options;
    private readonly Weights weights;

    /// <summary>Makes ready to trace; nothing is done yet.</summary>
    /// <exception cref="ArgumentException">An option is out of range.</exception>
    public Tracing(Raster raster, TracingOptions options)
    {
        options.Check();
        this.raster = raster;
        this.options = options;
        weights = options.Weights ?? Weights.ForFidelity(options.Fidelity);
    }

    /// <summary>The trace; null until the steps are over.</summary>
    public Traced? Result { get; private set; }

    /// <summary>Does the work, one stage or sweep to a step.</summary>
    /// <exception cref="ArgumentException">The picture shows nothing to trace, or the figure would be too large.</exception>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public IEnumerable<TraceProgress> Steps(CancellationToken cancel = default)
    {
        yield return new TraceProgress(TraceStage.Preparing);
        var prepared = Prepare();
        cancel.ThrowIfCancellationRequested();

        yield return new TraceProgress(TraceStage.Sampling);
        var height = HeightFor(prepared);
        var samples = BrickSampler.Sample(prepared, options.Width, height, Phase.Even);
        cancel.ThrowIfCancellationRequested();

        yield return new TraceProgress(TraceStage.Choosing);
        var threads = Choose(samples);
        var costs = new BrickCosts(samples, threads, weights.Shape, options.Mirror);
        cancel.ThrowIfCancellationRequested();

        var labels = costs.Cheapest();
        var energy = new Energy(options.Width, height, threads.Length + 1, costs.Values, weights, Rows.Widest(labels, options.Width));
        var energies = ImmutableArray.CreateBuilder<long>();
        var sweep = 0;
        for (var round = 0; round < MostRounds; round++)
        {
            var sweeps = new Sweeps(energy, options.Mirror, labels);
            energies.Clear(); // another base row is another energy
            energies.Add(sweeps.Value);
            do
            {
                yield return new TraceProgress(TraceStage.Smoothing, sweep, sweeps.Value);
                sweep++;
            }
            while (Swept(sweeps, energies, cancel) && sweep < MostSweeps);
            var widest = Rows.Widest(labels, options.Width);
            if (widest == energy.BaseRow) break;
            energy = energy.WithBaseRow(widest);
        }
        Result = new TraceMaker(options, prepared, samples, threads, costs, labels, weights, energies.ToImmutable()).Make();
        yield return new TraceProgress(TraceStage.Done, sweep, energies[^1]);
    }

    private static bool Swept(Sweeps sweeps, ImmutableArray<long>.Builder energies, CancellationToken cancel)
    {
        var changed = sweeps.Sweep(cancel);
        energies.Add(sweeps.Value);
        return changed;
    }

    private Raster Prepare()
    {
        var picture = (options.Crop is { } crop ? raster.Cropped(crop) : raster).Turned(options.Turn);
        var figure = picture.WithoutBackground(options.Background).Trimmed();
        // A background found by itself that would take everything away was none.
        if (figure is null && options.Background.Kind == BackgroundKind.Auto) figure = picture.Trimmed();
        return figure ?? throw new ArgumentException("the picture shows nothing: it is all transparent or all background");
    }

    private int HeightFor(Raster prepared)
    {
        var height = options.Height ?? BrickSampler.RowsFor(prepared, options.Width, options.Gauge);
        if (height > Cloth.PleatingPlan.MostCableRows || height * options.Width > TracingOptions.MostCells)
            throw new ArgumentException($"a figure {options.Width} valleys wide would be {height:0} cable rows high, which is too many stitches; make it narrower or crop the picture");
        return (int)height;
    }

    private ImmutableArray<Floss> Choose(BrickSamples samples)
    {
        var shades = Shade.Gather(samples);
        if (shades.IsEmpty) throw new ArgumentException("the picture shows nothing large enough to stitch; make the figure wider");
        if (!options.Stash.IsEmpty)
            return [.. Palette.FromStash(shades, [.. options.Stash.Select(t => t.Colour)], options.Threads).Select(i => options.Stash[i])];
        return [.. Palette.Best(shades, options.Threads).Select(c => new Floss(new ThreadKey('a'), "", c, Floss.DefaultStrands))];
    }
}
