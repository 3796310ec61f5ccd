namespace Pleatwright.Picture;

/// <summary>A part of a picture, in pixels from its top left.</summary>
/// <param name="X">Left edge, at least 0.</param>
/// <param name="Y">Top edge, at least 0.</param>
/// <param name="Width">Pixels across, at least 1.</param>
/// <param name="Height">Pixels down, at least 1.</param>
public readonly record struct Crop(int X, int Y, int Width, int Height);

/// <summary>A turn clockwise, in degrees.</summary>
public enum Turn
{
    /// <summary>As it is.</summary>
    None = 0,

    /// <summary>A quarter, clockwise.</summary>
    Quarter = 90,

    /// <summary>Upside down.</summary>
    Half = 180,

    /// <summary>A quarter, anticlockwise.</summary>
    ThreeQuarters = 270,
}

/// <summary>What is done to a picture before it is traced. Each gives a new picture, or the same one when nothing changes.</summary>
internal static class RasterEdits
{
    /// <summary>The part of the picture inside a crop.</summary>
    /// <exception cref="ArgumentException">The crop is empty or reaches past the picture.</exception>
    public static Raster Cropped(this Raster raster, Crop crop)
    {
        if (crop.Width < 1 || crop.Height < 1) throw new ArgumentException("the crop is empty; its width and height are at least 1 pixel");
        if (crop.X < 0 || crop.Y < 0 || (long)crop.X + crop.Width > raster.Width || (long)crop.Y + crop.Height > raster.Height)
            throw new ArgumentException($"the crop reaches past the picture, which is {raster.Width} × {raster.Height} pixels");
        if (crop == new Crop(0, 0, raster.Width, raster.Height)) return raster;
        var to = new byte[4 * crop.Width * crop.Height];
        for (var y = 0; y < crop.Height; y++)
            raster.Row(crop.Y + y).Slice(crop.X * 4, crop.Width * 4).CopyTo(to.AsSpan(y * crop.Width * 4));
        return new Raster(crop.Width, crop.Height, to);
    }

    /// <summary>The picture turned clockwise.</summary>
    public static Raster Turned(this Raster raster, Turn turn)
    {
        if (turn == Turn.None) return raster;
        int w = raster.Width, h = raster.Height;
        var (tw, th) = turn == Turn.Half ? (w, h) : (h, w);
        var from = raster.Rgba;
        var to = new byte[from.Length];
        for (var y = 0; y < h; y++)
            for (var x = 0; x < w; x++)
            {
                var (tx, ty) = turn switch
                {
                    Turn.Quarter => (h - 1 - y, x),
                    Turn.Half => (w - 1 - x, h - 1 - y),
                    _ => (y, w - 1 - x),
                };
                from.Slice((y * w + x) * 4, 4).CopyTo(to.AsSpan((ty * tw + tx) * 4));
            }
        return new Raster(tw, th, to);
    }

    /// <summary>The picture mirrored left to right.</summary>
    public static Raster Flipped(this Raster raster)
    {
        var to = new byte[raster.Rgba.Length];
        for (var y = 0; y < raster.Height; y++)
        {
            var from = raster.Row(y);
            var row = to.AsSpan(y * raster.Width * 4, raster.Width * 4);
            for (var x = 0; x < raster.Width; x++) from.Slice(x * 4, 4).CopyTo(row[((raster.Width - 1 - x) * 4)..]);
        }
        return new Raster(raster.Width, raster.Height, to);
    }

    /// <summary>The picture cut down to what is not transparent (alpha of at least one eighth); null when nothing is left.</summary>
    public static Raster? Trimmed(this Raster raster)
    {
        const byte seen = 32;
        int left = raster.Width, right = -1, top = -1, bottom = -1;
        for (var y = 0; y < raster.Height; y++)
        {
            var row = raster.Row(y);
            var first = 0;
            while (first < raster.Width && row[first * 4 + 3] < seen) first++;
            if (first == raster.Width) continue;
            var last = raster.Width - 1;
            while (row[last * 4 + 3] < seen) last--;
            if (top < 0) top = y;
            bottom = y;
            left = Math.Min(left, first);
            right = Math.Max(right, last);
        }
        return top < 0 ? null : raster.Cropped(new Crop(left, top, right - left + 1, bottom - top + 1));
    }
}
