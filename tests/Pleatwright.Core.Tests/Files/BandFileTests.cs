using CsCheck;
using Pleatwright.Chart.Stitches;
using Pleatwright.Files;
using Pleatwright.Tests.Chart.Stitches;
using Pleatwright.Tests.Endurance;
using static Pleatwright.Tests.Files.Schemas;

namespace Pleatwright.Tests.Files;

public class BandFileTests
{
    private const string Small = """
        { "pleatwright": 1,
          "cloth": { "form": "panel", "finishedWidth": "4 in", "gatheringRows": 4 },
          "threads": { "r": { "name": "sail red", "colour": "#b3202c" } },
          "bands": [ { "stitch": "wave", "gatheringRow": 2, "thread": "r" } ],
          "accents": [ { "accent": "bullion", "centre": 9, "gatheringRow": 2, "thread": "r" } ] }
        """;

    [Fact]
    public void Bands_and_accents_read_back_the_same() => BandGen.Pieces.Sample(piece =>
    {
        var again = PieceReader.Read(PieceWriter.Write(piece));
        Assert.Equal(piece.Bands, again.Bands);
        Assert.Equal(piece.Accents, again.Accents);
    });

    [Fact]
    public void What_is_written_fits_the_schema() => BandGen.Pieces.Sample(piece => FitsPiece(PieceWriter.Write(piece)), threads: 1, iter: Long.Of(80, 300));

    [Fact]
    public void The_schema_knows_every_stitch() =>
        Assert.All(BandStitch.All, s => Assert.True(FitsPiece(Small.Replace("wave", s.Name, StringComparison.Ordinal)), s.Name));

    // Each: what to change in the small piece, what into, and where and how the error must point. The schema refuses it too.
    [Theory]
    [InlineData("\"stitch\": \"wave\"", "\"stitch\": \"wavy\"", 4, 26, "there are cable, outline, wheat")]
    [InlineData("\"gatheringRow\": 2, \"thread\": \"r\" } ],\n  \"acc", "\"gatheringRow\": 2, \"thread\": \"r\", \"height\": 17 } ],\n  \"acc", 4, 78, "whole number from 1 to 16")]
    [InlineData("\"stitch\": \"wave\"", "\"stitch\": \"baby wave\", \"steps\": 2", 4, 39, "a band of baby wave has no key “steps”")]
    [InlineData("\"stitch\": \"wave\"", "\"stitch\": \"cable\", \"workFrom\": \"centre\"", 4, 35, "a band of cable has no key “workFrom”")]
    [InlineData("\"stitch\": \"wave\"", "\"stitch\": \"trellis\", \"steps\": 1", 4, 46, "whole number from 2 to 20")]
    [InlineData("\"stitch\": \"wave\"", "\"stitch\": \"wave\", \"ends\": \"loose\"", 4, 42, "“cut” or “whole”")]
    [InlineData("\"stitch\": \"wave\"", "\"stitch\": \"wave\", \"rows\": 0", 4, 42, "whole number from 1 to 20")]
    [InlineData("\"accent\": \"bullion\"", "\"accent\": \"bow\"", 5, 28, "there are bullion, knot")]
    [InlineData("\"accent\": \"bullion\"", "\"accent\": \"knot\", \"size\": 3", 5, 36, "an accent of knot has no key “size”")]
    [InlineData("\"accent\": \"bullion\"", "\"accent\": \"bullion\", \"size\": 1", 5, 47, "whole number from 2 to 12")]
    public void Bad_bands_and_accents_are_located(string find, string put, int line, int column, string says)
    {
        var text = Small.Replace(find, put, StringComparison.Ordinal);
        Assert.NotEqual(Small, text);
        var e = Assert.Throws<PieceFormatException>(() => PieceReader.Read(text));
        Assert.Contains(says, e.Message, StringComparison.Ordinal);
        Assert.Equal((line, column), (e.Line, e.Column));
        Assert.True(FitsPiece(Small));
        Assert.False(FitsPiece(text));
    }

    [Fact]
    public void A_band_of_one_pleat_is_refused()
    {
        var e = Assert.Throws<PieceFormatException>(() => PieceReader.Read(Small.Replace("\"stitch\": \"wave\"", "\"stitch\": \"wave\", \"from\": 9, \"to\": 9", StringComparison.Ordinal)));
        Assert.Contains("it needs two pleats", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_thread_is_located()
    {
        var e = Assert.Throws<PieceFormatException>(() => PieceReader.Read(Small.Replace("\"thread\": \"r\" } ],", "\"thread\": \"x\" } ],", StringComparison.Ordinal)));
        Assert.Contains("there is r", e.Message, StringComparison.Ordinal);
    }
}
