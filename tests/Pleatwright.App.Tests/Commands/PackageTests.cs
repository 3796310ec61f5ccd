using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;
using System.Security.Cryptography;
using System.Text.Json;

namespace Pleatwright.Tests.Commands;

/// <summary>The archives as people get them. PLEATWRIGHT_PACKAGES names the folder that ./package filled.</summary>
[UnsupportedOSPlatform("windows")]
public sealed class PackageTests : IDisposable
{
    private readonly DirectoryInfo home = Directory.CreateTempSubdirectory("home");

    private static string? Packages => Environment.GetEnvironmentVariable("PLEATWRIGHT_PACKAGES");

    public void Dispose() => home.Delete(recursive: true);

    [Fact]
    public void Every_archive_is_on_the_list_with_its_sum()
    {
        Assert.SkipWhen(Packages is null, "PLEATWRIGHT_PACKAGES names no packages.");
        var listed = File.ReadAllLines(Path.Combine(Packages!, "SHA256SUMS")).Select(l => l.Split("  ")).ToDictionary(l => l[1], l => l[0]);
        var archives = Directory.GetFiles(Packages!, "pleatwright-*");
        Assert.NotEmpty(archives);
        Assert.Equal(archives.Select(Path.GetFileName).Order(), listed.Keys.Order());
        foreach (var archive in archives)
            Assert.Equal(Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(archive))).ToLower(CultureInfo.InvariantCulture), listed[Path.GetFileName(archive)]);
    }

    [Fact]
    public async Task Unpacked_into_an_empty_folder_it_opens_the_bench_and_makes_a_plate()
    {
        Assert.SkipWhen(Packages is null, "PLEATWRIGHT_PACKAGES names no packages.");
        var archive = Assert.Single(Directory.GetFiles(Packages!, "pleatwright-*-linux-x64.tar.gz"));
        Run("tar", ["xzf", archive, "-C", home.FullName]);
        var folder = Assert.Single(home.GetDirectories()).FullName;
        var program = Path.Combine(folder, "pleatwright");
        foreach (var name in (string[])[program, Path.Combine(folder, "Open the bench.desktop")])
            Assert.True(File.GetUnixFileMode(name).HasFlag(UnixFileMode.UserExecute), name);
        foreach (var name in (string[])["README.txt", "licences/Pleatwright.txt", "licences/built-on.txt", "licences/Fraunces-OFL.txt", "examples/harbour-morning.piece.json"])
            Assert.True(File.Exists(Path.Combine(folder, name)), name);

        var plate = Path.Combine(home.FullName, "plate.pdf");
        Run(program, ["plate", Path.Combine(folder, "examples", "first-pennant.piece.json"), "-o", plate]);
        Assert.StartsWith("%PDF", File.ReadAllText(plate), StringComparison.Ordinal);

        // Started without a word, as by a double click, with a browser of our own that notes what it was asked to open.
        var tools = home.CreateSubdirectory("tools").FullName;
        var opened = Path.Combine(home.FullName, "opened");
        var browser = Path.Combine(tools, "xdg-open");
        File.WriteAllText(browser, $"#!/bin/sh\necho \"$1\" > '{opened}.part' && mv '{opened}.part' '{opened}'\n");
        File.SetUnixFileMode(browser, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        var exec = File.ReadAllLines(Path.Combine(folder, "Open the bench.desktop")).Single(l => l.StartsWith("Exec=", StringComparison.Ordinal));
        Assert.Equal("""Exec=sh -c 'cd "$(dirname "$1")" && exec ./pleatwright' sh %k""", exec);
        using var bench = Start("sh", ["-c", "cd \"$(dirname \"$1\")\" && exec ./pleatwright", "sh", Path.Combine(folder, "Open the bench.desktop")], tools);
        try
        {
            var url = (await bench.StandardOutput.ReadLineAsync())!.Split(' ')[^1];
            using var http = new HttpClient { BaseAddress = new Uri(url), Timeout = TimeSpan.FromMinutes(2) };
            Assert.Contains("Pleatwright", await http.GetStringAsync(new Uri("/", UriKind.Relative)), StringComparison.Ordinal);
            Assert.Contains("\"pieces\":[]", (await http.GetStringAsync(new Uri("/api/shelf", UriKind.Relative))).Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
            for (var clock = Stopwatch.StartNew(); clock.Elapsed.TotalMinutes < 2 && !File.Exists(opened); await Task.Delay(50)) { }
            Assert.Equal(url, File.ReadAllText(opened).Trim());
        }
        finally
        {
            bench.Kill();
            await bench.WaitForExitAsync();
        }
    }

    // CycloneDX 1.6 (ECMA-424): a bill names its kind and version, and each component by what it is, its name, its version and its licence.
    [Fact]
    public void Its_bill_of_materials_names_what_it_holds_and_nothing_else()
    {
        Assert.SkipWhen(Packages is null, "PLEATWRIGHT_PACKAGES names no packages.");
        Run("tar", ["xzf", Assert.Single(Directory.GetFiles(Packages!, "pleatwright-*-linux-x64.tar.gz")), "-C", home.FullName]);
        var folder = Assert.Single(home.GetDirectories()).FullName;
        using var bill = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(folder, "bill-of-materials.cdx.json")));
        Assert.Equal(("CycloneDX", "1.6", 1), (bill.RootElement.GetProperty("bomFormat").GetString(), bill.RootElement.GetProperty("specVersion").GetString(), bill.RootElement.GetProperty("version").GetInt32()));
        var libraries = bill.RootElement.GetProperty("components").EnumerateArray().Where(c => c.GetProperty("type").GetString() == "library").ToList();
        var named = libraries.Select(c => $"{c.GetProperty("name").GetString()} {c.GetProperty("version").GetString()}").ToList();
        Assert.All(libraries, c => Assert.True(c.GetProperty("licenses").GetArrayLength() == 1 && c.GetProperty("purl").GetString()!.StartsWith("pkg:nuget/", StringComparison.Ordinal)));
        Assert.Equal(named, File.ReadLines(Path.Combine(folder, "licences", "built-on.txt")).Skip(1).Where(l => !l.StartsWith("  ", StringComparison.Ordinal)).Select(l => l.Split(": ")[0]));
        foreach (var held in (string[])["PDFsharp ", "SkiaSharp ", "SkiaSharp.NativeAssets.Linux.NoDependencies ", "Microsoft.NETCore.App.Runtime.linux-x64 ", "Microsoft.NETCore.App.Runtime.Mono.browser-wasm ", "Microsoft.AspNetCore.Components.Web "])
            Assert.Single(named, n => n.StartsWith(held, StringComparison.Ordinal));
        foreach (var absent in (string[])["Win32", "macOS", "ILLink", "Analyzers", "xunit", "win-x64"])
            Assert.DoesNotContain(named, n => n.Contains(absent, StringComparison.OrdinalIgnoreCase));
        var texts = Directory.GetFiles(Path.Combine(folder, "licences")).Select(Path.GetFileName).ToList();
        foreach (var line in File.ReadLines(Path.Combine(folder, "licences", "built-on.txt")).Where(l => l.StartsWith("  see ", StringComparison.Ordinal))) Assert.Contains(line[6..], texts);
    }

    [Fact]
    public void Nothing_in_it_tells_of_the_folder_it_was_built_in()
    {
        byte[][] root = [System.Text.Encoding.UTF8.GetBytes(Repository.Root + "/"), System.Text.Encoding.Unicode.GetBytes(Repository.Root + "/")];
        var ours = Directory.GetFiles(AppContext.BaseDirectory, "*leatwright*.dll").Where(f => !f.EndsWith(".Tests.dll", StringComparison.Ordinal)).ToList();
        Assert.Contains(ours, f => f.EndsWith("/Pleatwright.Core.dll", StringComparison.Ordinal));
        if (Packages is not null)
        {
            Run("tar", ["xzf", Assert.Single(Directory.GetFiles(Packages, "pleatwright-*-linux-x64.tar.gz")), "-C", home.FullName]); // the bench's part is not packed together
            ours.AddRange(Directory.GetFiles(home.FullName, "*", SearchOption.AllDirectories).Where(f => !f.EndsWith(".gz", StringComparison.Ordinal) && !f.EndsWith(".br", StringComparison.Ordinal)));
        }
        foreach (var file in ours)
            foreach (var path in root)
                Assert.True(File.ReadAllBytes(file).AsSpan().IndexOf(path) < 0, file);
    }

    // Views are turned into C# that names each of them by its whole path; a sum of that text goes into a part by way of its symbols (Portable PDB, documents;
    // PE, the "RSDS" record of the debug directory), so that the same source gave another part in another folder.
    [Fact]
    public void Its_views_carry_no_sum_of_text_that_names_a_folder()
    {
        var views = Directory.GetFiles(AppContext.BaseDirectory, "Pleatwright.Bench.dll").ToList();
        if (Packages is not null)
        {
            Run("tar", ["xzf", Assert.Single(Directory.GetFiles(Packages, "pleatwright-*-linux-x64.tar.gz")), "-C", home.FullName]);
            views.AddRange(Directory.GetFiles(home.FullName, "Pleatwright.Bench.wasm", SearchOption.AllDirectories));
        }
        Assert.NotEmpty(views);
        foreach (var part in views) Assert.True(File.ReadAllBytes(part).AsSpan().IndexOf("RSDS"u8) < 0, part);
    }

    // Run by ./check with PLEATWRIGHT_ENDURANCE alone, for it builds everything twice; of what was committed.
    [Fact(Explicit = true)]
    public void Built_from_two_folders_it_is_the_same_byte_for_byte()
    {
        string[] folders = [Path.Combine(home.FullName, "a"), Path.Combine(home.FullName, "a folder with a longer name", "and another in it")];
        foreach (var folder in folders)
        {
            using (var clone = Process.Start("git", ["clone", "-q", Repository.Root, folder])!) clone.WaitForExit();
            using var packing = Process.Start(new ProcessStartInfo(Path.Combine(folder, "package"), ["--to", folder + " packed", "linux-x64", "win-x64"]) { RedirectStandardOutput = true })!;
            packing.StandardOutput.ReadToEnd();
            packing.WaitForExit();
            Assert.Equal(0, packing.ExitCode);
        }
        string[] sums = [.. folders.Select(f => File.ReadAllText(Path.Combine(f + " packed", "SHA256SUMS")))];
        Assert.Equal(2, sums[0].Trim().Split('\n').Length);
        Assert.Equal(sums[0], sums[1]);
    }

    private Process Start(string program, IEnumerable<string> arguments, string tools)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true };
        start.Environment.Clear(); // nothing of this machine's: no .NET, no settings
        start.Environment["HOME"] = home.FullName;
        start.Environment["PATH"] = $"{tools}:/usr/bin:/bin";
        return Process.Start(start)!;
    }

    private void Run(string program, IEnumerable<string> arguments)
    {
        using var process = Start(program, arguments, "");
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
    }
}
