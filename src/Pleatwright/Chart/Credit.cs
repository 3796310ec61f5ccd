using System.Globalization;
using Pleatwright.Measure;

namespace Pleatwright.Chart;

/// <summary>Whose design a piece is, as a published plate says it. Whatever is left empty is not said.</summary>
public sealed record Credit
{
    /// <summary>The most characters a designer's name may have.</summary>
    public const int LongestDesigner = 120;

    /// <summary>The most characters the copyright line may have.</summary>
    public const int LongestCopyright = 200;

    /// <summary>The most characters the name of a photograph's file may have.</summary>
    public const int LongestPhotograph = 120;

    /// <summary>Nothing said.</summary>
    public static Credit None { get; } = new();

    /// <summary>Who designed it, in one line; empty when it is not said.</summary>
    public string Designer { get; init; } = "";

    /// <summary>The copyright line, in the designer's words; empty when it is not said.</summary>
    public string Copyright { get; init; } = "";

    /// <summary>The day it is dated; null when it is not said.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>The name of a photograph's file, without a folder: a place is kept for it. Empty when there is none.</summary>
    public string Photograph { get; init; } = "";

    /// <summary>Why words cannot name the designer: what they must be instead, or null when they can. Empty words can always stand.</summary>
    internal static string? FaultOfDesigner(string words) => FaultOfLine(words, LongestDesigner);

    /// <summary>Why words cannot be the copyright line: what they must be instead, or null when they can.</summary>
    internal static string? FaultOfCopyright(string words) => FaultOfLine(words, LongestCopyright);

    /// <summary>Why a name cannot be that of a photograph's file: what it must be instead, or null when it can.</summary>
    /// <remarks>No folder is named, so that a piece handed on points to nothing on the machine it came from.</remarks>
    internal static string? FaultOfPhotograph(string name) =>
        FaultOfLine(name, LongestPhotograph) ?? (name.AsSpan().IndexOfAny("/\\:") >= 0 || name is "." or ".." || name != name.Trim()
            ? "the name of a file alone, without a folder, such as \"boats.jpg\""
            : null);

    private static string? FaultOfLine(string words, int longest) =>
        words.Length > longest ? $"at most {Counting.Of(longest, "character")} long"
        : words.Any(c => char.IsControl(c) || c is '\u2028' or '\u2029') ? "one line, without tabs and other controls"
        : null;

    /// <summary>A date as a piece file writes it: year, month and day of ISO 8601, "2026-05-31".</summary>
    internal static string Written(DateOnly date) => date.ToString(DateForm, CultureInfo.InvariantCulture);

    /// <summary>Reads a date as <see cref="Written"/> writes it; false when it is none, as 30 February.</summary>
    internal static bool TryDate(string written, out DateOnly date) =>
        DateOnly.TryParseExact(written, DateForm, CultureInfo.InvariantCulture, DateTimeStyles.None, out date);

    private const string DateForm = "yyyy-MM-dd";
}
