using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Proof.Rules;

/// <summary>Bands that reach above the first gathering row, below the last, or past the last pleat.</summary>
internal sealed class BandOffCloth : Rule
{
    /// <inheritdoc/>
    public override string Name => "band-off-cloth";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var last = work.Piece.Cloth.GatheringRows - 1;
        foreach (var laid in work.Bands)
        {
            if (!laid.Passes.IsEmpty)
            {
                if (laid.Highest < -Stitch.Hair) Tell(laid, laid.Highest, laid.Lowest, $"reaches {Say.Spaces(-laid.Highest, perSpace)} above gathering row 1.", "Give it a lower row or a larger offset, or make it less high.");
                if (laid.Lowest > last + Stitch.Hair) Tell(laid, laid.Highest, laid.Lowest, $"reaches {Say.Spaces(laid.Lowest - last, perSpace)} below gathering row {last + 1}, the last.", "Give it a higher row or a smaller offset, make it less high, or gather more rows.");
            }
            else Tell(laid, laid.Top, laid.Top, "has no two pleats to lie on.", "Give it at least two pleats of the cloth.");
        }
        foreach (var band in work.Piece.Bands)
        {
            var (on, most) = (band.On(work.Pleating), band.Panel is { } hung ? work.Pleating.Panel(hung)!.Value.Pleats : work.Pleating.Pleats);
            if (band.To is not { } to || to.Number <= most) continue;
            var top = LaidBand.TopOf(band, perSpace);
            var from = Math.Clamp(on.From?.Number ?? 1, 1, work.Valleys);
            var place = Place.In(Place.RowAt(work, top), new Valley(from), new Valley(Math.Clamp(on.To!.Value.Number - 1, from, work.Valleys)));
            if (findings.Tells(Severity.Error, place))
                findings.Add(Severity.Error, place,
                    $"The {band.Stitch} on {Say.Depth(top, perSpace)} goes to pleat {to.Number}{(band.Panel is { } panel ? $" of “{panel}”, but that" : ", but the cloth")} has {most}.",
                    band.Panel is null ? "End it on the cloth." : "End it on its panel.");
        }

        void Tell(LaidBand laid, double top, double bottom, string what, string remedy)
        {
            var place = Place.Of(work, laid, top, bottom);
            if (findings.Tells(Severity.Error, place)) findings.Add(Severity.Error, place, $"The {Say.Band(work, laid)} {what}", remedy);
        }
    }
}
