using System.Diagnostics;
using System.Net;
using Pleatwright.Files;
using Pleatwright.Tests.Host;

namespace Pleatwright.Tests.Endurance;

/// <summary>Two hundred requests at once on the host: none fails, and what was saved is whole.</summary>
public class LoadTests
{
    private const int AtOnce = 200;

    [Fact]
    public async Task Two_hundred_requests_at_once_and_none_fails()
    {
        await using var shelf = await ServedShelf.StartAsync();
        for (var i = 0; i < 10; i++) await shelf.CreateAsync($"piece {i}");
        var answered = 0;
        var clock = Stopwatch.StartNew();
        var length = TimeSpan.FromSeconds(Long.Of(2, 60));
        await Task.WhenAll(Enumerable.Range(0, AtOnce).Select(async reader =>
        {
            for (var turn = 0; clock.Elapsed < length; turn++)
            {
                var name = $"piece {(reader + turn) % 10}";
                switch ((reader + turn) % 4)
                {
                    case 0: await GetAsync("/api/shelf"); break;
                    case 1: await GetAsync("/"); break;
                    case 2: await GetAsync(ServedShelf.Address(name)); break;
                    default:
                        using (var got = await shelf.Client.GetAsync(ServedShelf.Address(name)))
                        using (var saved = await shelf.SaveAsync(name, ServedShelf.Titled($"{reader}.{turn}"), got.Headers.ETag!, "?by=bench"))
                            Assert.True(saved.StatusCode is HttpStatusCode.NoContent or HttpStatusCode.PreconditionFailed or HttpStatusCode.Conflict, $"{saved.StatusCode}");
                        break;
                }
                Interlocked.Increment(ref answered);
            }
        }));
        Assert.True(answered >= AtOnce);
        foreach (var file in Directory.GetFiles(shelf.Folder, "*.piece.json", SearchOption.AllDirectories)) PieceReader.Read(await File.ReadAllBytesAsync(file));

        async Task GetAsync(string address)
        {
            using var answer = await shelf.Client.GetAsync(address);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            await answer.Content.ReadAsByteArrayAsync();
        }
    }
}
