using System.Globalization;

namespace Pleatwright.Thread;

/// <summary>A colour as eight-bit sRGB (IEC 61966-2-1), the form in which makers pick and screens show it.</summary>
public readonly record struct Colour(byte Red, byte Green, byte Blue)
{
    /// <summary>Reads "#rrggbb", upper or lower case.</summary>
    /// <returns>False when the text is anything else; <paramref name="colour"/> is then black.</returns>
    public static bool TryParse(string? text, out Colour colour)
    {
        colour = default;
        if (text is not { Length: 7 } || text[0] != '#') return false;
        if (!uint.TryParse(text.AsSpan(1), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var value)) return false;
        colour = new Colour((byte)(value >> 16), (byte)(value >> 8), (byte)value);
        return true;
    }

    /// <summary>Reads a colour as <see cref="TryParse"/> does.</summary>
    /// <exception cref="FormatException">The text is not "#rrggbb".</exception>
    public static Colour Parse(string text) =>
        TryParse(text, out var colour) ? colour : throw new FormatException($"“{text}” is not a colour; write it as \"#rrggbb\".");

    /// <summary>The colour as "#rrggbb", lower case.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"#{Red:x2}{Green:x2}{Blue:x2}");
}
