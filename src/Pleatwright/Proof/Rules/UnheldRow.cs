using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// Gathering rows with no stitching on the front, or with long gaps in it: the pleats there spring open unless they are
/// backsmocked. Where the piece plans that by itself, it is a note.
/// </summary>
internal sealed class UnheldRow : Rule
{
    /// <inheritdoc/>
    public override string Name => "unheld-row";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        var loose = Holding.Loose(work);
        for (int i = 0, end; i < loose.Length; i = end)
        {
            // Rows one after the other with the same fault are one place: the first row's, if it has both.
            end = i + 1;
            while (end < loose.Length && IsWhole(work, loose[end]) == IsWhole(work, loose[i]) && loose[end].Row.Number <= loose[end - 1].Row.Number + 1) end++;
            Tell(work, findings, loose.AsSpan()[i..end]);
        }
    }

    private static bool IsWhole(Work work, LoosePleats loose) => loose.Count == work.Pleating.Pleats;

    private static void Tell(Work work, Findings findings, ReadOnlySpan<LoosePleats> loose)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        int from = int.MaxValue, to = 0, longest = 0;
        foreach (var gap in loose) (from, to, longest) = (Math.Min(from, gap.From.Number), Math.Max(to, gap.To.Number), Math.Max(longest, gap.Count));
        var place = new Place(loose[0].Row.CableRow(perSpace), loose[^1].Row.CableRow(perSpace), new Valley(from), new Valley(to - 1)).On(work);
        var planned = work.Piece.Back != Backsmocking.None;
        var severity = planned ? Severity.Note : Severity.Warning;
        if (!findings.Tells(severity, place)) return;
        var (first, last) = (loose[0].Row.Number, loose[^1].Row.Number);
        var rows = first == last ? $"Gathering row {first}" : $"Gathering rows {first} to {last}";
        findings.Add(severity, place,
            $"{rows} {(first == last ? "has" : "have")} "
            + (IsWhole(work, loose[0]) ? "no stitching on the front." : $"gaps of up to {Counting.Of(longest, "pleat")} with no stitching on the front."),
            planned ? $"Backsmocking is planned for {(first == last ? "it" : "them")}." : $"Backsmock {(first == last ? "it" : "them")}, or the pleats spring open there once the gathering threads are out.",
            planned ? null : new Mend("Plan backsmocking", piece => piece with { Back = Backsmocking.Auto }));
    }
}
