using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Shopping;

/// <summary>What the maker has, asks and does: threads and cloths at hand, what things and hours cost, how fast they stitch.</summary>
public sealed record Stash
{
    /// <summary>The most threads, and the most cloths.</summary>
    public const int MostOfAKind = 5000;

    /// <summary>The longest name, in characters.</summary>
    public const int LongestName = Floss.LongestName;

    /// <summary>The longest note.</summary>
    public const int LongestNote = Floss.LongestNote;

    /// <summary>A stash with nothing in it.</summary>
    public static Stash Empty { get; } = new();

    /// <summary>The threads, in the maker's order.</summary>
    public ImmutableArray<StashThread> Threads { get; init; } = [];

    /// <summary>The cloths, in the maker's order.</summary>
    public ImmutableArray<StashCloth> Cloths { get; init; } = [];

    /// <summary>What things and hours cost the maker.</summary>
    public Rates Rates { get; init; } = new();

    /// <summary>How fast the maker stitches.</summary>
    public Pace Pace { get; init; } = Pace.Unknown;

    /// <summary>Whether nothing was put in.</summary>
    public bool IsEmpty => Threads.IsEmpty && Cloths.IsEmpty && Rates == new Rates() && Pace == Pace.Unknown;

    /// <inheritdoc/>
    public bool Equals(Stash? other) => other is not null && Threads.SequenceEqual(other.Threads) && Cloths.SequenceEqual(other.Cloths)
        && Rates == other.Rates && Pace == other.Pace;

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Threads.Length, Cloths.Length, Rates, Pace);

    /// <summary>Takes in what a list names: a line whose name stands here already takes its place, the others are added.</summary>
    /// <remarks>Names are told apart without case; of two alike the first stands for the first, the second for the second. Nothing is taken away.</remarks>
    public Stash With(IEnumerable<StashThread> threads, IEnumerable<StashCloth> cloths) => this with
    {
        Threads = Merged(Threads, threads, t => t.Name),
        Cloths = Merged(Cloths, cloths, c => c.Name),
    };

    /// <summary>
    /// Threads to choose from, as a piece would have them: those with some left, and needlefuls to cut from a skein; all where none is so.
    /// </summary>
    public static ImmutableArray<Floss> Choice(ImmutableArray<StashThread> threads)
    {
        var needleful = new Working().WorkingLength;
        var some = threads.RemoveAll(t => t.Skeins <= 0 || t.SkeinLength < needleful);
        var blank = new Floss(new ThreadKey('a'), "", default, Floss.DefaultStrands);
        return [.. (some.IsEmpty ? threads : some).Select(t => t.InPlaceOf(blank))];
    }

    private static ImmutableArray<T> Merged<T>(ImmutableArray<T> standing, IEnumerable<T> coming, Func<T, string> name)
    {
        var merged = standing.ToBuilder();
        var places = standing.Select((item, at) => (Name: name(item), At: at))
            .GroupBy(p => p.Name, StringComparer.OrdinalIgnoreCase).ToDictionary(g => g.Key, g => new Queue<int>(g.Select(p => p.At)), StringComparer.OrdinalIgnoreCase);
        foreach (var item in coming)
        {
            if (places.TryGetValue(name(item), out var free) && free.TryDequeue(out var at)) merged[at] = item;
            else merged.Add(item);
        }
        return merged.ToImmutable();
    }
}
