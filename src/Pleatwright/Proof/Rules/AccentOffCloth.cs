using Pleatwright.Chart;

namespace Pleatwright.Proof.Rules;

/// <summary>Accents that reach past the last pleat, above the first gathering row or below the last: they are not worked.</summary>
internal sealed class AccentOffCloth : Rule
{
    /// <inheritdoc/>
    public override string Name => "accent-off-cloth";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        foreach (var laid in work.Accents)
        {
            if (laid.IsOnCloth(work)) continue;
            var place = Place.Of(work, laid);
            if (findings.Tells(Severity.Error, place))
                findings.Add(Severity.Error, place,
                    $"The {laid.Accent.Name} on valley {laid.Valley.Number}, {Say.Depth(laid.Depth, work.Pleating.Gauge.CableRowsPerSpace)}, does not lie on the cloth.",
                    "Move it in, or place fewer copies or nearer ones.");
        }
    }
}
