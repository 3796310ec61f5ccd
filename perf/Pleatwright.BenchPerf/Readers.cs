using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Pleatwright.BenchPerf;

/// <summary>Many readers at once on a bench served as plain files: each fetches every file, as a browser does at the first visit.</summary>
internal static partial class Readers
{
    public static async Task MeasureAsync(Uri bench, int readers)
    {
        using var client = new HttpClient(new SocketsHttpHandler { MaxConnectionsPerServer = 6 * readers }) { BaseAddress = bench };
        var list = await client.GetStringAsync("service-worker-assets.js");
        string[] files = ["", .. Address().Matches(list).Select(m => m.Groups[1].Value).Where(f => f != "index.html")];
        long bytes = 0;
        var refused = 0;
        var times = new double[readers];
        var clock = Stopwatch.StartNew();
        await Task.WhenAll(Enumerable.Range(0, readers).Select(async r =>
        {
            await Parallel.ForEachAsync(files, new ParallelOptions { MaxDegreeOfParallelism = 6 }, async (file, cancel) =>
            {
                try { Interlocked.Add(ref bytes, (await client.GetByteArrayAsync(file, cancel)).Length); }
                catch (HttpRequestException) { Interlocked.Increment(ref refused); }
            });
            times[r] = clock.Elapsed.TotalSeconds;
        }));
        Array.Sort(times);
        Console.WriteLine($"{readers} readers at once, {files.Length} files each: all served after {times[^1]:0.0} s, median reader {times[readers / 2]:0.0} s; {bytes / 1e6:0} MB in all, {bytes / 1e6 / times[^1]:0} MB a second; {refused} requests failed");
    }

    [GeneratedRegex("\"url\":\\s*\"([^\"]+)\"")]
    private static partial Regex Address();
}
