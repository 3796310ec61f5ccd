using System.Diagnostics;
using System.Globalization;

namespace Pleatwright.Browser.Tests;

/// <summary>The bench as it is published: small, quick to load, and open without its host. PLEATWRIGHT_PUBLISHED names the folder.</summary>
public class PublishedTests(Chromium chromium, ITestOutputHelper output)
{
    internal static string? Published => Environment.GetEnvironmentVariable("PLEATWRIGHT_PUBLISHED");

    [Fact]
    public async Task It_loads_quickly_and_opens_and_keeps_edits_without_its_host()
    {
        Assert.SkipWhen(Published is null, "PLEATWRIGHT_PUBLISHED names no published bench.");
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        var (host, url) = await StartAsync(folder, 0);
        await using var context = await chromium.ContextAsync();
        try
        {
            var page = await context.NewPageAsync();
            var complaints = new List<string>();
            page.Console += (_, m) => { if (m.Type == "error") complaints.Add(m.Text); };
            var clock = Stopwatch.StartNew();
            await page.GotoAsync(url);
            await OpenBench.StandsAsync(page);
            var bytes = await page.EvaluateAsync<double>(
                "[...performance.getEntriesByType('resource'), ...performance.getEntriesByType('navigation')].reduce((sum, e) => sum + e.transferSize, 0)");
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"first load {clock.ElapsedMilliseconds} ms, {bytes / 1e6:0.00} MB"));
            Assert.True(bytes < 5e6);

            await page.Locator("#title").FillAsync("Kept");
            await page.Locator("#title").PressAsync("Enter");
            await page.Locator(".kept[data-state=safe] .kept-plain").WaitForAsync();
            await page.EvaluateAsync("navigator.serviceWorker.ready");
            Assert.Empty(complaints);

            host.Kill();
            await host.WaitForExitAsync();
            await page.ReloadAsync();
            await OpenBench.StandsAsync(page);
            Assert.Equal("Kept", await page.Locator("#title").InputValueAsync());
            await page.Locator("#title").FillAsync("Without its host");
            await page.Locator("#title").PressAsync("Enter");
            await page.Locator(".kept[data-state=trouble]").WaitForAsync();
            await page.ReloadAsync();
            await OpenBench.StandsAsync(page);
            Assert.Equal("Without its host", await page.Locator("#title").InputValueAsync());

            (host, _) = await StartAsync(folder, new Uri(url).Port);
            await page.Locator(".kept[data-state=safe] .kept-plain").WaitForAsync();
            Assert.Contains("Without its host", File.ReadAllText(Directory.GetFiles(folder, "*.piece.json").Single()), StringComparison.Ordinal);
        }
        finally
        {
            host.Kill();
            await host.WaitForExitAsync();
            host.Dispose();
        }
        Directory.Delete(folder, recursive: true);
    }

    private static async Task<(Process Host, string Url)> StartAsync(string shelf, int port)
    {
        var program = Path.Combine(Published!, OperatingSystem.IsWindows() ? "pleatwright.exe" : "pleatwright");
        var host = Process.Start(new ProcessStartInfo(program, ["bench", "--shelf", shelf, "--port", port.ToString(CultureInfo.InvariantCulture)]) { RedirectStandardOutput = true })!;
        var line = await host.StandardOutput.ReadLineAsync();
        return (host, line!.Split(' ')[^1]);
    }
}
