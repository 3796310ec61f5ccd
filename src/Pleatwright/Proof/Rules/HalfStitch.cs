using Pleatwright.Chart;

namespace Pleatwright.Proof.Rules;

/// <summary>A half stitch asked for where none can be made.</summary>
internal sealed class HalfStitch : Rule
{
    /// <inheritdoc/>
    public override string Name => "half-stitch";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        // Copies of one placement share their drawing and so their fault.
        var refused = new Dictionary<(int Placement, CableRow Row, RunEnd End), (RefusedHalf First, int Count)>();
        foreach (var half in work.RefusedHalves)
        {
            var key = (half.Placement, half.Row, half.End);
            refused[key] = refused.TryGetValue(key, out var before) ? (before.First, before.Count + 1) : (half, 1);
        }
        foreach (var (half, count) in refused.Values)
        {
            var place = Place.In(half.Row, half.Valley, half.Valley);
            if (!findings.Tells(Severity.Error, place)) continue;
            var end = half.End == RunEnd.Left ? "left" : "right";
            findings.Add(Severity.Error, place,
                $"No half stitch can be made at the {end} end of {Say.Row(work, half.Row)} of “{work.Footprints[half.Placement].Figure.Name}”: {Why(work, half)}.",
                "Take the half stitch out; one is made only at a run's end, where the pleats beyond are bare.",
                MendOf(work, half, count));
        }
    }

    private static string Why(Work work, RefusedHalf half) =>
        !work.OnCloth(half.Valley, half.Row) ? "it is off the cloth"
        : !work.IsWorked(half.Valley, half.Row) ? "the row is bare there"
        : "there is no notch to fill, the next cable is right beside it";

    private static Mend? MendOf(Work work, RefusedHalf half, int count)
    {
        var placed = work.Footprints[half.Placement];
        // Another placement or copy of the same figure may still want it.
        if (count != placed.Placement.Repeat.Count || work.Piece.Placements.Count(p => p.Figure == placed.Figure.Name) > 1) return null;
        var row = half.Row.Index - placed.Placement.Top(work.Pleating).Index;
        var end = placed.Placement.Mirror ? (half.End == RunEnd.Left ? RunEnd.Right : RunEnd.Left) : half.End;
        return new Mend("Take the half stitch out", piece => piece.WithFigure(placed.Figure.Name,
            f => f with { Halves = f.Halves.RemoveAll(h => h.Row == row && h.End == end) }));
    }
}
