using System.Diagnostics;
using Microsoft.Playwright;

namespace Pleatwright.BenchPerf;

/// <summary>From the address typed, with nothing kept from before, until the table stands with its cloth painted.</summary>
internal static class FirstLoad
{
    private const int Goes = 7;
    private const string Bytes =
        "[...performance.getEntriesByType('resource'), ...performance.getEntriesByType('navigation')].reduce((sum, e) => sum + e.transferSize, 0)";

    public static async Task MeasureAsync(IBrowser browser, string published)
    {
        using var served = new Served(published);
        var times = new List<double>();
        var megabytes = 0.0;
        for (var i = 0; i < Goes; i++)
        {
            await using var context = await browser.NewContextAsync();
            var page = await context.NewPageAsync();
            var clock = Stopwatch.StartNew();
            await page.GotoAsync(served.Url);
            await page.Locator(".bench main .here").WaitForAsync();
            await page.EvaluateAsync("new Promise(done => requestAnimationFrame(() => setTimeout(done)))");
            times.Add(clock.Elapsed.TotalMilliseconds);
            megabytes = await page.EvaluateAsync<double>(Bytes) / 1e6;
        }
        times.Sort();
        Console.WriteLine($"first load: median {times[Goes / 2]:0} ms of 3000, least {times[0]:0}, most {times[^1]:0}, of {Goes}; {megabytes:0.00} MB of 5 over loopback, compressed");
    }
}
