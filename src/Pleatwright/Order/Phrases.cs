using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>Turns of phrase the directions share.</summary>
internal static class Phrases
{
    /// <summary>"6 cm", "2 1/2 in", or "6 cm (2 1/2 in)": as near as a hand sees it, half an inch or a whole centimetre.</summary>
    public static string Roughly(Length length, UnitSystem units)
    {
        var metric = FormattableString.Invariant($"{Math.Max(1, Math.Round(length.Centimetres)):0} cm");
        var inches = Length.FromInches(Math.Max(0.5, Math.Round(length.Inches * 2) / 2)).Say(UnitSystem.Inches);
        return units switch { UnitSystem.Metric => metric, UnitSystem.Inches => inches, _ => $"{metric} ({inches})" };
    }

    /// <summary>"from left to right", or the other way.</summary>
    public static string Way(bool rightward) => rightward ? "from left to right" : "from right to left";

    /// <summary>"an up", "a down": a word with its article.</summary>
    public static string A(string word) => word[0] is 'a' or 'e' or 'i' or 'o' or 'u' ? $"an {word}" : $"a {word}";

    /// <summary>"a (sail red, 4 strands)": a thread by its letter, name and strands.</summary>
    public static string Needleful(Work work, ThreadKey key)
    {
        var thread = work.Piece.Thread(key)!;
        return $"{key} ({(thread.Name.Length > 0 ? $"{thread.Name}, " : "")}{Counting.Of(thread.Strands, "strand")})";
    }

    /// <summary>", carried on the back 1 row along the pleat and 2 pleats sideways"; empty where nothing is carried.</summary>
    /// <param name="along">How far along the pleat, in words; empty for not at all.</param>
    /// <param name="pleats">Pleats sideways, either way.</param>
    public static string Carried(string along, int pleats)
    {
        List<string> legs = [];
        if (along.Length > 0) legs.Add($"{along} along the pleat");
        if (pleats != 0) legs.Add($"{Counting.Of(Math.Abs(pleats), "pleat")} sideways");
        return legs.Count == 0 ? "" : $", carried on the back {string.Join(" and ", legs)}{(IsCabled(pleats) ? ", worked across in small cables" : "")}";
    }

    /// <summary>Pleats sideways that a thread may lie loose on the back; further it would pull them (common practice, no source).</summary>
    public const int MostLoose = 3;

    /// <summary>Whether a thread is worked across on the back in small cables, and not carried loose.</summary>
    public static bool IsCabled(int pleats) => Math.Abs(pleats) > MostLoose;

    /// <summary>"Turn the work, bottom edge up. ", or back; empty when it lies right already.</summary>
    public static string Turning(bool turned, bool wasTurned) =>
        turned == wasTurned ? "" : turned ? "Turn the work, bottom edge up. " : TurnBack + " ";

    /// <summary>What is said when the work is turned back.</summary>
    public const string TurnBack = "Turn the work back, top edge up.";

    /// <summary>
    /// "lies below the needle all along", said of the thread of a stitch whose name does not tell its side; "lies below the needle all along in the
    /// line worked first, and above it in the other"; empty where the thread changes sides.
    /// </summary>
    /// <param name="sides">The side in each of its lines, as held, the first worked first.</param>
    /// <param name="words">Words for the levels.</param>
    public static string Sides(ImmutableArray<Level> sides, LevelWords words) => sides.Length switch
    {
        0 => "",
        1 => $"lies {Needle(sides[0], words)} all along",
        2 => $"lies {Needle(sides[0], words)} all along in the line worked first, and {Needle(sides[1], words)[..^" the needle".Length]} it in the other",
        _ => throw new ArgumentException("No stitch has more than two lines with the thread on one side.", nameof(sides)),
    };

    /// <summary>"up", or "left" for work held sideways.</summary>
    public static string Level(Level level, LevelWords words) => (level, words) switch
    {
        (Chart.Level.Up, LevelWords.UpDown) => "up",
        (Chart.Level.Down, LevelWords.UpDown) => "down",
        (Chart.Level.Up, _) => "left",
        _ => "right",
    };

    /// <summary>"above the needle", "right of the needle".</summary>
    public static string Needle(Level level, LevelWords words) => Thread(level, words)["the thread ".Length..];

    /// <summary>"the thread above the needle".</summary>
    public static string Thread(Level level, LevelWords words) => (level, words) switch
    {
        (Chart.Level.Up, LevelWords.UpDown) => "the thread above the needle",
        (Chart.Level.Down, LevelWords.UpDown) => "the thread below the needle",
        (Chart.Level.Up, _) => "the thread left of the needle",
        _ => "the thread right of the needle",
    };
}
