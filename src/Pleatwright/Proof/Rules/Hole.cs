using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// Bare cloth shut in on all sides by one area. A small one shows as a fault; one with room in it for a figure of its own
/// may well be meant, and is a note. The counters of letters, and what a border round them shuts in, are meant.
/// </summary>
internal sealed class Hole : Rule
{
    /// <summary>Bare pleats across from which a hole at least a space deep may be meant (common practice, no source).</summary>
    public const int WindowPleats = 8;

    private const int MostMended = 64;

    /// <inheritdoc/>
    public override string Name => "hole";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        foreach (var (place, cells) in new Gaps(work).Enclosed())
        {
            if (work.IsOfLetters(new Valley(place.From.Number - 1), RowOfLeftmost(work, place))) continue;
            var window = place.To.Number - place.From.Number >= WindowPleats
                && place.Bottom.Index - place.Top.Index + 1 >= work.Pleating.Gauge.CableRowsPerSpace;
            var severity = window ? Severity.Note : Severity.Warning;
            if (!findings.Tells(severity, place)) continue;
            findings.Add(severity, place,
                $"Bare cloth shut in by stitching in {Say.Where(work, place)}: {Counting.Of(cells, "cable")} left out.",
                window ? "If it is meant, backsmock the pleats in it so that they lie flat; else fill it." : "Fill it with the thread around it, or open it to one side.",
                cells <= MostMended ? MendOf(work, place, cells) : null);
        }
    }

    // A row of the hole in which its leftmost valley is bare and the one before it worked.
    private static CableRow RowOfLeftmost(Work work, Place place)
    {
        var row = place.Top;
        while (row.Index < place.Bottom.Index && (work.IsWorked(place.From, row) || !work.IsWorked(new Valley(place.From.Number - 1), row))) row = new CableRow(row.Index + 1);
        return row;
    }

    // Only a block of one figure, with one thread of one phase all around.
    private static Mend? MendOf(Work work, Place place, int cells)
    {
        if ((place.To.Number - place.From.Number + 1) * (place.Bottom.Index - place.Top.Index + 1) != cells) return null;
        if (work.ThreadAt(new Valley(place.From.Number - 1), place.Top) is not { } thread) return null;
        return Mending.Redraw(work, place, thread.Letter, $"Fill it with {Say.Thread(work, thread)}", hole => IsRound(work, hole, thread));
    }

    private static bool IsRound(Work work, Place hole, ThreadKey thread)
    {
        var phase = work.PhaseAt(new Valley(hole.From.Number - 1), hole.Top);
        for (var y = hole.Top.Index - 1; y <= hole.Bottom.Index + 1; y++)
            for (var v = hole.From.Number - 1; v <= hole.To.Number + 1; v++)
            {
                var (valley, row) = (new Valley(v), new CableRow(y));
                var inside = y >= hole.Top.Index && y <= hole.Bottom.Index && v >= hole.From.Number && v <= hole.To.Number;
                var corner = (y < hole.Top.Index || y > hole.Bottom.Index) && (v < hole.From.Number || v > hole.To.Number);
                if (!inside && !corner && (work.ThreadAt(valley, row) != thread || work.PhaseAt(valley, row) != phase)) return false;
                if (inside && work.IsWorked(valley, row)) return false;
            }
        return true;
    }

    /// <summary>The bare gaps of every row, joined where they touch, corners included.</summary>
    private sealed class Gaps
    {
        private readonly record struct Gap(int Row, int From, int To);

        private readonly List<Gap> gaps = [new(-1, 0, 0)]; // the first stands for all that lies open to the cloth's edge
        private readonly int[] parent;

        public Gaps(Work work)
        {
            var rowStart = new int[work.CableRows + 1];
            var stretches = work.Areas.Stretches;
            for (var y = 0; y < work.CableRows; y++)
            {
                rowStart[y] = gaps.Count;
                var (first, end) = work.Areas.In(new CableRow(y));
                var from = 1;
                for (var i = first; i < end; i++)
                {
                    if (stretches[i].From.Number > from) gaps.Add(new Gap(y, from, stretches[i].From.Number - 1));
                    from = stretches[i].To.Number + 1;
                }
                if (from <= work.Valleys) gaps.Add(new Gap(y, from, work.Valleys));
            }
            rowStart[work.CableRows] = gaps.Count;
            parent = Roots.Apart(gaps.Count);
            Join(work, rowStart);
        }

        private void Join(Work work, int[] rowStart)
        {
            for (var y = 0; y < work.CableRows; y++)
                for (int i = rowStart[y], j = y == 0 ? i : rowStart[y - 1]; i < rowStart[y + 1]; i++)
                {
                    var gap = gaps[i];
                    if (y == 0 || y == work.CableRows - 1 || gap.From == 1 || gap.To == work.Valleys) Roots.Join(parent, 0, i);
                    if (y == 0) continue;
                    while (j < rowStart[y] && gaps[j].To < gap.From - 1) j++;
                    for (var k = j; k < rowStart[y] && gaps[k].From <= gap.To + 1; k++) Roots.Join(parent, k, i);
                }
        }

        /// <summary>Every hole, with its bare cells.</summary>
        public IEnumerable<(Place Place, int Cells)> Enclosed()
        {
            var found = new Dictionary<int, (Place Place, int Cells)>();
            for (var i = 1; i < parent.Length; i++)
            {
                var root = Roots.Of(parent, i);
                if (root == 0) continue;
                var gap = gaps[i];
                var place = Place.In(new CableRow(gap.Row), new Valley(gap.From), new Valley(gap.To));
                var cells = gap.To - gap.From + 1;
                found[root] = found.TryGetValue(root, out var before) ? (before.Place.And(place), before.Cells + cells) : (place, cells);
            }
            return found.Values;
        }
    }
}
