using System.Text;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Tests.Chart;
using Pleatwright.Tests.Order;

namespace Pleatwright.Tests.Files;

public class PieceFileTests
{
    private const string Small = """
        { "pleatwright": 1,
          "title": "Small",
          "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 4 },
          "threads": { "r": { "name": "sail red", "colour": "#b3202c" } },
          "figures": { "bar": { "rows": ["rrr", "rrr"] } },
          "place": [ { "figure": "bar", "centre": "middle", "gatheringRow": 2 } ] }
        """;

    [Fact]
    public void Read_write_read_is_the_same() => PieceGen.Pieces.Sample(piece =>
    {
        var written = PieceWriter.Write(piece);
        var again = PieceReader.Read(written);
        Assert.Equal(written, PieceWriter.Write(again));
        Assert.Equal(Work.Lay(piece).Runs.ToArray(), Work.Lay(again).Runs.ToArray());
        Assert.Equal((piece.Credit, piece.SizeName), (again.Credit, again.SizeName));
    });

    [Fact]
    public void The_ways_of_working_are_read_as_they_were_written() => OrderGen.Pieces.Sample(piece =>
    {
        var working = PieceReader.Read(PieceWriter.Write(piece)).Working;
        Assert.Equal(piece.Working, working with { Places = piece.Working.Places });
        Assert.Empty(working.Places);
    });

    [Theory, MemberData(nameof(ExampleFiles))]
    public void Every_example_reads_and_writes_back_the_same(string file)
    {
        var piece = PieceReader.Read(File.ReadAllBytes(Repository.Path("examples", file)));
        var written = PieceWriter.Write(piece);
        Assert.Equal(written, PieceWriter.Write(PieceReader.Read(written)));
        Assert.True(Work.Lay(piece).Cables > 0);
    }

    // A flood is refused where it grows too large, not read to its end: what follows is not even JSON, and is not told of.
    [Fact]
    public void What_holds_too_many_values_or_begins_wrongly_is_read_no_further()
    {
        var flood = new StringBuilder("{ \"pleatwright\": [");
        for (var i = 0; i < JsonText.MostValues; i++) flood.Append("1,");
        var told = Assert.Throws<PieceFormatException>(() => PieceReader.Read(flood.Append(" nonsense").ToString()));
        Assert.Contains("1,000,000 values", told.Message, StringComparison.Ordinal);
        Assert.Equal((1, 19 + 2 * (JsonText.MostValues - 2)), (told.Line, told.Column)); // the object and the list are values, too
        Assert.Contains("must be an object", Assert.Throws<PieceFormatException>(() => PieceReader.Read("\n [1, 2 nonsense")).Message, StringComparison.Ordinal);
    }

    // Else a title could print a line of its own among ours, as "Written: safe.pdf".
    [Fact]
    public void Titles_and_names_are_one_line_whatever_the_file_has()
    {
        var piece = PieceReader.Read(Small.Replace("Small", "Small\\r\\nWritten: x", StringComparison.Ordinal).Replace("sail red", "sail\\u0085\\u2028red", StringComparison.Ordinal)
            .Replace("bar", "b\\u001bar", StringComparison.Ordinal));
        Assert.Equal(("Small  Written: x", "sail  red", "b ar"), (piece.Title, piece.Threads[0].Name, piece.Figures[0].Name));
        Assert.Single(Work.Lay(piece).Piece.Placements);
        var twice = Assert.Throws<PieceFormatException>(() => PieceReader.Read(Small.Replace("{ \"bar\"", "{ \"b\\tr\": { \"rows\": [\"r\"] }, \"b\\nr\": { \"rows\": [\"r\"] }, \"bar\"", StringComparison.Ordinal)));
        Assert.Contains("a second time", twice.Message, StringComparison.Ordinal);
    }

    public static TheoryData<string> ExampleFiles => [.. Repository.Examples.Select(f => Path.GetFileName(f))];

