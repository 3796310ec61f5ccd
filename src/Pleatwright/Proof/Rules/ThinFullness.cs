using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// A picture on cloth gathered too loosely: three to one is thin, the cloth peeps between the stitches and the figure spreads; about four is wanted
/// (<see cref="Practice.ThinForPictures"/>). Geometric rows are well served by three. Cloth so thick that its pleats could not lie closer is
/// let be.
/// </summary>
internal sealed class ThinFullness : Rule
{
    private const int LeastRows = 3; // of stacked cables that make a picture rather than a border (our own choice)
    private const double Hair = 1e-6;

    /// <inheritdoc/>
    public override string Name => "thin-fullness";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        var gauge = work.Pleating.Gauge;
        var packed = gauge.TakeUp / Practice.FullnessForPictures;
        if (packed < gauge.PleatThickness) return;
        Place? place = null;
        var (least, pictures) = (double.PositiveInfinity, 0);
        foreach (ref readonly var area in work.Areas.All)
        {
            if (area.Bottom.Index - area.Top.Index + 1 < LeastRows) continue;
            var thin = false;
            for (var y = area.Top.Index; y <= area.Bottom.Index; y++)
            {
                if (work.Pleating.PitchAt(y) is var pitch && gauge.TakeUp / pitch is var fullness && fullness > Practice.ThinForPictures + Hair) continue;
                (thin, least) = (true, Math.Min(least, gauge.TakeUp / pitch));
            }
            if (!thin) continue;
            place = place?.And(Place.Of(area)) ?? Place.Of(area);
            pictures++;
        }
        if (place is not { } found || !findings.Tells(Severity.Note, found)) return;
        findings.Add(Severity.Note, found,
            string.Create(CultureInfo.InvariantCulture,
                $"Under {(pictures == 1 ? "the picture" : $"the {Counting.Of(pictures, "picture")}")} in {Say.Rows(work, found)} the cloth is gathered {least:0.0#} to 1. That is thin for a picture: the cloth peeps through and the figure spreads."),
            string.Create(CultureInfo.InvariantCulture,
                $"Gather it to about {Practice.FullnessForPictures} to 1: {Length.MillimetresPerInch / packed.Millimetres:0.#} pleats an inch at this take-up. The piece can be recut for it."));
    }
}
