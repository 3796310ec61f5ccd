using CsCheck;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Shopping;
using Pleatwright.Tests.Plate;

namespace Pleatwright.Tests.Cloth;

public class CutForTests
{
    // By hand: 11 rows gathered, 10 spaces between them and half a space at each end.
    [Theory]
    [InlineData("harbour-morning", UnitSystem.Inches, "Cut for rows 3/8 in apart, 5 cable rows to a space, 16 pleats an inch, fullness 3.78 to 1.|Cloth: 43 in wide, 4 1/8 in deep.|The depth is that of 11 gathered rows with half a space beyond the outer ones; add what hangs above and below.")]
    [InlineData("gulls-turning", UnitSystem.Metric, "Cut for rows 9.5 mm apart, 5 cable rows to a space, 7.1 pleats a centimetre, fullness 3.97 to 1.|Cloth: 90.7 cm wide, 9.5 cm deep.|The depth is that of 10 gathered rows with half a space beyond the outer ones; add what hangs above and below.")]
    [InlineData("quay-bishop", UnitSystem.Inches, "Cut for rows 3/8 in apart, 5 cable rows to a space, 28.9 pleats an inch, fullness 7.23 to 1 at the neck.|Cloth: 84 in wide, 3 3/8 in deep.|The depth is that of 9 gathered rows with half a space beyond the outer ones; add what hangs above and below.")]
    public void Of_the_examples(string example, UnitSystem units, string words) =>
        Assert.Equal(words.Split('|'), CutForWords.Of(CutFor.Of(Plates.Example(example).Pleating), units));

    [Fact]
    public void The_depth_is_what_the_shopping_list_buys() => Chart.PieceGen.Pieces.Sample(piece =>
    {
        var plan = new PleatingPlan(piece.Cloth);
        var cut = CutFor.Of(plan);
        Assert.Equal(new ClothNeed("", piece.Cloth).Length, cut.CutDepth);
        Assert.Equal((plan.Depth + piece.Cloth.Gauge.RowSpacing * (piece.Cloth.HoldingRowsAbove + piece.Cloth.HoldingRowsBelow + 1)).Millimetres, cut.CutDepth.Millimetres, 6);
        Assert.Equal(cut.PleatsPerInch, cut.PleatsPerCentimetre * 2.54, 6);
        Assert.Equal(piece.Cloth.Gauge.PleatsPerInch, cut.PleatsPerInch, 6);
        Assert.Equal(plan.CutWidth, cut.CutWidth);
    });
}
