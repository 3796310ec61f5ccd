using System.Collections.Immutable;

namespace Pleatwright.Thread;

/// <summary>How a thread that comes from elsewhere finds one of a piece's own.</summary>
public enum ThreadFit
{
    /// <summary>The piece has it: a thread that no eye tells from it, made alike. It is taken without a word.</summary>
    Same,

    /// <summary>The piece has one near it, or one of the same colour made otherwise: the maker is asked.</summary>
    InDoubt,

    /// <summary>The piece has none near it: it comes along.</summary>
    New,
}

/// <summary>A thread of the piece that might be taken for one that comes.</summary>
/// <param name="Thread">The piece's own thread.</param>
/// <param name="Difference">How far its colour is from the one that comes, by CIEDE2000.</param>
/// <param name="MadeAlike">Whether it lies on the cloth alike: as many strands, as fine.</param>
public readonly record struct ThreadChoice(Floss Thread, double Difference, bool MadeAlike)
{
    /// <summary>The difference in a plain word's step.</summary>
    public Likeness Likeness => Likenesses.Of(Difference);
}

/// <summary>What is to be done about one thread that comes.</summary>
/// <param name="From">The thread, as it comes.</param>
/// <param name="Fit">Whether the piece has it.</param>
/// <param name="Choices">The piece's threads that may be taken for it, the likeliest first; none when it is new.</param>
public sealed record ThreadMatch(Floss From, ThreadFit Fit, ImmutableArray<ThreadChoice> Choices);

/// <summary>
/// Threads that come from another piece or from the drawer, held against a piece's own: by their colour, never by their letter.
/// The limits are those of <see cref="Likenesses"/>: up to 1 by CIEDE2000 it is the same thread, up to 5 one may be taken instead,
/// beyond that it is another colour.
/// </summary>
internal static class ThreadMatching
{
    /// <summary>Whether two threads lie on the cloth alike: as many strands in the needle, as fine. What a skein of them holds does not show.</summary>
    public static bool MadeAlike(Floss a, Floss b) => a.Strands == b.Strands && a.TexPerStrand == b.TexPerStrand;

    /// <summary>Matches each thread that comes, in its order. One thread of the piece is taken silently for one that comes: two shades never run into one unasked.</summary>
    /// <param name="own">The piece's threads.</param>
    /// <param name="coming">The threads that come.</param>
    public static ImmutableArray<ThreadMatch> Of(IEnumerable<Floss> own, IEnumerable<Floss> coming)
    {
        var there = own.ToList();
        var found = coming.Select(from => (From: from, Choices: Choices(there, from))).ToList();
        // The surest first, so that an exact one is never kept from its own by one that is merely like it.
        var taken = new Dictionary<ThreadKey, Floss>();
        var same = new HashSet<ThreadKey>();
        foreach (var (from, choices) in found.Where(f => IsSame(f.Choices)).OrderBy(f => f.Choices[0].Difference))
        {
            var first = choices[0].Thread.Key;
            if (taken.TryGetValue(first, out var other) && other.Colour != from.Colour) continue;
            taken[first] = from;
            same.Add(from.Key);
        }
        return [.. found.Select(f => new ThreadMatch(f.From, f.Choices.IsEmpty ? ThreadFit.New : same.Contains(f.From.Key) ? ThreadFit.Same : ThreadFit.InDoubt, f.Choices))];
    }

    private static bool IsSame(ImmutableArray<ThreadChoice> choices) => choices is [{ Likeness: Likeness.Same, MadeAlike: true }, ..];

    private static ImmutableArray<ThreadChoice> Choices(List<Floss> own, Floss from) =>
    [
        .. own.Select(t => new ThreadChoice(t, ColourDifference.Between(t.Colour, from.Colour), MadeAlike(t, from)))
            .Where(c => c.Difference <= Likenesses.MostInstead)
            .OrderByDescending(c => c is { Likeness: Likeness.Same, MadeAlike: true })
            .ThenBy(c => c.Difference)
            .ThenByDescending(c => c.MadeAlike)
            .ThenByDescending(c => c.Thread == from)
            .ThenByDescending(c => c.Thread.Name == from.Name)
            .ThenByDescending(c => c.Thread.Key == from.Key),
    ];
}
