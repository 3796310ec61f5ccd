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
    /// Pleats side by side that may be left loose in a row that the front still holds right across: at the ends so many are undone
    /// into the seam (common practice, no source).
    /// </summary>
    public const int MostLooseUnseen = 3;

    /// <summary>
    /// Every stretch of loose pleats that wants backsmocking, row by row and from left to right: whole gathering rows
    /// without a stitch, and in other rows stretches of more than <see cref="MostLoose"/>. Rows whose pleats lie too close for a
    /// needle want none, nor do those below the design of a bishop.
    /// </summary>
    public static ImmutableArray<LoosePleats> Loose(Work work)
    {
        var loose = ImmutableArray.CreateBuilder<LoosePleats>();
        Every(work, belowBishops: false, (row, held, _) =>
        {
            for (var p = 1; p <= held.Length; p++)
            {
                var from = p;
                while (p <= held.Length && !held[p - 1]) p++;
                var stretch = new LoosePleats(row, new Pleat(from), new Pleat(p - 1));
                if (stretch.Count > MostLoose || stretch.Count == held.Length) loose.Add(stretch);
            }
        });
        return loose.ToImmutable();
    }

    /// <summary>
    /// Every gathering row that the front does not hold right across, whole. It does so with stitches on all pleats but a few
    /// here and there, or with a band that bites near the row often enough.
    /// </summary>
    /// <param name="work">The work.</param>
    /// <param name="belowBishops">Whether rows below the design of a bishop are among them.</param>
    public static ImmutableArray<LoosePleats> Rows(Work work, bool belowBishops)
    {
        var rows = ImmutableArray.CreateBuilder<LoosePleats>();
        Every(work, belowBishops, (row, held, banded) =>
        {
            var (gap, widest) = (0, 0);
            foreach (var pleat in held) widest = Math.Max(widest, gap = pleat ? 0 : gap + 1);
            if (widest > (banded ? MostLoose : MostLooseUnseen)) rows.Add(new LoosePleats(row, new Pleat(1), new Pleat(held.Length)));
        });
        return rows.ToImmutable();
    }

    private static void Every(Work work, bool belowBishops, Action<GatheringRow, bool[], bool> tell)
    {
        var bands = BandBites.Of(work);
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        var lowest = work.Piece.Cloth.Form.FlaresBelow && !belowBishops ? Lowest(work) : double.MaxValue;
        for (var g = 1; g <= work.Piece.Cloth.GatheringRows; g++)
        {
            var row = new GatheringRow(g);
            if (Crowding.IsTooClose(work, row.CableRow(perSpace)) || row.CableRow(perSpace).Index > lowest) continue;
            var bitten = bands?.Held(row);
            var held = bitten is null ? new bool[work.Pleating.Pleats] : (bool[])bitten.Clone();
            foreach (ref readonly var run in work.RunsIn(row.CableRow(perSpace)))
                Array.Fill(held, true, run.FirstPleat.Number - 1, run.Cables + 1);
            tell(row, held, bitten is not null);
        }
    }

    // The lowest cable row that the design reaches; above the first when there is none.
    private static double Lowest(Work work)
    {
        var lowest = work.Runs.IsEmpty ? -1.0 : work.Runs[^1].Row.Index;
        foreach (var band in work.Bands) lowest = Math.Max(lowest, band.Lowest * work.Pleating.Gauge.CableRowsPerSpace + Stitch.Hair);
        return lowest;
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
