using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Cloth;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// Stitching where the cloth is gathered more closely than stitches well, as at the neck of a bishop whose panels are wide: five to one is the most
/// (<see cref="Practice.MostFullness"/>). Where no needle would get between the pleats at all, <see cref="CrowdedPleats"/> says so.
/// </summary>
internal sealed class TightFullness : Rule
{
    private const double Hair = 0.05; // less is not to be seen in a tenth

    /// <inheritdoc/>
    public override string Name => "tight-fullness";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        Place? place = null;
        double most = 0, least = double.PositiveInfinity;
        for (var y = 0; y < work.CableRows; y++)
        {
            var fullness = work.Pleating.Gauge.TakeUp / work.Pleating.PitchAt(y);
            least = Math.Min(least, fullness);
            if (fullness <= Practice.MostFullness + Hair || Crowding.At(work, new CableRow(y)) || CrowdedPleats.Stitched(work, new CableRow(y)) is not { } row) continue;
            (place, most) = (place?.And(row) ?? row, Math.Max(most, fullness));
        }
        if (place is not { } found || !findings.Tells(Severity.Note, found)) return;
        findings.Add(Severity.Note, found,
            string.Create(CultureInfo.InvariantCulture, $"In {Say.Rows(work, found)} the cloth is gathered {(least < most ? "up to " : "")}{most:0.0} to 1. More than {Practice.MostFullness:0} to 1 is hard to stitch: pleats that thin slip and crowd the needle."),
            least < Practice.MostFullness
                ? "Stitch lower, where it opens; or plan less cloth to the pleats that are there: narrower panels, or a longer neck."
                : "Plan less cloth for this width, or a wider piece.");
    }
}