    // Each: what to change in the small piece, what into, and where and how the error must point.
    [Theory]
    [InlineData("\"pleatwright\": 1", "\"pleatwright\": 2", 1, 18, "newer")]
    [InlineData("\"pleatwright\": 1", "\"pleatwright\": \"one\"", 1, 18, "whole number")]
    [InlineData("\"title\"", "\"tilte\"", 2, 3, "no key “tilte”")]
    [InlineData("\"title\"", "\"pleatwright\"", 2, 3, "second time")]
    [InlineData("\"Small\",", "\"Small\"", 3, 3, "not valid JSON")]
    [InlineData("\"Small\"", "[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]", 2, 27, "deeper within one another")]
    [InlineData("\"panel\"", "\"cone\"", 3, 22, "form")]
    [InlineData("\"Small\"", "\"Small\", \"designer\": 3", 2, 33, "“designer” must be text")]
    [InlineData("\"Small\"", "\"Small\", \"designer\": \"a\\tb\"", 2, 33, "one line")]
    [InlineData("\"Small\"", "\"Small\", \"copyright\": \"a\\nb\"", 2, 34, "one line")]
    [InlineData("\"Small\"", "\"Small\", \"date\": \"2026-02-30\"", 2, 29, "such as \"2026-05-31\"")]
    [InlineData("\"Small\"", "\"Small\", \"date\": \"31.5.2026\"", 2, 29, "such as \"2026-05-31\"")]
    [InlineData("\"Small\"", "\"Small\", \"date\": 2026", 2, 29, "such as \"2026-05-31\"")]
    [InlineData("\"Small\"", "\"Small\", \"photograph\": \"C:\\\\boats.jpg\"", 2, 35, "file alone, without a folder")]
    [InlineData("\"Small\"", "\"Small\", \"photograph\": \"../boats.jpg\"", 2, 35, "file alone, without a folder")]
    [InlineData("\"Small\"", "\"Small\", \"photograph\": \"..\"", 2, 35, "file alone, without a folder")]
    [InlineData("\"Small\"", "\"Small\", \"size\": 4", 2, 29, "“size” must be text")]
    [InlineData("\"4 in\"", "\"4\"", 3, 48, "length with its unit")]
    [InlineData("\"4 in\"", "4", 3, 48, "length with its unit")]
    [InlineData("\"4 in\"", "\"-4 in\"", 3, 48, "more than nothing")]
    [InlineData("\"4 in\"", "\"4000 in\"", 3, 48, "5000 is the most")]
    [InlineData("\"gatheringRows\": 4", "\"gatheringRows\": 1", 3, 73, "whole number from 2")]
    [InlineData("\"gatheringRows\": 4", "\"gatheringRows\": 4000", 3, 73, "5000 is the most")]
    [InlineData("\"r\": {", "\"red\": {", 4, 16, "one letter")]
    [InlineData("#b3202c", "b3202c", 4, 53, "#b3202c")]
    [InlineData("[\"rrr\", \"rrr\"]", "[\"rrr\", \"rr\"]", 5, 41, "2 valleys wide, but its first row is 3")]
    [InlineData("[\"rrr\", \"rrr\"]", "[\"rrr\", \"rxr\"]", 5, 43, "no thread has the letter “x”")]
    [InlineData("[\"rrr\", \"rrr\"]", "[\"rrr\", \"r r\"]", 5, 43, "neither a thread's letter")]
    [InlineData("[\"rrr\", \"rrr\"]", "[\"rrr\", \"r\\u0072x\"]", 5, 49, "no thread has the letter “x”")]
    [InlineData("[\"rrr\", \"rrr\"]", "[\"rrr\", \"r⛵r\"]", 5, 43, "“⛵” is neither")]
    [InlineData("[\"rrr\", \"rrr\"]", "[\"rrrr\", \"r🦀r\"]", 5, 44, "“🦀” is neither")]
    [InlineData("[\"rrr\", \"rrr\"]", "[]", 5, 33, "0 rows")]
    [InlineData("\"4 in\"", "\"4 in\", \"fabricWidth\": \"0.000001 mm\"", 3, 71, "wider cloth")]
    [InlineData("\"4 in\"", "\"4 in\", \"seam\": \"22 in\"", 3, 64, "leave nothing of cloth 44 in wide")]
    [InlineData("\"4 in\"", "\"4 in\", \"gauge\": { \"takeUp\": \"1 mm\" }", 3, 77, "less cloth than its finished width")]
    [InlineData("\"4 in\"", "\"4 in\", \"gauge\": { \"pleatsPerInch\": 0 }", 3, 84, "a number, more than 0")]
    [InlineData("\"figure\": \"bar\"", "\"figure\": \"bat\"", 6, 26, "no figure is called “bat”")]
    [InlineData("\"middle\"", "0", 6, 43, "“middle”, a valley from 1 to 5000")]
    [InlineData("\"gatheringRow\": 2", "\"gatheringRow\": 0", 6, 69, "whole number from 1")]
    [InlineData("\"gatheringRow\": 2", "\"gatheringRow\": 2, \"figureRow\": 2", 6, 85, "whole number from 0 to 1")]
    public void Bad_input_is_located(string find, string put, int line, int column, string says)
    {
        var text = Small.Replace(find, put, StringComparison.Ordinal);
        Assert.NotEqual(Small, text);
        var e = Assert.Throws<PieceFormatException>(() => PieceReader.Read(text));
        Assert.Contains(says, e.Message, StringComparison.Ordinal);
        Assert.Equal((line, column), (e.Line, e.Column));
        Assert.Equal($"my.piece.json:{line}:{column}: {e.Message}", e.Located("my.piece.json"));
        Assert.DoesNotContain('\n', e.Message);
    }

