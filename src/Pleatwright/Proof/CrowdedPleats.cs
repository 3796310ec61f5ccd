using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Proof;

/// <summary>
/// Stitching where the pleats lie closer than a pleat is thick: near the poles of a ball, or at a neck blocked too
/// tight. No needle gets between them (common practice, no source).
/// </summary>
public sealed class CrowdedPleats : Rule
{
    /// <inheritdoc/>
    public override string Name => "crowded-pleats";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Check(Work work)
    {
        var thickness = work.Pleating.Gauge.PleatThickness;
        var findings = new List<Finding>();
        for (var y = 0; y < work.CableRows; y++)
        {
            var runs = work.RunsIn(new CableRow(y));
            var pitch = work.Pleating.PitchAt(y);
            if (runs.IsEmpty || pitch >= thickness) continue;
            findings.Add(new Finding(Name, Severity.Error, new CableRow(y), runs[0].From, runs[^1].To,
                $"The pleats lie {pitch.Say(UnitSystem.Metric)} apart here, closer than a pleat is thick ({thickness.Say(UnitSystem.Metric)}): nothing can be stitched.",
                "Leave this row bare, or plan fewer pleats: a wider pitch at the gauge, or less cloth."));
        }
        return findings;
    }
}
