using System.Diagnostics;
using System.Globalization;
using System.Text;
using Pleatwright.App.Commands;

namespace Pleatwright.Tests.Commands;

/// <summary>Long work tells how far it is, and a real interrupt stops it cleanly.</summary>
public sealed class StopTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    public void Dispose() => folder.Delete(recursive: true);

    private string In(string name) => Path.Combine(folder.FullName, name);

    // Specks of four threads all over 2,000 pleats: far more than can be ordered or laid out in a few seconds.
    private string Large()
    {
        const int valleys = 1999, rows = 401;
        var random = 12345u;
        var text = new StringBuilder("""{ "pleatwright": 1, "cloth": { "form": "panel", "finishedWidth": "2000 mm", "gauge": { "pleatsPerInch": 25.4 }, "gatheringRows": 81 }, "threads": {""");
        text.AppendJoin(',', "abcd".Select(c => $" \"{c}\": {{ \"colour\": \"#b3202c\" }}")).Append(""" }, "figures": { "specks": { "rows": [""");
        for (var y = 0; y < rows; y++)
        {
            text.Append(y > 0 ? "," : "").Append('"');
            for (var x = 0; x < valleys; x++)
            {
                random = random * 1664525 + 1013904223;
                text.Append("ab.cd"[(int)(random >> 24) % 5]);
            }
            text.Append('"');
        }
        text.Append("""] } }, "place": [ { "figure": "specks", "gatheringRow": 1 } ] }""");
        File.WriteAllText(In("specks.piece.json"), text.ToString());
        return In("specks.piece.json");
    }

    [Theory]
    [InlineData("order", "--json")]
    [InlineData("order")]
    [InlineData("plate", "-o", "OUT.pdf")]
    public async Task An_interrupt_stops_it_and_leaves_nothing_behind(params string[] arguments)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() || OperatingSystem.IsMacOS(), "Interrupts are sent by kill.");
        var piece = Large();
        using var process = Program.Start([arguments[0], piece, "--large", .. arguments[1..].Select(a => a.StartsWith("OUT", StringComparison.Ordinal) ? In(a) : a)]);
        var text = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        // It tells what it does once that takes longer than a second; only then is it interrupted.
        var said = await process.StandardError.ReadLineAsync(TestContext.Current.CancellationToken);
        Assert.NotNull(said);
        using (var kill = Process.Start("kill", ["-INT", process.Id.ToString(CultureInfo.InvariantCulture)])) await kill.WaitForExitAsync(TestContext.Current.CancellationToken);
        var stopped = Stopwatch.StartNew();
        var error = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode == 130, $"exit {process.ExitCode}: {said}\n{error}");
        Assert.Contains("stopped; nothing was written", error);
        Assert.Equal("", await text);
        Assert.Equal([piece], Directory.GetFiles(folder.FullName));
        Assert.True(stopped.Elapsed < TimeSpan.FromSeconds(30)); // it did not work to the end first
    }

    [Fact]
    public async Task Work_that_hears_no_interrupt_is_left_behind()
    {
        using var stop = new CancellationTokenSource(50);
        using var end = new ManualResetEventSlim();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => LongWork.Do(stop.Token, _ =>
        {
            end.Wait();
            return 0;
        }));
        end.Set();
    }

    [Fact]
    public void Short_work_tells_nothing_and_json_is_json_alone()
    {
        var order = Program.Run("order", Program.Example("first-pennant"), "--json");
        Assert.Equal(0, order.Exit);
        Assert.True(order.Json.GetProperty("steps").GetArrayLength() > 0);
        // On a machine under load even short work may pass a second; then it may say what it does, but nothing else.
        Assert.All(order.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries), line => Assert.Matches("planning the order|weighing the other ways of working", line));
    }
}
