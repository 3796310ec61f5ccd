using System.Collections.Immutable;

namespace Pleatwright.Ticks;

/// <summary>A stretch of stitches along a line that were ticked, or whose tick was taken back, in the same minute.</summary>
/// <param name="From">The first.</param>
/// <param name="To">The last.</param>
/// <param name="Ticked">Whether they are ticked; else a tick of them was taken back.</param>
/// <param name="Minute">When: minutes since 1970, UTC.</param>
internal readonly record struct TickStretch(int From, int To, bool Ticked, long Minute)
{
    /// <summary>Whether it stands against another that lies over it: the later does, and of one minute the tick, for stitching is seldom undone.</summary>
    public bool IsOver(TickStretch other) => Minute != other.Minute ? Minute > other.Minute : Ticked && !other.Ticked;

    /// <summary>Whether another says the same of the stitches next to it.</summary>
    public bool IsAlike(TickStretch other) => Ticked == other.Ticked && Minute == other.Minute;
}

/// <summary>
/// What is worked of a piece: for each stitch ever ticked whether it still is, and since when. Two logs of one piece, kept on two devices, come
/// together stitch by stitch, the later word winning; in whatever order and however often that is done, the same comes of it. It
/// does not change in place.
/// </summary>
internal sealed class TickLog : IEquatable<TickLog>
{
    /// <summary>The latest minute that can be written: the end of the year 9999.</summary>
    public const long LastMinute = 253_402_300_799 / 60;

    private readonly ImmutableSortedDictionary<string, ImmutableArray<TickStretch>> lines;

    private TickLog(ImmutableSortedDictionary<string, ImmutableArray<TickStretch>> lines) => this.lines = lines;

    /// <summary>Nothing was ever ticked.</summary>
    public static TickLog Nothing { get; } = new(ImmutableSortedDictionary.Create<string, ImmutableArray<TickStretch>>(StringComparer.Ordinal));

    /// <summary>The lines in order, each with its stretches in order; none lies over another, and no two that touch are alike.</summary>
    public IEnumerable<KeyValuePair<string, ImmutableArray<TickStretch>>> Lines => lines;

    /// <summary>How many stitches are ticked.</summary>
    public long Count => lines.Values.Sum(line => line.Where(s => s.Ticked).Sum(s => (long)s.To - s.From + 1));

    /// <summary>The log of lines as <see cref="Lines"/> gives them.</summary>
    /// <exception cref="ArgumentException">A stretch is backward, out of order, over another, or its minute is none.</exception>
    public static TickLog Of(IEnumerable<KeyValuePair<string, ImmutableArray<TickStretch>>> lines)
    {
        var read = ImmutableSortedDictionary.CreateBuilder<string, ImmutableArray<TickStretch>>(StringComparer.Ordinal);
        foreach (var (line, stretches) in lines)
        {
            for (var i = 0; i < stretches.Length; i++)
                if (stretches[i].To < stretches[i].From || i > 0 && stretches[i].From <= stretches[i - 1].To || stretches[i].Minute is < 0 or > LastMinute)
                    throw new ArgumentException("Stretches come in order, none over another, each from its first stitch to its last.", nameof(lines));
            if (!stretches.IsEmpty) read.Add(line, Joined(stretches));
        }
        return new(read.ToImmutable());
    }

    /// <summary>Both logs as one: of each stitch the later word.</summary>
    public TickLog With(TickLog other)
    {
        if (ReferenceEquals(this, other) || other.lines.IsEmpty) return this;
        var all = lines.ToBuilder();
        foreach (var (line, theirs) in other.lines)
            all[line] = lines.TryGetValue(line, out var ours)
                ? Swept(Cuts(ours.Select(s => (s.From, s.To)), theirs.Select(s => (s.From, s.To))), at => (At(ours, at), At(theirs, at)) switch
                {
                    ({ } a, { } b) => b.IsOver(a) ? b : a,
                    var (a, b) => a ?? b,
                })
                : theirs;
        return new(all.ToImmutable());
    }

