using CsCheck;
using Pleatwright.Measure;

namespace Pleatwright.Tests.Measure;

public class LengthTests
{
    private static readonly Gen<Length> Lengths = Gen.Select(Gen.Double[-5000, 5000], Gen.Int[0, 3]).Select((value, unit) =>
        unit switch
        {
            0 => Length.FromMillimetres(value),
            1 => Length.FromCentimetres(value),
            2 => Length.FromMetres(value),
            _ => Length.FromInches(value),
        });

    // NIST Special Publication 811 (2008), appendix B.8: inch to millimetre, multiply by 2.54 E+01, exact.
    [Theory]
    [InlineData("1 in", 25.4)]
    [InlineData("3/8 in", 9.525)]
    [InlineData("1/8 in", 3.175)]
    [InlineData("1 1/2 in", 38.1)]
    [InlineData("44 in", 1117.6)]
    [InlineData("45 cm", 450)]
    [InlineData("2.1 mm", 2.1)]
    [InlineData("8 m", 8000)]
    [InlineData(" 0.375in ", 9.525)]
    public void Reads_what_makers_write(string text, double millimetres) =>
        Assert.Equal(millimetres, Length.Parse(text).Millimetres, 1e-9);

    [Theory]
    [InlineData("")]
    [InlineData("12")]
    [InlineData("in")]
    [InlineData("3/0 in")]
    [InlineData("3//8 in")]
    [InlineData("1 2 3/8 in")]
    [InlineData("1e5 in")]
    [InlineData("NaN mm")]
    [InlineData("-1 1/2 in")]
    [InlineData("12 feet")]
    [InlineData("1,5 cm")]
    [InlineData(null)]
    public void Refuses_anything_else(string? text) => Assert.False(Length.TryParse(text, out _));

    [Fact]
    public void What_it_writes_it_reads_back_exactly() =>
        Lengths.Sample(length => Assert.Equal(length.Millimetres, Length.Parse(length.ToString()).Millimetres));

    [Fact]
    public void Keeps_the_makers_fraction() =>
        Gen.Select(Gen.Int[0, 60], Gen.Int[1, 63]).Sample((whole, parts) =>
        {
            var text = Length.FromInches(whole + parts / 64.0).ToString();
            Assert.Contains("/", text);
            Assert.Equal((whole + parts / 64.0) * 25.4, Length.Parse(text).Millimetres, 1e-9);
        });

    [Fact]
    public void Sums_and_shares_add_up() =>
        Gen.Select(Lengths, Lengths, Gen.Int[1, 50]).Sample((a, b, n) =>
        {
            Assert.Equal(a.Millimetres, (a + b - b).Millimetres, 1e-6);
            Assert.Equal(a.Millimetres, (a / n * n).Millimetres, 1e-6);
            Assert.Equal(a.Unit, (a + b).Unit);
            Assert.Equal(a < b, b > a);
        });

    [Fact]
    public void A_length_is_finite() => Assert.Throws<ArgumentOutOfRangeException>(() => Length.FromInches(double.NaN));

    [Theory]
    [InlineData("11 in", UnitSystem.Both, "27.9 cm (11 in)")]
    [InlineData("3/8 in", UnitSystem.Metric, "9.5 mm")]
    [InlineData("45 cm", UnitSystem.Inches, "17 3/4 in")]
    [InlineData("8 m", UnitSystem.Metric, "8.0 m")]
    public void Says_lengths_as_makers_do(string text, UnitSystem units, string said) => Assert.Equal(said, Length.Parse(text).Say(units));
}
