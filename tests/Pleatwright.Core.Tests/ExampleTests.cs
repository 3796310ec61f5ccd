using System.Xml.Linq;
using Pleatwright.Chart;
using UglyToad.PdfPig;

namespace Pleatwright.Tests;

/// <summary>The examples in the core's docstrings and the README's five lines are programs, and do what they say.</summary>
public class ExampleTests(ExampleTests.Run run) : IClassFixture<ExampleTests.Run>
{
    private const string Prints = "// prints:";

    private static readonly Dictionary<string, string> Examples = XDocument.Load(Path.ChangeExtension(typeof(Piece).Assembly.Location, ".xml"))
        .Descendants("member")
        .SelectMany(m => m.Descendants("example").Select(e => (Name: m.Attribute("name")!.Value, Code: Outdented(e.Element("code")!.Value))))
        .ToDictionary(e => e.Name, e => e.Code);

    public static TheoryData<string> Names => [.. Examples.Keys];

    [Theory, MemberData(nameof(Names))]
    public void An_example_runs_and_prints_what_it_says(string name)
    {
        var printed = run.Of.Printed[run.Names.IndexOf(name)];
        Assert.True(Expected(Examples[name]) == printed, "It prints:\n" + printed);
    }

    [Fact]
    public void Every_verb_has_an_example() => Assert.All(
        ["T:Pleatwright.Smocking", "M:Pleatwright.Smocking.Read(", "M:Pleatwright.Smocking.Lay(", "M:Pleatwright.Smocking.Prove(", "M:Pleatwright.Smocking.Plan(", "M:Pleatwright.Smocking.Plate("],
        verb => Assert.Contains(Examples.Keys, k => k.StartsWith(verb, StringComparison.Ordinal)));

    [Fact]
    public void The_README_shows_the_whole_way_as_the_docstring_does_and_it_makes_a_plate()
    {
        var code = Examples["T:Pleatwright.Smocking"];
        Assert.Contains("```csharp\n" + code + "\n```", File.ReadAllText(Repository.Path("README.md")).ReplaceLineEndings("\n"), StringComparison.Ordinal);
        Assert.Equal(5, code.Split('\n').Count(line => line.Length > 0 && !line.StartsWith("using ", StringComparison.Ordinal)));
        using var plate = PdfDocument.Open(run.Of.File("harbour-morning.pdf"));
        Assert.InRange(plate.NumberOfPages, 2, 100);
    }

    /// <summary>All of them, run once.</summary>
    public sealed class Run : IDisposable
    {
        internal List<string> Names { get; } = [.. Examples.Keys];

        internal Outsider Of { get; } = new([.. Examples.Values]);

        public void Dispose() => Of.Dispose();
    }

    private static string Expected(string code) => string.Concat(code.Split('\n').SkipWhile(line => line != Prints).Skip(1)
        .TakeWhile(line => line.StartsWith("// ", StringComparison.Ordinal)).Select(line => line[3..] + "\n"));

    private static string Outdented(string code)
    {
        var lines = code.ReplaceLineEndings("\n").Trim('\n').Split('\n').Select(line => line.TrimEnd()).ToArray();
        var indent = lines.Where(line => line.Length > 0).Min(line => line.Length - line.TrimStart().Length);
        return string.Join('\n', lines.Select(line => line.Length > 0 ? line[indent..] : "")).Trim('\n');
    }
}
