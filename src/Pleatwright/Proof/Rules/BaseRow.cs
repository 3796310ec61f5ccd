using Pleatwright.Chart;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// A stacked figure whose widest row is not on a gathering row. It is begun there, and only the gathering thread keeps it
/// level; where it is begun with another row that lies on one, nearly as wide or pinned, it is a note.
/// </summary>
internal sealed class BaseRow : Rule
{
    /// <inheritdoc/>
    public override string Name => "base-row";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        foreach (ref readonly var area in work.Areas.All)
        {
            if (!area.IsStacked || area.Widest.Index % perSpace == 0) continue;
            var onGathering = area.Base.Index % perSpace == 0;
            if (onGathering && WidthAt(work, area, area.Base) == area.WidestCables) continue;
            var severity = onGathering ? Severity.Note : Severity.Warning;
            var place = Place.In(area.Widest, area.From, area.To);
            if (!findings.Tells(severity, place)) continue;
            findings.Add(severity, place,
                $"The widest row of the figure, {Say.Where(work, place)}, is not on a gathering row"
                + (!onGathering ? ", so nothing keeps it level."
                    : $"; it is begun on {Say.Row(work, area.Base)}, {(work.Piece.Working.BaseRow == area.Base ? "as pinned" : "which is nearly as wide")}."),
                "Move the figure up or down so that its widest row lies on a gathering row.",
                LevelMend.Of(work, area));
        }
    }

    private static int WidthAt(Work work, in WorkedArea area, CableRow row)
    {
        var cables = 0;
        var (first, end) = work.Areas.In(row);
        for (var i = first; i < end; i++)
            if (work.Areas.AreaOfStretch(i) == area.Index)
                cables += work.Areas.Stretches[i].Cables;
        return cables;
    }
}
