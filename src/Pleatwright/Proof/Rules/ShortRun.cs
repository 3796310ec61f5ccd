using Pleatwright.Chart;

namespace Pleatwright.Proof.Rules;

/// <summary>Runs of two cables, under the three that are worth a start and a tie-off (common practice, no source).</summary>
internal sealed class ShortRun : Rule
{
    /// <inheritdoc/>
    public override string Name => "short-run";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        foreach (var column in ShortRuns.Of(work, 2))
        {
            if (!findings.Tells(Severity.Warning, column.Place)) continue;
            var around = ShortRuns.Around(work, column.Place);
            findings.Add(Severity.Warning, column.Place,
                $"{(column.Rows == 1 ? "A run" : "Runs")} of only two cables of {Say.Thread(work, column.Thread)} in {Say.Where(work, column.Place)}.",
                around is { } thread
                    ? $"Work it in {Say.Thread(work, thread)} like the cables beside it, or make the run three cables or longer."
                    : "Make the run three cables or longer, or leave it out.",
                around is { } other ? ShortRuns.Recolour(work, column, other) : null);
        }
    }
}
