using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Pleatwright.App.Host;
using Pleatwright.Files;
using Pleatwright.Tests.Host;

namespace Pleatwright.Tests.Endurance;

/// <summary>The program killed outright at random moments of saving: every file is the old one or the new one, whole.</summary>
public class KillTests
{
    [Fact]
    public async Task A_host_killed_while_saving_loses_nothing_it_answered_for()
    {
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        var random = new Random(19);
        string[] names = ["gull", "crab"];
        foreach (var name in names) await File.WriteAllTextAsync(FileOf(folder, name), ServedShelf.Titled("0"));
        for (var kill = 0; kill < Long.Of(6, 500); kill++)
        {
            using var host = Commands.Program.Start(["bench", "--shelf", folder, "--port", "0"]);
            var url = (await host.StandardOutput.ReadLineAsync())!.Split(' ')[^1];
            var savers = names.Select(n => SaveOnAsync(url, n)).ToArray();
            await Task.Delay(random.Next(20, 220));
            host.Kill();
            await host.WaitForExitAsync();
            var answered = await Task.WhenAll(savers);
            for (var i = 0; i < names.Length; i++)
                Assert.InRange(Number(File.ReadAllBytes(FileOf(folder, names[i]))), answered[i], int.MaxValue);
            foreach (var version in Directory.EnumerateFiles(folder, "*.piece.json", SearchOption.AllDirectories))
                Number(File.ReadAllBytes(version)); // readable, each of them
        }
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("svg")]
    [InlineData("txt")]
    public async Task A_command_killed_while_writing_leaves_the_old_file_or_the_new(string ending)
    {
        var folder = Directory.CreateTempSubdirectory("plates").FullName;
        var target = Path.Combine(folder, "plate." + ending);
        string[] make = ["plate", Commands.Program.Example("first-pennant"), "-o", target];
        var clock = Stopwatch.StartNew();
        await Commands.Program.Start(make).WaitForExitAsync();
        var whole = (int)clock.ElapsedMilliseconds;
        var expected = await File.ReadAllBytesAsync(target);
        var random = new Random(23);
        for (var kill = 0; kill < Long.Of(4, 250); kill++)
        {
            byte[] old = [(byte)(kill % 10 + '0')];
            await File.WriteAllBytesAsync(target, old);
            using var program = Commands.Program.Start(make);
            await Task.Delay(random.Next(whole / 2, whole * 11 / 10 + 5));
            program.Kill();
            await program.WaitForExitAsync();
            var found = await File.ReadAllBytesAsync(target);
            Assert.True(found.SequenceEqual(old) || found.SequenceEqual(expected), $"{found.Length} bytes of {expected.Length} after kill {kill}");
        }
        Directory.Delete(folder, recursive: true);
    }

    private static string FileOf(string folder, string name) => Path.Combine(folder, name + ".piece.json");

    private static int Number(byte[] text) => int.Parse(PieceReader.Read(text).Title, CultureInfo.InvariantCulture);

    // Saves one number after another until the host is gone; gives the last that was answered.
    private static async Task<int> SaveOnAsync(string url, string name)
    {
        using var client = new HttpClient { BaseAddress = new Uri(url) };
        client.DefaultRequestHeaders.Add(Guard.WriteHeader, "1");
        var answered = 0;
        try
        {
            using var got = await client.GetAsync(ServedShelf.Address(name));
            var edition = got.Headers.ETag!;
            answered = Number(await got.Content.ReadAsByteArrayAsync());
            for (; ; )
            {
                using var request = new HttpRequestMessage(HttpMethod.Put, ServedShelf.Address(name)) { Content = ServedShelf.Json(ServedShelf.Titled($"{answered + 1}")) };
                request.Headers.IfMatch.Add(edition);
                using var answer = await client.SendAsync(request);
                Assert.Equal(HttpStatusCode.NoContent, answer.StatusCode);
                (edition, answered) = (answer.Headers.ETag!, answered + 1);
            }
        }
        catch (Exception e) when (e is HttpRequestException or IOException or SocketException)
        {
            return answered;
        }
    }
}
