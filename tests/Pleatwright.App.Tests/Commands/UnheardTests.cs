using System.Diagnostics;

namespace Pleatwright.Tests.Commands;

/// <summary>Where nobody takes what a command prints (a full disk, a closed stream, a reader that left), it says so in one line and ends by itself.</summary>
public class UnheardTests
{
    [Theory]
    [InlineData("plan PIECE > /dev/full", 2, "no room left")]
    [InlineData("plan PIECE --json > /dev/full", 2, "no room left")]
    [InlineData("--help > /dev/full", 2, "no room left")]
    [InlineData("order PIECE >&-", 2, "standard output cannot be written")]
    [InlineData("proof NONE 2> /dev/full", 2, "")]
    [InlineData("order PIECE | head -0", 0, "")]
    public void It_ends_by_itself_with_one_clear_line(string line, int exit, string words)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has no such devices.");
        var program = $"dotnet '{Path.Combine(AppContext.BaseDirectory, "pleatwright.dll")}' ";
        var script = program + line.Replace("PIECE", $"'{Program.Example("first-pennant")}'", StringComparison.Ordinal);
        if (line.Contains('|', StringComparison.Ordinal)) script += "; exit ${PIPESTATUS[0]}";
        using var shell = Process.Start(new ProcessStartInfo("bash", ["-c", script]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var heard = shell.StandardError.ReadToEnd();
        shell.WaitForExit();
        Assert.Equal(exit, shell.ExitCode);
        Assert.DoesNotContain("   at ", heard, StringComparison.Ordinal);
        if (words.Length > 0) Assert.Contains(words, Assert.Single(heard.Split('\n'), l => l.StartsWith("pleatwright:", StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("  ")]
    public void A_shelf_without_a_name_is_refused_in_one_line(string shelf) =>
        Assert.Equal("pleatwright: The shelf needs the name of a folder.", Program.Run("bench", "--shelf", shelf, "--port", "0").Complaint);
}
