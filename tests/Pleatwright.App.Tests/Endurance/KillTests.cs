using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Pleatwright.App;
using Pleatwright.App.Host;
using Pleatwright.Files;
using Pleatwright.Tests.Host;

namespace Pleatwright.Tests.Endurance;

/// <summary>
/// The program killed outright in the middle of saving, which is seen by the file it writes beside the one it saves: every file is the old one or the new one, whole.
/// How many kills fell within a save is counted, and it must have been some.
/// </summary>
public class KillTests
{
    private const int MostTries = 40; // of a taste, until one has fallen within a save

    [Fact]
    public async Task A_host_killed_while_saving_loses_nothing_it_answered_for()
    {
        var folder = Directory.CreateTempSubdirectory("shelf").FullName;
        await KillWhileSavingAsync(folder, f => Commands.Program.Start(["bench", "--shelf", f, "--port", "0"]), Long.Of(4, 500));
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>Kills hosts of a shelf, one after another, while two pieces are saved without a pause.</summary>
    internal static async Task KillWhileSavingAsync(string folder, Func<string, Process> start, int kills)
    {
        var random = new Random(19);
        string[] names = ["gull", "crab"];
        foreach (var name in names) await File.WriteAllTextAsync(FileOf(folder, name), ServedShelf.Titled("0"));
        var within = 0;
        for (var kill = 0; kill < kills || (within == 0 && kill < MostTries); kill++)
        {
            using var host = start(folder);
            var url = (await host.StandardOutput.ReadLineAsync())!.Trim().Split(' ')[^1];
            using var saving = new Saving(folder, random.Next(1, 30), host);
            var savers = names.Select(n => SaveOnAsync(url, n)).ToArray();
            await host.WaitForExitAsync();
            var answered = await Task.WhenAll(savers);
            var stands = names.Select(n => Number(File.ReadAllBytes(FileOf(folder, n)))).ToArray();
            for (var i = 0; i < names.Length; i++) Assert.InRange(stands[i], answered[i], answered[i] + 1);
            Assert.Contains(answered, a => a > 0); // none was killed before anything was saved
            if (Saving.LeftIn(folder) || !stands.SequenceEqual(answered)) within++;
            foreach (var version in Directory.EnumerateFiles(folder, "*.piece.json", SearchOption.AllDirectories))
                Number(File.ReadAllBytes(version)); // readable, each of them
        }
        Assert.True(within > 0, "no kill fell within a save");
    }

    [Theory]
    [InlineData("svg")]
    [InlineData("txt")]
    public async Task A_command_killed_while_writing_leaves_the_old_file_or_the_new_and_what_it_left_is_swept_at_the_next(string ending)
    {
        var folder = Directory.CreateTempSubdirectory("plates").FullName;
        var target = Path.Combine(folder, "plate." + ending);
        string[] make = ["plate", Commands.Program.Example("first-pennant"), "-o", target];
        Assert.Equal(0, Commands.Program.Run(make).Exit);
        var expected = await File.ReadAllBytesAsync(target);
        var within = 0;
        for (var kill = 0; kill < Long.Of(2, 250) || (within == 0 && kill < MostTries); kill++)
        {
            var old = (byte[])[.. expected, (byte)'\n'];
            await File.WriteAllBytesAsync(target, old);
            using var program = Commands.Program.Start(make);
            using var saving = new Saving(folder, 1, program);
            await program.WaitForExitAsync(); // killed, or faster than that
            var found = await File.ReadAllBytesAsync(target);
            Assert.True(found.SequenceEqual(old) || found.SequenceEqual(expected), $"{found.Length} bytes of {expected.Length} after kill {kill}");
            if (Saving.LeftIn(folder)) within++;
        }
        Assert.True(within > 0, "no kill fell within a save");
        await File.WriteAllTextAsync(Path.Combine(folder, $".left{AtomicFile.PassingEnding}"), "by a kill");
        foreach (var left in Directory.GetFiles(folder, ".*")) File.SetLastWriteTimeUtc(left, DateTime.UtcNow - 2 * AtomicFile.LeftoverAge); // a while ago
        Assert.Equal(0, Commands.Program.Run(make).Exit);
        Assert.Equal([target], Directory.GetFiles(folder));
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>Watches a folder for the files that pass, and kills the program at the n-th of them.</summary>
    private sealed class Saving : IDisposable
    {
        private readonly FileSystemWatcher watcher;
        private int left;

        public Saving(string folder, int at, Process program)
        {
            left = at;
            watcher = new FileSystemWatcher(folder, "*" + AtomicFile.PassingEnding) { IncludeSubdirectories = true };
            watcher.Created += (_, _) =>
            {
                if (Interlocked.Decrement(ref left) == 0) program.Kill();
            };
            watcher.EnableRaisingEvents = true;
        }

        public static bool LeftIn(string folder) => Directory.EnumerateFiles(folder, "*" + AtomicFile.PassingEnding, new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = 0 }).Any();

        public void Dispose() => watcher.Dispose();
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
