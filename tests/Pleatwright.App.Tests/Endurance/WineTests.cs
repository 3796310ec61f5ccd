using System.Diagnostics;
using System.IO.Compression;
using System.Net;
using System.Text;
using System.Text.Json;
using Pleatwright.App.Host;
using Pleatwright.Files;
using Pleatwright.Tests.Host;

namespace Pleatwright.Tests.Endurance;

/// <summary>
/// The archive for Windows, unpacked and run under Wine from an empty folder. It needs Wine and that archive, which ./check installs and makes when
/// PLEATWRIGHT_ENDURANCE is set; without that these tests are not among those that run.
/// </summary>
public sealed class WineTests : IClassFixture<WineTests.Unpacked>
{
    private readonly Unpacked windows;

    public WineTests(Unpacked windows) => this.windows = windows;

    /// <summary>The archive in a folder of its own, and a Windows that nothing was ever installed on.</summary>
    public sealed class Unpacked : IDisposable
    {
        private readonly DirectoryInfo home = Directory.CreateTempSubdirectory("windows");
        private string program = "";

        public string Empty => home.CreateSubdirectory("empty").FullName;

        public string Folder(string name) => home.CreateSubdirectory(name).FullName;

        public string Example(string name) => Path.Combine(Path.GetDirectoryName(Program)!, "examples", name + ".piece.json");

        private string Program
        {
            get
            {
                if (program.Length > 0) return program;
                var packages = Environment.GetEnvironmentVariable("PLEATWRIGHT_PACKAGES") ?? throw new InvalidOperationException("PLEATWRIGHT_PACKAGES names no packages.");
                var folder = Path.Combine(home.FullName, "program");
                ZipFile.ExtractToDirectory(Assert.Single(Directory.GetFiles(packages, "pleatwright-*-win-x64.zip")), folder);
                return program = Path.Combine(Assert.Single(Directory.GetDirectories(folder)), "pleatwright.exe");
            }
        }

        /// <summary>Starts it in the empty folder.</summary>
        public Process Start(params string[] arguments) => Wine([Program, .. arguments]);

        /// <summary>Runs it to its end.</summary>
        public (int Exit, byte[] Out, string Error) Run(params string[] arguments)
        {
            using var process = Start(arguments);
            var error = process.StandardError.ReadToEndAsync();
            using var text = new MemoryStream();
            process.StandardOutput.BaseStream.CopyTo(text);
            process.WaitForExit();
            return (process.ExitCode, text.ToArray(), error.Result);
        }

        public void Dispose()
        {
            if (program.Length > 0)
                using (var server = Process.Start(Prepared(new ProcessStartInfo("wineserver", ["-k"])))!) server.WaitForExit(); // of this prefix alone
            home.Delete(recursive: true);
        }

        private Process Wine(string[] arguments) => Process.Start(Prepared(new ProcessStartInfo("wine", arguments) { WorkingDirectory = Empty }))!;

        private ProcessStartInfo Prepared(ProcessStartInfo start)
        {
            (start.RedirectStandardOutput, start.RedirectStandardError) = (true, true);
            start.Environment["WINEPREFIX"] = Path.Combine(home.FullName, "prefix");
            start.Environment["WINEDEBUG"] = "-all";
            start.Environment["DISPLAY"] = "";
            return start;
        }
    }

