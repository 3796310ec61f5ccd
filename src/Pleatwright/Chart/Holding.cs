using System.Collections.Immutable;

namespace Pleatwright.Chart;

/// <summary>Pleats of a gathering row that no stitch on the front holds.</summary>
/// <param name="Row">The gathering row.</param>
/// <param name="From">First pleat left loose.</param>
/// <param name="To">Last pleat left loose.</param>
public readonly record struct LoosePleats(GatheringRow Row, Pleat From, Pleat To)
{
    /// <summary>Pleats in it.</summary>
    public int Count => To.Number - From.Number + 1;
}

/// <summary>What the front stitching holds of each gathering row, and what backsmocking must.</summary>
public static class Holding
{
    /// <summary>
    /// Pleats side by side that may be left loose within a row that is stitched elsewhere: about an inch at the common
    /// gauge (common practice, no source).
    /// </summary>
    public const int MostLoose = 12;

    /// <summary>
    /// Every stretch of loose pleats that wants backsmocking, row by row and from left to right: whole gathering rows
    /// without a stitch, and in other rows stretches of more than <see cref="MostLoose"/>.
    /// </summary>
    public static ImmutableArray<LoosePleats> Loose(Work work)
    {
        var loose = ImmutableArray.CreateBuilder<LoosePleats>();
        for (var g = 1; g <= work.Piece.Cloth.GatheringRows; g++)
        {
            var row = new GatheringRow(g);
            var next = 1; // the first pleat not yet seen
            foreach (ref readonly var run in work.RunsIn(row.CableRow(work.Pleating.Gauge.CableRowsPerSpace)))
            {
                Add(row, next, run.FirstPleat.Number - 1);
                next = run.LastPleat.Number + 1;
            }
            Add(row, next, work.Pleating.Pleats);
        }
        return loose.ToImmutable();

        void Add(GatheringRow row, int from, int to)
        {
            var stretch = new LoosePleats(row, new Pleat(from), new Pleat(to));
            if (stretch.Count > MostLoose || (from == 1 && to == work.Pleating.Pleats)) loose.Add(stretch);
        }
    }
}
