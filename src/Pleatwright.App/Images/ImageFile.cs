using Pleatwright.App.Commands;
using Pleatwright.Picture;
using SkiaSharp;

namespace Pleatwright.App.Images;

/// <summary>Pictures on disk: PNG, JPEG, WebP and GIF (its first frame), turned as their EXIF orientation says.</summary>
internal static class ImageFile
{
    /// <summary>The largest file taken in: 64 MB.</summary>
    public const long MostBytes = 64L * 1024 * 1024;

    /// <summary>Reads a picture.</summary>
    /// <exception cref="UsageException">It cannot be read, is no picture, or is past a cap; the message is one line that says which.</exception>
    public static Raster Read(string path) => Decode(path, InputFile.Read(path, "a picture", MostBytes));

    /// <summary>Decodes a picture; the name is for messages.</summary>
    /// <exception cref="UsageException">It is no picture, is broken, or is past a cap.</exception>
    public static Raster Decode(string name, byte[] bytes)
    {
        using var data = SKData.CreateCopy(bytes);
        using var codec = SKCodec.Create(data);
        if (codec is null) throw new UsageException($"{name}: this is no picture that can be read here, or it is broken; use PNG, JPEG, WebP or GIF.");
        // The header alone says how large the picture will be; nothing is decoded past the cap.
        var size = codec.Info;
        if (!Raster.Fits(size.Width, size.Height)) throw new UsageException($"{name}: {Raster.TooLarge(size.Width, size.Height)}.");

        // The library turns colours from the picture's own space to sRGB as it decodes.
        using var space = SKColorSpace.CreateSrgb();
        var info = new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul, space);
        if (codec.GetPixels(info, out var rgba) != SKCodecResult.Success || Wholeness.IsCutShort(bytes))
            throw new UsageException($"{name}: the picture is broken and cannot be read whole.");
        return Orient(new Raster(size.Width, size.Height, rgba), PngTurn.Of(bytes) ?? codec.EncodedOrigin);
    }

    private static Raster Orient(Raster raster, SKEncodedOrigin origin) => origin switch
    {
        SKEncodedOrigin.TopRight => raster.Flipped(),
        SKEncodedOrigin.BottomRight => raster.Turned(Turn.Half),
        SKEncodedOrigin.BottomLeft => raster.Flipped().Turned(Turn.Half),
        SKEncodedOrigin.LeftTop => raster.Flipped().Turned(Turn.ThreeQuarters),
        SKEncodedOrigin.RightTop => raster.Turned(Turn.Quarter),
        SKEncodedOrigin.RightBottom => raster.Flipped().Turned(Turn.Quarter),
        SKEncodedOrigin.LeftBottom => raster.Turned(Turn.ThreeQuarters),
        _ => raster,
    };
}
