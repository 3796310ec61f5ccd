using System.Globalization;
using Pleatwright.Chart;

namespace Pleatwright.Order;

/// <summary>Turns of phrase the directions share.</summary>
internal static class Phrases
{
    /// <summary>"1 cable", "4 cables".</summary>
    public static string Count(int count, string one, string? many = null) => count == 1 ? $"1 {one}" : $"{count} {many ?? one + "s"}";

    /// <summary>The first letter made a capital.</summary>
    public static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>"up", or "left" for work held sideways.</summary>
    public static string Level(Level level, LevelWords words) => (level, words) switch
    {
        (Chart.Level.Up, LevelWords.UpDown) => "up",
        (Chart.Level.Down, LevelWords.UpDown) => "down",
        (Chart.Level.Up, _) => "left",
        _ => "right",
    };

    /// <summary>"the thread above the needle".</summary>
    public static string Thread(Level level, LevelWords words) => (level, words) switch
    {
        (Chart.Level.Up, LevelWords.UpDown) => "the thread above the needle",
        (Chart.Level.Down, LevelWords.UpDown) => "the thread below the needle",
        (Chart.Level.Up, _) => "the thread left of the needle",
        _ => "the thread right of the needle",
    };

    /// <summary>"gathering row 3", "half a space below gathering row 3", "2 rows below gathering row 3".</summary>
    /// <param name="depth">Spaces below gathering row 1.</param>
    /// <param name="cableRowsPerSpace">Cable rows in one space.</param>
    public static string Depth(double depth, int cableRowsPerSpace)
    {
        var spaces = (int)Math.Floor(depth + 1e-6);
        if (spaces < 0) return $"{Part(-depth, cableRowsPerSpace)} above gathering row 1";
        var part = depth - spaces;
        return part < 1e-6 ? $"gathering row {spaces + 1}" : $"{Part(part, cableRowsPerSpace)} below gathering row {spaces + 1}";
    }

    private static string Part(double spaces, int cableRowsPerSpace)
    {
        var quarters = Math.Round(spaces * 4);
        if (Math.Abs(spaces * 4 - quarters) < 1e-6)
            return (quarters % 4, Math.Floor(quarters / 4)) switch
            {
                (1, 0) => "a quarter of a space",
                (2, 0) => "half a space",
                (3, 0) => "three quarters of a space",
                _ => string.Create(CultureInfo.InvariantCulture, $"{quarters / 4:0.##} space{(quarters == 4 ? "" : "s")}"),
            };
        var rows = Math.Round(spaces * cableRowsPerSpace);
        if (Math.Abs(spaces * cableRowsPerSpace - rows) < 1e-6) return Count((int)rows, "row");
        return string.Create(CultureInfo.InvariantCulture, $"{spaces:0.##} of a space");
    }
}
