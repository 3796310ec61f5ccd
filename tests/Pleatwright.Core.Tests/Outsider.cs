using System.Diagnostics;
using System.Reflection;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Pleatwright.Chart;

namespace Pleatwright.Tests;

/// <summary>
/// Programs that somebody else wrote: they see of the core what is public and no more, and run one after the other in a process and a
/// folder of their own that holds the examples.
/// </summary>
internal sealed class Outsider : IDisposable
{
    private const string Name = "outsider";
    private const string Usings = "global using System; global using System.Collections.Generic; global using System.IO; global using System.Linq; global using System.Threading; global using System.Threading.Tasks;";

    // Begins each of the programs named, and closes what it printed with a record separator.
    private const string Begin = """
        foreach (var path in args)
        {
            var begin = System.Reflection.Assembly.LoadFrom(path).EntryPoint!;
            try { begin.Invoke(null, begin.GetParameters().Length == 0 ? null : [Array.Empty<string>()]); }
            catch (System.Reflection.TargetInvocationException e) { Console.WriteLine(e.InnerException); }
            Console.Write('\u001e');
        }
        """;

    private static readonly string Platform = Path.GetDirectoryName(typeof(object).Assembly.Location)!;

    private static readonly MetadataReference[] References =
    [
        .. ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator)
            .Where(p => Path.GetDirectoryName(p) == Platform).Append(typeof(Piece).Assembly.Location)
            .Select(p => MetadataReference.CreateFromFile(p)),
    ];

    /// <summary>Compiles programs, runs each to its end, and fails where one cannot be compiled.</summary>
    public Outsider(IReadOnlyList<string> programs)
    {
        Folder = Directory.CreateTempSubdirectory("pleatwright-outsider-").FullName;
        Compile(Name, Begin);
        var paths = programs.Select((code, i) => Compile($"{Name}{i}", code)).ToArray();
        foreach (var path in Needed(typeof(Piece).Assembly, [])) System.IO.File.Copy(path, File(Path.GetFileName(path)));
        System.IO.File.Copy(Path.ChangeExtension(typeof(Outsider).Assembly.Location, ".runtimeconfig.json"), File(Name + ".runtimeconfig.json"));
        Directory.CreateDirectory(File("examples"));
        foreach (var path in Repository.Examples) System.IO.File.Copy(path, File(Path.Combine("examples", Path.GetFileName(path))));
        using var process = Process.Start(new ProcessStartInfo("dotnet", [Name + ".dll", .. paths])
        {
            WorkingDirectory = Folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        var error = process.StandardError.ReadToEndAsync();
        Printed = process.StandardOutput.ReadToEnd().ReplaceLineEndings("\n").Split('\u001e')[..^1];
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, error.Result);
    }

    /// <summary>What each printed, or what it threw.</summary>
    public IReadOnlyList<string> Printed { get; }

    private string Folder { get; }

    /// <summary>A file in their folder.</summary>
    public string File(string name) => Path.Combine(Folder, name);

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private string Compile(string name, string code)
    {
        var compilation = CSharpCompilation.Create(name, [CSharpSyntaxTree.ParseText(Usings), CSharpSyntaxTree.ParseText(code)], References,
            new CSharpCompilationOptions(OutputKind.ConsoleApplication, nullableContextOptions: NullableContextOptions.Enable));
        var made = compilation.Emit(File(name + ".dll"));
        Assert.True(made.Success, string.Join('\n', made.Diagnostics.Where(d => d.Severity == DiagnosticSeverity.Error)));
        return File(name + ".dll");
    }

    // An assembly and those it is built on, but for the platform's.
    private static HashSet<string> Needed(Assembly assembly, HashSet<string> found)
    {
        if (Path.GetDirectoryName(assembly.Location) + Path.DirectorySeparatorChar == AppContext.BaseDirectory && found.Add(assembly.Location))
            foreach (var name in assembly.GetReferencedAssemblies()) Needed(Assembly.Load(name), found);
        return found;
    }
}
