using Pleatwright.Chart;
using Pleatwright.Files;

namespace Pleatwright.Tests.Commands;

public sealed class FigureCommandTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("pleatwright-");

    public void Dispose() => folder.Delete(recursive: true);

    private string In(string name) => Path.Combine(folder.FullName, name);

    private static string Harbour => Program.Example("harbour-morning");

    [Fact]
    public void A_figure_is_listed_taken_out_and_put_in_where_there_is_room_in_its_own_colours()
    {
        var listed = Program.Run("figure", Harbour, "--json").Json.GetProperty("figures")[0];
        Assert.Equal(("boat", 23, 9, 3), (listed.GetProperty("name").GetString(), listed.GetProperty("width").GetInt32(), listed.GetProperty("height").GetInt32(), listed.GetProperty("onTheCloth").GetInt32()));
        var taken = Program.Run("figure", Harbour, "--name", "boat", "-o", In("boat.figure.json"), "--json");
        Assert.Equal((0, 6), (taken.Exit, taken.Json.GetProperty("baseRow").GetInt32()));
        var kept = FigureReader.Read(File.ReadAllBytes(In("boat.figure.json")));
        Assert.Equal(kept.Id, taken.Json.GetProperty("id").GetString());
        Assert.Equal("boat: 23 valleys wide, 9 rows high; sail red, hull blue", Program.Run("figure", In("boat.figure.json")).Out.Trim());

        var put = Program.Run("figure", Program.Example("gulls-turning"), "--put", In("boat.figure.json"), "-o", In("gulls.piece.json"), "--json");
        Assert.Equal(0, put.Exit);
        Assert.All(put.Json.GetProperty("threads").EnumerateArray(), t => Assert.True(t.GetProperty("added").GetBoolean()));
        var piece = PieceReader.Read(File.ReadAllBytes(In("gulls.piece.json")));
        Assert.Equal(new FigureOrigin(kept.Id, kept.State, FigureMark.OfStitches(piece.Figure("boat")!), 6), piece.Figure("boat")!.From);
        Assert.Equal(0, Program.Run("proof", In("gulls.piece.json")).Exit); // it lies free
        Assert.Contains("here it comes out 11 % narrower.", Program.Run("figure", Program.Example("gulls-turning"), "--put", In("boat.figure.json"), "-o", In("again.piece.json")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Threads_in_doubt_are_asked_in_one_line_and_nothing_is_written_until_they_are_answered()
    {
        Program.Run("figure", Harbour, "--name", "boat", "-o", In("boat.figure.json"));
        string[] put = ["figure", Program.Example("quay-yoke"), "--put", In("boat.figure.json"), "--centre", "20", "--gathering-row", "3", "-o", In("yoke.piece.json")];
        var asked = Program.Run(put);
        Assert.Equal(2, asked.Exit);
        Assert.Contains("boat has sail red, 4 strands; here is signal red (r): a near colour. Say --thread r=r or --thread r=new.", asked.Complaint, StringComparison.Ordinal);
        Assert.False(File.Exists(In("yoke.piece.json")));
        var answered = Program.Run([.. put, "--thread", "r=r", "--json"]);
        Assert.Equal(0, answered.Exit);
        Assert.Equal((20, 3), (answered.Json.GetProperty("centre").GetInt32(), answered.Json.GetProperty("gatheringRow").GetInt32()));
        var there = PieceReader.Read(File.ReadAllBytes(Program.Example("quay-yoke"))).Threads.Length;
        Assert.Equal(there + 1, PieceReader.Read(File.ReadAllBytes(In("yoke.piece.json"))).Threads.Length); // its blue alone
        Assert.Contains("--force writes over it", Program.Run([.. put, "--thread", "r=new"]).Complaint, StringComparison.Ordinal);
        Assert.Equal(0, Program.Run([.. put, "--thread", "r=new", "--force"]).Exit);
        Assert.Equal(there + 2, PieceReader.Read(File.ReadAllBytes(In("yoke.piece.json"))).Threads.Length);
    }

    [Theory]
    [InlineData("no figure is called “crab”; there is “boat”.", "--name", "crab", "-o", "OUT")]
    [InlineData("name the file to write with -o.", "--name", "boat")]
    [InlineData("say with --name which figure is taken out, or with --put which is put in.", "-o", "OUT")]
    [InlineData("--name takes a figure out and --put puts one in; name one of them.", "--name", "boat", "--put", "FIGURE", "-o", "OUT")]
    [InlineData("“r” will not do: --thread takes a letter of the figure", "--put", "FIGURE", "-o", "OUT", "--thread", "r")]
    [InlineData("“q=r” will not do: boat has no thread with the letter q.", "--put", "FIGURE", "-o", "OUT", "--thread", "q=r")]
    [InlineData("“r=Q” will not do: the piece has no thread with the letter Q.", "--put", "FIGURE", "-o", "OUT", "--thread", "r=Q")]
    [InlineData("--gathering-row 40 is none of them.", "--put", "FIGURE", "-o", "OUT", "--gathering-row", "40")]
    [InlineData("--centre 4999 is none of them.", "--put", "FIGURE", "-o", "OUT", "--centre", "4999")]
    [InlineData("broken.figure.json:1:1: a figure lacks the key “name”.", "--put", "BROKEN", "-o", "OUT")]
    public void What_cannot_be_done_is_said_in_one_line(string words, params string[] arguments)
    {
        Program.Run("figure", Harbour, "--name", "boat", "-o", In("boat.figure.json"));
        File.WriteAllText(In("broken.figure.json"), "{ \"figure\": 1 }");
        var run = Program.Run(["figure", Harbour, .. arguments.Select(a => a switch { "OUT" => In("out.json"), "FIGURE" => In("boat.figure.json"), "BROKEN" => In("broken.figure.json"), _ => a })]);
        Assert.Equal(2, run.Exit);
        Assert.Contains(words, run.Complaint, StringComparison.Ordinal);
        Assert.False(File.Exists(In("out.json")));
    }
}
