using CsCheck;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

public class ColourDifferenceTests
{
    // Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test data, and
    // mathematical observations", Color Research and Application 30(1), 2005, table 1: all 34 pairs, to its four places.
    public static TheoryData<double, double, double, double, double, double, double> Pairs => new()
    {
        { 50.0000, 2.6772, -79.7751, 50.0000, 0.0000, -82.7485, 2.0425 },
        { 50.0000, 3.1571, -77.2803, 50.0000, 0.0000, -82.7485, 2.8615 },
        { 50.0000, 2.8361, -74.0200, 50.0000, 0.0000, -82.7485, 3.4412 },
        { 50.0000, -1.3802, -84.2814, 50.0000, 0.0000, -82.7485, 1.0000 },
        { 50.0000, -1.1848, -84.8006, 50.0000, 0.0000, -82.7485, 1.0000 },
        { 50.0000, -0.9009, -85.5211, 50.0000, 0.0000, -82.7485, 1.0000 },
        { 50.0000, 0.0000, 0.0000, 50.0000, -1.0000, 2.0000, 2.3669 },
        { 50.0000, -1.0000, 2.0000, 50.0000, 0.0000, 0.0000, 2.3669 },
        { 50.0000, 2.4900, -0.0010, 50.0000, -2.4900, 0.0009, 7.1792 },
        { 50.0000, 2.4900, -0.0010, 50.0000, -2.4900, 0.0010, 7.1792 },
        { 50.0000, 2.4900, -0.0010, 50.0000, -2.4900, 0.0011, 7.2195 },
        { 50.0000, 2.4900, -0.0010, 50.0000, -2.4900, 0.0012, 7.2195 },
        { 50.0000, -0.0010, 2.4900, 50.0000, 0.0009, -2.4900, 4.8045 },
        { 50.0000, -0.0010, 2.4900, 50.0000, 0.0010, -2.4900, 4.8045 },
        { 50.0000, -0.0010, 2.4900, 50.0000, 0.0011, -2.4900, 4.7461 },
        { 50.0000, 2.5000, 0.0000, 50.0000, 0.0000, -2.5000, 4.3065 },
        { 50.0000, 2.5000, 0.0000, 73.0000, 25.0000, -18.0000, 27.1492 },
        { 50.0000, 2.5000, 0.0000, 61.0000, -5.0000, 29.0000, 22.8977 },
        { 50.0000, 2.5000, 0.0000, 56.0000, -27.0000, -3.0000, 31.9030 },
        { 50.0000, 2.5000, 0.0000, 58.0000, 24.0000, 15.0000, 19.4535 },
        { 50.0000, 2.5000, 0.0000, 50.0000, 3.1736, 0.5854, 1.0000 },
        { 50.0000, 2.5000, 0.0000, 50.0000, 3.2972, 0.0000, 1.0000 },
        { 50.0000, 2.5000, 0.0000, 50.0000, 1.8634, 0.5757, 1.0000 },
        { 50.0000, 2.5000, 0.0000, 50.0000, 3.2592, 0.3350, 1.0000 },
        { 60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644 },
        { 63.0109, -31.0961, -5.8663, 62.8187, -29.7946, -4.0864, 1.2630 },
        { 61.2901, 3.7196, -5.3901, 61.4292, 2.2480, -4.9620, 1.8731 },
        { 35.0831, -44.1164, 3.7933, 35.0232, -40.0716, 1.5901, 1.8645 },
        { 22.7233, 20.0904, -46.6940, 23.0331, 14.9730, -42.5619, 2.0373 },
        { 36.4612, 47.8580, 18.3852, 36.2715, 50.5065, 21.2231, 1.4146 },
        { 90.8027, -2.0831, 1.4410, 91.1528, -1.6435, 0.0447, 1.4441 },
        { 90.9257, -0.5406, -0.9208, 88.6381, -0.8985, -0.7239, 1.5381 },
        { 6.7747, -0.2908, -2.4247, 5.8714, -0.0985, -2.2286, 0.6377 },
        { 2.0776, 0.0795, -1.1350, 0.9033, -0.0636, -0.5514, 0.9082 },
    };

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Every_published_pair_comes_out(double l1, double a1, double b1, double l2, double a2, double b2, double difference)
    {
        Assert.Equal(difference, ColourDifference.Between(new Lab(l1, a1, b1), new Lab(l2, a2, b2)), 0.00005);
        Assert.Equal(difference, ColourDifference.Between(new Lab(l2, a2, b2), new Lab(l1, a1, b1)), 0.00005);
    }

