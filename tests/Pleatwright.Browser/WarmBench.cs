using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

/// <summary>
/// Benches that stand already: the tests of a class share one, and leave it to the next class. To come up costs a bench more than most journeys do; what it
/// does when it comes up is looked at by tests that open their own (<see cref="OpenBench.AtAsync"/>) or read it anew.
/// </summary>
public sealed class WarmBench(Chromium chromium) : IAsyncLifetime
{
    private readonly OpenBench?[] benches = [null, null]; // by mouse, by touch

    /// <summary>An example laid anew, at the table.</summary>
    public Task<OpenBench> ExampleAsync(string name = "harbour-morning", ViewportSize? size = null, bool dark = false, bool touch = false) =>
        WithAsync(File.ReadAllText(Repository.Path("examples", name + ".piece.json")), size, dark, touch);

    /// <summary>A piece laid anew, at the table.</summary>
    public async Task<OpenBench> WithAsync(string piece, ViewportSize? size = null, bool dark = false, bool touch = false)
    {
        var open = await AtAsync("table", size, dark, touch);
        await open.LayAsync(piece);
        return open;
    }

    /// <summary>As one that was never used (<see cref="OpenBench.BeginAfreshAsync"/>), at a view.</summary>
    public async Task<OpenBench> AfreshAsync(string view, ViewportSize? size = null, bool dark = false, bool touch = false, Action<string>? fillShelf = null)
    {
        var open = await AtAsync("table", size, dark, touch);
        await open.BeginAfreshAsync(view, fillShelf);
        return open;
    }

    /// <summary>At a view, with what lies on the table.</summary>
    public async Task<OpenBench> AtAsync(string view, ViewportSize? size = null, bool dark = false, bool touch = false)
    {
        var place = touch ? 1 : 0;
        if (benches[place] is { IsSpoilt: true } spoilt)
        {
            benches[place] = null;
            await spoilt.CloseAsync();
        }
        if ((benches[place] ??= chromium.Idle(touch)) is { } bench)
        {
            await bench.LookAsync(size ?? Screens.Desktop, dark);
            await bench.ClearAsync();
        }
        else
        {
            benches[place] = bench = await OpenBench.AtAsync(chromium, view, size, dark, touch);
            bench.Stays = true;
        }
        await bench.SeeAsync(view);
        return bench;
    }

    /// <inheritdoc/>
    public ValueTask InitializeAsync() => default;

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        foreach (var bench in benches)
        {
            if (bench is null) continue;
            await bench.DisposeAsync(); // what it complained of since its last test
            if (bench.IsSpoilt) await bench.CloseAsync();
            else chromium.Leave(bench);
        }
    }
}
