using System.Diagnostics;
using Microsoft.Playwright;

namespace Pleatwright.Browser.Tests;

/// <summary>A Chromium of a test's own with a lasting profile, which can be killed outright and opened again.</summary>
internal sealed class KillableChromium : IDisposable
{
    private readonly string profile = Directory.CreateTempSubdirectory("profile").FullName;
    private readonly IPlaywright playwright;
    private Process? process;

    private KillableChromium(IPlaywright playwright) => this.playwright = playwright;

    public static async Task<KillableChromium> StartAsync() => new(await Playwright.CreateAsync());

    /// <summary>Opens it, and a page in it.</summary>
    public async Task<IPage> OpenAsync()
    {
        foreach (var left in Directory.GetFiles(profile, "Singleton*")) File.Delete(left);
        var portFile = Path.Combine(profile, "DevToolsActivePort");
        File.Delete(portFile);
        process = Process.Start(new ProcessStartInfo(Chromium.Executable,
            [.. Chromium.Switches, "--headless", "--remote-debugging-port=0", $"--user-data-dir={profile}", "about:blank"])
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        })!;
        process.ErrorDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        string[] lines = [];
        for (var clock = Stopwatch.StartNew(); lines.Length < 2 && clock.ElapsedMilliseconds < Chromium.Patience && !process.HasExited; await Task.Delay(50))
            if (File.Exists(portFile)) lines = await File.ReadAllLinesAsync(portFile);
        Assert.True(lines.Length >= 2, "Chromium did not open.");
        var browser = await playwright.Chromium.ConnectOverCDPAsync($"http://127.0.0.1:{lines[0]}");
        var page = browser.Contexts[0].Pages.Count > 0 ? browser.Contexts[0].Pages[0] : await browser.Contexts[0].NewPageAsync();
        page.SetDefaultTimeout(Chromium.Patience);
        return page;
    }

    /// <summary>Kills it with all its processes, giving none of them a moment more.</summary>
    public void Kill()
    {
        process?.Kill(entireProcessTree: true);
        process?.WaitForExit();
        process?.Dispose();
        process = null;
    }

    public void Dispose()
    {
        Kill();
        playwright.Dispose();
        Directory.Delete(profile, recursive: true);
    }
}
