using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>The colour of a spot in a photograph: of a thread on its reel, of a cloth on the table.</summary>
internal static class ColourSample
{
    // Glints on the floss and shadows between its strands, a tenth of the patch at each end (our own choice, no source).
    private const double LeftOut = 0.1;

    /// <summary>A radius that suits a picture: a sixtieth of its shorter side, at least 3 pixels.</summary>
    public static int RadiusFor(Raster picture) => Math.Max(3, Math.Min(picture.Width, picture.Height) / 60);

    /// <summary>
    /// The mean of a round patch as light, not as code (IEC 61966-2-1), its lightest and darkest tenth left out; a pixel counts as far as
    /// it is opaque.
    /// </summary>
    /// <param name="picture">The picture.</param>
    /// <param name="x">Pixels from the left; drawn in to the picture.</param>
    /// <param name="y">Pixels from the top; drawn in to the picture.</param>
    /// <param name="radius">In pixels, at least 0.</param>
    /// <returns>Null where all is transparent.</returns>
    public static Colour? At(Raster picture, int x, int y, int radius)
    {
        (x, y) = (Math.Clamp(x, 0, picture.Width - 1), Math.Clamp(y, 0, picture.Height - 1));
        var patch = new List<(LinearRgb Light, double Alpha)>();
        for (var row = Math.Max(0, y - radius); row <= Math.Min(picture.Height - 1, y + radius); row++)
        {
            var pixels = picture.Row(row);
            for (var column = Math.Max(0, x - radius); column <= Math.Min(picture.Width - 1, x + radius); column++)
            {
                if ((column - x) * (column - x) + (row - y) * (row - y) > radius * radius) continue;
                var pixel = pixels.Slice(column * 4, 4);
                if (pixel[3] > 0) patch.Add((LinearRgb.From(new Colour(pixel[0], pixel[1], pixel[2])), pixel[3] / 255.0));
            }
        }
        if (patch.Count == 0) return null;
        var leave = (int)(patch.Count * LeftOut);
        double red = 0, green = 0, blue = 0, weight = 0;
        foreach (var (light, alpha) in patch.OrderBy(p => p.Light.Luminance).Skip(leave).Take(patch.Count - 2 * leave))
        {
            red += light.Red * alpha;
            green += light.Green * alpha;
            blue += light.Blue * alpha;
            weight += alpha;
        }
        return new LinearRgb(red / weight, green / weight, blue / weight).ToColour();
    }
}
