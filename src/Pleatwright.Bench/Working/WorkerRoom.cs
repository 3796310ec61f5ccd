using System.Runtime.InteropServices.JavaScript;
using Pleatwright.Bench.Model.Working;
using Pleatwright.Order;

namespace Pleatwright.Bench.Working;

/// <summary>Plans orders in a worker of the page: a second bench with no page of its own, begun when the first order is wanted.</summary>
internal sealed partial class WorkerRoom : IPlanningRoom
{
    private Task? loaded;

    public async Task<string?> PlanAsync(string piece, Action<double> told)
    {
        await (loaded ??= JSHost.ImportAsync("planning", "../planning.js"));
        return await Plan(piece, told);
    }

    public void Stop() => StopNow();

    [JSImport("plan", "planning")]
    private static partial Task<string?> Plan(string piece, [JSMarshalAs<JSType.Function<JSType.Number>>] Action<double> told);

    [JSImport("stop", "planning")]
    private static partial void StopNow();
}

/// <summary>The worker's side: what planner.js calls.</summary>
internal static partial class Planner
{
    private static WorkingOrder? last; // what the next piece shares with it is not sought again

    /// <summary>Plans the order of a piece file.</summary>
    [JSExport]
    internal static string Plan(string piece)
    {
        var work = Smocking.Lay(Smocking.Read(piece));
        last = last is null ? Smocking.Plan(work, progress: new Teller()) : Smocking.Plan(work, last, progress: new Teller());
        return OrderText.Write(last);
    }

    [JSImport("told", "planner")]
    private static partial void Told(double share);

    private sealed class Teller : IProgress<double>
    {
        public void Report(double share) => Told(share);
    }
}