    /// <summary>The log after the maker has ticked and taken back until just these stitches are ticked. What stays as it was keeps its minute.</summary>
    /// <param name="ticked">Stretches of stitches by line, in order and apart.</param>
    /// <param name="minute">When, by the clock: a word that contradicts a later one comes a minute after that, for its maker had heard it.</param>
    public TickLog Become(IEnumerable<KeyValuePair<string, ImmutableArray<(int From, int To)>>> ticked, long minute)
    {
        minute = Math.Clamp(minute, 0, LastMinute);
        var wanted = ticked.ToDictionary(l => l.Key, l => l.Value, StringComparer.Ordinal);
        var all = lines.ToBuilder();
        foreach (var line in lines.Keys.Union(wanted.Keys, StringComparer.Ordinal).ToList())
        {
            var (had, wants) = (lines.GetValueOrDefault(line, []), wanted.GetValueOrDefault(line, []));
            if (had.Where(s => s.Ticked).SequenceEqual(wants.Select(w => new TickStretch(w.From, w.To, true, 0)), SameStitches.Instance)) continue;
            var became = Swept(Cuts(had.Select(s => (s.From, s.To)), wants), at =>
            {
                var (was, want) = (At(had, at), wants.Any(w => w.From <= at && at <= w.To));
                return want == (was?.Ticked ?? false) ? was : new TickStretch(0, 0, want, Math.Min(LastMinute, Math.Max(minute, was is { } w ? w.Minute + 1 : 0)));
            });
            if (became.IsEmpty) all.Remove(line);
            else all[line] = became;
        }
        return new(all.ToImmutable());
    }

    /// <summary>The stitches ticked, as stretches by line.</summary>
    public IEnumerable<KeyValuePair<string, ImmutableArray<(int From, int To)>>> Ticked()
    {
        foreach (var (line, stretches) in lines)
        {
            var joined = ImmutableArray.CreateBuilder<(int From, int To)>();
            foreach (var s in stretches.Where(s => s.Ticked))
                if (joined.Count > 0 && joined[^1].To == s.From - 1) joined[^1] = (joined[^1].From, s.To);
                else joined.Add((s.From, s.To));
            if (joined.Count > 0) yield return new(line, joined.ToImmutable());
        }
    }

    /// <inheritdoc/>
    public bool Equals(TickLog? other) => other is not null && (ReferenceEquals(this, other)
        || lines.Count == other.lines.Count && lines.Zip(other.lines).All(l => l.First.Key == l.Second.Key && l.First.Value.SequenceEqual(l.Second.Value)));

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as TickLog);

    /// <inheritdoc/>
    public override int GetHashCode() => lines.Aggregate(lines.Count, (sum, l) => HashCode.Combine(sum, l.Key, l.Value.Length));

    // Where something may begin: the first of every stretch, and what comes after its last.
    private static long[] Cuts(IEnumerable<(int From, int To)> a, IEnumerable<(int From, int To)> b) =>
        [.. a.Concat(b).SelectMany(s => new[] { s.From, (long)s.To + 1 }).Distinct().Order()];

    private static ImmutableArray<TickStretch> Swept(long[] cuts, Func<int, TickStretch?> said)
    {
        var swept = ImmutableArray.CreateBuilder<TickStretch>();
        for (var i = 0; i + 1 < cuts.Length; i++)
            if (said((int)cuts[i]) is { } s) swept.Add(s with { From = (int)cuts[i], To = (int)(cuts[i + 1] - 1) });
        return Joined(swept);
    }

    private static ImmutableArray<TickStretch> Joined(IReadOnlyList<TickStretch> stretches)
    {
        var joined = ImmutableArray.CreateBuilder<TickStretch>(stretches.Count);
        foreach (var s in stretches)
            if (joined.Count > 0 && joined[^1].To == s.From - 1L && joined[^1].IsAlike(s)) joined[^1] = joined[^1] with { To = s.To };
            else joined.Add(s);
        return joined.ToImmutable();
    }

    // The stretch over a stitch; null where nothing was ever said of it.
    private static TickStretch? At(ImmutableArray<TickStretch> stretches, int at)
    {
        var (low, high) = (0, stretches.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (stretches[middle].To < at) low = middle + 1;
            else high = middle;
        }
        return low < stretches.Length && stretches[low].From <= at ? stretches[low] : null;
    }

    // A tick's minute aside; stretches ticked in different minutes are looked at more closely.
    private sealed class SameStitches : IEqualityComparer<TickStretch>
    {
        public static SameStitches Instance { get; } = new();

        public bool Equals(TickStretch a, TickStretch b) => (a.From, a.To) == (b.From, b.To);

        public int GetHashCode(TickStretch s) => HashCode.Combine(s.From, s.To);
    }
}
