using System.Collections.Immutable;
using Pleatwright.Measure;
using Pleatwright.Proof;

namespace Pleatwright.Plate.Parts;

/// <summary>
/// What the proof has against a plate: with an error in it the plate is stamped, so that nobody stitches from it unknowingly. What the proof
/// finds is for the designer, who sees it where the piece is made; a plate without errors says nothing of it.
/// </summary>
/// <param name="Errors">Findings of severity error.</param>
/// <param name="Warnings">Findings of severity warning.</param>
/// <param name="Findings">Both, errors first.</param>
public sealed record Verdict(int Errors, int Warnings, ImmutableArray<Finding> Findings)
{
    /// <summary>The verdict in a few words.</summary>
    public string Headline => "Not fit to stitch yet";

    /// <summary>What is printed with it.</summary>
    public string Words => string.Join(' ', [Counts, .. Findings.Where(f => f.Rule == ReadBackRule).Select(f => $"{f.Message} {f.Remedy}")]);

    /// <summary>What findings on a plate's own words are called by.</summary>
    internal const string ReadBackRule = "read-back";

    /// <summary>How many of each.</summary>
    public string Counts => (Errors, Warnings) switch
    {
        (var e, 0) => $"The proof finds {Counting.Of(e, "error")}.",
        var (e, w) => $"The proof finds {Counting.Of(e, "error")} and {Counting.Of(w, "warning")}.",
    };

    /// <summary>The verdict, or null when there is no error.</summary>
    public static Verdict? Of(ImmutableArray<Finding> findings)
    {
        var errors = findings.Count(f => f.Severity == Severity.Error);
        var warnings = findings.Count(f => f.Severity == Severity.Warning);
        return errors == 0
            ? null
            : new Verdict(errors, warnings,
            [
                .. findings.Where(f => f.Severity != Severity.Note).OrderBy(f => f.Severity)
                    .Select(f => f with { Message = Tidy.Line(f.Message), Remedy = Tidy.Line(f.Remedy) }),
            ]);
    }

    /// <summary>A verdict with more against the plate.</summary>
    internal static Verdict? Of(Verdict? verdict, ImmutableArray<Finding> more) => Of([.. verdict?.Findings ?? [], .. more]);
}
