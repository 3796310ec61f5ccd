using System.Text;
using Pleatwright.Chart;
using Pleatwright.Picture;
using Pleatwright.Stitched;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Stitched;

/// <summary>
/// Small reference pictures, kept as portable pixmaps, and how unlike them what is painted now looks. To accept what is painted now, run with
/// PLEATWRIGHT_SNAPSHOTS=accept and look at the pictures before they are committed.
/// </summary>
public class StitchedPictureTests
{
    // By eye: a change of the light by a twentieth or of one thread's colour by a shade is seen, another processor's rounding is not.
    private const double MostOnTheWhole = 0.5, MostSomewhere = 2;

    public static TheoryData<string, string?, int> Pictures => new()
    {
        { "harbour-wall", null, 220 }, { "harbour-morning", "boat", 160 }, { "net-float", null, 120 }, { "quay-bishop", null, 180 }, { "gulls-turning", "gull", 140 }, { "quay-yoke", null, 64 },
    };

    [Theory, MemberData(nameof(Pictures))]
    public void A_picture_looks_as_it_did(string example, string? figure, int wide)
    {
        var made = Paint(StitchedWorks.Example(example), figure, wide);
        var path = Repository.Path("tests", "Pleatwright.Core.Tests", "Stitched", "Snapshots", $"{example}{(figure is null ? "" : "-" + figure)}.ppm");
        if (Environment.GetEnvironmentVariable("PLEATWRIGHT_SNAPSHOTS") == "accept")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(path, Pixmap(made));
            return;
        }
        Assert.True(File.Exists(path), $"There is no picture {path} yet; run with PLEATWRIGHT_SNAPSHOTS=accept.");
        var kept = Read(File.ReadAllBytes(path));
        Assert.Equal((kept.Width, kept.Height), (made.Width, made.Height));
        var (mean, most) = Unlike(kept, made);
        Assert.True(mean <= MostOnTheWhole && most <= MostSomewhere, $"{example}: it looks otherwise, by {mean:0.00} on the whole and {most:0.0} in one place");
    }

    [Fact]
    public void A_change_that_can_be_seen_is_told_and_one_that_cannot_is_not()
    {
        var work = StitchedWorks.Example("harbour-wall");
        var piece = work.Piece;
        var kept = StitchedWorks.Paint(work, 220);
        Assert.False(Seen(StitchedWorks.Paint(Smocking.Lay(piece with { Title = "Another" }), 220)));
        var steady = new StitchedPiece(work);
        Assert.False(Seen(StitchedWorks.Paint(steady, 220, steady.Whole, Light.UpperLeft with { Strength = 1.003f })));
        Assert.True(Seen(StitchedWorks.Paint(steady, 220, steady.Whole, Light.UpperLeft with { Strength = 1.05f })));
        Assert.True(Seen(StitchedWorks.Paint(steady, 220, steady.Whole with { X = steady.Whole.X + steady.Field.Pitch / 2 })));
        Assert.True(Seen(StitchedWorks.Paint(Smocking.Lay(piece with { Threads = [.. piece.Threads.Select((t, i) => i == 0 ? t with { Colour = new Colour((byte)(t.Colour.Red ^ 0x18), t.Colour.Green, t.Colour.Blue) } : t)] }), 220)));
        Assert.True(Seen(StitchedWorks.Paint(Smocking.Lay(piece with { Threads = [.. piece.Threads.Select(t => t with { Strands = t.Strands - 1 })] }), 220)));
        Assert.True(Seen(StitchedWorks.Paint(Smocking.Lay(piece with { Placements = [.. piece.Placements.Select(p => p with { FigureRow = p.FigureRow + 1 })] }), 220)));
        Assert.True(Seen(StitchedWorks.Paint(Smocking.Lay(piece with { Accents = [] }), 220)));

        bool Seen(Raster other) => Unlike(kept, other) is var (mean, most) && (mean > MostOnTheWhole || most > MostSomewhere);
    }

    private static Raster Paint(Work work, string? figure, int wide)
    {
        var piece = new StitchedPiece(work);
        return StitchedWorks.Paint(piece, wide, figure is null ? null : Framing.Of(piece, figure));
    }

    // CIEDE2000 between means of three pixels by three: an eye at arm's length sees no single pixel. The mean over the picture, and the most.
    private static (double Mean, double Most) Unlike(Raster one, Raster other)
    {
        const int side = 3;
        double sum = 0, most = 0;
        var n = 0;
        for (var y = 0; y + side <= one.Height; y += side)
            for (var x = 0; x + side <= one.Width; x += side, n++)
            {
                var off = ColourDifference.Between(Lab.From(Mean(one, x, y)), Lab.From(Mean(other, x, y)));
                (sum, most) = (sum + off, Math.Max(most, off));
            }
        return (sum / n, most);

        static LinearRgb Mean(Raster of, int x, int y)
        {
            double r = 0, g = 0, b = 0;
            for (var j = y; j < y + side; j++)
                for (var i = x; i < x + side; i++)
                {
                    var p = of.Row(j).Slice(4 * i, 3);
                    var light = LinearRgb.From(new Colour(p[0], p[1], p[2]));
                    (r, g, b) = (r + light.Red, g + light.Green, b + light.Blue);
                }
            return new LinearRgb(r / (side * side), g / (side * side), b / (side * side));
        }
    }

    private static byte[] Pixmap(Raster picture)
    {
        var bytes = new List<byte>(Encoding.ASCII.GetBytes(FormattableString.Invariant($"P6\n{picture.Width} {picture.Height}\n255\n")));
        for (var i = 0; i < picture.Rgba.Length; i++)
            if (i % 4 != 3) bytes.Add(picture.Rgba[i]);
        return [.. bytes];
    }

    private static Raster Read(byte[] pixmap)
    {
        var head = Encoding.ASCII.GetString(pixmap, 0, 32).Split('\n');
        var size = head[1].Split(' ');
        int wide = int.Parse(size[0], System.Globalization.CultureInfo.InvariantCulture), high = int.Parse(size[1], System.Globalization.CultureInfo.InvariantCulture);
        var start = pixmap.Length - 3 * wide * high;
        var rgba = new byte[4 * wide * high];
        for (var i = 0; i < wide * high; i++)
        {
            pixmap.AsSpan(start + 3 * i, 3).CopyTo(rgba.AsSpan(4 * i));
            rgba[4 * i + 3] = 255;
        }
        return new Raster(wide, high, rgba);
    }
}
