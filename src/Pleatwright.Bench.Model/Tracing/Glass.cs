using System.Collections.Immutable;
using Pleatwright.Bench.Model.Basket;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Picture;
using Pleatwright.Proof;
using Pleatwright.Shopping;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Tracing;

/// <summary>Where the threads of a traced figure come from.</summary>
public enum ThreadSource
{
    /// <summary>Chosen freely for the picture.</summary>
    Picture,

    /// <summary>The piece on the table.</summary>
    Piece,

    /// <summary>The maker's stash.</summary>
    Stash,
}

/// <summary>
/// The picture being traced and what came of it. It outlives the view, so that coming back finds it. Every change is traced
/// anew, beside the page, and the next change stops the last.
/// </summary>
public sealed class Glass
{
    private const int Settle = 140; // milliseconds a slider must rest

    private readonly Desk desk;
    private readonly Workbasket basket;
    private readonly ITracingRoom room;
    private readonly TimeProvider time;
    private readonly Chore tracing;

    /// <summary>With nothing under it.</summary>
    public Glass(Desk desk, Workbasket basket, ITracingRoom room, TimeProvider time)
    {
        (this.desk, this.basket, this.room, this.time) = (desk, basket, room, time);
        tracing = new(() => Changed?.Invoke());
    }

    /// <summary>The picture, or null before there is one.</summary>
    public Raster? Picture { get; private set; }

    /// <summary>Its name.</summary>
    public string Name { get; private set; } = "";

    /// <summary>How it is traced.</summary>
    public TracingOptions Options { get; private set; } = new() { Background = Background.Auto };

    /// <summary>Where the threads come from.</summary>
    public ThreadSource Source { get; private set; }

    /// <summary>What came of it; of the last change but one while the last is being traced.</summary>
    internal TracedFigure? Traced { get; private set; }

    /// <summary>The same laid out on cloth of its own; null when there is nothing.</summary>
    public Work? Work { get; private set; }

    /// <summary>What the proof says of that.</summary>
    public ImmutableArray<Finding> Findings { get; private set; } = [];

    /// <summary>How far the trace under way is; empty when none is.</summary>
    public string Progress { get; private set; } = "";

    /// <summary>Why nothing came of it, or empty.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>How long the last trace took, in milliseconds.</summary>
    public double Took { get; private set; }

    /// <summary>What is asked before the figure is added where it would do harm; null when nothing is.</summary>
    public string? Asking { get; private set; }

    /// <summary>Raised when any of this has changed.</summary>
    public event Action? Changed;

    /// <summary>Lays a picture under the glass.</summary>
    public void Lay(Raster picture, string name)
    {
        Picture = picture;
        Name = name;
        Options = Options with { Crop = null, Name = name };
        desk.Say($"{name}: {Words.Of(picture.Width)} by {Words.Of(picture.Height)} pixels.");
        Again();
    }

    /// <summary>Says why a picture was not taken.</summary>
    public void Refuse(string why)
    {
        Trouble = why;
        Changed?.Invoke();
    }

    /// <summary>Changes how it is traced.</summary>
    public void Set(TracingOptions options)
    {
        if (options == Options) return;
        Options = options;
        Again();
    }

    /// <summary>Takes the threads from somewhere else.</summary>
    public void TakeThreadsFrom(ThreadSource source)
    {
        Source = source;
        Again();
    }

    /// <summary>Turns the picture a quarter, clockwise.</summary>
    public void Turn()
    {
        if (Picture is null) return;
        Picture = Picture.Turned(Pleatwright.Picture.Turn.Quarter);
        Options = Options with { Crop = null };
        Again();
    }

    /// <summary>Stops the trace under way; what was there before stays.</summary>
    /// <returns>Whether there was anything to stop.</returns>
    public bool Stop()
    {
        if (!tracing.IsUnderWay) return false;
        Progress = "";
        return tracing.Stop();
    }

    /// <summary>Whether the maker stopped the last change from being traced; what is shown is of the one before.</summary>
    public bool WasStopped => tracing.WasStopped;

    /// <summary>Traces again what was stopped.</summary>
    public void GoOn() => Again();

    /// <summary>Adds the figure to the piece on the table, or asks first; see <see cref="Adding"/>.</summary>
    /// <param name="anyway">Whether the maker was asked and said yes.</param>
    /// <returns>Whether it was added.</returns>
    public bool AddToPiece(bool anyway = false)
    {
        if (Traced is not { } traced) return false;
        try
        {
            Asking = Adding.To(desk, traced, anyway);
        }
        catch (ArgumentException e)
        {
            Refuse(Sentences.Of(e.Why()));
            return false;
        }
        if (Asking is not null) Changed?.Invoke();
        return Asking is null;
    }

    /// <summary>Leaves the piece as it is.</summary>
    public void DoNotAdd()
    {
        Asking = null;
        Changed?.Invoke();
    }

    private ImmutableArray<Floss> Choice => Source switch
    {
        ThreadSource.Piece => desk.Piece.Threads,
        ThreadSource.Stash => Stash.Choice(basket.Stash.Threads),
        _ => [],
    };

    private void Again()
    {
        tracing.Leave();
        if (Picture is not { } picture) { Changed?.Invoke(); return; }
        (Trouble, Progress, Asking) = ("", "…", null);
        _ = tracing.BeginAsync(cancel => TraceAsync(picture, cancel));
    }

    private async Task TraceAsync(Raster picture, CancellationToken cancel)
    {
        await Task.Delay(TimeSpan.FromMilliseconds(Settle), time, cancel);
        var options = Options with { Stash = Choice };
        var (text, took, fault) = await room.TraceAsync(picture, TraceText.Write(options), stage =>
        {
            if (cancel.IsCancellationRequested) return;
            Progress = stage;
            Changed?.Invoke();
        }, cancel);
        cancel.ThrowIfCancellationRequested();
        Progress = "";
        (Traced, Work, Findings, Trouble) = (null, null, [], fault);
        if (fault.Length > 0) return;
        var traced = TraceText.Traced(text);
        try
        {
            var work = Smocking.Lay(TracedPiece.Around(traced, options.Gauge, Name, desk.Piece.Cloth.Colour));
            (Traced, Work, Findings, Took) = (traced, work, Smocking.Prove(work), took);
        }
        catch (ArgumentException e) { Trouble = Sentences.Of(e.Why()); }
    }
}
