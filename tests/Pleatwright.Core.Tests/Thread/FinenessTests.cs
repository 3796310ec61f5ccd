using CsCheck;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

public class FinenessTests
{
    // ISO 2947 (integrated conversion table for the numbering of yarns): tex = 590.54 / Ne; 840 yards of 0.9144 m
    // to the hank and 453.59237 g to the pound (international yard and pound).
    [Fact]
    public void The_conversion_constant_is_a_pound_over_a_hank() =>
        Assert.Equal(453.59237 / (840 * 0.9144) * 1000, Fineness.TexTimesCottonCount, 0.005);

    [Theory]
    [InlineData(10, 59.054)]
    [InlineData(20, 29.527)]
    [InlineData(60, 9.842)]
    public void Cotton_counts_are_the_tex_of_the_table(double count, double tex) => Assert.Equal(count, Fineness.FromTex(tex).CottonCount, 0.005);

    // Peirce, "The geometry of cloth structure", Journal of the Textile Institute, 1937: d (in) = 1 / (28 √Ne). The same
    // paper's yarn of 1.1 cm³/g, taken as a cylinder, gives d (mm) = √(4 · 1.1 · tex / 1000 / π) = 0.0374 √tex; the
    // round figure 28 stands for 27.9, hence the 0.3 %.
    [Theory]
    [InlineData(5)]
    [InlineData(35)]
    [InlineData(300)]
    public void The_diameter_is_that_of_a_cylinder_of_cotton(double tex)
    {
        var diameter = Fineness.FromTex(tex).Diameter.Millimetres;
        Assert.Equal(1, diameter / Math.Sqrt(4 * 1.1 * tex / 1000 / Math.PI), 0.003);
        Assert.Equal(1, diameter / (0.0374 * Math.Sqrt(tex)), 0.003);
    }

    [Fact]
    public void A_strand_of_the_default_floss_is_about_a_fifth_of_a_millimetre() =>
        Assert.Equal(0.22, Some.Floss('a', "#000000").Fineness.Diameter.Millimetres, 0.005);

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Nothing_is_no_fineness(double value) => Assert.Throws<ArgumentOutOfRangeException>(() => Fineness.FromTex(value));

    [Fact]
    public void Four_times_the_tex_is_twice_the_diameter() =>
        Gen.Double[0.1, 1000].Sample(tex => Math.Abs(Fineness.FromTex(4 * tex).Diameter / Fineness.FromTex(tex).Diameter - 2) < 1e-9);
}
