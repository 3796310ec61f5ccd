using System.Diagnostics;

namespace Pleatwright.Tests.Files;

/// <summary>A reader of PDF that shares no code with ours (Debian's poppler-utils).</summary>
internal static class Poppler
{
    /// <summary>Runs one of its programs and gives what it printed.</summary>
    public static string Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var error = process.StandardError.ReadToEndAsync();
        var text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0 && error.Result.Length == 0, $"{program}: {process.ExitCode} {error.Result}");
        return text;
    }
}
