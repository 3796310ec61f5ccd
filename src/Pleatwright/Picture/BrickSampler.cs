using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>What lies under one stitch.</summary>
/// <param name="Light">The average light of what is not transparent; black where all is.</param>
/// <param name="Cover">The share of the stitch's place that is not transparent, 0 to 1.</param>
public readonly record struct BrickSample(LinearRgb Light, double Cover);

/// <summary>
/// A picture as the lattice sees it: the average under every stitch that a figure of so many valleys and cable rows
/// could have, at true proportions. The picture is stretched over the figure's pleats (one more than its valleys) and
/// over the two lines of each cable row; averages are of light, weighed by alpha.
/// </summary>
public sealed class BrickSamples
{
    // One pleat on one line, light times cover and cover: red, green, blue, cover.
    private readonly float[] spots;
    private readonly int pleats;

    internal BrickSamples(int width, int height, Phase phase, float[] spots)
    {
        Width = width;
        Height = height;
        Phase = phase;
        pleats = width + 1;
        this.spots = spots;
    }

    /// <summary>Valleys across.</summary>
    public int Width { get; }

    /// <summary>Cable rows down.</summary>
    public int Height { get; }

    /// <summary>The phase the bricks follow when the figure's left valley and top row are both counted as 0.</summary>
    public Phase Phase { get; }

    /// <summary>Under the cable of a column and row, both from 0: two pleats on the line its level gives.</summary>
    public BrickSample Cable(int column, int row)
    {
        var at = (LineOf(column, row) * pleats + column) * 4;
        return Sample(spots[at] + spots[at + 4], spots[at + 1] + spots[at + 5], spots[at + 2] + spots[at + 6], spots[at + 3] + spots[at + 7], 2);
    }

    /// <summary>Under the half stitch that would square a run ending at this column: its last pleat, on the other line.</summary>
    public BrickSample Half(int column, int row, RunEnd end)
    {
        var line = row * 4 + 1 - LineOf(column, row); // the row's lines are 2·row and 2·row + 1
        var at = (line * pleats + column + (end == RunEnd.Left ? 0 : 1)) * 4;
        return Sample(spots[at], spots[at + 1], spots[at + 2], spots[at + 3], 1);
    }

    private int LineOf(int column, int row) =>
        Lattice.LineOf(new CableRow(row), Lattice.LevelAt(new Valley(column), new CableRow(row), Phase)).Index;

    private static BrickSample Sample(float red, float green, float blue, float cover, int pleats) =>
        cover < 1e-4f ? default : new BrickSample(new LinearRgb(red / cover, green / cover, blue / cover), Math.Min(1, cover / pleats));
}

/// <summary>Reads a picture through the lattice.</summary>
internal static class BrickSampler
{
    private static readonly float[] Light = [.. Enumerable.Range(0, 256).Select(i => (float)LinearRgb.Decode(i / 255.0))];

    /// <summary>Cable rows that keep a picture's proportions on figures of this width, at least 1.</summary>
    /// <param name="raster">The picture.</param>
    /// <param name="valleys">Valleys across, at least 1.</param>
    /// <param name="gauge">The gauge: a pleat's pitch against a cable row's height.</param>
    public static double RowsFor(Raster raster, int valleys, Cloth.Gauge gauge) =>
        Math.Max(1, Math.Round((valleys + 1) * (gauge.Pitch / gauge.CableRowHeight) * raster.Height / raster.Width));

    /// <summary>The average under every stitch.</summary>
    /// <param name="raster">The picture.</param>
    /// <param name="width">Valleys across, at least 1.</param>
    /// <param name="height">Cable rows down, at least 1.</param>
    /// <param name="phase">The phase, counting the figure's left valley and top row as 0.</param>
    public static BrickSamples Sample(Raster raster, int width, int height, Phase phase)
    {
        int pleats = width + 1, lines = 2 * height;
        var spots = new float[pleats * lines * 4];
        var strip = new float[raster.Width * 4]; // the light of one line, summed down the picture
        double perPleat = (double)raster.Width / pleats, perLine = (double)raster.Height / lines;
        for (var line = 0; line < lines; line++)
        {
            Array.Clear(strip);
            double top = line * perLine, bottom = Math.Min(raster.Height, top + perLine);
            for (var y = (int)top; y < bottom && y < raster.Height; y++)
                AddRow(raster.Row(y), strip, (float)((Math.Min(y + 1, bottom) - Math.Max(y, top)) / perLine));
            for (var pleat = 0; pleat < pleats; pleat++)
                AddSpot(strip, pleat * perPleat, Math.Min(raster.Width, (pleat + 1) * perPleat), (float)(1 / perPleat),
                    spots.AsSpan((line * pleats + pleat) * 4, 4));
        }
        return new BrickSamples(width, height, phase, spots);
    }

    private static void AddRow(ReadOnlySpan<byte> row, Span<float> strip, float share)
    {
        var light = Light;
        for (var i = 0; i < row.Length; i += 4)
        {
            var cover = row[i + 3] * (share / 255);
            if (cover == 0) continue;
            strip[i] += light[row[i]] * cover;
            strip[i + 1] += light[row[i + 1]] * cover;
            strip[i + 2] += light[row[i + 2]] * cover;
            strip[i + 3] += cover;
        }
    }

    private static void AddSpot(ReadOnlySpan<float> strip, double left, double right, float scale, Span<float> spot)
    {
        for (var x = (int)left; x < right && x * 4 < strip.Length; x++)
        {
            var share = (float)(Math.Min(x + 1, right) - Math.Max(x, left)) * scale;
            for (var c = 0; c < 4; c++) spot[c] += strip[x * 4 + c] * share;
        }
    }
}
