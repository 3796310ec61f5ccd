using System.Globalization;

namespace Pleatwright.Measure;

/// <summary>Counts in words.</summary>
internal static class Counting
{
    /// <summary>"1 pleat", "4 pleats", "1,200 cables"; an irregular plural may be given.</summary>
    public static string Of(int count, string one, string? many = null) =>
        string.Create(CultureInfo.InvariantCulture, $"{count:#,0} {(count == 1 ? one : many ?? one + "s")}");
}
