using System.Diagnostics;
using System.Reflection;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Pleatwright.Chart;

namespace Pleatwright.Tests;

/// <summary>
/// A program that somebody else wrote: it sees of the core what is public and no more, and runs by itself, in a folder of its own
/// that holds the examples.
/// </summary>
internal sealed class Outsider : IDisposable
{
    private const string Name = "outsider";
    private const string Usings = "global using System; global using System.Collections.Generic; global using System.IO; global using System.Linq; global using System.Threading; global using System.Threading.Tasks;";

    /// <summary>Compiles a program, runs it to its end, and fails where either does.</summary>
    public Outsider(string code)
    {
        Folder = Directory.CreateTempSubdirectory("pleatwright-outsider-").FullName;
        Compile(code, File(Name + ".dll"));
        foreach (var path in Needed(typeof(Piece).Assembly, [])) System.IO.File.Copy(path, File(Path.GetFileName(path)));
        System.IO.File.Copy(Path.ChangeExtension(typeof(Outsider).Assembly.Location, ".runtimeconfig.json"), File(Name + ".runtimeconfig.json"));
        Directory.CreateDirectory(File("examples"));
        foreach (var path in Repository.Examples) System.IO.File.Copy(path, File(Path.Combine("examples", Path.GetFileName(path))));
        using var process = Process.Start(new ProcessStartInfo("dotnet", [Name + ".dll"])
        {
            WorkingDirectory = Folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        var error = process.StandardError.ReadToEndAsync();
        Printed = process.StandardOutput.ReadToEnd().ReplaceLineEndings("\n");
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, error.Result);
    }

    /// <summary>What it printed.</summary>
    public string Printed { get; }

    private string Folder { get; }

    /// <summary>A file in its folder.</summary>
    public string File(string name) => Path.Combine(Folder, name);

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static void Compile(string code, string path)
    {
        var platform = Path.GetDirectoryName(typeof(object).Assembly.Location)!;
        var references = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator)
            .Where(p => Path.GetDirectoryName(p) == platform).Append(typeof(Piece).Assembly.Location)
            .Select(p => MetadataReference.CreateFromFile(p));
        var compilation = CSharpCompilation.Create(Name, [CSharpSyntaxTree.ParseText(Usings), CSharpSyntaxTree.ParseText(code)], references,
            new CSharpCompilationOptions(OutputKind.ConsoleApplication, nullableContextOptions: NullableContextOptions.Enable));
        var made = compilation.Emit(path);
        Assert.True(made.Success, string.Join('\n', made.Diagnostics.Where(d => d.Severity == DiagnosticSeverity.Error)));
    }

    // An assembly and those it is built on, but for the platform's.
    private static HashSet<string> Needed(Assembly assembly, HashSet<string> found)
    {
        if (Path.GetDirectoryName(assembly.Location) + Path.DirectorySeparatorChar == AppContext.BaseDirectory && found.Add(assembly.Location))
            foreach (var name in assembly.GetReferencedAssemblies()) Needed(Assembly.Load(name), found);
        return found;
    }
}
