using System.CommandLine;
using System.ComponentModel;
using System.Diagnostics;
using Pleatwright.App.Host;
using Pleatwright.Shelf;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright bench</c>: serves the bench and a shelf of pieces to this machine's browser.</summary>
internal static class BenchCommand
{
    private const int UsualPort = 7316;

    public static Command Make()
    {
        var shelf = new Option<string?>("--shelf") { Description = "The folder of pieces; made when it is not there.", HelpName = "DIR" };
        var port = new WholeOption("--port", "N", $"The port on this machine; 0 for any free one. Usually {UsualPort}.", (0, 65535));
        var command = new Command("bench", "Opens the bench: draw, prove, order, print and stitch in the browser.") { shelf, port };
        command.SetAction((parsed, cancel) => Serve(parsed.GetValue(shelf), parsed.GetValue(port), open: false, cancel));
        return command;
    }

    /// <summary>Serves the usual shelf and opens it in the browser: what the program does when no command is given.</summary>
    public static Task<int> Open(CancellationToken cancel) => Serve(null, null, open: true, cancel);

    private static async Task<int> Serve(string? shelf, int? port, bool open, CancellationToken cancel)
    {
        await using var host = await Start(shelf ?? BenchHost.DefaultShelf, port, cancel);
        try
        {
            Console.WriteLine($"The bench is open at {host.Url}");
            Console.WriteLine($"Pieces are kept in {host.Shelf}. Press Ctrl-C to close it.");
        }
        catch (UnheardException) { } // started where nobody reads along
        if (open) TryOpen(host.Url);
        await host.RunAsync(cancel);
        return CommandLine.Done;
    }

    private static async Task<BenchHost> Start(string shelf, int? port, CancellationToken cancel)
    {
        try
        {
            try
            {
                return await BenchHost.StartAsync(shelf, port ?? UsualPort, cancel);
            }
            catch (IOException) when (port is null) // the usual port is taken, perhaps by another bench; any other will do
            {
                return await BenchHost.StartAsync(shelf, 0, cancel);
            }
        }
        catch (ShelfException e)
        {
            throw new UsageException(e.Message);
        }
        catch (IOException e)
        {
            throw new UsageException($"the bench cannot be opened on port {port}: {e.Message}");
        }
    }

    private static void TryOpen(Uri url)
    {
        try
        {
            using var browser = Process.Start(new ProcessStartInfo(url.ToString()) { UseShellExecute = true });
        }
        catch (Exception e) when (e is Win32Exception or InvalidOperationException or PlatformNotSupportedException)
        {
            // No browser can be started from here; the address is printed above.
        }
    }
}
