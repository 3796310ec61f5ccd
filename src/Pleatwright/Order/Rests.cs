using System.Collections.Immutable;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>
/// Needlefuls as lengths: after a tie-off the hand goes on elsewhere with what is left, while it is long enough to be worth
/// threading. Each start takes the shortest rest of its thread that reaches to its tie-off, and cuts a new length where none does.
/// </summary>
internal static class Rests
{
    private readonly record struct Rest(int Needleful, long Left, int Step);

    /// <summary>Gives every step its needleful; until then they are numbered by their starts.</summary>
    /// <param name="layout">The work.</param>
    /// <param name="steps">Its steps, in order.</param>
    /// <param name="starts">How many starts they have.</param>
    public static void Share(Layout layout, ImmutableArray<Step>.Builder steps, int starts)
    {
        var working = layout.Work.Piece.Working;
        var (length, tails, least) = (Micrometres(working.WorkingLength), Micrometres(working.Tails), Micrometres(working.LeastRest));
        var takes = new long[starts + 1];
        foreach (var step in steps) takes[step.Needleful] += Takes(layout, step);
        var rests = new Dictionary<ThreadKey, List<Rest>>();
        var needleful = new int[starts + 1];
        var left = new long[starts + 1];
        var cut = 0;
        for (var i = 0; i < steps.Count; i++)
        {
            var step = steps[i];
            var start = step.Needleful;
            if (!rests.TryGetValue(step.Thread, out var ofThread)) rests[step.Thread] = ofThread = [];
            var from = 0;
            if (step.Starts == StartKind.New)
            {
                var need = takes[start] + tails;
                var best = -1;
                for (var r = 0; r < ofThread.Count; r++)
                    if (ofThread[r].Left >= Math.Max(need, least) && (best < 0 || ofThread[r].Left < ofThread[best].Left)) best = r;
                if (best < 0) (needleful[start], left[start]) = (++cut, Math.Max(length, need));
                else
                {
                    (needleful[start], left[start], from) = (ofThread[best].Needleful, ofThread[best].Left, ofThread[best].Step);
                    ofThread.RemoveAt(best);
                }
                left[start] -= tails / 2;
            }
            left[start] -= Takes(layout, step);
            steps[i] = step with
            {
                Needleful = needleful[start],
                Threads = step.Starts == StartKind.New && from == 0,
                RestFrom = from,
                Left = Length.FromMillimetres(left[start] / 1000.0),
            };
            if (step.TieOff && left[start] - (tails - tails / 2) >= least) ofThread.Add(new Rest(needleful[start], left[start] - (tails - tails / 2), step.Number));
        }
    }

    /// <summary>By the number of each needleful that is cut longer than the working length: by how much.</summary>
    public static Dictionary<int, Length> LongerBy(Layout layout, ImmutableArray<Step> steps)
    {
        var working = layout.Work.Piece.Working;
        var room = Micrometres(working.WorkingLength) - Micrometres(working.Tails);
        var takes = new Dictionary<int, long>(); // from the threading to the first tie-off: a rest is never longer
        var closed = new HashSet<int>();
        foreach (var step in steps)
        {
            if (closed.Contains(step.Needleful)) continue;
            takes[step.Needleful] = takes.GetValueOrDefault(step.Needleful) + Takes(layout, step);
            if (step.TieOff) closed.Add(step.Needleful);
        }
        return takes.Where(t => t.Value > room).ToDictionary(t => t.Key, t => Length.FromMillimetres((t.Value - room) / 1000.0));
    }

    private static long Takes(Layout layout, Step step) =>
        (long)step.Cables * layout.Costs.Cable(step.RunIndex) + (long)step.HalfStitches * layout.Costs.Half(step.RunIndex) + Micrometres(step.Carried);

    private static long Micrometres(Length length) => (long)Math.Round(length.Millimetres * 1000);
}
