using System.Text;
using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Files;
using Pleatwright.Tests.Chart;
using static Pleatwright.Tests.Files.Schemas;

namespace Pleatwright.Tests.Files;

public class FigureFileTests
{
    private const string Id = "0123456789abcdef0123456789abcdef";

    private const string Small = """
        { "figure": 1, "name": "boat", "id": "0123456789abcdef0123456789abcdef",
          "designer": "the harbour class",
          "threads": { "r": { "name": "sail red", "colour": "#b3202c", "strands": 3 } },
          "rows": ["..r..", ".rrr."], "half": [ { "row": 1, "end": "left" } ], "baseRow": 1,
          "gauge": { "pleatsPerInch": 16, "takeUp": "1/5 in", "rowSpacing": "3/8 in" } }
        """;

    private static readonly Gen<KeptFigure> Kept = Gen.Select(PieceGen.Pieces, Gen.Bool, Gen.OneOf("boat", "Möwe ⛵", "a “name”, <b>&"), Gen.Int[0, 7]).Select((piece, from, name, row) =>
    {
        piece = Figures.Rename(piece, "figure", name);
        var kept = Drawer.Take(piece, name);
        return kept with { Id = from ? Id : kept.Id, BaseRow = row % kept.Figure.Height };
    });

    [Fact]
    public void Read_write_read_is_the_same_and_fits_the_schema() => Kept.Sample(kept =>
    {
        var written = FigureWriter.Write(kept);
        var again = FigureReader.Read(written);
        Assert.True(kept.Same(again), written);
        Assert.Equal(kept.State, again.State);
        Assert.Equal(written, FigureWriter.Write(again));
        Assert.True(FitsFigure(written), written);
        Assert.True(FigureReader.IsFigure(Encoding.UTF8.GetBytes(written)));
        Assert.False(FitsPiece(written) || FigureReader.IsFigure(PieceWriter.WriteUtf8(BareCloth.Around(kept.Figure, kept.Threads, kept.BaseRow, kept.Gauge, "t", 2))));
    }, threads: 1, iter: 100);

    [Fact]
    public void A_piece_remembers_where_its_figure_came_from() => Gen.Select(PieceGen.Pieces, Kept).Sample((piece, kept) =>
    {
        var put = Drawer.Put(piece, kept, new Valley(2), new CableRow(1));
        var written = PieceWriter.Write(put.Piece);
        Assert.True(FitsPiece(written), written);
        Assert.Equal(put.Piece.Figure(put.Figure)!.From, PieceReader.Read(written).Figure(put.Figure)!.From);
        Assert.DoesNotContain("\"from\": {", PieceWriter.Write(piece), StringComparison.Ordinal); // a figure of the piece's own says nothing
    }, threads: 1, iter: 60);

    [Fact]
    public void What_is_left_out_is_the_usual_and_the_identity_is_the_mark_of_the_first_state()
    {
        var kept = FigureReader.Read("""{ "figure": 1, "name": "boat", "rows": [".r.", "rrr", "rrr"], "threads": { "r": { "colour": "#b3202c" } } }""");
        Assert.Equal((kept.State, 1), (kept.Id, kept.BaseRow));
        Assert.Equal(Pleatwright.Cloth.Gauge.Common, kept.Gauge);
        var other = FigureReader.Read("""{ "figure": 1, "name": "other", "rows": [".x.", "xxx", "xxx"], "threads": { "a": { "colour": "#000000" }, "x": { "colour": "#b3202c" } } }""");
        Assert.Equal(kept.Id, other.Id);
        Assert.NotEqual(kept.Id, FigureReader.Read("""{ "figure": 1, "name": "boat", "rows": [".r.", "rrr", "rrr"], "square": true, "threads": { "r": { "colour": "#b3202c" } } }""").Id);
    }

