using System.Collections.Immutable;
using Pleatwright.Cloth;

namespace Pleatwright.Shopping;

/// <summary>A sitting the maker timed, tie-offs and threading included.</summary>
/// <param name="Cables">Cables stitched, at least 1.</param>
/// <param name="Minutes">Minutes it took, more than 0.</param>
public readonly record struct Sitting(int Cables, double Minutes);

/// <summary>
/// How fast the maker stitches. Timed sittings rule; where there are none, what the maker says. A half stitch, a stitch of a band
/// and an accent are each reckoned as one cable (common practice, no source).
/// </summary>
public sealed record Pace
{
    /// <summary>The most cables in one sitting, and the most an hour.</summary>
    public const int MostCables = 100_000;

    /// <summary>The shortest sitting, in minutes.</summary>
    public const double LeastMinutes = 0.01;

    /// <summary>The longest sitting, in minutes.</summary>
    public const double MostMinutes = 100_000;

    /// <summary>The most sittings.</summary>
    public const int MostSittings = 1000;

    /// <summary>The most hours besides stitching.</summary>
    public const int MostHoursBesides = 1000;

    /// <summary>Nothing known.</summary>
    public static Pace Unknown { get; } = new();

    /// <summary>
    /// A hand nobody timed, for a plate that is handed to others: 120 cables an hour of a beginner to 300 of a practised hand, threading,
    /// turning and tying off included (our own choice, no source).
    /// </summary>
    internal static Pace OfAnyHand { get; } = new() { Said = (120, 300) };

    /// <summary>Sittings timed.</summary>
    public ImmutableArray<Sitting> Sittings { get; init; } = [];

    /// <summary>Cables an hour as the maker says, from slow to quick, each more than 0; null when they do not say.</summary>
    public (double Slow, double Quick)? Said { get; init; }

    /// <summary>Hours a piece takes besides stitching: gathering, blocking, making up. Default none.</summary>
    public Between Besides { get; init; }

    /// <summary>
    /// Minutes a cable takes, by least squares through the sittings, with its 95 % range; null when none were timed. One sitting
    /// tells nothing of its spread.
    /// </summary>
    public Estimate? MinutesACable => Estimate.ThroughOrigin([.. Sittings.Select(s => ((double)s.Cables, s.Minutes))]);

    /// <summary>
    /// Cables an hour, from slow to quick; null when nothing is known. A range so wide that its quick end means nothing (too few
    /// sittings, too unlike) ends at twice the middle (our own choice).
    /// </summary>
    public (double Slow, double Middle, double Quick)? CablesAnHour => MinutesACable is { } m
        ? (60 / m.High, 60 / m.Value, 60 / Math.Max(m.Low, m.Value / 2))
        : Said is { } s ? (s.Slow, (s.Slow + s.Quick) / 2, s.Quick) : null;

    /// <summary>Whether the range could be told from sittings alone: two at least, and not too unlike.</summary>
    public bool HasRange => MinutesACable is { } m ? m.HalfRange is { } half && half < m.Value / 2 : Said is not null;

    /// <summary>Hours that so many stitches take; null when nothing is known of the pace.</summary>
    public Between? Hours(int stitches) => CablesAnHour is { } p
        ? new Between((decimal)(stitches / p.Quick), (decimal)(stitches / p.Slow)) + Besides
        : null;

    /// <inheritdoc/>
    public bool Equals(Pace? other) => other is not null && Sittings.SequenceEqual(other.Sittings) && Said == other.Said && Besides == other.Besides;

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Sittings.Length, Said, Besides);
}
