namespace Pleatwright.Picture;

/// <summary>A picture as rows of pixels: eight-bit sRGB (IEC 61966-2-1) with straight (not premultiplied) alpha.</summary>
public sealed class Raster
{
    /// <summary>The most pixels a picture may have here: 50 million.</summary>
    public const int MostPixels = 50_000_000;

    private readonly byte[] rgba;

    /// <summary>A picture.</summary>
    /// <param name="width">Pixels across, at least 1.</param>
    /// <param name="height">Pixels down, at least 1.</param>
    /// <param name="rgba">Red, green, blue and alpha of every pixel, row by row from the top; kept, not copied.</param>
    /// <exception cref="ArgumentException">An empty picture, one past <see cref="MostPixels"/>, or too few or too many bytes.</exception>
    public Raster(int width, int height, byte[] rgba)
    {
        if (width < 1 || height < 1) throw new ArgumentException("The picture has no pixels.");
        if (!Fits(width, height)) throw new ArgumentException(TooLarge(width, height));
        if (rgba.Length != 4L * width * height)
            throw new ArgumentException($"A picture of {width} × {height} pixels takes {4L * width * height} bytes, not {rgba.Length}.");
        Width = width;
        Height = height;
        this.rgba = rgba;
    }

    /// <summary>Pixels across.</summary>
    public int Width { get; }

    /// <summary>Pixels down.</summary>
    public int Height { get; }

    /// <summary>Red, green, blue, alpha, row by row from the top.</summary>
    public ReadOnlySpan<byte> Rgba => rgba;

    /// <summary>One row of pixels, four bytes each.</summary>
    public ReadOnlySpan<byte> Row(int y) => rgba.AsSpan(y * Width * 4, Width * 4);

    /// <summary>Whether a picture of this size may be taken in; ask before it is decoded.</summary>
    public static bool Fits(long width, long height) =>
        width is >= 1 and <= MostPixels && height is >= 1 and <= MostPixels && width * height <= MostPixels;

    /// <summary>The one line that refuses a picture past the cap.</summary>
    public static string TooLarge(long width, long height) =>
        $"the picture is {width} × {height} pixels; {MostPixels / 1_000_000} million pixels in all is the most";
}
