using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Picture;
using Pleatwright.Stitched;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Stitched;

/// <summary>Works to look at, and what is seen in their pictures.</summary>
internal static class StitchedWorks
{
    /// <summary>A cloth filled with cables of one thread from edge to edge.</summary>
    public static Work Filled(string colour, int strands, int rowsPerSpace, double pleatsPerInch = 12)
    {
        var gauge = Gauge.FromPleatsPerInch(pleatsPerInch, Length.FromInches(3 / pleatsPerInch), Length.FromInches(0.375), rowsPerSpace);
        var figure = new Figure("filled", [.. Enumerable.Repeat(new string('a', 23), rowsPerSpace * 4 + 1)]);
        return Smocking.Lay(new Piece("Filled", new ClothPlan(new Panel(gauge.Pitch * 24), gauge, 5), [Some.Floss('a', colour, strands)], [figure], [new Placement("filled", Centre.Middle, new GatheringRow(1), 0)]));
    }

    /// <summary>A frame well inside a filled cloth, of whole bricks.</summary>
    public static Frame Inside(StitchedPiece piece) => new(6 * piece.Field.Pitch, 8 * piece.Field.LineHeight, 12 * piece.Field.Pitch, 16 * piece.Field.LineHeight);

    public static Work Example(string name) => Smocking.Lay(PieceReader.Read(File.ReadAllText(Repository.Path("examples", name + ".piece.json"))));

    /// <summary>The share of a frame's samples that are cloth.</summary>
    public static double ClothSeen(StitchedPiece piece, Frame frame, double pixelsToMillimetre)
    {
        var painter = new Painter(piece, frame, (int)(frame.Width * pixelsToMillimetre));
        var (relief, rgba) = (painter.NewRelief(), new byte[4 * painter.Wide * painter.High]);
        long cloth = 0, all = 0;
        for (var band = 0; band < painter.Bands; band++)
        {
            painter.PaintBand(band, relief, rgba);
            for (var row = 0; row < relief.Rows; row++)
            {
                var of = relief.Of.AsSpan(relief.Start(row), relief.Wide);
                cloth += of.Count(Relief.Cloth);
                all += of.Length;
            }
        }
        return (double)cloth / all;
    }

    /// <summary>The mean light of a picture.</summary>
    public static LinearRgb Mean(Raster picture)
    {
        double red = 0, green = 0, blue = 0;
        var rgba = picture.Rgba;
        for (var i = 0; i < rgba.Length; i += 4)
        {
            var light = LinearRgb.From(new Colour(rgba[i], rgba[i + 1], rgba[i + 2]));
            (red, green, blue) = (red + light.Red, green + light.Green, blue + light.Blue);
        }
        var n = rgba.Length / 4.0;
        return new LinearRgb(red / n, green / n, blue / n);
    }

    public static Raster Paint(Work work, int wide) => Paint(new StitchedPiece(work), wide);

    public static Raster Paint(StitchedPiece piece, int wide, Frame? frame = null, Light? light = null) => new Painter(piece, frame ?? piece.Whole, wide, light).Paint();
}
