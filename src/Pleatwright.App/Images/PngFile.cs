using Pleatwright.Picture;
using SkiaSharp;

namespace Pleatwright.App.Images;

/// <summary>Pictures as PNG.</summary>
internal static class PngFile
{
    /// <summary>Encodes a picture.</summary>
    public static byte[] Write(Raster raster)
    {
        using var space = SKColorSpace.CreateSrgb();
        var info = new SKImageInfo(raster.Width, raster.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul, space);
        using var pixels = SKData.CreateCopy(raster.Rgba);
        using var image = SKImage.FromPixels(info, pixels);
        using var encoded = image.Encode(SKEncodedImageFormat.Png, 100);
        return encoded.ToArray();
    }
}