    [Fact]
    public void A_credit_is_read_as_it_is_said_and_what_is_not_said_is_not_written()
    {
        var piece = PieceReader.Read(Small);
        Assert.Equal((Credit.None, ""), (piece.Credit, piece.SizeName));
        var written = PieceWriter.Write(piece);
        Assert.All(["designer", "copyright", "date", "photograph", "\"size\""], key => Assert.DoesNotContain(key, written, StringComparison.Ordinal));
        var said = PieceReader.Read(Small.Replace("\"Small\",", "\"Small\", \"designer\": \"the harbour class\", \"copyright\": \"© 2026\", \"date\": \"2026-05-31\", \"photograph\": \"boats.jpg\", \"size\": \"4 years\",", StringComparison.Ordinal));
        Assert.Equal(new Credit { Designer = "the harbour class", Copyright = "© 2026", Date = new DateOnly(2026, 5, 31), Photograph = "boats.jpg" }, said.Credit);
        Assert.Equal("4 years", said.SizeName);
    }

    [Theory]
    [InlineData("designer", Credit.LongestDesigner)]
    [InlineData("copyright", Credit.LongestCopyright)]
    [InlineData("photograph", Credit.LongestPhotograph)]
    public void A_line_of_a_credit_is_as_long_as_it_may_be_and_no_longer(string key, int longest)
    {
        string With(int length) => Small.Replace("\"Small\",", $"\"Small\", \"{key}\": \"{new string('b', length)}\",", StringComparison.Ordinal);
        _ = PieceReader.Read(With(longest));
        Assert.True(Schemas.FitsPiece(With(longest)));
        Assert.Contains($"at most {longest} characters", Assert.Throws<PieceFormatException>(() => PieceReader.Read(With(longest + 1))).Message, StringComparison.Ordinal);
        Assert.False(Schemas.FitsPiece(With(longest + 1)));
    }

    [Theory]
    [InlineData("\"rows\": [", "\"colour\": 1, \"rows\": [", "it takes “rows”, “half”, “square”, “letters” and “from”.")]
    [InlineData("\"gatheringRow\": 2 }", "\"gatheringRow\": 2, \"row\": 1 }", "it takes “figure”, “centre”, “gatheringRow”, “figureRow”, “mirror”, “flip” and “repeat”.")]
    public void An_unknown_key_is_answered_with_each_key_there_is_once(string find, string put, string says) =>
        Assert.EndsWith(says, Assert.Throws<PieceFormatException>(() => PieceReader.Read(Small.Replace(find, put, StringComparison.Ordinal))).Message, StringComparison.Ordinal);

