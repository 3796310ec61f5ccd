namespace Pleatwright.Thread;

/// <summary>
/// A colour in Oklab (Ottosson, 2020): an even space in which to mix and smooth. Distances are plain ones.
/// </summary>
/// <param name="L">Lightness, 0 black to 1 white.</param>
/// <param name="A">Green (negative) to red.</param>
/// <param name="B">Blue (negative) to yellow.</param>
internal readonly record struct Oklab(double L, double A, double B)
{
    /// <summary>Chroma below which a colour is called a grey; drawn by eye, our own choice.</summary>
    public const double Grey = 0.03;

    /// <summary>Chroma: 0 for a grey, about 0.3 for the strongest a screen shows.</summary>
    public double Chroma => Math.Sqrt(A * A + B * B);

    /// <summary>Hue in degrees from 0 up to 360, round from red by yellow, green and blue.</summary>
    public double Hue => Math.Atan2(B, A) * 180 / Math.PI is var hue && hue < 0 ? hue + 360 : hue;

    /// <summary>A colour in Oklab.</summary>
    public static Oklab From(Colour colour) => From(LinearRgb.From(colour));

    /// <summary>Light in Oklab.</summary>
    public static Oklab From(LinearRgb light)
    {
        var l = Math.Cbrt(0.4122214708 * light.Red + 0.5363325363 * light.Green + 0.0514459929 * light.Blue);
        var m = Math.Cbrt(0.2119034982 * light.Red + 0.6806995451 * light.Green + 0.1073969566 * light.Blue);
        var s = Math.Cbrt(0.0883024619 * light.Red + 0.2817188376 * light.Green + 0.6299787005 * light.Blue);
        return new Oklab(
            0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
            1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
            0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s);
    }

    /// <summary>The light of this colour; beyond 0 to 1 where a screen cannot show it.</summary>
    public LinearRgb ToLight()
    {
        double l = L + 0.3963377774 * A + 0.2158037573 * B, m = L - 0.1055613458 * A - 0.0638541728 * B, s = L - 0.0894841775 * A - 1.2914855480 * B;
        l *= l * l;
        m *= m * m;
        s *= s * s;
        return new LinearRgb(
            4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
            -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
            -0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s);
    }

    /// <summary>The nearest eight-bit colour.</summary>
    public Colour ToColour() => ToLight().ToColour();

    /// <summary>The square of the distance to another colour; cheap enough for the innermost loop.</summary>
    public double DistanceSquared(Oklab other)
    {
        double dl = L - other.L, da = A - other.A, db = B - other.B;
        return dl * dl + da * da + db * db;
    }
}
