using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Order;

/// <summary>
/// Shares the rows of backsmocking among needlefuls of whole cables. As on the front, the thread may go on at a row's end: along
/// the pleat to the next gathering row, which is then worked back with the work turned. It does so wherever that saves a start.
/// </summary>
internal sealed class BackNeedlefuls(Work work)
{
    private const int MostJoined = 12; // rows looked at together

    private readonly ThreadCosts costs = new(work);
    private readonly int perSpace = work.Pleating.Gauge.CableRowsPerSpace;
    private readonly bool rightHanded = work.Piece.Working.Hand == Hand.Right;
    private readonly bool mayTurn = work.Piece.Working.MayTurn;

    /// <summary>The rows in the order worked.</summary>
    /// <param name="stretches">What is to be cabled, from the top row down and from left to right; those of one row lie apart.</param>
    public ImmutableArray<BackRow> Share(List<LoosePleats> stretches)
    {
        List<List<BackRow>> shared = [];
        foreach (var chain in Chains(stretches)) Cut(chain, shared);
        return [.. shared.OrderBy(rows => rows[0].Row).ThenBy(rows => rows[0].From).SelectMany(rows => rows)];
    }

    // Stretches one under the other that have an end within a carry of each other; each in one chain.
    private List<List<LoosePleats>> Chains(List<LoosePleats> stretches)
    {
        List<List<LoosePleats>> chains = [];
        var chainOf = new List<LoosePleats>?[stretches.Count]; // the chain that ends in a stretch
        int first = 0, above = 0, end = 0; // the row began at the first; above to end lie in the row right above it
        for (var i = 0; i < stretches.Count; i++)
        {
            var stretch = stretches[i];
            if (i > 0 && stretches[i - 1].Row != stretch.Row)
                (above, end, first) = stretches[i - 1].Row.Below == stretch.Row ? (first, i, i) : (i, i, i);
            while (above < end && stretches[above].To.Number < stretch.From.Number - costs.CarryPleats) above++;
            var before = above;
            while (before < end && stretches[before].From.Number <= stretch.To.Number + costs.CarryPleats && (chainOf[before] is null || !IsNear(stretches[before], stretch))) before++;
            if (before < end && chainOf[before] is { } chain && IsNear(stretches[before], stretch)) (chainOf[i], chainOf[before]) = (chain, null);
            else chains.Add(chainOf[i] = []);
            chainOf[i]!.Add(stretch);
        }
        return chains;

        bool IsNear(LoosePleats a, LoosePleats b) => Math.Abs(a.From.Number - b.From.Number) <= costs.CarryPleats || Math.Abs(a.To.Number - b.To.Number) <= costs.CarryPleats;
    }

    // Shares a chain among the fewest needlefuls; of two ways with as many, the one that joins fewer rows.
    private void Cut(List<LoosePleats> chain, List<List<BackRow>> shared)
    {
        var best = new (int Needlefuls, List<BackRow> Last, int From)[chain.Count + 1];
        for (var to = 1; to <= chain.Count; to++)
        {
            best[to].Needlefuls = int.MaxValue;
            for (var from = to - 1; from >= (mayTurn ? Math.Max(0, to - MostJoined) : to - 1); from--)
            {
                if (Together(chain, from, to) is not { } rows) continue;
                var needlefuls = best[from].Needlefuls + rows.Sum(r => r.Needlefuls);
                if (needlefuls < best[to].Needlefuls) best[to] = (needlefuls, rows, from);
            }
        }
        for (var at = chain.Count; at > 0; at = best[at].From) shared.Add(best[at].Last);
    }

    // Rows worked on from each other, there and back, every needleful used as far as it reaches; null where the thread would not
    // reach from one to the next, or be used up at the end of one.
    private List<BackRow>? Together(List<LoosePleats> chain, int from, int to)
    {
        List<BackRow> rows = [];
        var left = 0;
        for (var i = from; i < to; i++)
        {
            var stretch = chain[i];
            var row = stretch.Row.CableRow(perSpace);
            var cable = costs.CableIn(row);
            var turned = (i - from) % 2 == 1;
            // wrong side up the highest pleat lies at the left, bottom edge up the lowest
            var (begin, end) = rightHanded != turned ? (stretch.To, stretch.From) : (stretch.From, stretch.To);
            var begun = 0;
            var (carried, pleats) = (0, 0);
            if (i == from) (left, begun) = (costs.Needleful, 1);
            else
            {
                pleats = begin.Number - rows[^1].End.Number;
                carried = costs.Carry(pleats, rows[^1].Row.CableRow(perSpace).Index, row.Index);
                left -= carried;
                if (Math.Abs(pleats) > costs.CarryPleats || left < cable) return null;
                rows[^1] = rows[^1] with { KeepsThread = true };
            }
            for (var rest = stretch.Count - 1; ; begun++, left = costs.Needleful)
            {
                var now = Math.Min(rest, left / cable);
                left -= now * cable;
                rest -= now;
                if (rest == 0) break;
            }
            rows.Add(new BackRow(stretch.Row, begin, end, turned, work.CableThread(row) * (stretch.Count - 1), begun)
            {
                Carried = Length.FromMillimetres(carried / 1000.0),
                CarriedPleats = pleats,
            });
        }
        return rows;
    }
}
