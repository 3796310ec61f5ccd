using CsCheck;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Thread;

public class ColourTests
{
    private static readonly Gen<Colour> Colours = Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte, (r, g, b) => new Colour(r, g, b));

    [Fact]
    public void Every_byte_survives_the_trip_to_light_and_back()
    {
        for (var i = 0; i < 256; i++)
        {
            var grey = new Colour((byte)i, (byte)i, (byte)i);
            Assert.Equal(grey, LinearRgb.From(grey).ToColour());
        }
    }

    [Fact]
    public void Colours_survive_the_trip_to_every_space_and_back() => Colours.Sample(c =>
        c == LinearRgb.From(c).ToColour() && c == Lab.From(c).ToLight().ToColour() && c == Oklab.From(c).ToColour());

    // IEC 61966-2-1: primaries and D65 white by their chromaticities, and the standard's own matrix to four places.
    [Theory]
    [InlineData("#ff0000", 0.64, 0.33, 0.2126)]
    [InlineData("#00ff00", 0.30, 0.60, 0.7152)]
    [InlineData("#0000ff", 0.15, 0.06, 0.0722)]
    [InlineData("#ffffff", 0.3127, 0.3290, 1)]
    public void Primaries_and_white_lie_where_the_standard_puts_them(string colour, double x, double y, double luminance)
    {
        var c = Colour.Parse(colour);
        Assert.Equal(luminance, c.Luminance, 0.00005);
        var (X, Y, Z) = Xyz(Lab.From(c));
        Assert.Equal(x, X / (X + Y + Z), 1e-6);
        Assert.Equal(y, Y / (X + Y + Z), 1e-6);
    }

    // The definition of CIELAB (CIE 15) undone by hand, with the white from x = 0.3127, y = 0.3290.
    private static (double X, double Y, double Z) Xyz(Lab lab)
    {
        static double Undo(double f) => f > 6.0 / 29 ? Math.Pow(f, 3) : 3 * Math.Pow(6.0 / 29, 2) * (f - 4.0 / 29);
        var fy = (lab.L + 16) / 116;
        return (0.3127 / 0.3290 * Undo(fy + lab.A / 500), Undo(fy), (1 - 0.3127 - 0.3290) / 0.3290 * Undo(fy - lab.B / 200));
    }

    // IEC 61966-2-1: the two pieces of the curve meet at 0.04045, and mid-grey 0x80 is 0.2158605 of white's light.
    [Fact]
    public void The_curve_is_the_standards()
    {
        Assert.Equal(LinearRgb.Decode(0.04045), LinearRgb.Decode(0.0404501), 1e-6);
        Assert.Equal(0.2158605, LinearRgb.Decode(0x80 / 255.0), 1e-6);
        Assert.Equal(0x80 / 255.0, LinearRgb.Encode(LinearRgb.Decode(0x80 / 255.0)), 1e-12);
    }

    // From memory, from general reference tables of the sRGB primaries in CIELAB under D65.
    [Theory]
    [InlineData("#ffffff", 100, 0, 0)]
    [InlineData("#000000", 0, 0, 0)]
    [InlineData("#ff0000", 53.24, 80.09, 67.20)]
    [InlineData("#00ff00", 87.73, -86.18, 83.18)]
    [InlineData("#0000ff", 32.30, 79.19, -107.86)]
    public void Lab_agrees_with_the_usual_tables(string colour, double l, double a, double b)
    {
        var lab = Lab.From(Colour.Parse(colour));
        Assert.Equal(l, lab.L, 0.01);
        Assert.Equal(a, lab.A, 0.02);
        Assert.Equal(b, lab.B, 0.02);
    }

    [Fact]
    public void Greys_have_no_hue() => Gen.Byte.Sample(i =>
    {
        var (lab, ok) = (Lab.From(new Colour(i, i, i)), Oklab.From(new Colour(i, i, i)));
        return Math.Abs(lab.A) < 1e-9 && Math.Abs(lab.B) < 1e-9 && Math.Abs(ok.A) < 1e-6 && Math.Abs(ok.B) < 1e-6;
    });

    // Ottosson, "A perceptual color space for image processing", 2020: the note's own table of XYZ against Oklab.
    [Theory]
    [InlineData(0.950, 1.000, 1.089, 1.000, 0.000, 0.000)]
    [InlineData(1.000, 0.000, 0.000, 0.450, 1.236, -0.019)]
    [InlineData(0.000, 1.000, 0.000, 0.922, -0.671, 0.263)]
    [InlineData(0.000, 0.000, 1.000, 0.153, -1.415, -0.449)]
    public void Oklab_agrees_with_its_note(double x, double y, double z, double l, double a, double b)
    {
        var ok = Oklab.From(new LinearRgb(
            3.2409699419 * x - 1.5373831776 * y - 0.4986107603 * z,
            -0.9692436363 * x + 1.8759675015 * y + 0.0415550574 * z,
            0.0556300797 * x - 0.2039769589 * y + 1.0569715142 * z));
        Assert.Equal(l, ok.L, 0.001);
        Assert.Equal(a, ok.A, 0.001);
        Assert.Equal(b, ok.B, 0.001);
    }

    // Web Content Accessibility Guidelines 2.2, "contrast ratio": black on white is 21:1; #767676 is the lightest grey
    // that reaches 4.5:1 on white (its Understanding page for success criterion 1.4.3, from memory).
    [Fact]
    public void Contrast_agrees_with_the_guidelines()
    {
        Assert.Equal(21, Colour.Contrast(Colour.Black, Colour.White), 1e-9);
        Assert.True(Colour.Contrast(Colour.Parse("#767676"), Colour.White) >= 4.5);
        Assert.True(Colour.Contrast(Colour.Parse("#777777"), Colour.White) < 4.5);
    }

    [Fact]
    public void A_letter_can_be_read_on_any_colour() => Colours.Sample(c =>
        Colour.Contrast(c, c.LetterOn) >= 4.5 && Colour.Contrast(c, c.LetterOn) >= Colour.Contrast(c, c.LetterOn == Colour.Black ? Colour.White : Colour.Black));
}
