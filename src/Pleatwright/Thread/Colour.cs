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

    /// <summary>Relative luminance, 0 black to 1 white.</summary>
    public double Luminance => LinearRgb.From(this).Luminance;

    /// <summary>
    /// Contrast between two colours, 1 (none) to 21 (black on white): (lighter + 0.05) / (darker + 0.05) by the Web
    /// Content Accessibility Guidelines 2.2, which ask 4.5 of ordinary text.
    /// </summary>
    public static double Contrast(Colour one, Colour other)
    {
        double a = one.Luminance + 0.05, b = other.Luminance + 0.05;
        return Math.Max(a, b) / Math.Min(a, b);
    }

    /// <summary>Black or white, whichever is read more easily on this colour; its contrast is never under 4.5.</summary>
    public Colour LetterOn =>
        Contrast(this, Black) >= Contrast(this, White) ? Black : White;

    /// <summary>Black.</summary>
    public static Colour Black => default;

    /// <summary>White.</summary>
    public static Colour White => new(255, 255, 255);

    /// <summary>The colour as "#rrggbb", lower case.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"#{Red:x2}{Green:x2}{Blue:x2}");
}
