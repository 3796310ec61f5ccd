using System.Text.Json;

namespace Pleatwright.Tests.Commands;

/// <summary>The class pack from the command line.</summary>
public sealed class ClassCommandTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    public void Dispose() => folder.Delete(recursive: true);

    private string Out(string name) => Path.Combine(folder.FullName, name);

    [Theory]
    [InlineData("class.pdf", "%PDF")]
    [InlineData("class.zip", "PK")]
    [InlineData("page.html", "<!DO")]
    public void The_ending_chooses_what_is_written(string name, string begins)
    {
        var outcome = Program.Run("class", Program.Example("first-pennant"), "--students", "3", "--paper", "letter", "--left-handed", "-o", Out(name));
        Assert.Equal((0, ""), (outcome.Exit, outcome.Out));
        Assert.DoesNotContain("pleatwright:", outcome.Error); // on a loaded machine it may tell how far it is
        Assert.StartsWith(begins, File.ReadAllText(Out(name)), StringComparison.Ordinal);
        Assert.Single(folder.GetFiles());
    }

    [Fact]
    public void Totals_are_printed_and_add_up()
    {
        var report = Program.Run("class", Program.Example("quay-yoke"), "--students", "11", "--spare-kits", "2", "--json").Json;
        var plan = Program.Run("plan", Program.Example("quay-yoke"), "--json").Json;
        Assert.Equal(13, report.GetProperty("kits").GetInt32());
        static int Sum(JsonElement list, string key) => list.EnumerateArray().Sum(t => t.GetProperty(key).GetInt32());
        var one = Sum(plan.GetProperty("threads"), "needlefuls") + plan.GetProperty("backsmocking").GetProperty("needlefuls").GetInt32();
        Assert.Equal(one, Sum(report.GetProperty("threads"), "needlefulsPerKit"));
        Assert.Equal(13 * one, Sum(report.GetProperty("threads"), "needlefuls"));
        Assert.Equal(report.GetProperty("skeins").GetInt32(), Sum(report.GetProperty("threads"), "skeins"));
        Assert.Contains("11 students and 2 spare kits", Program.Run("class", Program.Example("quay-yoke"), "--students", "11", "--spare-kits", "2").Out);
    }

    [Theory]
    [InlineData("takes 1 to 200", "--students", "0")]
    [InlineData("takes 1 to 200", "--students", "many")]
    [InlineData("takes 1 to 60", "--students", "3", "--sessions", "0")]
    [InlineData("Option '--students' is required", "--spare-kits", "1")]
    public void Bad_numbers_give_one_line_and_nothing_is_written(string words, params string[] options)
    {
        var outcome = Program.Run(["class", Program.Example("first-pennant"), .. options, "-o", Out("c.pdf")]);
        Assert.Equal(2, outcome.Exit);
        Assert.Contains(words, outcome.Error);
        Assert.Single(outcome.Error.TrimEnd().Split('\n'));
        Assert.Empty(folder.GetFileSystemInfos());
    }

    [Fact]
    public void An_unknown_ending_a_folder_and_a_missing_piece_are_refused()
    {
        foreach (var (piece, path, words) in new[]
                 {
                     (Program.Example("first-pennant"), Out("c.docx"), "end the name with one of them"),
                     (Program.Example("first-pennant"), folder.FullName, "this is a folder; name a file to write"),
                     (Program.Example("first-pennant"), Out("none/c.pdf"), "there is no folder"),
                     (Out("none.piece.json"), Out("c.pdf"), "none.piece.json"),
                 })
        {
            var outcome = Program.Run("class", piece, "--students", "2", "-o", path);
            Assert.Equal(2, outcome.Exit);
            Assert.Contains(words, outcome.Error);
        }
        Assert.Empty(folder.GetFileSystemInfos());
    }
}
