using System.Globalization;
using System.Runtime.InteropServices.JavaScript;
using Pleatwright.Bench.Model.Tracing;
using Pleatwright.Picture;

namespace Pleatwright.Bench.Tracing;

/// <summary>Traces in the worker; where there is none, in the page.</summary>
internal sealed class TracingRoom(TimeProvider time) : ITracingRoom
{
    private readonly HereTracing here = new(time);

    public async Task<(string Traced, double Took, string Fault)> TraceAsync(Raster picture, string options, Action<string> told, CancellationToken cancel)
    {
        if (await Workshop.DoAsync("trace", options, picture.Width, picture.Rgba.ToArray(), (words, _) => told(words), cancel) is not { } answer)
            return await here.TraceAsync(picture, options, told, cancel);
        if (answer.Fault.Length > 0) return ("", 0, answer.Fault);
        var end = answer.Text.IndexOf(' ', StringComparison.Ordinal);
        return (answer.Text[(end + 1)..], double.Parse(answer.Text[..end], CultureInfo.InvariantCulture), "");
    }
}

/// <summary>The worker's side: what planner.js calls.</summary>
internal static partial class TraceWorker
{
    private static TraceWork? work;

    [JSExport]
    internal static string Begin(int width, byte[] rgba, string options)
    {
        work = new TraceWork(new Raster(width, rgba.Length / 4 / width, rgba), options);
        return work.Step();
    }

    [JSExport]
    internal static string Step() => work!.Step();

    [JSExport]
    internal static string Fault() => work!.Fault;

    [JSExport]
    internal static string Traced()
    {
        var traced = work!.Traced();
        work = null;
        return traced;
    }

    [JSExport]
    internal static void Drop() => work = null;
}