    [Fact(Explicit = true)]
    public void Plan_plate_and_trace_answer_from_an_empty_folder()
    {
        var (exit, text, error) = windows.Run("plan", windows.Example("first-pennant"));
        Assert.True(exit == 0, error);
        Assert.Contains("near the cloth’s colour", new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(text), StringComparison.Ordinal);
        var named = Path.Combine(windows.Folder("empty"), "named.piece.json");
        File.WriteAllText(named, ServedShelf.Titled("Größe “é” 🦀"));
        using var plan = JsonDocument.Parse(windows.Run("plan", "named.piece.json", "--json").Out); // UTF-8, as JSON is
        Assert.True(plan.RootElement.GetProperty("pleats").GetInt32() > 0);

        (exit, _, error) = windows.Run("plate", windows.Example("first-pennant"), "-o", "plate.pdf");
        Assert.True(exit == 0, error);
        var plate = File.ReadAllBytes(Path.Combine(windows.Empty, "plate.pdf"));
        Assert.Equal(PieceWriter.Write(PieceReader.Read(File.ReadAllBytes(windows.Example("first-pennant")))), Encoding.UTF8.GetString(PieceFinder.Read(plate).Utf8));

        (exit, _, error) = windows.Run("trace", Repository.Path("src", "Pleatwright.Bench", "wwwroot", "icons", "pleatwright-192.png"), "--width", "40", "--threads", "3", "-o", "traced.piece.json");
        Assert.True(exit == 0, error);
        Assert.NotEmpty(PieceReader.Read(File.ReadAllBytes(Path.Combine(windows.Empty, "traced.piece.json"))).Figures);
        Assert.Equal(2, windows.Run("plan", "nothing.piece.json").Exit);
    }

    [Fact(Explicit = true)]
    public async Task The_bench_answers_and_keeps_names_that_are_one_file_to_the_disk_apart()
    {
        var shelf = windows.Folder("shelf of names");
        using var bench = windows.Start("bench", "--shelf", shelf, "--port", "0");
        try
        {
            using var client = Client(await UrlAsync(bench));
            Assert.Contains("Pleatwright", await client.GetStringAsync(new Uri("/", UriKind.Relative)), StringComparison.Ordinal);
            Assert.Contains("\"pieces\":[]", await client.GetStringAsync(new Uri("/api/shelf", UriKind.Relative)), StringComparison.Ordinal);
            string[] names = ["Boat", "boat", "BOAT", "caf\u00e9", "cafe\u0301", "Größe", "GRÖSSE"];
            foreach (var name in names)
            {
                using var made = await client.PostAsync($"/api/shelf/pieces?name={Uri.EscapeDataString(name)}", ServedShelf.Json(ServedShelf.Titled("as " + name.Normalize())));
                Assert.True(made.StatusCode == HttpStatusCode.Created, $"{name}: {made.StatusCode}"); // under a number where the name is taken
            }
            foreach (var name in (string[])["con", "NUL", "a.", "a:b", "..\\away", "COM1"])
            {
                using var refused = await client.PostAsync($"/api/shelf/pieces?name={Uri.EscapeDataString(name)}", ServedShelf.Json(ServedShelf.Piece));
                Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
            }
            using var list = JsonDocument.Parse(await client.GetStringAsync(new Uri("/api/shelf", UriKind.Relative)));
            var listed = list.RootElement.GetProperty("pieces").EnumerateArray().Select(p => p.GetProperty("name").GetString()!).ToArray();
            var files = Directory.GetFiles(shelf, "*.piece.json");
            Assert.Equal(names.Length, files.Length);
            Assert.Equal(names.Length, listed.Length);
            Assert.Equal(files.Length, files.Select(f => Path.GetFileName(f).ToUpperInvariant()).Distinct().Count()); // no two are one to a disk that tells no case apart
            foreach (var name in listed)
                Assert.StartsWith("as ", PieceReader.Read(await client.GetByteArrayAsync(ServedShelf.Address(name))).Title, StringComparison.Ordinal);
            Assert.Equal("as Boat", PieceReader.Read(await File.ReadAllBytesAsync(Path.Combine(shelf, "Boat.piece.json"))).Title);
        }
        finally { bench.Kill(entireProcessTree: true); }
    }

    [Fact(Explicit = true)]
    public Task A_host_killed_while_saving_loses_nothing_it_answered_for() =>
        KillTests.KillWhileSavingAsync(windows.Folder("shelf of kills"), folder => windows.Start("bench", "--shelf", folder, "--port", "0"), Long.Of(4, 60));

    private static async Task<string> UrlAsync(Process bench) => (await bench.StandardOutput.ReadLineAsync())!.Trim().Split(' ')[^1];

    private static HttpClient Client(string url)
    {
        var client = new HttpClient { BaseAddress = new Uri(url) };
        client.DefaultRequestHeaders.Add(Guard.WriteHeader, "1");
        return client;
    }
}
