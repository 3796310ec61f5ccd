using System.Collections.Immutable;
using Pleatwright.Measure;
using Pleatwright.Proof;

namespace Pleatwright.Plate.Parts;

/// <summary>What the proof has against a plate; it is printed, so that nobody stitches from a faulty plate unknowingly.</summary>
/// <param name="Errors">Findings of severity error.</param>
/// <param name="Warnings">Findings of severity warning.</param>
/// <param name="Findings">Both, errors first.</param>
public sealed record Verdict(int Errors, int Warnings, ImmutableArray<Finding> Findings)
{
    /// <summary>The verdict in a few words.</summary>
    public string Headline => Errors > 0 ? "Not fit to stitch yet" : "Read this before you stitch";

    /// <summary>How many of each.</summary>
    public string Counts => (Errors, Warnings) switch
    {
        (0, var w) => $"The proof gives {Counting.Of(w, "warning")}.",
        (var e, 0) => $"The proof finds {Counting.Of(e, "error")}.",
        var (e, w) => $"The proof finds {Counting.Of(e, "error")} and {Counting.Of(w, "warning")}.",
    };

    /// <summary>The verdict, or null when there is neither an error nor a warning.</summary>
    public static Verdict? Of(ImmutableArray<Finding> findings)
    {
        var errors = findings.Count(f => f.Severity == Severity.Error);
        var warnings = findings.Count(f => f.Severity == Severity.Warning);
        return errors + warnings == 0
            ? null
            : new Verdict(errors, warnings,
            [
                .. findings.Where(f => f.Severity != Severity.Note).OrderBy(f => f.Severity)
                    .Select(f => f with { Message = Tidy.Line(f.Message), Remedy = Tidy.Line(f.Remedy) }),
            ]);
    }

    /// <summary>A verdict with more against the plate.</summary>
    internal static Verdict? Of(Verdict? verdict, ImmutableArray<Finding> more) => Of([.. verdict?.Findings ?? [], .. more]);

    /// <summary>What a finding is called.</summary>
    internal static string Name(Severity severity) => severity.Word().Capital();

    internal void Lay(Flow flow)
    {
        var look = flow.Look;
        foreach (var finding in Findings)
        {
            var error = finding.Severity == Severity.Error;
            flow.Gap(1.5);
            flow.Add(look.Leading * 0.9, (page, x, y) =>
            {
                page.Fill(new Box(x, y + 0.9, 1.6, look.Leading * 0.55), error ? look.Alarm : look.Hairline);
                page.Text(x + 3.2, y + look.Leading * 0.7, Name(finding.Severity), look.Note with { Face = Face.TextBold, Colour = error ? look.Alarm : look.Quiet });
            }, keep: look.Leading * 2);
            flow.Paragraph(finding.Message, look.Body, indent: 3.2, after: 0.3);
            flow.Paragraph(finding.Remedy, look.Body with { Face = Face.TextItalic, Colour = look.Quiet }, indent: 3.2, after: 2);
        }
    }
}
