using System.Collections.Immutable;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>How a piece of this browser stands with the shelf. It is kept at the head of its journal, so that no reload forgets it.</summary>
/// <param name="Base">The edition on the shelf that it came from; empty when it was on none.</param>
public sealed record Standing(Edition Base)
{
    private const int MostSent = 16;

    /// <summary>On no shelf.</summary>
    public static Standing None { get; } = new(new Edition(""));

    /// <summary>
    /// The edition of our own writing of <see cref="Base"/>: another program writes the same piece with other spaces. Empty when it is the base.
    /// </summary>
    public Edition As { get; init; } = new("");

    /// <summary>Editions sent whose answer never came: if one of them stands on the shelf, it is ours.</summary>
    public ImmutableArray<Edition> Sent { get; init; } = [];

    /// <summary>The name it was being given when the answer was lost; null when none was.</summary>
    public PieceName? To { get; init; }

    /// <summary>The key under which it was a new piece, kept until that journal is gone; empty when there is none.</summary>
    public string Was { get; init; } = "";

    /// <summary>Whether another bench or program changed or removed it, and the maker has not said yet what to do.</summary>
    public bool Parted { get; init; }

    /// <summary>Whether an answer was lost, so that the shelf must be asked before anything is sent again.</summary>
    public bool InDoubt => !Sent.IsEmpty || To is not null;

    /// <summary>Whether an edition on the shelf is the one it came from, or was sent from here.</summary>
    public bool IsOurs(Edition standing) => standing == Base || Sent.Contains(standing);

    /// <summary>Whether a text of ours is what the shelf had.</summary>
    public bool IsClean(Edition now) => now == Base || now == As;

    /// <summary>The same with an edition on its way.</summary>
    public Standing Sending(Edition edition) => Sent.Contains(edition) ? this : this with { Sent = [.. Sent.TakeLast(MostSent - 1), edition] };

    /// <summary>The shelf has an edition of it, and nothing is in doubt.</summary>
    public Standing At(Edition edition) => new(edition) { Was = Was };

    /// <summary>The shelf has an edition that is ours, perhaps in other spaces.</summary>
    public Standing InStep(Edition edition) => this with { Base = edition, As = edition == Base ? As : new(""), Sent = [], To = null, Parted = false };

    /// <summary>All but the base, as the head of a journal keeps it.</summary>
    public string More => string.Join('\n', Lines());

    /// <summary>From the head of a journal; an older bench knew the base alone.</summary>
    public static Standing Read(string standing, string? more)
    {
        var read = new Standing(new Edition(standing));
        foreach (var line in (more ?? "").Split('\n'))
        {
            var at = line.IndexOf(' ');
            var (word, rest) = at < 0 ? (line, "") : (line[..at], line[(at + 1)..]);
            read = word switch
            {
                "as" => read with { As = new Edition(rest) },
                "sent" => read with { Sent = [.. rest.Split(' ').Select(s => new Edition(s))] },
                "to" when PieceName.TryParse(rest, out var name, out _) => read with { To = name },
                "was" => read with { Was = rest },
                "parted" => read with { Parted = true },
                _ => read,
            };
        }
        return read;
    }

    private IEnumerable<string> Lines()
    {
        if (As.Mark is { Length: > 0 } mark) yield return "as " + mark;
        if (!Sent.IsEmpty) yield return "sent " + string.Join(' ', Sent);
        if (To is { } to) yield return $"to {to}";
        if (Was.Length > 0) yield return "was " + Was;
        if (Parted) yield return "parted";
    }

    /// <inheritdoc/>
    public bool Equals(Standing? other) => other is not null && Base == other.Base && More == other.More;

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Base, More);
}
