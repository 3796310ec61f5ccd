using System.Diagnostics;
using System.Reflection;
using System.Text;
using System.Text.Json;
using Pleatwright.App.Host;

namespace Pleatwright.Tests.Commands;

/// <summary>
/// Runs the program as a maker would. To start one takes a machine longer than most commands do, so <see cref="Run"/> enters it in this process,
/// with streams of the test's own; that a process of its own gives the very same is held by <see cref="ProgramTests"/>.
/// </summary>
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

    /// <summary>Runs it in a process of its own.</summary>
    public static Outcome RunApart(params string[] arguments)
    {
        using var process = Start(arguments);
        var error = process.StandardError.ReadToEndAsync();
        var text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new Outcome(process.ExitCode, text, error.Result);
    }

    /// <summary>Runs it from where it begins to where it would end, here.</summary>
    public static Outcome Run(params string[] arguments)
    {
        lock (Out) // what an earlier run put before them is taken away
        {
            Console.SetOut(Out);
            Console.SetError(Error);
            Environment.CurrentDirectory = Repository.Root;
        }
        using StringWriter text = new(), error = new();
        (Out.Mine.Value, Error.Mine.Value) = (text, error);
        try
        {
            var exit = (int)Entry.Invoke(null, [arguments])!;
            lock (text) lock (error) return new Outcome(exit, text.ToString(), error.ToString());
        }
        finally
        {
            (Out.Mine.Value, Error.Mine.Value) = (null, null);
        }
    }

    private static readonly MethodInfo Entry = typeof(BenchHost).Assembly.EntryPoint!;
    private static readonly Parted Out = new(Console.Out), Error = new(Console.Error);

    // Each test's own words, by whatever thread of its they are said; all else goes where it went.
    private sealed class Parted(TextWriter others) : TextWriter
    {
        public AsyncLocal<TextWriter?> Mine { get; } = new();

        public override Encoding Encoding => Encoding.UTF8;

        public override void Write(char value) => To(w => w.Write(value));

        public override void Write(string? value) => To(w => w.Write(value));

        public override void Write(char[] buffer, int index, int count) => To(w => w.Write(buffer, index, count));

        public override void Flush() => To(w => w.Flush());

        private void To(Action<TextWriter> write)
        {
            var writer = Mine.Value ?? others;
            lock (writer) write(writer);
        }
    }

    public static string Example(string name) => Repository.Path("examples", name + ".piece.json");
}
