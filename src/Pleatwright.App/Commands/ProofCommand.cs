using System.CommandLine;
using Pleatwright.Measure;
using Pleatwright.Proof;

namespace Pleatwright.App.Commands;

/// <summary><c>pleatwright proof PIECE</c>: what stands in the way of stitching it. Exit 1 when there are errors.</summary>
internal static class ProofCommand
{
    public static Command Make()
    {
        var piece = CommandLine.PieceArgument();
        var json = CommandLine.JsonOption();
        var command = new Command("proof", "Whether it can be stitched, covers and sits level; exit 1 when there are errors.") { piece, json };
        command.SetAction(async (parsed, cancel) =>
        {
            var findings = await LongWork.Do(cancel, telling => LongWork.Proofread(PieceFile.Lay(parsed, parsed.GetValue(piece)!), telling));
            if (parsed.GetValue(json)) CommandLine.PrintJson(Report(findings));
            else Say(findings);
            return Count(findings, Severity.Error) > 0 ? CommandLine.Found : CommandLine.Done;
        });
        return command;
    }

    private static int Count(IReadOnlyList<Finding> findings, Severity severity) => findings.Count(f => f.Severity == severity);

    private static object Report(IReadOnlyList<Finding> findings) => new
    {
        findings = findings.Select(f => new
        {
            rule = f.Rule,
            severity = f.Severity,
            cableRow = f.Row.Index,
            valleys = new[] { f.From.Number, f.To.Number },
            message = f.Message,
            remedy = f.Remedy,
            lastCableRow = f.LastRow.Index,
            mend = f.Mend?.Words,
        }),
        counts = Counts(findings),
    };

    /// <summary>How many of each severity, for programs.</summary>
    internal static object Counts(IReadOnlyList<Finding> findings) => new
    {
        error = Count(findings, Severity.Error),
        warning = Count(findings, Severity.Warning),
        note = Count(findings, Severity.Note),
    };

    /// <summary>The same in words.</summary>
    internal static string InWords(IReadOnlyList<Finding> findings) =>
        Pleatwright.Proof.Counts.Of(findings).Say(withNone: true);

    private static void Say(IReadOnlyList<Finding> findings)
    {
        foreach (var f in findings)
        {
            Console.WriteLine($"{f.Severity.Word()}: {f.Message} ({f.Rule})");
            Console.WriteLine($"    {f.Remedy}");
        }
        Console.WriteLine(findings.Count == 0
            ? "Nothing found: it can be stitched as drawn."
            : $"{InWords(findings)}.");
    }
}
