using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Order.Telling;

/// <summary>Stitches of a band that follow one another and are alike, as held.</summary>
/// <param name="Kind">How each is made.</param>
/// <param name="IsLevel">Whether they lie along one height.</param>
/// <param name="Level">The thread's side of the needle where they do; else the way they slope.</param>
/// <param name="Count">How many.</param>
internal readonly record struct Group(StitchKind Kind, bool IsLevel, Level Level, int Count);

/// <summary>The stitches of a step: some first, a cycle so many times, and some last. Nothing is left to be guessed.</summary>
/// <param name="Lead">Groups before the cycle.</param>
/// <param name="Cycle">Groups that come again and again.</param>
/// <param name="Times">How often, 2 or more; 0 when there is no cycle.</param>
/// <param name="Tail">Groups after it.</param>
internal sealed record Pattern(ImmutableArray<Group> Lead, ImmutableArray<Group> Cycle, int Times, ImmutableArray<Group> Tail)
{
    /// <summary>Finds the pattern of stitches.</summary>
    public static Pattern Of(ReadOnlySpan<Stitch> stitches, bool turned)
    {
        var groups = new List<Group>();
        foreach (ref readonly var s in stitches)
        {
            var level = s.IsLevel ? turned ? s.Level.Opposite() : s.Level : s.Rises != turned ? Level.Up : Level.Down;
            var like = new Group(s.Kind, s.IsLevel, level, 1);
            if (groups.Count > 0 && groups[^1] with { Count = 1 } == like) groups[^1] = groups[^1] with { Count = groups[^1].Count + 1 };
            else groups.Add(like);
        }
        // the first and the last group may be parts of what a thread's end cut in two
        for (var length = 2; 2 * length <= groups.Count; length++)
        {
            var lead = groups[0] == groups[length] ? 0 : 1;
            var end = lead + length;
            while (end < groups.Count && groups[end] == groups[end - length]) end++;
            var times = (end - lead) / length;
            if (times < 2 || groups.Count - lead - times * length > length) continue;
            return new([.. groups[..lead]], [.. groups[lead..(lead + length)]], times, [.. groups[(lead + times * length)..]]);
        }
        return new([.. groups], [], 0, []);
    }
}
