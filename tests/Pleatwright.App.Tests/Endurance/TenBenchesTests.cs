using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using Pleatwright.Files;
using Pleatwright.Tests.Host;

namespace Pleatwright.Tests.Endurance;

/// <summary>Ten benches draw on one shelf, through two hosts of it: nobody's answered save is written over unseen.</summary>
public class TenBenchesTests
{
    private const int Benches = 10;

    [Fact]
    public async Task Every_answered_save_follows_the_one_before_it()
    {
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        string[] names = ["Gull", "Crab", "Buoy"];
        await using (var one = await ServedShelf.StartAsync(folder))
        await using (var other = await ServedShelf.StartAsync(folder))
        {
            ServedShelf[] hosts = [one, other];
            foreach (var name in names) await one.CreateAsync(name, ServedShelf.Titled($"{name} 0.0"));
            var saves = new ConcurrentBag<(string Name, string Over, string Title)>();
            var (clock, length, refused) = (Stopwatch.StartNew(), TimeSpan.FromSeconds(Long.Of(2, 600)), 0);
            await Task.WhenAll(Enumerable.Range(1, Benches).Select(bench => Task.Run(async () =>
            {
                var random = new Random(bench);
                for (var turn = 1; clock.Elapsed < length || ((refused == 0 || saves.Count < 3 * Benches) && clock.Elapsed.TotalMinutes < 3); turn++)
                {
                    var (host, name) = (hosts[random.Next(2)], names[random.Next(names.Length)]);
                    using var got = await host.Client.GetAsync(ServedShelf.Address(name));
                    Assert.Equal(HttpStatusCode.OK, got.StatusCode);
                    var (over, mine) = (PieceReader.Read(await got.Content.ReadAsByteArrayAsync()).Title, $"{name} {bench}.{turn}");
                    await Task.Delay(random.Next(4)); // drawing
                    using var saved = await host.SaveAsync(name, ServedShelf.Titled(mine), got.Headers.ETag!, random.Next(2) == 0 ? "?by=bench" : "");
                    if (saved.StatusCode == HttpStatusCode.NoContent) saves.Add((name, over, mine));
                    else if (saved.StatusCode == HttpStatusCode.PreconditionFailed) Interlocked.Increment(ref refused);
                    else Assert.Equal(HttpStatusCode.NoContent, saved.StatusCode);
                }
            })));
            Assert.True(refused > 0 && saves.Count > Benches, $"{saves.Count} saves, {refused} refused: they never met");
            foreach (var name in names)
            {
                var after = saves.Where(s => s.Name == name).ToDictionary(s => s.Over, s => s.Title); // two over the same one would be a save lost
                var (now, count) = ($"{name} 0.0", 0);
                for (; after.TryGetValue(now, out var next); count++) now = next;
                Assert.Equal(after.Count, count);
                Assert.Equal(now, PieceReader.Read(await File.ReadAllBytesAsync(one.FileOf(name))).Title);
            }
        }
        Directory.Delete(folder, recursive: true);
    }
}
