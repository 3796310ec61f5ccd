using System.Diagnostics;
using System.Text.Json;

namespace Pleatwright.Tests.Commands;

/// <summary>Runs the built program as a maker would.</summary>
internal static class Program
{
    public sealed record Outcome(int Exit, string Out, string Error)
    {
        public JsonElement Json => JsonDocument.Parse(Out).RootElement;

        /// <summary>The one line that says what is wrong; a slow machine says how far it is before.</summary>
        public string Complaint => Assert.Single(Error.Split(['\n', '\r']), line => line.StartsWith("pleatwright:", StringComparison.Ordinal));
    }

    // What a script starts in the background, tests too, is deaf to interrupts, and so is all that it starts in turn.
    private static readonly string[] Hearing = OperatingSystem.IsLinux() ? ["env", "--default-signal=INT", "dotnet"] : ["dotnet"];

    /// <summary>Starts it, to be killed or interrupted.</summary>
    public static Process Start(params string[] arguments) =>
        Process.Start(new ProcessStartInfo(Hearing[0], [.. Hearing[1..], Path.Combine(AppContext.BaseDirectory, "pleatwright.dll"), .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Repository.Root,
        })!;

    public static Outcome Run(params string[] arguments)
    {
        using var process = Start(arguments);
        var error = process.StandardError.ReadToEndAsync();
        var text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new Outcome(process.ExitCode, text, error.Result);
    }

    public static string Example(string name) => Repository.Path("examples", name + ".piece.json");
}
