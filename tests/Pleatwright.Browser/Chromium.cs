using Microsoft.Playwright;

[assembly: AssemblyFixture(typeof(Pleatwright.Browser.Tests.Chromium))]

namespace Pleatwright.Browser.Tests;

/// <summary>One real Chromium for every test: the one installed, or the one that PLEATWRIGHT_CHROMIUM names.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private IPlaywright? playwright;

    public static string Executable { get; } = Environment.GetEnvironmentVariable("PLEATWRIGHT_CHROMIUM") ?? "/usr/bin/chromium";

    public static string[] Switches { get; } =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
        "--disable-component-update", "--disable-sync",
    ];

    public IBrowser Browser { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Assertions.SetDefaultExpectTimeout(20_000); // a busy machine is no fault of the bench
        playwright = await Playwright.CreateAsync();
        Browser = await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = Executable,
            Headless = true,
            Args = Switches,
        });
    }

    public async ValueTask DisposeAsync()
    {
        await Browser.DisposeAsync();
        playwright?.Dispose();
    }
}