    [Theory]
    [InlineData("\"figure\": 1", "\"figure\": 2", "2,", "newer")]
    [InlineData("\"figure\": 1,", "", "{", "lacks the key “figure”")]
    [InlineData("\"name\": \"boat\"", "\"name\": \" \"", "\" \"", "name you call it by")]
    [InlineData("\"name\": \"boat\",", "", "{", "lacks the key “name”")]
    [InlineData("89abcdef\"", "89ABCDEF\"", "\"0123", "32 hexadecimal digits")]
    [InlineData("89abcdef\"", "89abcde\"", "\"0123", "32 hexadecimal digits")]
    [InlineData("\".rrr.\"", "\".rr.\"", "\".rr.\"", "all rows are equally long")]
    [InlineData("\".rrr.\"", "\".rxr.\"", "xr.\"", "no thread has the letter “x”")]
    [InlineData("\"baseRow\": 1", "\"baseRow\": 2", "2,", "from 0 to 1")]
    [InlineData("\"row\": 1", "\"row\": 5", "5,", "from 0 to 1")]
    [InlineData("\"1/5 in\"", "\"1/5\"", "\"1/5\"", "length with its unit")]
    [InlineData("\"baseRow\"", "\"place\": [], \"baseRow\"", "\"place\"", "no key “place”")]
    [InlineData("#b3202c", "red", "\"red\"", "#b3202c")]
    [InlineData("3/8 in\" } }", "3/8 in\"", "\0", "not valid JSON")]
    public void What_is_wrong_is_said_with_its_place(string find, string put, string at, string words)
    {
        Assert.True(FitsFigure(Small));
        var broken = Small.Replace(find, put, StringComparison.Ordinal);
        Assert.NotEqual(Small, broken);
        var error = Assert.Throws<PieceFormatException>(() => FigureReader.Read(broken));
        Assert.Contains(words, error.Message, StringComparison.Ordinal);
        if (at == "\0") return;
        var before = broken[..broken.IndexOf(at, StringComparison.Ordinal)];
        Assert.Equal((before.Count(c => c == '\n') + 1, before.Length - before.LastIndexOf('\n')), (error.Line, error.Column));
        // What two keys say together the schema cannot see.
        if (words is not ("all rows are equally long" or "no thread has the letter “x”" or "from 0 to 1")) Assert.False(FitsFigure(broken));
    }

    [Theory]
    [InlineData("\"state\": \"" + Id + "\"", "\"state\": 5", "32 hexadecimal digits")]
    [InlineData("\"state\": \"" + Id + "\",", "", "lacks the key “state”")]
    [InlineData("\"baseRow\": 0", "\"baseRow\": -1", "whole number")]
    [InlineData("\"baseRow\": 0", "\"shelf\": 0", "no key “shelf”")]
    public void Where_a_figure_came_from_is_read_as_strictly(string find, string put, string words)
    {
        const string Sound = $$"""{ "pleatwright": 1, "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 4 }, "threads": { "r": { "colour": "#b3202c" } }, "figures": { "boat": { "rows": ["r"], "from": { "figure": "{{Id}}", "state": "{{Id}}", "as": "{{Id}}", "baseRow": 0 } } } }""";
        Assert.Equal(new FigureOrigin(Id, Id, Id, 0), PieceReader.Read(Sound).Figures[0].From);
        var broken = Sound.Replace(find, put, StringComparison.Ordinal);
        Assert.True(FitsPiece(Sound) && !FitsPiece(broken));
        Assert.Contains(words, Assert.Throws<PieceFormatException>(() => PieceReader.Read(broken)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Whatever_is_done_to_a_file_it_is_read_or_refused_with_a_place() => Gen.Select(Gen.Int[0, Small.Length - 1], Gen.Int[0, 9], Gen.OneOf("", "\"", "{", "]", "9", "\0", "é", "\n")).Sample((at, cut, put) =>
    {
        var broken = Small.Remove(at, Math.Min(cut, Small.Length - at)).Insert(at, put);
        try
        {
            var read = FigureReader.Read(broken);
            Assert.True(read.Same(FigureReader.Read(FigureWriter.Write(read))));
        }
        catch (PieceFormatException e)
        {
            Assert.InRange(e.Line, 1, broken.Count(c => c == '\n') + 1);
            Assert.True(e.Column >= 1 && e.Message.Length > 0);
        }
    });

    [Fact]
    public void Nothing_larger_than_a_piece_is_read() =>
        Assert.Contains("no figure needs", Assert.Throws<PieceFormatException>(() => FigureReader.Read(new byte[FigureReader.MostBytes + 1])).Message, StringComparison.Ordinal);
}
