using System.Globalization;

namespace Pleatwright.Measure;

/// <summary>Lengths in words for people; rounded, so never for files.</summary>
public static class LengthWords
{
    /// <summary>
    /// The length as a maker would say it: "28.5 cm", "11 1/4 in", "28.5 cm (11 1/4 in)". Inches go to the nearest
    /// eighth from 1 in up and to the nearest thirty-second below; metric to 0.1 mm below 1 cm, to the millimetre from
    /// there, and in metres to the centimetre from 3 m up.
    /// </summary>
    public static string Say(this Length length, UnitSystem units) => units switch
    {
        UnitSystem.Metric => Metric(length),
        UnitSystem.Inches => Inches(length),
        _ => $"{Metric(length)} ({Inches(length)})",
    };

    /// <summary>The units of a maker who wrote the length as it is written.</summary>
    public static UnitSystem Units(this Length length) => length.Unit == LengthUnit.Inch ? UnitSystem.Inches : UnitSystem.Metric;

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
