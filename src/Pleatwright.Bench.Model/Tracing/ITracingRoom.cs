using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Tracing;

/// <summary>Where pictures are traced, off the hand's path: in the browser a worker. What is cancelled is stopped there, too.</summary>
public interface ITracingRoom
{
    /// <summary>Traces a picture.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="options">How, as text.</param>
    /// <param name="told">Told what is done, in a few words.</param>
    /// <param name="cancel">Says that it is wanted no more.</param>
    /// <returns>The figure as text, and how many milliseconds it took; or why there is none, as a sentence.</returns>
    /// <exception cref="OperationCanceledException">It was wanted no more.</exception>
    Task<(string Traced, double Took, string Fault)> TraceAsync(Raster picture, string options, Action<string> told, CancellationToken cancel);
}

/// <summary>The work of tracing itself, a step at a time; the same wherever it is done, beside the page or in it.</summary>
public sealed class TraceWork
{
    private readonly Pleatwright.Picture.Tracing? tracing;
    private readonly IEnumerator<TraceProgress>? steps;

    /// <summary>Makes ready to trace.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="options">How, as text.</param>
    public TraceWork(Raster picture, string options)
    {
        try
        {
            tracing = new Pleatwright.Picture.Tracing(picture, TraceText.Options(options));
            steps = tracing.Steps().GetEnumerator();
        }
        catch (ArgumentException e) { Fault = Sentences.Of(e.Why()); }
    }

    /// <summary>Why nothing comes of it, as a sentence; empty when something does.</summary>
    public string Fault { get; private set; } = "";

    /// <summary>Does a step.</summary>
    /// <returns>What is done next, in a few words; empty when it is done, or has failed.</returns>
    public string Step()
    {
        if (Fault.Length > 0) return "";
        try
        {
            if (!steps!.MoveNext()) return "";
            return steps.Current.Stage switch
            {
                TraceStage.Preparing => "Preparing the picture",
                TraceStage.Sampling => "Looking through the lattice",
                TraceStage.Choosing => "Choosing the threads",
                _ => $"Smoothing, {Model.Words.Of(steps.Current.Sweep, "sweep")}",
            };
        }
        catch (ArgumentException e)
        {
            Fault = Sentences.Of(e.Why());
            return "";
        }
    }

    /// <summary>What came of it, as text.</summary>
    public string Traced() => TraceText.Write(tracing!.Result!);
}

/// <summary>Traces where there is no worker: in the page, which breathes between two steps.</summary>
public sealed class HereTracing(TimeProvider time) : ITracingRoom
{
    /// <inheritdoc/>
    public async Task<(string Traced, double Took, string Fault)> TraceAsync(Raster picture, string options, Action<string> told, CancellationToken cancel)
    {
        var work = new TraceWork(picture, options);
        var spent = TimeSpan.Zero;
        while (true)
        {
            var since = time.GetTimestamp();
            var next = work.Step();
            spent += time.GetElapsedTime(since);
            if (next.Length == 0) return work.Fault.Length > 0 ? ("", 0, work.Fault) : (work.Traced(), spent.TotalMilliseconds, "");
            told(next);
            await Task.Delay(TimeSpan.FromMilliseconds(1), time, cancel);
        }
    }
}

/// <summary>How a picture is traced, and what came of it, as text to be handed from one place to another. No file: only the program that wrote it reads it.</summary>
internal static class TraceText
{
    private const char Line = '\u001e', Part = '\u001f'; // no name holds them

    /// <summary>Options as the bench gives them: what it never sets is not told.</summary>
    public static string Write(TracingOptions o) => string.Join(Line, (string[])
    [
        string.Join(Part, Of(o.Width), Of(o.Threads), o.Fidelity.ToString("R", CultureInfo.InvariantCulture), o.Mirror, o.HalfStitches, o.Name),
        o.Crop is { } c ? string.Join(Part, Of(c.X), Of(c.Y), Of(c.Width), Of(c.Height)) : "",
        string.Join(Part, o.Background.Kind, o.Background.Colour, o.Background.Tolerance.ToString("R", CultureInfo.InvariantCulture), o.Background.Enclosed),
        .. o.Stash.Select(Write),
    ]);

    /// <summary>Reads options.</summary>
    public static TracingOptions Options(string text)
    {
        var lines = text.Split(Line).Select(l => l.Split(Part)).ToArray();
        var (one, crop, bare) = (lines[0], lines[1], lines[2]);
        return new TracingOptions
        {
            Width = Whole(one[0]), Threads = Whole(one[1]), Fidelity = Number(one[2]), Mirror = bool.Parse(one[3]), HalfStitches = bool.Parse(one[4]), Name = one[5],
            Crop = crop.Length == 4 ? new Crop(Whole(crop[0]), Whole(crop[1]), Whole(crop[2]), Whole(crop[3])) : null,
            Background = new Background(Enum.Parse<BackgroundKind>(bare[0]), Colour.Parse(bare[1])) { Tolerance = Number(bare[2]), Enclosed = bool.Parse(bare[3]) },
            Stash = [.. lines[3..].Select(Thread)],
        };
    }

    /// <summary>Writes a traced figure.</summary>
    public static string Write(TracedFigure t) => string.Join(Line, (string[])
    [
        string.Join(Part, Of(t.BaseRow), t.Phase, Of(t.Cables), Of(t.Runs), t.Figure.Square, t.Figure.Name),
        string.Join(Part, t.Figure.Rows),
        string.Join(Part, t.Figure.Halves.Select(h => Of(h.Row) + " " + h.End)),
        .. t.Threads.Select(Write),
    ]);

    /// <summary>Reads a traced figure.</summary>
    public static TracedFigure Traced(string text)
    {
        var lines = text.Split(Line);
        var one = lines[0].Split(Part);
        var halves = lines[2].Split(Part, StringSplitOptions.RemoveEmptyEntries).Select(h => h.Split(' ')).Select(h => new HalfMark(Whole(h[0]), Enum.Parse<RunEnd>(h[1])));
        var figure = new Figure(one[5], [.. lines[1].Split(Part)]) { Square = bool.Parse(one[4]), Halves = [.. halves] };
        return new(figure, [.. lines[3..].Select(l => Thread(l.Split(Part)))], Whole(one[0]), Enum.Parse<Phase>(one[1]), Whole(one[2]), Whole(one[3]));
    }

    private static string Write(Floss f) => string.Join(Part, f.Key, f.Colour, Of(f.Strands), f.TexPerStrand.ToString("R", CultureInfo.InvariantCulture), Of(f.StrandsInSkein),
        f.SkeinLength.Millimetres.ToString("R", CultureInfo.InvariantCulture), f.SkeinLength.Unit, f.Name, f.Note);

    private static Floss Thread(string[] w) => new(new ThreadKey(w[0][0]), w[7], Colour.Parse(w[1]), Whole(w[2]))
    {
        TexPerStrand = Number(w[3]), StrandsInSkein = Whole(w[4]), SkeinLength = Length.FromMillimetres(Number(w[5])).In(Enum.Parse<LengthUnit>(w[6])), Note = w[8],
    };

    private static string Of(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static int Whole(string text) => int.Parse(text, CultureInfo.InvariantCulture);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
