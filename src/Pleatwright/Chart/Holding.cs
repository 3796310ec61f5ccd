using System.Collections.Immutable;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Chart;

/// <summary>Pleats of a gathering row that no stitch on the front holds.</summary>
/// <param name="Row">The gathering row.</param>
/// <param name="From">First pleat left loose.</param>
/// <param name="To">Last pleat left loose.</param>
internal readonly record struct LoosePleats(GatheringRow Row, Pleat From, Pleat To)
{
    /// <summary>Pleats in it.</summary>
    public int Count => To.Number - From.Number + 1;
}

/// <summary>What the front stitching holds of each gathering row, and what backsmocking must.</summary>
internal static class Holding
{
    /// <summary>
    /// Pleats side by side that may be left loose within a row that is stitched elsewhere: about an inch at the common
    /// gauge (common practice, no source).
    /// </summary>
    public const int MostLoose = 12;

    /// <summary>
    /// Every stretch of loose pleats that wants backsmocking, row by row and from left to right: whole gathering rows
    /// without a stitch, and in other rows stretches of more than <see cref="MostLoose"/>. Rows whose pleats lie too close for a
    /// needle want none.
    /// </summary>
    public static ImmutableArray<LoosePleats> Loose(Work work)
    {
        var loose = ImmutableArray.CreateBuilder<LoosePleats>();
        var bands = BandBites.Of(work);
        for (var g = 1; g <= work.Piece.Cloth.GatheringRows; g++)
        {
            var row = new GatheringRow(g);
            if (Crowding.IsTooClose(work, row.CableRow(work.Pleating.Gauge.CableRowsPerSpace))) continue;
            if (bands?.Held(row) is { } held)
            {
                AddUnheld(row, held);
                continue;
            }
            var next = 1; // the first pleat not yet seen
            foreach (ref readonly var run in work.RunsIn(row.CableRow(work.Pleating.Gauge.CableRowsPerSpace)))
            {
                Add(row, next, run.FirstPleat.Number - 1);
                next = run.LastPleat.Number + 1;
            }
            Add(row, next, work.Pleating.Pleats);
        }
        return loose.ToImmutable();

        void AddUnheld(GatheringRow row, bool[] held)
        {
            foreach (ref readonly var run in work.RunsIn(row.CableRow(work.Pleating.Gauge.CableRowsPerSpace)))
                Array.Fill(held, true, run.FirstPleat.Number - 1, run.Cables + 1);
            for (var p = 1; p <= held.Length; p++)
            {
                var from = p;
                while (p <= held.Length && !held[p - 1]) p++;
                Add(row, from, p - 1);
            }
        }

        void Add(GatheringRow row, int from, int to)
        {
            var stretch = new LoosePleats(row, new Pleat(from), new Pleat(to));
            if (stretch.Count > MostLoose || (from == 1 && to == work.Pleating.Pleats)) loose.Add(stretch);
        }
    }

    /// <summary>
    /// The pleats of each gathering row that bands off the lattice hold: those with a bite within <see cref="Reach"/> of
    /// the row.
    /// </summary>
    private sealed class BandBites
    {
        // A quarter of a space (common practice, no source): a turn and the first steps from it hold the row.
        private const double Reach = 0.25;

        private readonly Dictionary<int, bool[]> rows = [];

        public static BandBites? Of(Work work)
        {
            if (work.Bands.IsEmpty) return null;
            var bites = new BandBites();
            foreach (var band in work.Bands)
                foreach (var pass in band.Passes)
                    foreach (var stitch in pass.Stitches)
                    {
                        bites.Add(work, stitch.From);
                        bites.Add(work, stitch.To);
                    }
            return bites;
        }

        public bool[]? Held(GatheringRow row) => rows.GetValueOrDefault(row.Number);

        private void Add(Work work, Bite bite)
        {
            var nearest = Math.Round(bite.Depth);
            if (Math.Abs(bite.Depth - nearest) > Reach + Stitch.Hair) return;
            var row = (int)nearest + 1;
            if (!rows.TryGetValue(row, out var held)) rows[row] = held = new bool[work.Pleating.Pleats];
            held[bite.Pleat.Number - 1] = true;
        }
    }
}
