using CsCheck;
using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Picture;

public class ColourSampleTests
{
    private static Raster Painted(int width, int height, Func<int, int, (Colour Colour, byte Alpha)> at)
    {
        var rgba = new byte[width * height * 4];
        for (var i = 0; i < width * height; i++)
        {
            var (colour, alpha) = at(i % width, i / width);
            (rgba[i * 4], rgba[i * 4 + 1], rgba[i * 4 + 2], rgba[i * 4 + 3]) = (colour.Red, colour.Green, colour.Blue, alpha);
        }
        return new Raster(width, height, rgba);
    }

    private static readonly Gen<Colour> Colours = Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte).Select((r, g, b) => new Colour(r, g, b));

    [Fact]
    public void A_plain_patch_is_its_own_colour_wherever_it_is_pressed() => Gen.Select(Colours, Gen.Int[-3, 14], Gen.Int[-3, 14], Gen.Int[0, 20]).Sample((colour, x, y, radius) =>
        Assert.Equal(colour, ColourSample.At(Painted(12, 9, (_, _) => (colour, 255)), x, y, radius)));

    // IEC 61966-2-1: half the light of white is encoded as 1.055 · 0.5^(1/2.4) − 0.055 = 0.7354, or 188 of 255; the mean of the codes would be 128.
    [Fact]
    public void Black_and_white_in_equal_parts_are_half_the_light()
    {
        var found = ColourSample.At(Painted(41, 41, (x, y) => ((x + y) % 2 == 0 ? Colour.Black : Colour.White, 255)), 20, 20, 15)!.Value;
        Assert.InRange(found.Red, 187, 189);
    }

    [Fact]
    public void Glints_and_shadows_do_not_count()
    {
        var red = Colour.Parse("#b3202c");
        var photo = Painted(60, 60, (x, y) => (((x * 7 + y * 3) % 19) switch { 0 => Colour.White, 1 => Colour.Black, _ => red }, 255));
        Assert.Equal(red, ColourSample.At(photo, 30, 30, 20));
    }

    [Fact]
    public void What_is_transparent_counts_for_nothing()
    {
        var red = Colour.Parse("#b3202c");
        Assert.Null(ColourSample.At(Painted(9, 9, (_, _) => (red, 0)), 4, 4, 4));
        Assert.Equal(red, ColourSample.At(Painted(9, 9, (x, _) => x < 4 ? (Colour.White, (byte)0) : (red, (byte)255)), 4, 4, 4));
    }
}
