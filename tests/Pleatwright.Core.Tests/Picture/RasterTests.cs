using CsCheck;
using Pleatwright.Picture;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Picture;

/// <summary>What is done to a picture before it is traced.</summary>
public class RasterTests
{
    private static readonly Gen<Raster> Rasters =
        from width in Gen.Int[1, 12]
        from height in Gen.Int[1, 12]
        from bytes in Gen.Byte.Array[width * height * 4]
        select new Raster(width, height, bytes);

    [Fact]
    public void Four_quarter_turns_and_two_flips_change_nothing() => Rasters.Sample(raster =>
    {
        var turned = raster.Turned(Turn.Quarter).Turned(Turn.Quarter).Turned(Turn.Quarter).Turned(Turn.Quarter);
        AssertSame(raster, turned);
        AssertSame(raster, raster.Flipped().Flipped());
        AssertSame(raster.Turned(Turn.Half), raster.Turned(Turn.Quarter).Turned(Turn.Quarter));
        AssertSame(raster.Turned(Turn.ThreeQuarters), raster.Turned(Turn.Half).Turned(Turn.Quarter));
        AssertSame(raster.Flipped().Turned(Turn.Quarter), raster.Turned(Turn.ThreeQuarters).Flipped());
    });

    [Fact]
    public void A_quarter_turn_is_clockwise()
    {
        var turned = new Raster(2, 1, [1, 1, 1, 1, 2, 2, 2, 2]).Turned(Turn.Quarter);
        Assert.Equal((1, 2), (turned.Width, turned.Height));
        Assert.Equal(1, turned.Rgba[0]); // what was left is at the top
    }

    [Fact]
    public void A_crop_holds_the_pixels_it_names() => Rasters.Sample(raster =>
    {
        var crop = new Crop(raster.Width / 3, raster.Height / 3, Math.Max(1, raster.Width / 2), Math.Max(1, raster.Height / 2));
        var cut = raster.Cropped(crop);
        for (var y = 0; y < cut.Height; y++)
            Assert.Equal(raster.Row(y + crop.Y).Slice(crop.X * 4, cut.Width * 4).ToArray(), cut.Row(y).ToArray());
    });

    [Fact]
    public void Trimming_leaves_something_on_every_side_and_loses_nothing() => Rasters.Sample(raster =>
    {
        var trimmed = raster.Trimmed();
        var seen = Alphas(raster).Count(a => a >= 32);
        if (trimmed is null) { Assert.Equal(0, seen); return; }
        Assert.Equal(seen, Alphas(trimmed).Count(a => a >= 32));
        AssertSame(trimmed, trimmed.Trimmed()!);
    });

    [Fact]
    public void The_background_goes_from_the_edges_and_enclosed_places_only_when_asked()
    {
        // A ring of red on white with white inside it.
        var ring = Painted(9, (x, y) => Math.Max(Math.Abs(x - 4), Math.Abs(y - 4)) == 2 ? new Colour(200, 30, 40) : new Colour(255, 255, 255));
        var open = ring.WithoutBackground(Background.Auto);
        Assert.Equal(0, AlphaAt(open, 0, 0));
        Assert.Equal(255, AlphaAt(open, 4, 4));
        Assert.Equal(255, AlphaAt(open, 2, 4));
        var enclosed = ring.WithoutBackground(Background.Of(Colour.White) with { Enclosed = true });
        Assert.Equal(0, AlphaAt(enclosed, 4, 4));
        Assert.Equal(255, AlphaAt(enclosed, 2, 4));
    }

    [Fact]
    public void Tolerance_says_how_near_is_near_enough()
    {
        var nearly = Painted(5, (x, y) => x == 2 && y == 2 ? new Colour(20, 30, 120) : x % 2 == 0 ? new Colour(255, 255, 255) : new Colour(246, 247, 245));
        Assert.Equal(24, Alphas(nearly.WithoutBackground(Background.Of(Colour.White))).Count(a => a == 0));
        Assert.InRange(Alphas(nearly.WithoutBackground(Background.Of(Colour.White) with { Tolerance = 1 })).Count(a => a == 0), 1, 15);
        AssertSame(nearly, nearly.WithoutBackground(Background.None));
    }

    [Fact]
    public void A_blended_border_keeps_the_figures_colour_and_its_share()
    {
        // Red, a pixel half red and half white, white.
        var soft = Painted(9, (x, y) => x < 4 ? new Colour(200, 0, 0) : x == 4 ? new Colour(230, 145, 145) : new Colour(255, 255, 255));
        var cleared = soft.WithoutBackground(Background.Of(Colour.White));
        var at = (4 * 9 + 4) * 4;
        Assert.Equal([200, 0, 0], cleared.Rgba.Slice(at, 3).ToArray());
        Assert.InRange(cleared.Rgba[at + 3], 80, 170);
        Assert.Equal(255, AlphaAt(cleared, 3, 4));
        Assert.Equal(0, AlphaAt(cleared, 5, 4));
    }

    [Fact]
    public void No_background_is_found_where_no_colour_holds_the_edge()
    {
        Assert.Null(BackgroundRemoval.EdgeColour(TestPictures.All["noise"](), 4));
        Assert.Null(BackgroundRemoval.EdgeColour(TestPictures.All["gradient"](), 4));
        Assert.Null(BackgroundRemoval.EdgeColour(TestPictures.All["boat on clear"](), 4));
        Assert.Equal(Colour.White, BackgroundRemoval.EdgeColour(TestPictures.All["boat"](), 4));
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 0)]
    [InlineData(10_000, 5_001)]
    [InlineData(int.MaxValue, int.MaxValue)]
    public void A_picture_past_the_cap_or_empty_is_refused(int width, int height)
    {
        Assert.False(Raster.Fits(width, height));
        Assert.Throws<ArgumentException>(() => new Raster(width, height, []));
    }

    private static Raster Painted(int size, Func<int, int, Colour> colour)
    {
        var rgba = new byte[size * size * 4];
        for (var i = 0; i < size * size; i++)
        {
            var c = colour(i % size, i / size);
            (rgba[i * 4], rgba[i * 4 + 1], rgba[i * 4 + 2], rgba[i * 4 + 3]) = (c.Red, c.Green, c.Blue, 255);
        }
        return new Raster(size, size, rgba);
    }

    private static byte AlphaAt(Raster raster, int x, int y) => raster.Rgba[(y * raster.Width + x) * 4 + 3];

    private static IEnumerable<byte> Alphas(Raster raster) => raster.Rgba.ToArray().Where((_, i) => i % 4 == 3);

    private static void AssertSame(Raster one, Raster other)
    {
        Assert.Equal((one.Width, one.Height), (other.Width, other.Height));
        Assert.Equal(one.Rgba.ToArray(), other.Rgba.ToArray());
    }
}
