using Pleatwright.Chart;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// A stacked figure whose widest row is not on a gathering row. It is begun there, and only the gathering thread keeps it
/// level; where a row nearly as wide lies on one the figure is begun with that, and it is a note.
/// </summary>
public sealed class BaseRow : Rule
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
                + (onGathering ? $"; it is begun on {Say.Row(work, area.Base)}, which is nearly as wide." : ", so nothing keeps it level."),
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
