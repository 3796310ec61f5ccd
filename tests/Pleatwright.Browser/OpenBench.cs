using System.Collections.Concurrent;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Pleatwright.App.Host;

namespace Pleatwright.Browser.Tests;

/// <summary>Sizes at which every view is looked at.</summary>
public static class Screens
{
    public static ViewportSize Desktop => new() { Width = 1440, Height = 900 };

    public static ViewportSize Tablet => new() { Width = 820, Height = 1180 };

    public static ViewportSize Phone => new() { Width = 390, Height = 844 };

    public static IEnumerable<(string Name, ViewportSize Size)> All => [("desktop", Desktop), ("tablet", Tablet), ("phone", Phone)];
}

/// <summary>
/// A bench served from a shelf of its own and open in a page. When it is put away it fails the test on anything the
/// page complained about: an error in the console, an exception, a request that failed.
/// </summary>
public sealed class OpenBench : IAsyncDisposable
{
    private readonly ConcurrentQueue<string> complaints = new();
    private bool leaving;

    private OpenBench(BenchHost host, string folder, IBrowserContext context)
    {
        Host = host;
        Folder = folder;
        Context = context;
    }

    public BenchHost Host { get; private set; }

    /// <summary>The shelf's folder.</summary>
    public string Folder { get; }

    public IBrowserContext Context { get; }

    public IPage Page { get; private set; } = null!;

    /// <summary>What a test provoked on purpose, and which is therefore no complaint.</summary>
    public List<string> Expected { get; } = [];

    /// <summary>Opens the bench at a view; "" is where it opens by itself.</summary>
    public static async Task<OpenBench> AtAsync(Chromium chromium, string view = "", ViewportSize? size = null, bool dark = false,
        bool touch = false, Action<string>? fillShelf = null)
    {
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        fillShelf?.Invoke(folder);
        var host = await BenchHost.StartAsync(folder, 0);
        var context = await chromium.Browser.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = size ?? Screens.Desktop,
            ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
            HasTouch = touch,
            AcceptDownloads = true,
            BaseURL = host.Url.ToString(),
        });
        var bench = new OpenBench(host, folder, context);
        bench.Page = await bench.NewPageAsync();
        await bench.GoAsync(view);
        return bench;
    }

    /// <summary>Another tab on the same bench.</summary>
    public async Task<IPage> NewPageAsync()
    {
        var page = await Context.NewPageAsync();
        page.SetDefaultTimeout(15_000);
        page.Console += (_, m) => { if (m.Type == "error") Complain($"console: {m.Text} ({m.Location})"); };
        page.PageError += (_, e) => Complain($"exception: {e}");
        page.RequestFailed += (_, r) => { if (!leaving && r.Failure != "net::ERR_ABORTED") Complain($"request: {r.Method} {r.Url}: {r.Failure}"); };
        return page;
    }

    /// <summary>Opens the address of a view and waits until the bench stands.</summary>
    public async Task GoAsync(string view)
    {
        await Page.GotoAsync(view.Length == 0 ? "/" : "/#" + view);
        await StandsAsync(Page);
    }

    /// <summary>Waits until the bench has come up.</summary>
    public static Task StandsAsync(IPage page) => page.Locator(".bench main").WaitForAsync();

    public async Task ReloadAsync()
    {
        await Page.ReloadAsync();
        await StandsAsync(Page);
    }

    /// <summary>No fault that axe calls serious or critical, on what is shown now.</summary>
    public async Task NoSeriousFaultAsync()
    {
        var result = await Page.RunAxe();
        var faults = result.Violations.Where(v => v.Impact is "serious" or "critical")
            .Select(v => $"{v.Impact} {v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Take(4).Select(n => n.Html))}");
        Assert.Empty(faults);
    }

    /// <summary>Takes a picture into the folder that PLEATWRIGHT_PICTURES names; nothing when it names none.</summary>
    public async Task PictureAsync(string name)
    {
        if (Environment.GetEnvironmentVariable("PLEATWRIGHT_PICTURES") is not { Length: > 0 } folder) return;
        Directory.CreateDirectory(folder);
        await Page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, name + ".png") });
    }

    /// <summary>Stops the host, as a maker would who shuts its window.</summary>
    public ValueTask StopHostAsync() => Host.DisposeAsync();

    /// <summary>Starts it again where it was.</summary>
    public async Task RestartHostAsync() => Host = await BenchHost.StartAsync(Folder, Host.Url.Port);

    public async ValueTask DisposeAsync()
    {
        leaving = true;
        await Context.DisposeAsync();
        await Host.DisposeAsync();
        Directory.Delete(Folder, recursive: true);
        var faults = complaints.Where(c => !Expected.Exists(e => c.Contains(e, StringComparison.Ordinal))).ToList();
        Assert.True(faults.Count == 0, string.Join("\n", faults));
    }

    private void Complain(string words) => complaints.Enqueue(words);
}
