using System.Globalization;

namespace Pleatwright.Measure;

/// <summary>Which units a page or a screen speaks in.</summary>
public enum UnitSystem
{
    /// <summary>Centimetres and millimetres.</summary>
    Metric,

    /// <summary>Inches, to the nearest useful fraction.</summary>
    Inches,

    /// <summary>Centimetres first, inches in brackets.</summary>
    Both,
}

/// <summary>Lengths in words for people; rounded, so never for files.</summary>
public static class LengthWords
{
    /// <summary>
    /// The length as a maker would say it: "28.5 cm", "11 1/4 in", "28.5 cm (11 1/4 in)". Inches go to the nearest
    /// eighth from 1 in up and to the nearest thirty-second below; metric to the millimetre from 1 cm up, else to 0.1 mm.
    /// </summary>
    public static string Say(this Length length, UnitSystem units) => units switch
    {
        UnitSystem.Metric => Metric(length),
        UnitSystem.Inches => Inches(length),
        _ => $"{Metric(length)} ({Inches(length)})",
    };

    private static string Metric(Length length) => Math.Abs(length.Millimetres) switch
    {
        >= 3000 => (length.Millimetres / 1000).ToString("0.0#", CultureInfo.InvariantCulture) + " m",
        >= 10 => length.Centimetres.ToString("0.#", CultureInfo.InvariantCulture) + " cm",
        _ => length.Millimetres.ToString("0.#", CultureInfo.InvariantCulture) + " mm",
    };

    private static string Inches(Length length)
    {
        var steps = Math.Abs(length.Inches) >= 1 ? 8 : 32;
        return Length.FromInches(Math.Round(length.Inches * steps) / steps).ToString();
    }
}
