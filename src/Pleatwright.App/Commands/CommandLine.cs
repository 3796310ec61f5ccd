using System.CommandLine;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using Pleatwright.Files;
using Pleatwright.Measure;

namespace Pleatwright.App.Commands;

/// <summary>A failure that is the caller's to mend; its message is the one line they see.</summary>
internal sealed class UsageException(string message) : Exception(message)
{
    /// <summary>What was refused of a file or a size, as one sentence after its name.</summary>
    public static UsageException Of(string what, ArgumentException refused) =>
        new($"{what}: {refused.Why()}.");
}

/// <summary>What every command shares: exit codes, one clear line on bad input, JSON for programs.</summary>
internal static class CommandLine
{
    public const int Done = 0;
    public const int Found = 1;
    public const int Unusable = 2;
    public const int Stopped = 130;

    private static readonly TextWriter Out = Console.Out, Json = Terminal.WholeTo(Out); // for programs: to the letter

    private static readonly JsonSerializerOptions Options = new()
    {
        WriteIndented = true,
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Runs the program: exit 2 with one line on standard error for bad usage or unreadable input.</summary>
    public static async Task<int> Run(RootCommand root, string[] args)
    {
        Console.SetOut(Terminal.PlainTo(Out));
        Console.SetError(Terminal.AsideTo(Console.Error));
        var parsed = root.Parse(args);
        if (parsed.Errors.Count > 0)
        {
            await Console.Error.WriteLineAsync($"pleatwright: {parsed.Errors[0].Message} Try: pleatwright --help");
            return Unusable;
        }
        try
        {
            return await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
        }
        catch (Exception e) when (e is UsageException or UnheardException)
        {
            await Console.Error.WriteLineAsync($"pleatwright: {e.Message}");
            return Unusable;
        }
        catch (OperationCanceledException)
        {
            await Console.Error.WriteLineAsync("pleatwright: stopped; nothing was written.");
            return Stopped;
        }
    }

    /// <summary>Prints one JSON document on standard output.</summary>
    public static void PrintJson<T>(T value) => Json.WriteLine(JsonSerializer.Serialize(value, Options));

    /// <summary>Prints lines on standard output.</summary>
    public static void Print(IEnumerable<string> lines)
    {
        foreach (var line in lines) Console.Out.WriteLine(line);
    }

    /// <summary>The option of every command that reports something.</summary>
    public static Option<bool> JsonOption() => new("--json") { Description = "Print one JSON document instead of words." };

    /// <summary>The piece most commands read.</summary>
    public static Argument<string> PieceArgument() => FileArgument("piece", $"A piece file (*.piece.json), or a plate that carries its piece ({string.Join(", ", CarriedPiece.Endings)}).");

    /// <summary>A file that is read. A mistyped option would be taken for one, so a dash begins no file's name that is not there.</summary>
    public static Argument<string> FileArgument(string name, string description) => WithoutDashes(new Argument<string>(name) { Description = description, HelpName = name.ToUpperInvariant() });

    /// <summary>Files that are read, one at least.</summary>
    public static Argument<string[]> FileArguments(string name, string description) =>
        WithoutDashes(new Argument<string[]>(name + "s") { Description = description, HelpName = name.ToUpperInvariant(), Arity = ArgumentArity.OneOrMore });

    private static T WithoutDashes<T>(T argument) where T : Argument
    {
        argument.Validators.Add(result =>
        {
            if (result.Tokens.FirstOrDefault(t => t.Value.StartsWith('-') && !Path.Exists(t.Value)) is { } dashed)
                result.AddError($"There is no option {dashed.Value} here.");
        });
        return argument;
    }
}
