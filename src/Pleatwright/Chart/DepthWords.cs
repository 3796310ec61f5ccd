using System.Globalization;
using Pleatwright.Measure;

namespace Pleatwright.Chart;

/// <summary>A depth on the cloth in the trade's words.</summary>
internal static class DepthWords
{
    private const double Hair = Stitches.Stitch.Hair;

    /// <summary>"gathering row 3", "half a space below gathering row 3", "2 rows below gathering row 3".</summary>
    /// <param name="depth">Spaces below gathering row 1.</param>
    /// <param name="cableRowsPerSpace">Cable rows in one space.</param>
    public static string Of(double depth, int cableRowsPerSpace)
    {
        var spaces = (int)Math.Floor(depth + Hair);
        if (spaces < 0) return $"{Distance(-depth, cableRowsPerSpace)} above gathering row 1";
        var part = depth - spaces;
        return part < Hair ? $"gathering row {spaces + 1}" : $"{Distance(part, cableRowsPerSpace)} below gathering row {spaces + 1}";
    }

    /// <summary>"half a space", "2 rows", "a quarter of a space and 1 row", "1.5 spaces".</summary>
    /// <param name="spaces">Spaces, more than 0.</param>
    /// <param name="cableRowsPerSpace">Cable rows in one space.</param>
    public static string Distance(double spaces, int cableRowsPerSpace)
    {
        if (Whole(spaces * 4) is { } quarters)
            return quarters switch
            {
                1 => "a quarter of a space",
                2 => "half a space",
                3 => "three quarters of a space",
                4 => "1 space",
                _ => string.Create(CultureInfo.InvariantCulture, $"{quarters / 4.0:0.##} spaces"),
            };
        if (Whole(spaces * cableRowsPerSpace) is { } rows) return Counting.Of(rows, "row");
        for (var quarter = 1; quarter < 4 && quarter < spaces * 4; quarter++)
            if (Whole((spaces - quarter / 4.0) * cableRowsPerSpace) is { } more)
                return $"{Distance(quarter / 4.0, cableRowsPerSpace)} and {Counting.Of(more, "row")}";
        return string.Create(CultureInfo.InvariantCulture, $"{spaces:0.##} of a space");
    }

    private static int? Whole(double number) => Math.Abs(number - Math.Round(number)) < Hair ? (int)Math.Round(number) : null;
}
