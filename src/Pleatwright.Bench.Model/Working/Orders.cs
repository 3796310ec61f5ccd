using System.Collections.Immutable;
using System.Reflection;
using System.Security.Cryptography;
using System.Text;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Files;
using Pleatwright.Order;

namespace Pleatwright.Bench.Model.Working;

/// <summary>Where orders are planned off the hand's path: in the browser a worker.</summary>
public interface IPlanningRoom
{
    /// <summary>Plans the order of a piece with all the effort of the commands.</summary>
    /// <param name="piece">The piece file.</param>
    /// <param name="told">Told how much is done, 0 to 1.</param>
    /// <returns>The order as text; null when it was stopped, or cannot be planned there.</returns>
    Task<string?> PlanAsync(string piece, Action<double> told);

    /// <summary>Stops what is planned now; that answers null.</summary>
    void Stop();
}

/// <summary>
/// Orders of pieces, each the very one that the commands give: planned one at a time, once for each piece, and remembered in this
/// browser by what the piece holds.
/// </summary>
/// <param name="room">Where they are planned.</param>
/// <param name="memory">Where they are remembered.</param>
/// <param name="time">The clock.</param>
public sealed class Orders(IPlanningRoom room, IMemory memory, TimeProvider time) : IOrders
{
    /// <summary>How many are remembered. Our own choice: a sitting's worth of pieces, each in every way of working.</summary>
    public const int MostRemembered = 24;

    /// <summary>How long one that is wanted no more may go on, so as to be remembered, before it is stopped. Our own choice.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(4);

    private const string Index = "orders";

    // Another version of the program may plan otherwise.
    private static readonly string Version = typeof(Smocking).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "";

    private readonly SemaphoreSlim one = new(1);
    private readonly Dictionary<string, string> known = [];
    private object? under; // the one being planned

    /// <inheritdoc/>
    public async Task<WorkingOrder?> OfAsync(Chart.Work work, Action<double> told, CancellationToken cancel)
    {
        var piece = PieceWriter.Write(work.Piece with { Title = "" }); // its name changes nothing
        var name = Name(piece);
        await one.WaitAsync();
        try
        {
            if (await KnownAsync(name) is { } text && OrderText.Read(work, text) is { } order) return order;
            if (cancel.IsCancellationRequested) return null;
            var mine = under = new object();
            using (cancel.Register(() => _ = GiveUpAsync(mine)))
                text = await room.PlanAsync(piece, told);
            under = null;
            if (text is null || OrderText.Read(work, text) is not { } planned) return null;
            await RememberAsync(name, text);
            return planned;
        }
        finally
        {
            one.Release();
        }
    }

    private async Task GiveUpAsync(object mine)
    {
        await Task.Delay(Patience, time);
        if (ReferenceEquals(under, mine)) room.Stop();
    }

    private static string Name(string piece) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Version + "\n" + piece)))[..32];

    private async Task<string?> KnownAsync(string name) =>
        known.TryGetValue(name, out var text) ? text : await memory.RememberedAsync($"order {name}");

    private async Task RememberAsync(string name, string text)
    {
        known[name] = text;
        ImmutableArray<string> names = [name, .. (await memory.RememberedAsync(Index) ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries).Where(n => n != name)];
        await memory.RememberAsync($"order {name}", text);
        await memory.RememberAsync(Index, string.Join(' ', names.Take(MostRemembered)));
        foreach (var old in names.Skip(MostRemembered))
        {
            known.Remove(old);
            await memory.RememberAsync($"order {old}", null);
        }
    }
}
