using Pleatwright.Chart;

namespace Pleatwright.Proof.Rules;

/// <summary>Runs of a single cable: each takes a start and a tie-off for one stitch, and rarely sits level.</summary>
internal sealed class LoneCable : Rule
{
    /// <inheritdoc/>
    public override string Name => "lone-cable";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        foreach (var column in ShortRuns.Of(work, 1))
        {
            if (!findings.Tells(Severity.Warning, column.Place)) continue;
            var around = ShortRuns.Around(work, column.Place);
            findings.Add(Severity.Warning, column.Place,
                $"{(column.Rows == 1 ? "A lone cable" : "Lone cables")} of {Say.Thread(work, column.Thread)} in {Say.Where(work, column.Place)}.",
                around is { } thread
                    ? $"Work it in {Say.Thread(work, thread)} like the cables beside it, or make the run three cables or longer."
                    : "Leave it out, or make the run three cables or longer.",
                around is { } other ? ShortRuns.Recolour(work, column, other)
                    : Mending.Redraw(work, column.Place, Figure.Bare, column.Rows == 1 ? "Take the cable out" : "Take the cables out", place => IsTip(work, place)));
        }
    }

    // Taking a tip out leaves the rest standing as it stood: bare on both sides, and bare over it or under it.
    private static bool IsTip(Work work, Place column)
    {
        var valley = column.From;
        var (top, bottom) = (column.Top.Index, column.Bottom.Index);
        for (var y = top; y <= bottom; y++)
            if (work.IsWorked(new Valley(valley.Number - 1), new CableRow(y)) || work.IsWorked(new Valley(valley.Number + 1), new CableRow(y)))
                return false;
        return !work.IsWorked(valley, new CableRow(top - 1)) || !work.IsWorked(valley, new CableRow(bottom + 1));
    }
}
