using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Proof;

namespace Pleatwright.Tests.Proof;

/// <summary>Figures across joins, and stacked rows low on a bishop.</summary>
public class GarmentRuleTests
{
    // Three panels of 20 in, 240 quarter inches less six: 234 pleats; joins at 77 and 157, evened away from the middle to valleys 76 and 158.
    private static Work Bishop(string place, string bands = "", string rows = "\"rrrrrr\", \"rrrrrr\", \"rrrrrr\"") => Work.Lay(PieceReader.Read($$"""
        { "pleatwright": 1,
          "cloth": { "form": "round", "neck": "11 in", "panels": [ { "name": "back", "cut": "20 in" }, { "name": "front", "cut": "20 in" }, { "name": "side", "cut": "20 in" } ], "gatheringRows": 9 },
          "threads": { "r": { "colour": "#b3202c", "strands": 6 } },
          "figures": { "bar": { "rows": [ {{rows}} ] } },
          "place": [ { "figure": "bar", {{place}} } ],
          "bands": [ {{bands}} ] }
        """));

    private static Finding[] Of(string rule, Work work) => [.. Proofreading.Read(work).Where(f => f.Rule == rule)];

    [Fact]
    public void A_figure_across_a_join_is_told_and_the_nearest_beside_it_is_not()
    {
        Assert.Equal([76, 158], Bishop("\"gatheringRow\": 2").Pleating.Joins.Select(j => j.Valley));
        // Six valleys about valley 76, of which the middle two are 75 and 76: valleys 74 to 79. Three further to the left it ends at 76, four at 75.
        var told = Assert.Single(Of("across-join", Bishop("\"centre\": 76, \"gatheringRow\": 2")));
        Assert.Equal((Severity.Note, 5, 7, 76), (told.Severity, told.Row.Index, told.LastRow.Index, told.From.Number));
        Assert.StartsWith("“bar” lies across the join of back and front, rows 5 to 7, valley 76 (pleats 76 and 77)", told.Message, StringComparison.Ordinal);
        Assert.Single(Of("across-join", Bishop("\"centre\": 73, \"gatheringRow\": 2")));
        Assert.Empty(Of("across-join", Bishop("\"centre\": 72, \"gatheringRow\": 2")));
        Assert.Single(Of("across-join", Bishop("\"centre\": { \"panel\": \"front\", \"from\": \"left\", \"valleys\": 2 }, \"gatheringRow\": 2")));
        Assert.Empty(Of("across-join", Bishop("\"centre\": { \"panel\": \"front\", \"from\": \"left\", \"valleys\": 3 }, \"gatheringRow\": 2")));
    }

    [Fact]
    public void One_row_across_a_join_hides_it() =>
        Assert.Empty(Of("across-join", Bishop("\"centre\": 76, \"gatheringRow\": 2", "{ \"stitch\": \"cable\", \"gatheringRow\": 5, \"thread\": \"r\" }", "\"rrrrrr\"")));

    [Theory]
    [InlineData(4, "", false)] // rows 15 to 17 of 0 to 40: above the middle
    [InlineData(5, "", true)]  // rows 20 to 22
    [InlineData(5, "{ \"stitch\": \"wave\", \"gatheringRow\": 7, \"thread\": \"r\" }", false)]
    [InlineData(5, "{ \"stitch\": \"trellis\", \"gatheringRow\": 7, \"thread\": \"r\" }", false)]
    [InlineData(5, "{ \"stitch\": \"wave\", \"gatheringRow\": 2, \"thread\": \"r\" }", true)] // above it
    [InlineData(5, "{ \"stitch\": \"outline\", \"gatheringRow\": 7, \"thread\": \"r\" }", true)]
    [InlineData(5, "{ \"stitch\": \"cable\", \"gatheringRow\": 7, \"thread\": \"r\" }", true)]
    [InlineData(5, "{ \"stitch\": \"wave\", \"gatheringRow\": 7, \"thread\": \"r\", \"panel\": \"front\" }", false)]
    [InlineData(5, "{ \"stitch\": \"wave\", \"gatheringRow\": 7, \"thread\": \"r\", \"panel\": \"back\" }", true)]
    [InlineData(5, "{ \"stitch\": \"wave\", \"gatheringRow\": 7, \"thread\": \"r\", \"to\": 117 }", true)] // under half of it
    [InlineData(5, "{ \"stitch\": \"wave\", \"gatheringRow\": 7, \"thread\": \"r\", \"to\": 117 }, { \"stitch\": \"wave\", \"gatheringRow\": 7, \"thread\": \"r\", \"from\": 118 }", false)]
    public void Stacked_rows_low_on_a_bishop_want_rows_below_that_stretch(int row, string bands, bool told) =>
        Assert.Equal(told, Of("stiff-below", Bishop($"\"gatheringRow\": {row}", bands)).Length == 1);

    [Fact]
    public void A_panel_need_not_fan()
    {
        var bishop = Bishop("\"gatheringRow\": 8").Piece;
        Assert.NotEmpty(Of("stiff-below", Work.Lay(bishop)));
        Assert.Empty(Of("stiff-below", Work.Lay(bishop with { Cloth = bishop.Cloth with { Form = new Pleatwright.Cloth.Panel(Pleatwright.Measure.Length.FromInches(11)) } })));
    }
}
