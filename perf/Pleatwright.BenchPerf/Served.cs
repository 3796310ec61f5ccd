using System.Diagnostics;

namespace Pleatwright.BenchPerf;

/// <summary>The published program, serving a shelf of its own on a free port.</summary>
internal sealed class Served : IDisposable
{
    private readonly Process process;

    public Served(string published)
    {
        Shelf = Directory.CreateTempSubdirectory("shelf").FullName;
        process = Process.Start(new ProcessStartInfo(Path.Combine(published, OperatingSystem.IsWindows() ? "pleatwright.exe" : "pleatwright"),
            ["bench", "--shelf", Shelf, "--port", "0"]) { RedirectStandardOutput = true })!;
        Url = process.StandardOutput.ReadLine()!.Split(' ')[^1];
    }

    public string Shelf { get; }

    public string Url { get; }

    public void Dispose()
    {
        process.Kill();
        process.WaitForExit();
        process.Dispose();
        Directory.Delete(Shelf, recursive: true);
    }
}
