using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Proof;
using Pleatwright.Recutting;

namespace Pleatwright.Tests.Proof;

public class ThinFullnessTests
{
    private static Piece At(double pleatsPerInch, double takeUpInches, int rows, double thickness = 0.5) => Drawn.Piece(3, [.. Enumerable.Repeat("...aaaaaaaaaaaaa...", rows)]) is var piece
        ? piece with { Cloth = piece.Cloth with { Gauge = Gauge.FromPleatsPerInch(pleatsPerInch, Length.FromInches(takeUpInches), Length.FromInches(0.375), 5) with { PleatThickness = Length.FromMillimetres(thickness) } } }
        : null!;

    private static IEnumerable<Finding> Told(Piece piece) => Proofreading.Read(Work.Lay(piece)).Where(f => f.Rule == "thin-fullness");

    [Fact]
    public void Three_to_one_is_thin_under_a_picture_and_a_little_more_is_not()
    {
        var told = Assert.Single(Told(At(12, 0.25, 3))); // 12 × 1/4 in to the inch
        Assert.Equal(Severity.Note, told.Severity);
        Assert.Contains("gathered 3.0 to 1", told.Message);
        Assert.Contains("16 pleats an inch", told.Remedy); // four quarter inches to a quarter inch
        Assert.Empty(Told(At(12.4, 0.25, 3)));
    }

    [Fact]
    public void Two_rows_are_a_border_and_three_a_picture()
    {
        Assert.Empty(Told(At(12, 0.25, 2)));
        Assert.Single(Told(At(12, 0.25, 3)));
    }

    // A quarter inch gathered four to one lies 1.59 mm wide: thicker pleats cannot.
    [Fact]
    public void Cloth_too_thick_to_lie_closer_is_let_be()
    {
        Assert.Single(Told(At(10, 0.25, 3, 1.5)));
        Assert.Empty(Told(At(10, 0.25, 3, 1.6)));
    }

    [Fact]
    public void Recutting_as_the_remedy_says_mends_it()
    {
        var piece = At(12, 0.25, 4);
        var gauge = piece.Cloth.Gauge;
        foreach (var keep in Enum.GetValues<RecutKeep>())
            Assert.Empty(Told(Recutter.Recut(piece, new Gauge(Length.FromInches(1.0 / 16), gauge.TakeUp, gauge.RowSpacing, 5), keep).Piece));
    }
}
