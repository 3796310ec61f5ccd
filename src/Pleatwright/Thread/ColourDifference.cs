namespace Pleatwright.Thread;

/// <summary>How unlike two colours look: CIEDE2000 (ISO/CIE 11664-6), all weights 1.</summary>
internal static class ColourDifference
{
    private const double Degrees = 180 / Math.PI;
    private const double Pow25To7 = 6103515625;

    /// <summary>The difference between two colours; 0 is none, about 1 the least an eye sees side by side.</summary>
    public static double Between(Colour one, Colour other) => Between(Lab.From(one), Lab.From(other));

    /// <summary>The difference between two colours in CIELAB.</summary>
    /// <remarks>
    /// Tracing asks this a million times, so the angles of the formula are mostly not taken: the mean hue is kept as a
    /// direction, halfway between the two colours' own, and the cosines of its multiples follow from its own by the
    /// multiple-angle formulas.
    /// </remarks>
    public static double Between(Lab one, Lab other)
    {
        var meanChroma = (Math.Sqrt(one.A * one.A + one.B * one.B) + Math.Sqrt(other.A * other.A + other.B * other.B)) / 2;
        var stretch = 1 + 0.5 * (1 - Math.Sqrt(PartOf25(meanChroma)));
        double a1 = one.A * stretch, a2 = other.A * stretch, b1 = one.B, b2 = other.B;
        double c1 = Math.Sqrt(a1 * a1 + b1 * b1), c2 = Math.Sqrt(a2 * a2 + b2 * b2);

        var dL = other.L - one.L;
        var dC = c2 - c1;
        // 2·√(c1·c2)·sin(Δh/2): what is left of the way between the two when the chroma is taken out.
        var dH = Math.Sqrt(Math.Max(0, (a2 - a1) * (a2 - a1) + (b2 - b1) * (b2 - b1) - dC * dC));
        var turn = a1 * b2 - b1 * a2;
        // Straight opposite each other the turn says nothing; the formula then goes by the angles themselves.
        if (turn < 0 || (turn == 0 && Hue(a2, b2) < Hue(a1, b1))) dH = -dH;
        if (c1 == 0 || c2 == 0) dH = 0;

        var (cos, sin) = MeanHue(a1, b1, c1, a2, b2, c2);
        double cos2 = 2 * cos * cos - 1, sin2 = 2 * sin * cos;
        double cos3 = cos * (4 * cos * cos - 3), sin3 = sin * (3 - 4 * sin * sin);
        double cos4 = 2 * cos2 * cos2 - 1, sin4 = 2 * sin2 * cos2;
        var t = 1 - 0.17 * (cos * Cos30 + sin * Sin30) + 0.24 * cos2 + 0.32 * (cos3 * Cos6 - sin3 * Sin6) - 0.20 * (cos4 * Cos63 + sin4 * Sin63);

        var l = (one.L + other.L) / 2 - 50;
        var c = (c1 + c2) / 2;
        var sL = 1 + 0.015 * l * l / Math.Sqrt(20 + l * l);
        var sC = 1 + 0.045 * c;
        var sH = 1 + 0.015 * c * t;
        double x = dL / sL, y = dC / sC, z = dH / sH;
        return Math.Sqrt(Math.Max(0, x * x + y * y + z * z + Turn(cos, sin, c) * y * z));
    }

    private static readonly (double Sin, double Cos) At30 = Math.SinCos(30 / Degrees), At6 = Math.SinCos(6 / Degrees), At63 = Math.SinCos(63 / Degrees);
    private static readonly double Cos30 = At30.Cos, Sin30 = At30.Sin, Cos6 = At6.Cos, Sin6 = At6.Sin, Cos63 = At63.Cos, Sin63 = At63.Sin;

    private static double PartOf25(double chroma)
    {
        var to3 = chroma * chroma * chroma;
        var to7 = to3 * to3 * chroma;
        return to7 / (to7 + Pow25To7);
    }

    // Cosine and sine of the mean hue: of the other colour's when one is grey, 0° when both are.
    private static (double Cos, double Sin) MeanHue(double a1, double b1, double c1, double a2, double b2, double c2)
    {
        if (c1 == 0 || c2 == 0) return c1 + c2 == 0 ? (1, 0) : ((a1 + a2) / (c1 + c2), (b1 + b2) / (c1 + c2));
        double a = a1 * c2 + a2 * c1, b = b1 * c2 + b2 * c1;
        var length = Math.Sqrt(a * a + b * b);
        if (length > 1e-6 * c1 * c2) return (a / length, b / length);
        // Straight opposite each other: the formula takes the plain mean of the angles.
        var (sin, cos) = Math.SinCos((Hue(a1, b1) + Hue(a2, b2)) / 2 / Degrees);
        return (cos, sin);
    }

    // The term that turns blues: next to nothing (below 10⁻⁸) for a mean hue from 0° to 160°.
    private static double Turn(double cos, double sin, double chroma)
    {
        if (sin > 0 && cos > CosOf160) return 0;
        var off = (Hue(cos, sin) - 275) / 25;
        return -2 * Math.Sqrt(PartOf25(chroma)) * Math.Sin(60 * Math.Exp(-off * off) / Degrees);
    }

    private static readonly double CosOf160 = Math.Cos(160 / Degrees);

    // Degrees from 0 up to 360.
    private static double Hue(double a, double b)
    {
        var hue = Math.Atan2(b, a) * Degrees;
        return hue < 0 ? hue + 360 : hue;
    }
}
