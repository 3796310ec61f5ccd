using Pleatwright.App.Commands;

namespace Pleatwright.Tests.Commands;

/// <summary>Titles and names come from anyone's file, and a terminal obeys what it is sent: they are words and nothing else.</summary>
public class TerminalTests
{
    [Theory]
    [InlineData("\u001B[2Jgone\u0007", "\uFFFD[2Jgone\uFFFD")]
    [InlineData("\u202Eesrever\u2066", "\uFFFDesrever\uFFFD")]
    [InlineData("quay\tboat\nsea · ½ 港", "quay\tboat\nsea · ½ 港")]
    public void Nothing_that_steers_a_terminal_is_printed(string words, string plain) => Assert.Equal(plain, Terminal.Plain(words));

    [Theory]
    [InlineData("plan")]
    [InlineData("proof")]
    [InlineData("order")]
    [InlineData("class")]
    public void No_command_prints_what_steers_a_terminal(string command)
    {
        var folder = Directory.CreateTempSubdirectory("names").FullName;
        var piece = Path.Combine(folder, "piece.piece.json");
        var text = File.ReadAllText(Program.Example("first-pennant"));
        var at = text.IndexOf("\"name\": \"", StringComparison.Ordinal) + 9;
        text = text.Insert(at, "\\u001b[31m\\u202e");
        File.WriteAllText(piece, text.Replace("\"title\": \"", "\"title\": \"\\u001b[2J\\u2066", StringComparison.Ordinal));
        var outcome = Program.Run(command == "class" ? [command, piece, "--students", "2"] : [command, piece]);
        Assert.NotEqual(2, outcome.Exit);
        Assert.DoesNotContain(outcome.Out + outcome.Error, c => (char.IsControl(c) && c is not ('\n' or '\r' or '\t')) || c is '\u202E' or '\u2066');
        if (command != "proof") Assert.Contains('\uFFFD', outcome.Out); // the title, made harmless
        Directory.Delete(folder, recursive: true);
    }
}
