using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Proof.Rules;

/// <summary>
/// A row that reaches more than one pleat past the row it is stacked on: the one next to it on the way back to the base
/// row. What hangs over has nothing to butt and sags (common practice, no source). The arm of a letter that lies on a gathering row is kept
/// level by it, as a row on its own is.
/// </summary>
internal sealed class Overhang : Rule
{
    /// <summary>Pleats a row may reach past the row it is stacked on.</summary>
    public const int MostPleats = 1;

    /// <inheritdoc/>
    public override string Name => "overhang";

    /// <inheritdoc/>
    public override void Check(Work work, Findings findings)
    {
        var spread = new Spread(work);
        foreach (var fault in spread.Faults())
        {
            if (!findings.Tells(Severity.Warning, fault.Place)) continue;
            var one = fault.Place.Top == fault.Place.Bottom;
            findings.Add(Severity.Warning, fault.Place,
                $"At the {(fault.Left ? "left" : "right")}, {Say.Rows(work, fault.Place)} {(one ? "reaches" : "reach")} {(one ? "" : "up to ")}{Counting.Of(fault.Pleats, "pleat")} past the row {(one ? "it is" : "they are")} stacked on: {Say.Valleys(fault.Place.From, fault.Place.To)}.",
                "Step the edge by one pleat a row, or widen the row it is stacked on.");
        }
    }

    /// <summary>Part of a row, or of rows one after the other, hanging over at one side.</summary>
    private record struct Fault(Place Place, bool Left, int Pleats);

    // Outward from the base rows, stretch by stretch: each is stacked on those it was reached from.
    private sealed class Spread(Work work)
    {
        private readonly Areas areas = work.Areas;
        private readonly int[] steps = new int[work.Areas.Stretches.Length]; // 1 on the base row; 0 not reached yet
        private readonly int[] left = new int[work.Areas.Stretches.Length];  // 1 + the fault at this end, 0 for none
        private readonly int[] right = new int[work.Areas.Stretches.Length];
        private readonly List<Fault> faults = [];

        public List<Fault> Faults()
        {
            var stretches = areas.Stretches;
            var queue = new int[stretches.Length];
            int head = 0, tail = 0;
            for (var i = 0; i < stretches.Length; i++)
            {
                if (stretches[i].Row != areas.All[areas.AreaOfStretch(i)].Base) continue;
                steps[i] = 1;
                queue[tail++] = i;
            }
            while (head < tail)
            {
                var i = queue[head++];
                if (steps[i] > 1) Measure(i);
                var (above, below) = (areas.Above(i), areas.Below(i));
                for (var j = above.First; j < above.End; j++) Reach(i, j, queue, ref tail);
                for (var j = below.First; j < below.End; j++) Reach(i, j, queue, ref tail);
            }
            return faults;
        }

        private void Reach(int from, int to, int[] queue, ref int tail)
        {
            if (steps[to] != 0) return;
            steps[to] = steps[from] + 1;
            queue[tail++] = to;
        }

        private void Measure(int i)
        {
            int from = int.MaxValue, to = 0, openLeft = 0, openRight = 0;
            Under(i, areas.Above(i), ref from, ref to, ref openLeft, ref openRight);
            Under(i, areas.Below(i), ref from, ref to, ref openLeft, ref openRight);
            var s = areas.Stretches[i];
            if (s.Row.Index % work.Pleating.Gauge.CableRowsPerSpace == 0 && work.IsOfLetters(s.From, s.Row)) return;
            if (from - s.From.Number > MostPleats)
                left[i] = Tell(openLeft, true, from - s.From.Number, Place.In(s.Row, s.From, new Valley(from - 1)));
            if (s.To.Number - to > MostPleats)
                right[i] = Tell(openRight, false, s.To.Number - to, Place.In(s.Row, new Valley(to + 1), s.To));
        }

        private void Under(int i, (int First, int End) beside, ref int from, ref int to, ref int openLeft, ref int openRight)
        {
            for (var j = beside.First; j < beside.End; j++)
            {
                if (steps[j] != steps[i] - 1) continue;
                var s = areas.Stretches[j];
                if (s.From.Number < from) (from, openLeft) = (s.From.Number, left[j]);
                if (s.To.Number > to) (to, openRight) = (s.To.Number, right[j]);
            }
        }

        private int Tell(int open, bool atLeft, int pleats, Place place)
        {
            if (open > 0)
            {
                var fault = faults[open - 1];
                faults[open - 1] = fault with { Place = fault.Place.And(place), Pleats = Math.Max(fault.Pleats, pleats) };
                return open;
            }
            faults.Add(new Fault(place, atLeft, pleats));
            return faults.Count;
        }
    }
}
