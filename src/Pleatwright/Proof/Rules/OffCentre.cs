using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// Figures side by side that nearly balance on the centre valley, but not quite. One that is half a pleat out cannot do
/// better, having an even number of cables; one that is far out is meant to be.
/// </summary>
internal sealed class OffCentre : Rule
{
    /// <summary>Pleats out of centre from which it is taken to be meant (common practice, no source).</summary>
    public const int MostPleats = 6;

    /// <inheritdoc/>
    public override string Name => "off-centre";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        foreach (var set in Sets(work))
        {
            int from = set.Min(p => p.From.Number), to = set.Max(p => p.To.Number);
            var twice = from + to - 2 * work.Pleating.CentreValley; // twice the valleys to the right of the centre
            if (from < 1 || to > work.Valleys || Math.Abs(twice) is < 2 or > 2 * MostPleats) continue;
            var place = new Place(new CableRow(set.Min(p => p.Top.Index)), new CableRow(set.Max(p => p.Bottom.Index)), new Valley(from), new Valley(to));
            if (findings.Tells(Severity.Note, place)) Tell(work, findings, set, place, twice);
        }
    }

    private static void Tell(Work work, Findings findings, List<Footprint> set, Place place, int twice)
    {
        var left = place.From.LeftPleat.Number - 1;
        var right = work.Pleating.Pleats - place.To.RightPleat.Number;
        findings.Add(Severity.Note, place,
            string.Create(CultureInfo.InvariantCulture,
                $"{(set.Count == 1 ? $"“{set[0].Figure.Name}” is" : "The figures side by side are")} {Math.Abs(twice) / 2.0:0.#} {(Math.Abs(twice) == 2 ? "pleat" : "pleats")} {(twice > 0 ? "right" : "left")} of centre in {Say.Rows(work, place.On(work))}: {Counting.Of(left, "bare pleat")} on the left, {right} on the right."),
            $"Move {(set.Count == 1 ? "it" : "them")} to balance on valley {work.Pleating.CentreValley}, if it is meant to be centred.",
            MendOf(work, set, place, twice));
    }

    private static Mend? MendOf(Work work, List<Footprint> set, Place place, int twice)
    {
        var across = -(twice / 2);
        foreach (var placed in set)
            if (placed.Placement.Centre.On(work.Pleating).Number + across < 1)
                return null;
        // One figure must have room to move; several keep their distances, and must be all there is.
        if (set.Count == 1 ? !Mending.MayMove(work, set[0], across, 0) : set.Count < work.Footprints.Length || !Mending.IsClearOfBands(work, place)) return null;
        return new Mend("Centre " + (set.Count == 1 ? "it" : "them"), piece => set.Aggregate(piece, (p, placed) => p.WithPlacement(placed.Index, old =>
            old with { Centre = old.Centre.To(new Valley(old.Centre.On(work.Pleating).Number + across), work.Pleating) })));
    }

    // Placements whose rows overlap are seen side by side and balance together or not at all.
    private static IEnumerable<List<Footprint>> Sets(Work work)
    {
        var placed = new List<Footprint>();
        foreach (var one in work.Footprints)
            if (one.Width > 0)
                placed.Add(one);
        placed.Sort((a, b) => (a.Top, a.Index).CompareTo((b.Top, b.Index)));
        for (int i = 0, end; i < placed.Count; i = end)
        {
            var bottom = placed[i].Bottom.Index;
            for (end = i + 1; end < placed.Count && placed[end].Top.Index <= bottom; end++) bottom = Math.Max(bottom, placed[end].Bottom.Index);
            yield return placed.GetRange(i, end - i);
        }
    }
}
