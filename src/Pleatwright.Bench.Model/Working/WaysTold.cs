using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Bench.Model.Working;

/// <summary>What a work would come to in a way of working.</summary>
public sealed record WayTold(WayOfWorking Way, int Starts, int LeftHanging, int LongestWaitRows, int Turns, Length Carried);

/// <summary>
/// What a work would come to in each way of working, told side by side. It is planned where all orders are, off the hand's path, with all the care of the
/// commands, and only once what is asked for has rested a moment; so a way that is then chosen is known already.
/// </summary>
public sealed class WaysTold(Desk desk, TimeProvider time) : IDisposable
{
    private static readonly TimeSpan Rest = TimeSpan.FromMilliseconds(500);

    private CancellationTokenSource stop = new();
    private Work? asked;

    /// <summary>Each way that is known by now.</summary>
    public ImmutableArray<WayTold> Known { get; private set; } = [];

    /// <summary>How much of it is planned, 0 to 1; null when nothing is being planned.</summary>
    public double? Sought { get; private set; }

    /// <summary>Raised when <see cref="Known"/> or <see cref="Sought"/> has changed.</summary>
    public event Action? Changed;

    /// <summary>What is told of each way, in short.</summary>
    public static ImmutableArray<string> Heads { get; } = ["starts", "left hanging", "longest wait", "turns", "carried"];

    /// <summary>What is said while they are planned.</summary>
    public const string Seeking = "What each way comes to is being planned.";

    /// <summary>What is told of a way, each with its head; dashes while it is not known.</summary>
    public static IEnumerable<(string Head, string Value)> Cells(WayTold? way)
    {
        ImmutableArray<string> values = way is null ? [.. Heads.Select(_ => "–")]
            : [Words.Of(way.Starts), Words.Of(way.LeftHanging), way.LeftHanging == 0 ? "none" : Words.Of(way.LongestWaitRows, "row"), Words.Of(way.Turns), Words.Of(way.Carried)];
        return Heads.Zip(values);
    }

    /// <summary>What is known of a way; null until it is.</summary>
    public WayTold? Of(WayOfWorking way) => Known.FirstOrDefault(w => w.Way == way);

    /// <summary>Asks for the ways of a work, whatever way it is to be worked in itself; for none where it is null.</summary>
    public async Task AskAsync(Work? work)
    {
        if (work is not null && asked is not null && Plain(work.Piece) == Plain(asked.Piece)) return;
        stop.Cancel();
        stop.Dispose();
        stop = new CancellationTokenSource();
        (asked, Known, Sought) = (work, [], work is null ? null : 0);
        Changed?.Invoke();
        if (work is null) return;
        var cancel = stop.Token;
        try
        {
            await Task.Delay(Rest, time, cancel);
            var ways = Enum.GetValues<WayOfWorking>();
            foreach (var way in ways)
            {
                var before = Known.Length;
                var piece = work.Piece;
                var order = await desk.PlanAsync(piece.Working.Way == way ? work : Smocking.Lay(piece with { Working = piece.Working with { Way = way } }),
                    share => Tell((before + share) / ways.Length), cancel);
                cancel.ThrowIfCancellationRequested();
                Known = Known.Add(new WayTold(way, order.Starts, order.TakeUps, order.LongestWaitRows, order.Turns, order.Carried.In(piece.Working.WorkingLength.Unit)));
                Tell((double)Known.Length / ways.Length);
            }
            Sought = null;
            Changed?.Invoke();
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested) { } // something else was asked for

        void Tell(double share)
        {
            if (cancel.IsCancellationRequested || Sought == share) return;
            Sought = share;
            Changed?.Invoke();
        }
    }

    /// <summary>Asks no more.</summary>
    public void Dispose()
    {
        stop.Cancel();
        stop.Dispose();
        stop = new CancellationTokenSource();
    }

    // What the ways depend on: neither the title nor the way that is chosen.
    private static Piece Plain(Piece piece) => piece with { Title = "", Working = piece.Working with { Way = default } };
}
