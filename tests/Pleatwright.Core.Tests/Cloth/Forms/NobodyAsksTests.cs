using System.Text.RegularExpressions;
using Mono.Cecil;
using Mono.Cecil.Cil;
using Pleatwright.Cloth;

namespace Pleatwright.Tests.Cloth.Forms;

/// <summary>
/// A form of cloth is one file: nothing outside src/Pleatwright/Cloth/Forms asks which form it is. 71 places in 24 files once did.
/// </summary>
public class NobodyAsksTests
{
    private static readonly string[] Forms = [.. typeof(Form).Assembly.GetTypes().Where(t => t.IsSubclassOf(typeof(Form))).Select(t => t.Name).Order()];

    private static readonly string[] Kinds = [.. FormKind.All.Select(k => k.GetType().Name)];

    [Fact]
    public void Nothing_compiled_tests_or_casts_to_a_form()
    {
        var asked = new List<string>();
        var (types, looked) = (0, 0);
        using var assembly = AssemblyDefinition.ReadAssembly(typeof(Form).Assembly.Location);
        foreach (var type in assembly.MainModule.GetTypes().Where(t => !IsOfForms(t)))
        {
            types++;
            foreach (var method in type.Methods.Where(m => m.HasBody))
                foreach (var instruction in method.Body.Instructions)
                {
                    looked++;
                    var code = instruction.OpCode.Code;
                    if (code is Code.Isinst or Code.Castclass or Code.Ldtoken && instruction.Operand is TypeReference at && Forms.Contains(at.Name) && at.Namespace == typeof(Form).Namespace)
                        asked.Add($"{type.FullName}.{method.Name}: {at.Name}");
                    if (instruction.Operand is MethodReference { DeclaringType: { } kind } && Kinds.Contains(kind.Name)) asked.Add($"{type.FullName}.{method.Name}: {kind.Name}");
                }
        }
        Assert.True(types > 300 && looked > 50_000, $"only {looked} instructions of {types} types were read");
        Assert.Empty(asked);
    }

    // The files of the folder, as the compiler names what is in them: the forms, their kinds, and what is written within these.
    private static bool IsOfForms(TypeDefinition type) =>
        type.DeclaringType is { } outer ? IsOfForms(outer) : type.Namespace == typeof(Form).Namespace && (Forms.Contains(type.Name) || Kinds.Contains(type.Name) || type.Name == nameof(FormKind));

    [Fact]
    public void Nothing_written_asks_either_views_and_scripts_too()
    {
        var names = string.Join('|', Forms);
        var asks = new Regex(
            $@"\b(is|as|case|not|or)\s+(not\s+)?(Pleatwright\.Cloth\.|Cloth\.)?({names})\b(?!\s*\()" + // a test or a label
            $@"|^\s*({names})(\s+\w+|\s*\{{[^}}]*\}})?\s*=>" + // an arm of a switch
            $@"|\((Pleatwright\.Cloth\.|Cloth\.)?({names})\)[\w(]|typeof\(({names})\)|OfType<({names})>" +
            $@"|\b({string.Join('|', Kinds)})\b" +
            $@"|""({string.Join('|', FormKind.All.Select(k => k.Name))})""\s*(=>|or\b)|[!=]=\s*""({string.Join('|', FormKind.All.Select(k => k.Name))})""", RegexOptions.Multiline);
        Assert.Matches(asks, "if (cloth.Form is Panel) return;");
        Assert.Matches(asks, "            Round round => 1,");
        Assert.Matches(asks, "          case Ball ball:");
        Assert.Matches(asks, "var ball = (Ball)cloth.Form;");
        Assert.DoesNotMatch(asks, "new Pen(colour, width) { Round = true }; Math.Round(x); Panel(1) ");
        var here = Repository.Path("src");
        string[] files = [.. Directory.EnumerateFiles(here, "*.*", SearchOption.AllDirectories)
            .Where(f => Path.GetExtension(f) is ".cs" or ".razor" or ".js" && !Regex.IsMatch(f, @"[\\/](obj|bin|Forms)[\\/]"))];
        Assert.True(files.Length > 400, $"only {files.Length} files were read");
        Assert.Empty(files.SelectMany(f => File.ReadLines(f).Select((line, i) => (Line: line, At: $"{Path.GetRelativePath(here, f)}:{i + 1}")))
            .Where(l => !l.Line.TrimStart().StartsWith("//", StringComparison.Ordinal) && asks.IsMatch(l.Line)).Select(l => $"{l.At} {l.Line.Trim()}"));
    }
}
