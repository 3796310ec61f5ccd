using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// A row on its own, nothing worked right over or under it, that is not on a gathering row: nothing keeps it level. It
/// can be stitched, so it is a warning.
/// </summary>
internal sealed class NothingBeside : Rule
{
    /// <inheritdoc/>
    public override string Name => "nothing-beside";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        foreach (ref readonly var area in work.Areas.All)
        {
            if (area.IsStacked || area.Top.Index % work.Pleating.Gauge.CableRowsPerSpace == 0) continue;
            var place = Place.Of(area);
            if (!findings.Tells(Severity.Warning, place)) continue;
            findings.Add(Severity.Warning, place,
                $"{Say.Where(work, place).Capital()}: a run with nothing worked over or under it, and no gathering row to keep it level.",
                "Move it onto a gathering row, or stack it on a row already worked.",
                LevelMend.Of(work, area));
        }
    }
}
