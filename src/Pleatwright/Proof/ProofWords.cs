using Pleatwright.Measure;

namespace Pleatwright.Proof;

/// <summary>How grave a finding is, and how many there are, in words.</summary>
internal static class ProofWords
{
    /// <summary>"error", "warning" or "note".</summary>
    public static string Word(this Severity severity) => severity switch { Severity.Error => "error", Severity.Warning => "warning", _ => "note" };

    /// <summary>"1 error, 3 notes"; with those there are none of when asked for: "1 error, 0 warnings, 3 notes".</summary>
    public static string Say(this Counts counts, bool withNone = false) => string.Join(", ",
        new[] { (counts.Errors, Severity.Error), (counts.Warnings, Severity.Warning), (counts.Notes, Severity.Note) }
            .Where(c => withNone || c.Item1 > 0).Select(c => Counting.Of(c.Item1, c.Item2.Word())));
}
