namespace Pleatwright.Thread;

/// <summary>How unlike two colours look: CIEDE2000 (ISO/CIE 11664-6), all weights 1.</summary>
public static class ColourDifference
{
    private const double Degrees = 180 / Math.PI;
    private const double Pow25To7 = 6103515625;

    /// <summary>The difference between two colours; 0 is none, about 1 the least an eye sees side by side.</summary>
    public static double Between(Colour one, Colour other) => Between(Lab.From(one), Lab.From(other));

    /// <summary>The difference between two colours in CIELAB.</summary>
    public static double Between(Lab one, Lab other)
    {
        var meanChroma = (Math.Sqrt(one.A * one.A + one.B * one.B) + Math.Sqrt(other.A * other.A + other.B * other.B)) / 2;
        var stretch = 1 + 0.5 * (1 - Math.Sqrt(PartOf25(meanChroma)));
        double a1 = one.A * stretch, a2 = other.A * stretch;
        double c1 = Math.Sqrt(a1 * a1 + one.B * one.B), c2 = Math.Sqrt(a2 * a2 + other.B * other.B);
        double h1 = Hue(a1, one.B), h2 = Hue(a2, other.B);

        var grey = c1 * c2 == 0;
        var turn = grey ? 0 : h2 - h1;
        if (turn > 180) turn -= 360;
        else if (turn < -180) turn += 360;
        var dL = other.L - one.L;
        var dC = c2 - c1;
        var dH = 2 * Math.Sqrt(c1 * c2) * Math.Sin(turn / 2 / Degrees);

        var l = (one.L + other.L) / 2 - 50;
        var c = (c1 + c2) / 2;
        var h = grey ? h1 + h2 : MeanHue(h1, h2);
        var t = 1 - 0.17 * Cos(h - 30) + 0.24 * Cos(2 * h) + 0.32 * Cos(3 * h + 6) - 0.20 * Cos(4 * h - 63);
        var sL = 1 + 0.015 * l * l / Math.Sqrt(20 + l * l);
        var sC = 1 + 0.045 * c;
        var sH = 1 + 0.015 * c * t;
        var off = (h - 275) / 25;
        var rT = -2 * Math.Sqrt(PartOf25(c)) * Math.Sin(60 * Math.Exp(-off * off) / Degrees);

        double x = dL / sL, y = dC / sC, z = dH / sH;
        return Math.Sqrt(Math.Max(0, x * x + y * y + z * z + rT * y * z));
    }

    private static double PartOf25(double chroma)
    {
        var to3 = chroma * chroma * chroma;
        var to7 = to3 * to3 * chroma;
        return to7 / (to7 + Pow25To7);
    }

    // Degrees from 0 up to 360; 0 for a grey.
    private static double Hue(double a, double b)
    {
        if (a == 0 && b == 0) return 0;
        var hue = Math.Atan2(b, a) * Degrees;
        return hue < 0 ? hue + 360 : hue;
    }

    private static double MeanHue(double h1, double h2)
    {
        var sum = h1 + h2;
        if (Math.Abs(h1 - h2) <= 180) return sum / 2;
        return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
    }

    private static double Cos(double degrees) => Math.Cos(degrees / Degrees);
}
