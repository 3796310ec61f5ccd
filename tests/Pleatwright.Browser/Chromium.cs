using System.Collections.Concurrent;
using Microsoft.Playwright;
using Xunit.Sdk;

[assembly: AssemblyFixture(typeof(Pleatwright.Browser.Tests.Chromium))]

namespace Pleatwright.Browser.Tests;

/// <summary>One real Chromium for every test: the one installed, or the one that PLEATWRIGHT_CHROMIUM names.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private IPlaywright? playwright;
    private IBrowser? browser;

    /// <summary>How long a test waits for what must come, in milliseconds: a busy machine is no fault of the bench.</summary>
    public const int Patience = 120_000;

    public static string Executable { get; } = Environment.GetEnvironmentVariable("PLEATWRIGHT_CHROMIUM") ?? "/usr/bin/chromium";

    public static string[] Switches { get; } =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
        "--disable-component-update", "--disable-sync", "--disable-features=" + string.Join(',', Off),
        "--disable-gpu-watchdog", // what the processor draws in place of a card may take long on a busy machine
        "--process-per-site", // pages of one window share a process, and in it what was compiled: see Window
    ];

    // Pages of the browser's own that every new window opens behind the address bar, a quarter of all its work; and, since the last
    // list given counts, what Playwright switches off itself.
    private static string[] Off =>
    [
        "WebUIOmniboxPopup", "WebUIOmniboxAimPopup",
        "AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "DialMediaRouteProvider", "GlobalMediaControls", "HttpsUpgrades",
        "LensOverlay", "MediaRouter", "PaintHolding", "ThirdPartyStoragePartitioning", "BlockOriginHeaderModificationOnRedirect",
        "AvoidCorsURLLoaderRestartOnRedirect", "Translate", "OptimizationHints", "NetworkTimeServiceQuerying", "AimEnabled",
    ];

    /// <summary>Failures so far, in whatever test: while one is on its way up a bench tells what it shows.</summary>
    public static int Failures => failures;

    private static int failures;

    public async ValueTask InitializeAsync()
    {
        AppDomain.CurrentDomain.FirstChanceException += (_, e) =>
        {
            if (e.Exception is TimeoutException or XunitException or PlaywrightException) Interlocked.Increment(ref failures);
        };
        Assertions.SetDefaultExpectTimeout(Patience);
        playwright = await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = Executable,
            Headless = true,
            Args = Switches,
        });
    }

    /// <summary>A window that shares nothing with any other.</summary>
    public async Task<IBrowserContext> ContextAsync(BrowserNewContextOptions? options = null)
    {
        var context = await browser!.NewContextAsync(options);
        context.SetDefaultTimeout(Patience);
        return context;
    }

    /// <summary>A window for benches one after the other, which share nothing but what the browser compiled; given back when a test is done with it.</summary>
    /// <param name="touch">A screen that is touched.</param>
    /// <param name="bench">A bench of which to take the runtime.</param>
    public async Task<Window> BorrowAsync(bool touch, Uri bench)
    {
        if (windows[touch ? 1 : 0].TryTake(out var window)) return window;
        var context = await ContextAsync(new BrowserNewContextOptions
        {
            HasTouch = touch,
            AcceptDownloads = true,
            ServiceWorkers = ServiceWorkerPolicy.Block, // what is opened without its host has a test of its own
        });
        // To compile the runtime is a third of what it costs a bench to come up. The browser keeps it while some page of the process does.
        var keeper = await context.NewPageAsync();
        await keeper.GotoAsync(new Uri(bench, "shelf-kind.json").ToString());
        await keeper.EvaluateAsync("async () => { window.runtime = await WebAssembly.compileStreaming(fetch('/_framework/dotnet.native.wasm')); }");
        return new Window(context, keeper);
    }

    /// <summary>Gives a window back, bare of what the last bench kept in it.</summary>
    public async Task GiveBackAsync(Window window, bool touch, Uri bench)
    {
        await window.ClearAsync(bench);
        windows[touch ? 1 : 0].Add(window);
    }

    private readonly ConcurrentBag<Window>[] windows = [[], []];

    /// <summary>A bench that another class has done with; null when none stands idle.</summary>
    public OpenBench? Idle(bool touch) => idle[touch ? 1 : 0].TryTake(out var bench) ? bench : null;

    /// <summary>Leaves a bench standing for the class that comes next.</summary>
    public void Leave(OpenBench bench) => idle[bench.IsTouched ? 1 : 0].Add(bench);

    private readonly ConcurrentBag<OpenBench>[] idle = [[], []];

    public async ValueTask DisposeAsync()
    {
        foreach (var bench in idle.SelectMany(b => b)) await bench.CloseAsync();
        await browser!.DisposeAsync();
        playwright?.Dispose();
    }
}

/// <summary>A window, and in it a page that keeps the compiled runtime.</summary>
public sealed class Window(IBrowserContext context, IPage keeper)
{
    /// <summary>Where pages are opened.</summary>
    public IBrowserContext Context => context;

    /// <summary>Closes what was opened, and forgets what an address kept.</summary>
    internal async Task ClearAsync(Uri address)
    {
        foreach (var page in context.Pages.ToList())
            if (page != keeper) await page.CloseAsync();
        var devtools = await context.NewCDPSessionAsync(keeper);
        await devtools.SendAsync("Storage.clearDataForOrigin", new() { ["origin"] = address.GetLeftPart(UriPartial.Authority), ["storageTypes"] = "all" });
        await devtools.DetachAsync();
    }
}
