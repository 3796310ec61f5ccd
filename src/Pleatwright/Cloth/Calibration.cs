using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Cloth;

/// <summary>What a maker's swatches say of their gathering and their hand, by least squares, each with its range.</summary>
/// <param name="Pitch">Finished width of one pleat, in millimetres.</param>
/// <param name="TakeUp">Flat cloth in one pleat, in millimetres; null when no swatch measured it.</param>
/// <param name="ThreadFactor">
/// Thread a cable really took, over what <see cref="Usage.Cable"/> reckons; null when no swatch measured it.
/// </param>
public sealed record Calibration(Estimate Pitch, Estimate? TakeUp, Estimate? ThreadFactor)
{
    /// <summary>Works swatches out; null when there are none.</summary>
    /// <param name="swatches">The swatches.</param>
    /// <param name="gauge">The gauge they were stitched at: its line height goes into what a cable is reckoned to take.</param>
    /// <param name="tails">Thread lost to one start and its tie-off.</param>
    public static Calibration? Of(IReadOnlyCollection<Swatch> swatches, Gauge gauge, Length tails)
    {
        if (Estimate.ThroughOrigin([.. swatches.Select(s => ((double)s.Pleats, s.Width.Millimetres))]) is not { } pitch) return null;
        return new Calibration(pitch,
            Estimate.ThroughOrigin([.. swatches.Where(s => s.Cloth is not null).Select(s => ((double)s.Pleats, s.Cloth!.Value.Millimetres))]),
            Estimate.ThroughOrigin([.. swatches.Where(s => s is { Thread: not null, Cables: > 0 }).Select(s => ThreadPoint(s, gauge, tails))]));
    }

    /// <summary>The gauge with the pitch and take-up the swatches give; its other figures stay.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The swatches give a take-up less than their pitch.</exception>
    public Gauge Applied(Gauge gauge)
    {
        var pitch = Length.FromMillimetres(Pitch.Value);
        var takeUp = TakeUp is { } t ? Length.FromMillimetres(t.Value) : gauge.TakeUp;
        return new Gauge(pitch, takeUp, gauge.RowSpacing, gauge.CableRowsPerSpace) { PleatThickness = gauge.PleatThickness };
    }

    private static (double, double) ThreadPoint(Swatch swatch, Gauge gauge, Length tails) =>
        (swatch.Cables * Usage.Cable(swatch.Width / swatch.Pleats, gauge.LineHeight).Millimetres,
            (swatch.Thread!.Value - tails * swatch.Starts).Millimetres);
}
