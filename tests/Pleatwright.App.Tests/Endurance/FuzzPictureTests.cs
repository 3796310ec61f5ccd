using Pleatwright.App.Commands;
using Pleatwright.App.Images;
using SkiaSharp;

namespace Pleatwright.Tests.Endurance;

/// <summary>Whatever picture comes in is decoded or refused, in time and in bounds.</summary>
public class FuzzPictureTests
{
    [Fact]
    public void Pictures_are_decoded_or_refused()
    {
        using var bitmap = new SKBitmap(24, 16);
        for (var i = 0; i < 24 * 16; i++) bitmap.SetPixel(i % 24, i / 24, new SKColor((byte)(i * 7), (byte)(i * 3), (byte)i, (byte)(255 - i % 90)));
        var good = new[] { SKEncodedImageFormat.Png, SKEncodedImageFormat.Jpeg, SKEncodedImageFormat.Webp }.Select(f => bitmap.Encode(f, 80).ToArray()).ToList();
        good.Add(Convert.FromBase64String("R0lGODlhAgACAIAAAP8AAAAA/yH5BAAAAAAALAAAAAACAAIAAAIDRAIFADs=")); // a GIF of four pixels, made by hand
        Mutations.Try(good, Long.Of(3_000, 100_000), bytes =>
        {
            try { ImageFile.Decode("picture", bytes); }
            catch (UsageException e) { Assert.StartsWith("picture: ", e.Message, StringComparison.Ordinal); }
        });
    }
}
