using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// Stacked rows in the lower half of a bishop with nothing below them that stretches. Stacked cables hold their pleats fast; the yoke fans out only
/// where a wave or a trellis below them lets it (common practice, no source; that low begins at half the depth is our own measure).
/// </summary>
internal sealed class StiffBelow : Rule
{
    /// <inheritdoc/>
    public override string Name => "stiff-below";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        if (!work.Piece.Cloth.Form.FlaresBelow) return;
        foreach (var area in work.Areas.All)
        {
            if (!area.IsStacked || area.Bottom.Index * 2 <= work.CableRows - 1 || Stretches(work, area)) continue;
            var place = Place.Of(area);
            if (!findings.Tells(Severity.Warning, place)) continue;
            findings.Add(Severity.Warning, place,
                $"{Say.Where(work, place).Capital()}: stacked rows low on the yoke with nothing below them that stretches; it cannot fan out there.",
                "Work a wave or a trellis below them, or move them higher up.");
        }
    }

    // Whether bands that stretch lie below all of it, one beside the other where they hang on panels.
    private static bool Stretches(Work work, WorkedArea area)
    {
        var depth = (double)area.Bottom.Index / work.Pleating.Gauge.CableRowsPerSpace;
        var reached = area.From.LeftPleat.Number; // the first pleat that none has been found for
        foreach (var band in work.Bands.Where(b => !b.Passes.IsEmpty && b.Stitch.Stretches(b.Band) && b.Lowest > depth + Stitch.Hair).OrderBy(b => b.Fit.First.Number))
        {
            // A pattern cut into whole repeats leaves a few pleats at its ends, which are as free.
            if (band.Fit.First.Number > reached) return false;
            reached = Math.Max(reached, band.Fit.Last.Number + 1);
            if (reached > area.To.RightPleat.Number) return true;
        }
        return false;
    }
}
