using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// Stitching where the pleats lie closer than a pleat is thick: near the poles of a ball, or at a neck blocked too
/// tight. No needle gets between them (common practice, no source).
/// </summary>
internal sealed class CrowdedPleats : Rule
{
    /// <inheritdoc/>
    public override string Name => "crowded-pleats";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        Place? open = null;
        for (var y = 0; y <= work.CableRows; y++)
        {
            if (y < work.CableRows && Crowding.At(work, new CableRow(y)))
            {
                var row = Stitched(work, new CableRow(y)) ?? Place.In(new CableRow(y), new Valley(1), new Valley(work.Valleys));
                open = open?.And(row) ?? row;
            }
            else if (open is { } place)
            {
                Tell(work, findings, place);
                open = null;
            }
        }
    }

    // From the first stitch of a row to the last, of runs and bands; nothing where there is none.
    internal static Place? Stitched(Work work, CableRow row)
    {
        var runs = work.RunsIn(row);
        Place? place = runs.IsEmpty ? null : Place.In(row, runs[0].From, runs[^1].To);
        foreach (var band in work.Bands)
            if (Crowding.Lies(work, band, row) && Place.Of(work, band) with { Top = row, Bottom = row } is var over)
                place = place?.And(over) ?? over;
        return place;
    }

    private static void Tell(Work work, Findings findings, Place place)
    {
        if (!findings.Tells(Severity.Error, place)) return;
        var thickness = work.Pleating.Gauge.PleatThickness;
        var pitch = work.Pleating.PitchAt(place.Top.Index);
        if (work.Pleating.PitchAt(place.Bottom.Index) is var low && low < pitch) pitch = low;
        findings.Add(Severity.Error, place,
            $"In {Say.Rows(work, place)} the pleats lie {pitch.Say(UnitSystem.Metric)} apart, closer than a pleat is thick ({thickness.Say(UnitSystem.Metric)}): nothing can be stitched.",
            "Leave these rows bare, or plan fewer pleats: a wider pitch at the gauge, less cloth, or a longer neck.");
    }
}
