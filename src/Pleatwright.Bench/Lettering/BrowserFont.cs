using System.Globalization;
using System.Runtime.InteropServices.JavaScript;
using Pleatwright.Picture;

namespace Pleatwright.Bench.Lettering;

/// <summary>A font that the maker chose, read by the browser; its letters come as pictures. One at a time.</summary>
internal static partial class BrowserFont
{
    private static bool loaded;

    /// <summary>The largest font file taken in: 64 MB.</summary>
    public const long MostBytes = 64L * 1024 * 1024;

    /// <summary>Pixels of a capital's height.</summary>
    public const double CapitalHeight = 192; // as lettering.js draws it

    /// <summary>Takes a font, instead of the one there was.</summary>
    /// <returns>Why it cannot be read, as the end of a sentence; empty when it is taken.</returns>
    public static async Task<string> TakeAsync(byte[] bytes)
    {
        if (!loaded) await JSHost.ImportAsync("lettering", "../lettering.js");
        loaded = true;
        return await Take(bytes);
    }

    /// <summary>Draws a character.</summary>
    /// <returns>Its picture, and the pixels from its top down to its base line; null where the font has none.</returns>
    public static (Raster Raster, int BaseLine)? Of(string character)
    {
        if (Draw(character).Split(',') is not [var width, var height, var baseLine]) return null;
        int w = int.Parse(width, CultureInfo.InvariantCulture), h = int.Parse(height, CultureInfo.InvariantCulture);
        var rgba = new byte[4 * w * h];
        Pixels(rgba);
        return (new Raster(w, h, rgba), int.Parse(baseLine, CultureInfo.InvariantCulture));
    }

    [JSImport("take", "lettering")]
    private static partial Task<string> Take(byte[] bytes);

    [JSImport("draw", "lettering")]
    private static partial string Draw(string character);

    [JSImport("pixels", "lettering")]
    private static partial void Pixels([JSMarshalAs<JSType.MemoryView>] Span<byte> rgba);
}