    [Fact]
    public void What_is_quoted_is_never_cut_within_a_letter()
    {
        var e = Assert.Throws<PieceFormatException>(() => PieceReader.Read("{ \"" + new string('a', 39) + "🦀🦀\": 1, \"pleatwright\": 1, \"cloth\": { \"form\": \"panel\", \"finishedWidth\": \"4 in\", \"gatheringRows\": 4 } }"));
        Assert.Contains($"“{new string('a', 39)}…”", e.Message, StringComparison.Ordinal);
    }

    // A width of so many and a half pleats is a tie: a hair's other pitch would make two pleats fewer.
    [Fact]
    public void A_cloth_comes_back_as_it_was_to_the_last_pleat() =>
        Gen.Select(Gen.Int[400, 2000], Gen.Int[1, 400], Gen.Bool).Sample((pitch, pleats, inches) =>
        {
            Length Of(double value) => inches ? Length.FromInches(value / 10000) : Length.FromMillimetres(value / 100);
            var cloth = new ClothPlan(new Panel(Of(pitch * (double)pleats)), new Gauge(Of(pitch), Of(pitch * 3.0), Length.FromInches(0.375), 5), 4)
            {
                FabricWidth = Length.FromInches(44).In(inches ? LengthUnit.Centimetre : LengthUnit.Inch),
            };
            var again = PieceReader.Read(PieceWriter.Write(new Piece("", cloth, [], [], []))).Cloth;
            Assert.Equal(cloth, again);
            Assert.Equal(cloth.FabricWidth.Unit, again.FabricWidth.Unit);
        });

    [Fact]
    public void A_thread_of_the_stash_is_kept_in_a_piece_as_it_is() => Shopping.StashGen.Stashes.Sample(stash =>
    {
        foreach (var thread in stash.Threads)
        {
            var floss = thread.InPlaceOf(PieceGen.Threads[0]);
            var piece = PieceReader.Read(Small) with { Threads = [floss with { Key = new('r') }] };
            Assert.Equal(piece.Threads, PieceReader.Read(PieceWriter.Write(piece)).Threads);
        }
    });

    [Fact]
    public void Columns_count_characters_not_bytes()
    {
        var e = Assert.Throws<PieceFormatException>(() => PieceReader.Read("{ \"títle — ✂\": 1 }"));
        Assert.Equal(1, e.Column);
        e = Assert.Throws<PieceFormatException>(() => PieceReader.Read("{ \"pleatwright\": 1, \"title\": \"é✂\", \"cloth\": 3 }"));
        Assert.Equal(45, e.Column);
    }

    [Fact]
    public void Any_bytes_give_a_piece_or_a_located_error() => Gen.Byte.Array[0, 200].Sample(bytes => ReadsOrRefuses(bytes));

    [Fact]
    public void A_damaged_piece_gives_a_piece_or_a_located_error() =>
        Gen.Select(Gen.Int[0, Small.Length - 1], Gen.Int[0, 12], Gen.String[Gen.OneOf('{', '}', '"', '[', ',', ':', '1', 'r', '.', '\\', '\u0007', 'é'), 0, 6])
            .Sample((at, remove, put) =>
            {
                var text = Small.Remove(at, Math.Min(remove, Small.Length - at)).Insert(at, put);
                ReadsOrRefuses(Encoding.UTF8.GetBytes(text));
            }, iter: 3000);

    private static void ReadsOrRefuses(byte[] bytes)
    {
        try
        {
            PieceReader.Read(bytes);
        }
        catch (PieceFormatException e)
        {
            Assert.True(e.Line >= 1 && e.Column >= 1 && e.Message.Length > 0);
        }
    }
}
