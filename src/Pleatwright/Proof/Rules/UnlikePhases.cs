using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// Cables of unlike phase that touch: of figures whose phase is flipped, of rows of cables worked upside down. Side by side
/// two would lie on one line over one pleat; one over the other the rows do not mirror, so they cannot nest.
/// </summary>
internal sealed class UnlikePhases : Rule
{
    /// <inheritdoc/>
    public override string Name => "unlike-phases";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        if (!work.Piece.Placements.Any(p => p.FlipPhase) && !work.Piece.Bands.Any(IsFlipped)) return;
        var places = new Dictionary<int, Place>();
        foreach (var contact in Contacts.Of(work))
        {
            Run one = work.Runs[contact.First], other = work.Runs[contact.Second];
            if (one.Phase == other.Phase) continue;
            var area = work.Areas.AreaOf(contact.First);
            var place = new Place(one.Row, other.Row, contact.From, contact.To);
            places[area] = places.TryGetValue(area, out var before) ? before.And(place) : place;
        }
        foreach (var place in places.Values)
            if (findings.Tells(Severity.Error, place))
                findings.Add(Severity.Error, place,
                    $"Cables of unlike phase touch in {Say.Where(work, place)}: they do not mirror each other and cannot nest.",
                    "Let both follow the piece's own phase, or leave at least one pleat bare between them.",
                    new Mend("Put all cables on the piece's own phase", piece => piece with
                    {
                        Placements = [.. piece.Placements.Select(p => p with { FlipPhase = false })],
                        Bands = [.. piece.Bands.Select(b => IsFlipped(b) ? b with { UpsideDown = false } : b)],
                    }));
    }

    private static bool IsFlipped(Band band) => band.UpsideDown && BandStitch.Named(band.Stitch) is { OnLattice: true };
}
