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

    public async ValueTask DisposeAsync()
    {
        await browser!.DisposeAsync();
        playwright?.Dispose();
    }
}
