using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Pleatwright.Files;
using Pleatwright.Tests.Host;

namespace Pleatwright.Tests.Endurance;

/// <summary>Whatever is sent to the host, it answers or refuses. What was found this way is kept as a test below.</summary>
public class FuzzHostTests
{
    [Fact]
    public async Task The_host_answers_or_refuses_whatever_it_is_sent()
    {
        await using var shelf = await ServedShelf.StartAsync();
        await shelf.CreateAsync("Gull");
        string[] requests =
        [
            "GET /api/shelf HTTP/1.1\r\nHost: HOST\r\n\r\n",
            "GET /api/shelf/pieces/Gull/versions/1 HTTP/1.1\r\nHost: HOST\r\n\r\n",
            "GET /index.html HTTP/1.1\r\nHost: HOST\r\nRange: bytes=0-10\r\nAccept-Encoding: br, gzip\r\n\r\n",
            "POST /api/shelf/pieces?name=Crab HTTP/1.1\r\nHost: HOST\r\nPleatwright-Bench: 1\r\nContent-Type: application/json\r\nContent-Length: 20\r\n\r\n{ \"pleatwright\": 1 } ",
            "PUT /api/shelf/pieces/Gull HTTP/1.1\r\nHost: HOST\r\nPleatwright-Bench: 1\r\nIf-Match: \"x\"\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n",
            "DELETE /api/shelf/pieces/%2e%2e%2fGull HTTP/1.1\r\nHost: HOST\r\nPleatwright-Bench: 1\r\n\r\n",
        ];
        var good = requests.Select(r => Encoding.UTF8.GetBytes(r.Replace("HOST", $"127.0.0.1:{shelf.Host.Url.Port}", StringComparison.Ordinal))).ToArray();
        var mutations = new Mutations(11, good);
        for (var i = 0; i < Long.Of(1_500, 60_000); i++)
        {
            var bytes = mutations.Next();
            var clock = Stopwatch.StartNew();
            using var client = new TcpClient();
            await client.ConnectAsync(IPAddress.Loopback, shelf.Host.Url.Port);
            string? line;
            try
            {
                var stream = client.GetStream();
                await stream.WriteAsync(bytes);
                client.Client.Shutdown(SocketShutdown.Send);
                using var answer = new StreamReader(stream, Encoding.Latin1);
                line = await answer.ReadLineAsync();
            }
            catch (Exception e) when (e is IOException or SocketException) { line = null; } // hung up on
            Assert.True(line is null || line.StartsWith("HTTP/1.1 ", StringComparison.Ordinal) && line[9] < '5' || line.StartsWith("HTTP/1.1 505", StringComparison.Ordinal), $"{line} for {Convert.ToBase64String(bytes)}");
            Assert.True(clock.Elapsed < TimeSpan.FromSeconds(30), $"{clock.Elapsed} for {Convert.ToBase64String(bytes)}");
        }
        using var still = await shelf.Client.GetAsync("/api/shelf");
        Assert.Equal(HttpStatusCode.OK, still.StatusCode);
        foreach (var file in Directory.GetFiles(shelf.Folder, "Gull*.piece.json", SearchOption.AllDirectories)) PieceReader.Read(await File.ReadAllBytesAsync(file)); // it may rightly be deleted
        Assert.NotEmpty(Directory.GetFiles(shelf.Folder, "*.piece.json", SearchOption.AllDirectories));
        Assert.Equal([shelf.Folder], Directory.GetDirectories(Path.GetDirectoryName(shelf.Folder)!, Path.GetFileName(shelf.Folder) + "*"));
    }

    [Fact]
    public async Task A_chunk_of_impossible_size_is_a_bad_request()
    {
        await using var shelf = await ServedShelf.StartAsync();
        using var client = new TcpClient();
        await client.ConnectAsync(IPAddress.Loopback, shelf.Host.Url.Port);
        await client.GetStream().WriteAsync(Encoding.UTF8.GetBytes($"PUT /api/shelf/pieces/Gull HTTP/1.1\r\nHost: 127.0.0.1:{shelf.Host.Url.Port}\r\nPleatwright-Bench: 1\r\n"
            + "If-Match: \"x\"\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n099999999999999999999\r\n\r\n"));
        using var answer = new StreamReader(client.GetStream());
        Assert.StartsWith("HTTP/1.1 400", await answer.ReadLineAsync(), StringComparison.Ordinal);
    }
}