    private static readonly Gen<Lab> Labs = Gen.Select(Gen.Double[0, 100], Gen.Double[-110, 110], Gen.Double[-110, 110], (l, a, b) => new Lab(l, a, b));

    [Fact]
    public void The_difference_is_the_same_either_way_and_nothing_to_itself() => Gen.Select(Labs, Labs).Sample((a, b) =>
        Math.Abs(ColourDifference.Between(a, b) - ColourDifference.Between(b, a)) < 1e-9 && ColourDifference.Between(a, a) == 0);

    [Fact]
    public void The_difference_is_the_same_either_way_between_hues_straight_opposite() => Gen.Select(Gen.Double[1, 100], Gen.Double[1, 100], Gen.Bool).Sample((here, there, alongA) =>
    {
        Lab one = alongA ? new Lab(50, here, 0) : new Lab(50, 0, here), other = alongA ? new Lab(50, -there, 0) : new Lab(50, 0, -there);
        Assert.Equal(ColourDifference.Between(one, other), ColourDifference.Between(other, one), 1e-9);
    });

    [Fact]
    public void It_is_the_formula_taken_angle_by_angle() => Gen.Select(Labs, Labs).Sample((a, b) =>
    {
        // Between hues straight opposite each other the formula itself jumps; there a hair decides.
        var opposite = Math.Abs(Math.Abs(Math.Atan2(a.B, a.A) - Math.Atan2(b.B, b.A)) - Math.PI) < 1e-3;
        if (!opposite) Assert.Equal(ByAngles(a, b), ColourDifference.Between(a, b), 1e-6);
    }, iter: 2000);

    // The formula step by step as ISO/CIE 11664-6 sets it out.
    private static double ByAngles(Lab p, Lab q)
    {
        static double Rad(double degrees) => degrees * Math.PI / 180;
        static double Hue(double a, double b) => a == 0 && b == 0 ? 0 : (Math.Atan2(b, a) * 180 / Math.PI + 360) % 360;
        static double Seventh(double c) => Math.Sqrt(Math.Pow(c, 7) / (Math.Pow(c, 7) + Math.Pow(25, 7)));
        var g = 0.5 * (1 - Seventh((Math.Sqrt(p.A * p.A + p.B * p.B) + Math.Sqrt(q.A * q.A + q.B * q.B)) / 2));
        double a1 = (1 + g) * p.A, a2 = (1 + g) * q.A, c1 = Math.Sqrt(a1 * a1 + p.B * p.B), c2 = Math.Sqrt(a2 * a2 + q.B * q.B);
        double h1 = Hue(a1, p.B), h2 = Hue(a2, q.B), turn = c1 * c2 == 0 ? 0 : h2 - h1;
        if (turn > 180) turn -= 360;
        if (turn < -180) turn += 360;
        var mean = c1 * c2 == 0 ? h1 + h2 : Math.Abs(h1 - h2) <= 180 ? (h1 + h2) / 2 : (h1 + h2 + (h1 + h2 < 360 ? 360 : -360)) / 2;
        double l = (p.L + q.L) / 2, c = (c1 + c2) / 2;
        var t = 1 - 0.17 * Math.Cos(Rad(mean - 30)) + 0.24 * Math.Cos(Rad(2 * mean)) + 0.32 * Math.Cos(Rad(3 * mean + 6)) - 0.2 * Math.Cos(Rad(4 * mean - 63));
        var x = (q.L - p.L) / (1 + 0.015 * (l - 50) * (l - 50) / Math.Sqrt(20 + (l - 50) * (l - 50)));
        var y = (c2 - c1) / (1 + 0.045 * c);
        var z = 2 * Math.Sqrt(c1 * c2) * Math.Sin(Rad(turn / 2)) / (1 + 0.015 * c * t);
        var rotation = -2 * Seventh(c) * Math.Sin(Rad(60 * Math.Exp(-Math.Pow((mean - 275) / 25, 2))));
        return Math.Sqrt(x * x + y * y + z * z + rotation * y * z);
    }

    // The formula between greys is the lightness step over its weight alone; black to white is then exactly 100.
    [Fact]
    public void Black_to_white_is_a_hundred() =>
        Assert.Equal(100, ColourDifference.Between(Colour.Black, Colour.White), 1e-9);
}
