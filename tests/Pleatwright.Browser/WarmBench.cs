using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

/// <summary>
/// A bench that the tests of one class share, each with a piece of its own. To come up costs a bench more than most journeys do; what it
/// does when it comes up is looked at by tests that open their own (<see cref="OpenBench.AtAsync"/>).
/// </summary>
public sealed class WarmBench(Chromium chromium) : IAsyncLifetime
{
    private OpenBench? bench;

    /// <summary>An example laid anew, at the table.</summary>
    public Task<OpenBench> ExampleAsync(string name = "harbour-morning", ViewportSize? size = null, bool dark = false) =>
        WithAsync(File.ReadAllText(Repository.Path("examples", name + ".piece.json")), size, dark);

    /// <summary>A piece laid anew, at the table.</summary>
    public async Task<OpenBench> WithAsync(string piece, ViewportSize? size = null, bool dark = false)
    {
        var open = await AtAsync("table", size, dark);
        await open.LayAsync(piece);
        return open;
    }

    /// <summary>At a view, with what lies on the table.</summary>
    public async Task<OpenBench> AtAsync(string view, ViewportSize? size = null, bool dark = false)
    {
        if (bench is { IsSpoilt: true }) await DisposeAsync();
        if (bench is null)
        {
            bench = await OpenBench.AtAsync(chromium, view, size, dark);
            bench.Stays = true;
        }
        else
        {
            await bench.LookAsync(size ?? Screens.Desktop, dark);
            await bench.ClearAsync();
        }
        await bench.SeeAsync(view);
        return bench;
    }

    /// <inheritdoc/>
    public ValueTask InitializeAsync() => default;

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (bench is null) return;
        var open = bench;
        bench = null;
        open.Stays = false;
        await open.DisposeAsync();
    }
}
