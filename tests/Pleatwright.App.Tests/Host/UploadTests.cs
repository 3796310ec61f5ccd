using System.Net;
using System.Net.Sockets;
using System.Text;
using Pleatwright.App.Host;

namespace Pleatwright.Tests.Host;

/// <summary>Whoever sends slowly, or never to the end, holds up nobody else.</summary>
public class UploadTests
{
    [Fact]
    public async Task Slow_uploads_hold_up_no_save()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var tag = await shelf.CreateAsync("Gull");
        var slow = await Task.WhenAll(Enumerable.Range(0, 12).Select(i => BeginAsync(shelf, i % 2 == 0 ? 8 * 1024 * 1024 : 2000, i % 2 == 0 ? 1024 * 1024 : 500)));
        using var done = new CancellationTokenSource();
        var dribbling = Task.WhenAll(slow.Select(s => DribbleAsync(s, done.Token)));
        using var answer = await shelf.SaveAsync("Gull", ServedShelf.Titled("Crab"), tag).WaitAsync(TimeSpan.FromMinutes(2));
        Assert.Equal(HttpStatusCode.NoContent, answer.StatusCode);
        Assert.All(slow, s => Assert.True(s.Connected)); // all still on their way
        await done.CancelAsync();
        await dribbling;
        foreach (var s in slow) s.Dispose();
    }

    [Fact]
    public async Task What_is_sent_too_slowly_is_refused_in_the_end()
    {
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        await using var shelf = await ServedShelf.StartAsync(new FolderStore(folder, TimeProvider.System), TimeSpan.FromSeconds(1));
        using var slow = await BeginAsync(shelf, 1024 * 1024, 100);
        using var done = new CancellationTokenSource();
        var dribbling = DribbleAsync(slow, done.Token);
        var heard = new byte[64];
        var taken = await slow.GetStream().ReadAsync(heard).AsTask().WaitAsync(TimeSpan.FromMinutes(3));
        Assert.StartsWith("HTTP/1.1 408", Encoding.ASCII.GetString(heard, 0, taken), StringComparison.Ordinal);
        await done.CancelAsync();
        await dribbling;
        Directory.Delete(folder, recursive: true);
    }

    private static async Task<TcpClient> BeginAsync(ServedShelf shelf, int whole, int now)
    {
        var client = new TcpClient();
        await client.ConnectAsync(IPAddress.Loopback, shelf.Host.Url.Port);
        await client.GetStream().WriteAsync(Encoding.ASCII.GetBytes($"POST /api/shelf/pieces?name=Slow HTTP/1.1\r\nHost: 127.0.0.1:{shelf.Host.Url.Port}\r\nContent-Type: application/json\r\n{Guard.WriteHeader}: 1\r\nContent-Length: {whole}\r\n\r\n"));
        await client.GetStream().WriteAsync(new byte[now]);
        return client;
    }

    // A little faster than the server itself takes for dead.
    private static async Task DribbleAsync(TcpClient client, CancellationToken done)
    {
        try
        {
            while (!done.IsCancellationRequested)
            {
                await client.GetStream().WriteAsync(new byte[100], CancellationToken.None);
                await Task.Delay(200, done);
            }
        }
        catch (Exception e) when (e is OperationCanceledException or IOException or InvalidOperationException) { } // refused, or over
    }
}
