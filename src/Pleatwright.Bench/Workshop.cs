using System.Runtime.InteropServices.JavaScript;

namespace Pleatwright.Bench;

/// <summary>Heavy work of the page, done in a worker: one job at a time, in turn.</summary>
internal static partial class Workshop
{
    private static Task? loaded;
    private static int jobs;

    /// <summary>Makes ready.</summary>
    private static Task LoadAsync() => loaded ??= JSHost.ImportAsync("workshop", "../workshop.js");

    /// <summary>Does a job.</summary>
    /// <param name="kind">Which: "print", "give", "write", "trace"; planner.js has them.</param>
    /// <param name="text">What it is about.</param>
    /// <param name="number">A number with it.</param>
    /// <param name="bytes">Bytes with it; may be empty.</param>
    /// <param name="told">Told words and an address, empty where there is none, as it comes along.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The answer; null where there is no worker.</returns>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static async Task<Answer?> DoAsync(string kind, string text, int number, byte[] bytes, Action<string, string> told, CancellationToken cancel)
    {
        try { await LoadAsync(); }
        catch (JSException) // it is fetched when it is first wanted
        {
            loaded = null;
            return new Answer('!', "What does this could not be fetched. Look whether there is a network, and try again.");
        }
        cancel.ThrowIfCancellationRequested();
        var job = ++jobs;
        var running = Run(job, kind, text, number, bytes, told);
        string? answer;
        using (cancel.Register(() => Stop(job))) answer = await running;
        if (answer is null) throw new OperationCanceledException(cancel);
        return answer[0] == '?' ? null : new Answer(answer[0], answer[1..]);
    }

    /// <summary>The address under which bytes are shown, until it is let go.</summary>
    [JSImport("addressOf", "workshop")]
    public static partial string AddressOf(string type, byte[] bytes);

    /// <summary>Hands the file at an address to the maker, and lets the address go once it is taken.</summary>
    [JSImport("handOver", "workshop")]
    public static partial void HandOver(string address, string name);

    [JSImport("run", "workshop")]
    private static partial Task<string?> Run(int job, string kind, string text, int number, byte[] bytes, [JSMarshalAs<JSType.Function<JSType.String, JSType.String>>] Action<string, string> told);

    [JSImport("stop", "workshop")]
    private static partial void Stop(int job);

    /// <summary>How a job went.</summary>
    /// <param name="Mark">'+' when it is done, '!' when there is a fault, '~' when what it needs is there no more.</param>
    /// <param name="Text">What came of it, or the fault as a sentence.</param>
    public sealed record Answer(char Mark, string Text)
    {
        /// <summary>Why it was not done, as a sentence; empty when it was.</summary>
        public string Fault => Mark == '!' ? Text : "";
    }
}
