namespace Pleatwright.Thread;

/// <summary>
/// A colour in CIELAB under D65 (CIE 15): the space in which colour differences are stated.
/// </summary>
/// <param name="L">Lightness, 0 black to 100 white.</param>
/// <param name="A">Green (negative) to red.</param>
/// <param name="B">Blue (negative) to yellow.</param>
internal readonly record struct Lab(double L, double A, double B)
{
    // The light of (1, 1, 1): D65, x = 0.3127, y = 0.3290.
    private const double WhiteX = 0.9504559270516718, WhiteZ = 1.0890577507598784;

    /// <summary>A colour in CIELAB.</summary>
    public static Lab From(Colour colour) => From(LinearRgb.From(colour));

    /// <summary>Light in CIELAB.</summary>
    public static Lab From(LinearRgb light)
    {
        // sRGB primaries to CIE XYZ (IEC 61966-2-1, from the chromaticities of its primaries and white, unrounded).
        var x = 0.4123907992659595 * light.Red + 0.35758433938387796 * light.Green + 0.1804807884018343 * light.Blue;
        var y = light.Luminance;
        var z = 0.01933081871559185 * light.Red + 0.11919477979462599 * light.Green + 0.9505321522496606 * light.Blue;
        double fx = Bend(x / WhiteX), fy = Bend(y), fz = Bend(z / WhiteZ);
        return new Lab(116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz));
    }

    /// <summary>The light of this colour; beyond 0 to 1 where a screen cannot show it.</summary>
    public LinearRgb ToLight()
    {
        var fy = (L + 16) / 116;
        double x = Unbend(fy + A / 500) * WhiteX, y = Unbend(fy), z = Unbend(fy - B / 200) * WhiteZ;
        return new LinearRgb(
            3.2409699419045226 * x - 1.5373831775700939 * y - 0.4986107602930034 * z,
            -0.9692436362808796 * x + 1.8759675015077202 * y + 0.0415550574071756 * z,
            0.0556300796969936 * x - 0.2039769588889765 * y + 1.0569715142428784 * z);
    }

    private static double Bend(double t) => t > 216.0 / 24389 ? Math.Cbrt(t) : t * (24389.0 / 27 / 116) + 16.0 / 116;

    private static double Unbend(double f) => f > 6.0 / 29 ? f * f * f : (f - 16.0 / 116) * (116 * 27 / 24389.0);
}
