using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Proof;
using Pleatwright.Tests.Plate;

namespace Pleatwright.Tests.Proof;

public class TightFullnessTests
{
    private static IEnumerable<Finding> Told(Piece piece) => Proofreading.Read(Work.Lay(piece)).Where(f => f.Rule == "tight-fullness");

    private static Piece At(double pleatsPerInch) => Drawn.Piece(3, "...aaaaaaaaaaaaa...") is var piece
        ? piece with { Cloth = piece.Cloth with { Gauge = Gauge.FromPleatsPerInch(pleatsPerInch, Length.FromInches(0.25), Length.FromInches(0.375), 5) } }
        : null!;

    // Five to one is the most that stitches well (common practice, no source): 20 pleats of a quarter inch to an inch.
    [Fact]
    public void Five_to_one_is_let_be_and_more_is_told()
    {
        Assert.Empty(Told(At(20)));
        var told = Assert.Single(Told(At(24)));
        Assert.Equal(Severity.Note, told.Severity);
        Assert.Contains("gathered 6.0 to 1", told.Message);
    }

    // By hand: 318 pleats on a neck of 11 in are 28.9 an inch, of a quarter inch each; two spaces down the arc is 15.7 in, 5.1 to 1; three down 18.1 in, 4.4 to 1.
    [Fact]
    public void A_bishop_with_wide_panels_is_told_of_its_neck_and_not_of_where_it_opens()
    {
        var told = Assert.Single(Told(Plates.Example("quay-bishop").Piece));
        Assert.Contains("gathered up to 7.2 to 1", told.Message);
        Assert.Equal(0, told.Row.Index);
        Assert.Contains("Stitch lower", told.Remedy);
    }
}
