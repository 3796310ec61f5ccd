using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Order;

/// <summary>
/// Needlefuls as lengths: after a tie-off the hand goes on elsewhere with what is left, while it is long enough to be worth
/// threading: see <see cref="RestPool"/>. A new length is cut where no rest reaches.
/// </summary>
internal static class Rests
{
    /// <summary>Gives every step its needleful; until then they are numbered by their starts.</summary>
    /// <param name="layout">The work.</param>
    /// <param name="steps">Its steps, in order.</param>
    /// <param name="starts">How many starts they have.</param>
    public static void Share(Layout layout, ImmutableArray<Step>.Builder steps, int starts)
    {
        var working = layout.Work.Piece.Working;
        var (length, tails) = (Micrometres(working.WorkingLength), Micrometres(working.Tails));
        var takes = new long[starts + 1];
        foreach (var step in steps) takes[step.Needleful] += Takes(layout, step);
        var rests = new RestPool(working);
        var needleful = new int[starts + 1];
        var left = new long[starts + 1];
        var cut = 0;
        for (var i = 0; i < steps.Count; i++)
        {
            var step = steps[i];
            var start = step.Needleful;
            var from = 0;
            if (step.Starts == StartKind.New)
            {
                var need = takes[start] + tails;
                (needleful[start], left[start], from) = rests.Take(step.Thread, need) is { } rest ? (rest.Needleful, rest.Left, rest.Step) : (++cut, Math.Max(length, need), 0);
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
            if (step.TieOff) rests.LayBy(step.Thread, new(needleful[start], left[start] - (tails - tails / 2), step.Number));
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

    private static long Micrometres(Length length) => RestPool.Micrometres(length);
}
