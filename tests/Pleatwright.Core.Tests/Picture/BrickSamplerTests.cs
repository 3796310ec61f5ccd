using CsCheck;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Picture;

namespace Pleatwright.Tests.Picture;

/// <summary>The picture as the lattice sees it.</summary>
public class BrickSamplerTests
{
    [Fact]
    public void A_brick_is_two_pleats_wide_on_the_line_its_level_gives()
    {
        // Seven pleats by four lines, every spot of its own grey; a pixel a spot.
        const int pleats = 7, lines = 4;
        var rgba = new byte[pleats * lines * 4];
        for (var i = 0; i < pleats * lines; i++) (rgba[i * 4], rgba[i * 4 + 3]) = ((byte)(i * 8), 255);
        foreach (var phase in Enum.GetValues<Phase>())
        {
            var samples = BrickSampler.Sample(new Raster(pleats, lines, rgba), pleats - 1, lines / 2, phase);
            for (var y = 0; y < 2; y++)
                for (var x = 0; x < pleats - 1; x++)
                {
                    var up = Lattice.LevelAt(new Valley(x), new CableRow(y), phase) == Level.Up;
                    var (line, other) = up ? (2 * y, 2 * y + 1) : (2 * y + 1, 2 * y);
                    Assert.Equal((Light(line * pleats + x) + Light(line * pleats + x + 1)) / 2, samples.Cable(x, y).Light.Red, 1e-5);
                    Assert.Equal(Light(other * pleats + x), samples.Half(x, y, RunEnd.Left).Light.Red, 1e-5);
                    Assert.Equal(Light(other * pleats + x + 1), samples.Half(x, y, RunEnd.Right).Light.Red, 1e-5);
                }
        }

        static double Light(int spot) => Pleatwright.Thread.LinearRgb.Decode(spot * 8 / 255.0);
    }

    [Fact]
    public void Cables_and_end_halves_share_the_picture_out_whole() =>
        Gen.Select(Gen.Int[1, 20], Gen.Int[1, 20], Gen.Int[1, 12], Gen.Int[1, 9], Gen.OneOf(Phase.Even, Phase.Odd)).Sample((width, height, valleys, rows, phase) =>
        {
            // Half of every row is bricks, half stitches close its two ends: together they cover it once.
            var rgba = new byte[width * height * 4];
            for (var i = 0; i < rgba.Length; i++) rgba[i] = (byte)(i * 37 % 251);
            var samples = BrickSampler.Sample(new Raster(width, height, rgba), valleys, rows, phase);
            var sum = 0.0;
            for (var y = 0; y < rows; y++)
            {
                for (var x = 0; x < valleys; x++) sum += 2 * samples.Cable(x, y).Cover;
                sum += samples.Half(0, y, RunEnd.Left).Cover + samples.Half(valleys - 1, y, RunEnd.Right).Cover;
            }
            var mean = 0.0;
            for (var i = 3; i < rgba.Length; i += 4) mean += rgba[i] / 255.0;
            Assert.Equal(mean / (width * height), sum / (rows * 2 * (valleys + 1)), 1e-4);
        });

    [Fact]
    public void Averages_are_of_light_and_weighed_by_alpha()
    {
        // Black and white side by side under one brick are half the light; clear pixels have no say.
        var samples = BrickSampler.Sample(new Raster(3, 2, [0, 0, 0, 255, 255, 255, 255, 255, 9, 9, 9, 0, 0, 0, 0, 255, 255, 255, 255, 255, 9, 9, 9, 0]), 2, 1, Phase.Even);
        Assert.Equal(0.5, samples.Cable(0, 0).Light.Red, 1e-5);
        Assert.Equal(1, samples.Cable(0, 0).Cover, 1e-5);
        Assert.Equal(1, samples.Cable(1, 0).Light.Red, 1e-5);
        Assert.Equal(0.5, samples.Cable(1, 0).Cover, 1e-5);
        Assert.Equal(0, samples.Half(1, 0, RunEnd.Right).Cover, 1e-5);
    }

    [Fact]
    public void Rows_keep_the_pictures_proportions()
    {
        // A square picture over 81 pleats of 1/12 in is 6.75 in wide, so as high: 90 cable rows of 3/40 in.
        Assert.Equal(90, BrickSampler.RowsFor(TestPictures.All["ring"](), 80, Gauge.Common));
        Assert.Equal(1, BrickSampler.RowsFor(new Raster(900, 1, new byte[3600]), 10, Gauge.Common));
    }
}
