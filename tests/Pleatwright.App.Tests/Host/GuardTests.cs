using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using System.Text;
using Pleatwright.App.Host;
using Pleatwright.Files;

namespace Pleatwright.Tests.Host;

public class GuardTests
{
    [Fact]
    public async Task Only_this_machines_own_names_with_our_port_are_answered()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var port = shelf.Host.Url.Port;
        foreach (var (host, welcome) in new[]
        {
            ($"127.0.0.1:{port}", true), ($"localhost:{port}", true), ($"[::1]:{port}", true),
            ($"127.0.0.1:{port + 1}", false), ("127.0.0.1", false), ("localhost", false), ($"localhost.example:{port}", false),
            ($"pieces.example:{port}", false), ($"127.0.0.1.example:{port}", false), ($"0.0.0.0:{port}", false), ($"127.0.0.2:{port}", false),
        })
        {
            foreach (var path in new[] { "/", "/api/shelf", "/index.html" })
            {
                using var request = new HttpRequestMessage(HttpMethod.Get, path);
                request.Headers.Host = host;
                using var answer = await shelf.Client.SendAsync(request);
                Assert.Equal(welcome ? HttpStatusCode.OK : HttpStatusCode.MisdirectedRequest, answer.StatusCode);
            }
        }
    }

    [Fact]
    public async Task It_listens_on_loopback_and_nowhere_else()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var listeners = IPGlobalProperties.GetIPGlobalProperties().GetActiveTcpListeners().Where(l => l.Port == shelf.Host.Url.Port);
        Assert.Equal([IPAddress.Loopback], listeners.Select(l => l.Address));
    }

    [Theory]
    [InlineData("Origin", "http://elsewhere.example")]
    [InlineData("Origin", "null")]
    [InlineData("Origin", "http://localhost:1")]
    [InlineData("Origin", "https://127.0.0.1:PORT")]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    [InlineData("Sec-Fetch-Site", "none")]
    public async Task A_write_from_another_site_is_refused(string header, string value)
    {
        await using var shelf = await ServedShelf.StartAsync();
        var tag = await shelf.CreateAsync("Gull");
        var before = File.ReadAllBytes(shelf.FileOf("Gull"));
        foreach (var (method, path) in Writes)
        {
            using var request = new HttpRequestMessage(method, path) { Content = ServedShelf.Json(ServedShelf.Titled("Other")) };
            request.Headers.TryAddWithoutValidation(header, value.Replace("PORT", $"{shelf.Host.Url.Port}", StringComparison.Ordinal));
            request.Headers.IfMatch.Add(tag);
            using var answer = await shelf.Client.SendAsync(request);
            Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        }
        Assert.Equal(before, File.ReadAllBytes(shelf.FileOf("Gull")));
        Assert.Single(Directory.GetFiles(shelf.Folder));
    }

    [Fact]
    public async Task A_write_without_the_benchs_header_is_refused_and_no_site_is_given_leave_to_send_it()
    {
        await using var shelf = await ServedShelf.StartAsync();
        await shelf.CreateAsync("Gull");
        shelf.Client.DefaultRequestHeaders.Remove(Guard.WriteHeader);
        foreach (var (method, path) in Writes)
        {
            using var answer = await shelf.Client.SendAsync(new HttpRequestMessage(method, path) { Content = ServedShelf.Json(ServedShelf.Piece) });
            Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        }
        using var asking = new HttpRequestMessage(HttpMethod.Options, "/api/shelf/pieces/Gull");
        asking.Headers.Add("Origin", "http://elsewhere.example");
        asking.Headers.Add("Access-Control-Request-Method", "PUT");
        asking.Headers.Add("Access-Control-Request-Headers", Guard.WriteHeader);
        using var refused = await shelf.Client.SendAsync(asking);
        Assert.False(refused.IsSuccessStatusCode);
        Assert.DoesNotContain(refused.Headers, h => h.Key.StartsWith("Access-Control", StringComparison.OrdinalIgnoreCase));
        Assert.Single(Directory.GetFiles(shelf.Folder));
    }

    [Fact]
    public async Task A_form_another_site_could_send_without_asking_is_refused_by_its_kind_too()
    {
        await using var shelf = await ServedShelf.StartAsync();
        using var answer = await shelf.Client.PostAsync("/api/shelf/pieces?name=Gull", new StringContent(ServedShelf.Piece, Encoding.UTF8, "text/plain"));
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, answer.StatusCode);
    }

    [Fact]
    public async Task Another_sites_script_may_not_even_read_the_list()
    {
        await using var shelf = await ServedShelf.StartAsync();
        foreach (var (header, value) in new[] { ("Origin", "http://elsewhere.example"), ("Sec-Fetch-Site", "cross-site"), ("Sec-Fetch-Site", "same-site") })
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, "/api/shelf");
            request.Headers.Add(header, value);
            using var answer = await shelf.Client.SendAsync(request);
            Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        }
    }

    [Fact]
    public async Task Every_answer_carries_the_security_headers()
    {
        await using var shelf = await ServedShelf.StartAsync();
        foreach (var path in new[] { "/", "/api/shelf", "/api/shelf/pieces/None", "/nothing.js", "/api/none", "/table" })
        {
            using var answer = await shelf.Client.GetAsync(path);
            var policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
            Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
            Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("script-src 'self' 'unsafe", policy, StringComparison.Ordinal);
            Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
            Assert.Equal("no-referrer", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
            Assert.False(answer.Headers.Contains("Server"));
        }
    }

    [Fact]
    public async Task Something_too_large_is_refused_with_a_clear_word()
    {
        await using var shelf = await ServedShelf.StartAsync();
        var content = new StreamContent(new EndlessSpaces(PieceReader.MostBytes + 1L));
        content.Headers.ContentType = new("application/json");
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/shelf/pieces?name=Gull") { Content = content };
        request.Headers.TransferEncodingChunked = true;
        using var answer = await shelf.Client.SendAsync(request);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Contains("larger than 64 MB", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(shelf.Folder));
    }

    [Fact]
    public async Task Nothing_outside_the_shelf_is_read_by_any_way_of_writing_the_path()
    {
        var outer = Directory.CreateTempSubdirectory("outer").FullName;
        File.WriteAllText(Path.Combine(outer, "secret.piece.json"), ServedShelf.Titled("Secret"));
        var folder = Directory.CreateDirectory(Path.Combine(outer, "shelf")).FullName;
        await using var shelf = await ServedShelf.StartAsync(folder);
        foreach (var way in new[]
        {
            "../secret", "..%2fsecret", "..%2Fsecret", "%2e%2e/secret", "%2e%2e%2fsecret", "..%5csecret", "..\\secret", "....//secret", "%252e%252e%252fsecret",
            "x/../../secret", "secret%00", "%c0%ae%c0%ae/secret", "file:..%2fsecret", ".versions%2f..%2f..%2fsecret",
            Uri.EscapeDataString(Path.Combine(outer, "secret")),
        })
        {
            foreach (var line in new[] { $"GET /api/shelf/pieces/{way} HTTP/1.1", $"GET /api/shelf/pieces/{way}/versions/1 HTTP/1.1", $"GET /{way}.piece.json HTTP/1.1", $"DELETE /api/shelf/pieces/{way} HTTP/1.1" })
            {
                var answer = await RawAsync(shelf.Host.Url.Port, line);
                Assert.DoesNotContain("Secret", answer, StringComparison.Ordinal);
                if (line.Contains("/api/", StringComparison.Ordinal)) Assert.DoesNotMatch("^HTTP/1.1 2", answer);
            }
        }
        Assert.True(File.Exists(Path.Combine(outer, "secret.piece.json")));
        await shelf.DisposeAsync();
        Directory.Delete(outer, recursive: true);
    }

    private static readonly (HttpMethod, string)[] Writes =
    [
        (HttpMethod.Post, "/api/shelf/pieces?name=Other"), (HttpMethod.Put, "/api/shelf/pieces/Gull"), (HttpMethod.Delete, "/api/shelf/pieces/Gull"),
        (HttpMethod.Post, "/api/shelf/pieces/Gull/rename?to=Other"), (HttpMethod.Post, "/api/shelf/pieces/Gull/duplicate"),
        (HttpMethod.Post, "/api/shelf/pieces/Gull/undelete"), (HttpMethod.Post, "/api/shelf/pieces/Gull/versions/1/restore"),
    ];

    // Sent as written: a client library would tidy the path first.
    private static async Task<string> RawAsync(int port, string line)
    {
        using var socket = new TcpClient();
        await socket.ConnectAsync(IPAddress.Loopback, port);
        await using var stream = socket.GetStream();
        await stream.WriteAsync(Encoding.UTF8.GetBytes($"{line}\r\nHost: 127.0.0.1:{port}\r\n{Guard.WriteHeader}: 1\r\nConnection: close\r\n\r\n"));
        using var reader = new StreamReader(stream);
        return await reader.ReadToEndAsync();
    }

    private sealed class EndlessSpaces(long length) : Stream
    {
        private long left = length;

        public override bool CanRead => true;
        public override bool CanSeek => false;
        public override bool CanWrite => false;
        public override long Length => throw new NotSupportedException();
        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override int Read(byte[] buffer, int offset, int count)
        {
            var now = (int)Math.Min(left, count);
            Array.Fill(buffer, (byte)' ', offset, now);
            left -= now;
            return now;
        }

        public override void Flush() { }
        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();
        public override void SetLength(long value) => throw new NotSupportedException();
        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
