using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Proof;

namespace Pleatwright.Tests.Files;

public class FormFileTests
{
    private const string Bishop = """
        { "pleatwright": 1, "title": "Quay bishop",
          "cloth": { "form": "round", "neck": "11 in", "sweep": 360, "seam": "3/8 in",
                     "panels": [ { "name": "left back", "cut": "22 in" }, { "name": "sleeve", "cut": "20 in" },
                                 { "name": "front", "cut": "44 in" }, { "name": "sleeve", "cut": "20 in" },
                                 { "name": "right back", "cut": "22 in" } ],
                     "gatheringRows": 6 } }
        """;

    private const string Ornament = """
        { "pleatwright": 1, "title": "Buoy",
          "cloth": { "form": "ball", "diameter": "3 in", "gauge": { "pleatThickness": "0.8 mm" }, "gatheringRows": 12 },
          "threads": { "r": { "colour": "#b3202c" } },
          "bands": [ { "stitch": "cable", "gatheringRow": 1, "thread": "r" }, { "stitch": "cable", "gatheringRow": 6, "thread": "r" } ] }
        """;

    [Theory]
    [InlineData(Bishop)]
    [InlineData(Ornament)]
    public void A_form_is_read_written_and_read_again(string text)
    {
        var piece = PieceReader.Read(text);
        var again = PieceReader.Read(PieceWriter.Write(piece));
        Assert.Equal(piece.Cloth, again.Cloth);
        Assert.Equal(PieceWriter.Write(piece), PieceWriter.Write(again));
    }

    [Fact]
    public void A_bishop_of_five_panels()
    {
        // 128 in less eight seam allowances is 125 in: 500 quarter inches, less six seam pleats.
        var plan = new PleatingPlan(PieceReader.Read(Bishop).Cloth);
        Assert.Equal(494, plan.Pleats);
        Assert.Equal(["left back", "sleeve", "front", "sleeve", "right back"], plan.Shares.Select(s => s.Name));
    }

    [Theory]
    [InlineData("\"form\": \"round\", \"neck\": \"11 in\"", 2, 12, "lacks the key “panels”")]
    [InlineData("\"form\": \"round\", \"panels\": [{ \"name\": \"a\", \"cut\": \"44 in\" }]", 2, 12, "lacks the key “neck”")]
    [InlineData("\"form\": \"round\", \"neck\": \"0 in\", \"panels\": []", 2, 39, "“neck” must be more than nothing, but the text “0 in” was found.")]
    [InlineData("\"form\": \"round\", \"neck\": \"11 in\", \"panels\": []", 2, 58, "“panels” holds 0 panels; a round form has 1 to 100.")]
    [InlineData("\"form\": \"round\", \"neck\": \"11 in\", \"sweep\": 400, \"panels\": []", 2, 57, "“sweep” must be degrees, more than 0 and at most 360, but the number 400 was found.")]
    [InlineData("\"form\": \"round\", \"neck\": \"11 in\", \"panels\": [{ \"name\": \"a\", \"cut\": \"1 in\" }]", 2, 58, "the panels give 4 pleats")]
    [InlineData("\"form\": \"round\", \"neck\": \"11 in\", \"panels\": [{ \"name\": \"a\", \"cut\": 44 }]", 2, 81, "“cut” must be a length with its unit")]
    [InlineData("\"form\": \"round\", \"neck\": \"11 in\", \"panels\": [{ \"name\": \"a\", \"cut\": \"44 in\", \"seam\": 1 }]", 2, 90, "a panel has no key “seam”")]
    [InlineData("\"form\": \"ball\", \"diameter\": \"3\"", 2, 42, "“diameter” must be a length with its unit")]
    [InlineData("\"form\": \"ball\", \"diameter\": \"1 in\"", 2, 67, "9 gathering rows do not fit on the ball: from pole to pole there is room for 5 at this row spacing.")]
    [InlineData("\"form\": \"ball\", \"neck\": \"3 in\", \"diameter\": \"3 in\"", 2, 30, "the cloth has no key “neck”")]
    [InlineData("\"form\": \"cuff\", \"finishedWidth\": \"7 in\", \"edgeSeam\": \"half\"", 2, 67, "“edgeSeam” must be a length with its unit")]
    [InlineData("\"form\": \"star\"", 2, 22, "“form” must be “panel”, “round”, “ball” or “cuff”, but the text “star” was found.")]
    public void A_bad_form_is_an_error_that_says_where(string keys, int line, int column, string words)
    {
        var e = Assert.Throws<PieceFormatException>(() => PieceReader.Read(
            "{ \"pleatwright\": 1,\n  \"cloth\": { " + keys + ", \"gatheringRows\": 9 } }"));
        Assert.Contains(words, e.Message);
        Assert.Equal((line, column), (e.Line, e.Column));
    }

    [Fact]
    public void Pleats_crowd_at_the_poles_of_a_ball_and_not_at_its_equator()
    {
        // 114 pleats on 3 in; 12 rows span 4.125 of the meridian's 4.712 in, so row 1 lies 0.2937 in from the pole:
        // φ = 0.1958 rad, pitch 9.4248 × sin φ / 114 = 0.0161 in = 0.41 mm, less than a pleat 0.8 mm thick.
        var work = Work.Lay(PieceReader.Read(Ornament));
        Assert.Equal(0.409, work.Pleating.PitchAt(0).Millimetres, 3);
        var finding = Assert.Single(Proofreading.Read(work), f => f.Rule == "crowded-pleats");
        Assert.Equal((0, Severity.Error), (finding.Row.Index, finding.Severity));
        Assert.Contains("0.4 mm", finding.Message);
    }
}
