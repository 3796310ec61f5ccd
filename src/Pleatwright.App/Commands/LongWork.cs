using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Order;
using Pleatwright.Plate;
using Pleatwright.Proof;

namespace Pleatwright.App.Commands;

/// <summary>Work that may take long: it tells how far it is and stops on Ctrl-C.</summary>
internal static class LongWork
{
    /// <summary>
    /// Does it off the main thread, so that Ctrl-C is heard meanwhile. Work that does not heed it is left behind and ends
    /// with the program; whatever it makes is written only after it is done.
    /// </summary>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static async Task<T> Do<T>(CancellationToken cancel, Func<Telling, T> work)
    {
        using var telling = new Telling();
        return await Task.Run(() => work(telling), cancel).WaitAsync(cancel);
    }

    /// <summary>Plans the order as for a plate.</summary>
    /// <param name="work">The work.</param>
    /// <param name="telling">Where it is told how far it is.</param>
    /// <param name="cancel">Stops it.</param>
    /// <param name="doing">What is told.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static WorkingOrder Plan(Work work, Telling telling, CancellationToken cancel, string doing = "planning the order") =>
        Smocking.Plan(work, Effort.Plate, telling.Of(doing), cancel);

    /// <summary>Proofreads.</summary>
    public static ImmutableArray<Finding> Proofread(Work work, Telling telling)
    {
        telling.Say("proofreading");
        return Smocking.Prove(work);
    }

    /// <summary>Plans, proofreads and makes the plate, whose pages are laid out when it is written.</summary>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    /// <exception cref="PlateTooLargeException">It cannot be printed.</exception>
    public static PlateDocument Plate(Work work, PlateOptions options, Telling telling, CancellationToken cancel)
    {
        var order = Plan(work, telling, cancel);
        var findings = Proofread(work, telling);
        cancel.ThrowIfCancellationRequested();
        telling.Say("laying out the pages");
        return Smocking.Plate(order, findings, options);
    }
}

/// <summary>
/// Tells on standard error what is being done: at a terminal at once, one line that is written over and taken away in the
/// end; elsewhere a line now and then, and none for work that is done within a second.
/// </summary>
internal sealed class Telling : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Pace = TimeSpan.FromSeconds(3);

    private readonly bool terminal = !Console.IsErrorRedirected;
    private readonly Lock told = new();
    private readonly Timer timer;
    private string words = "", last = "";
    private bool done;

    public Telling() => timer = terminal
        ? new Timer(_ => Tell(), null, TimeSpan.Zero, TimeSpan.FromMilliseconds(200))
        : new Timer(_ => Tell(), null, Patience, Pace);

    /// <summary>What is being done now.</summary>
    public void Say(string doing)
    {
        lock (told) words = doing;
    }

    /// <summary>Says what is being done with how much of it is.</summary>
    public IProgress<double> Of(string doing)
    {
        Say(doing);
        return new Share(this, doing);
    }

    public void Dispose()
    {
        timer.Dispose();
        lock (told)
        {
            done = true;
            if (terminal && last.Length > 0) Console.Error.Write($"\r{new string(' ', last.Length)}\r");
        }
    }

    private void Tell()
    {
        lock (told)
        {
            if (done || words == last) return;
            if (terminal) Console.Error.Write($"\r{words.PadRight(last.Length)}");
            else Console.Error.WriteLine(words);
            last = words;
        }
    }

    // Not Progress<T>: what comes late and out of order would be told wrongly.
    private sealed class Share(Telling telling, string doing) : IProgress<double>
    {
        public void Report(double value) => telling.Say(string.Create(CultureInfo.InvariantCulture, $"{doing}, {Math.Floor(value * 100):0} % done"));
    }
}
