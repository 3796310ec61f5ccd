using System.Collections.Immutable;
using System.Globalization;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order.Telling;

/// <summary>
/// The words of the directions, one word for one thing: levels, sides of the centre, the way along a row, the edge that tells how the work
/// is held. docs/directions.md lists them.
/// </summary>
/// <param name="words">How the work is held: upright or sideways.</param>
internal sealed class Vocabulary(LevelWords words)
{
    /// <summary>Whether the work is held sideways.</summary>
    public bool Sideways => words == LevelWords.LeftRight;

    /// <summary>"up", or "left" for work held sideways.</summary>
    public string Level(Level level) => Phrases.Level(level, words);

    /// <summary>"above the needle", "right of the needle".</summary>
    public string Needle(Level level) => Phrases.Needle(level, words);

    /// <summary>"lies below the needle all along"; empty where the thread changes sides.</summary>
    public string Sides(ImmutableArray<Level> sides) => Phrases.Sides(sides, words);

    /// <summary>"left", or "near" for work held sideways.</summary>
    public string Side(Flank flank) => (flank, Sideways) switch
    {
        (Flank.Left, false) => "left",
        (Flank.Right, false) => "right",
        (Flank.Left, true) => "near",
        (Flank.Right, true) => "far",
        _ => throw new ArgumentOutOfRangeException(nameof(flank), flank, "The centre lies on no side."),
    };

    /// <summary>"54 L": a place in a line of the table; 0 on the centre.</summary>
    public string Short(Away away) => away.Flank == Flank.Neither ? "0" : $"{Number(away.Count)} {Letter(away.Flank)}";

    /// <summary>"L", "N": what stands for a side in the table.</summary>
    public string Letter(Flank flank) => Side(flank)[..1].ToUpperInvariant();

    /// <summary>"54 left of the centre", "12 on the near side of the centre", "on the centre".</summary>
    public string Long(Away away) => away.Flank == Flank.Neither ? "on the centre" : $"{Number(away.Count)} {Beside(away.Flank)} the centre";

    /// <summary>"left of", "on the near side of".</summary>
    public string Beside(Flank flank) => Sideways ? $"on the {Side(flank)} side of" : $"{Side(flank)} of";

    /// <summary>"from left to right", "away from you".</summary>
    public string Way(bool rightward) => (rightward, Sideways) switch
    {
        (_, false) => Phrases.Way(rightward),
        (true, _) => "away from you",
        _ => "toward you",
    };

    /// <summary>"to R", "turned, to F": the way along a row and whether the work is turned, in a line of the table.</summary>
    public string Way(bool rightward, bool turned) => $"{(turned ? "turned, " : "")}to {Letter(rightward ? Flank.Right : Flank.Left)}";

    /// <summary>"bottom edge up", "top edge to your right": how the work is held.</summary>
    public string Edge(bool turned) => (turned, Sideways) switch
    {
        (false, false) => "top edge up",
        (true, false) => "bottom edge up",
        (false, true) => "top edge on your left hand",
        _ => "top edge on your right hand",
    };

    /// <summary>"Turn the work: bottom edge up. ", or back; nothing when it lies right already.</summary>
    public string Turning(bool turned, bool wasTurned) => turned == wasTurned ? "" : (turned ? $"Turn the work: {Edge(true)}." : TurnBack) + " ";

    /// <summary>What is said when the work is turned back.</summary>
    public string TurnBack => $"Turn the work back: {Edge(false)}.";

    /// <summary>"below", "right of": where a height lies from another one, as the work is held.</summary>
    public string Toward(Level level) => (level, Sideways) switch
    {
        (Chart.Level.Up, false) => "above",
        (_, false) => "below",
        (Chart.Level.Up, true) => "left of",
        _ => "right of",
    };

    /// <summary>"G4", "G4+1", "G2+1/2 space-1": a height in a line of the table, as the work is held: turned, what was below lies above.</summary>
    public static string Short(Height height, bool turned = false)
    {
        var text = string.Create(CultureInfo.InvariantCulture, $"G{height.From.Number}");
        if (height.Eighths != 0) text += $"{(height.Eighths < 0 != turned ? '-' : '+')}{Eighths(Math.Abs(height.Eighths))} space";
        if (height.Rows != 0) text += $"{(height.Rows < 0 != turned ? '-' : '+')}{Number(Math.Abs(height.Rows))}";
        return text;
    }

    /// <summary>"gathering row 4", "2 cable rows from gathering row 4 toward the top edge", "1/2 space and 1 cable row from gathering row 2 toward the bottom edge".</summary>
    public static string Long(Height height)
    {
        if (height is { Eighths: 0, Rows: 0 }) return height.From.ToString();
        if (height.Eighths == 0 || height.Rows == 0 || height.Eighths < 0 == height.Rows < 0)
            return $"{Distance(Math.Abs(height.Eighths), Math.Abs(height.Rows))} from {height.From} {Toward(height.Eighths + height.Rows)}";
        return $"{Eighths(Math.Abs(height.Eighths))} space from {height.From} {Toward(height.Eighths)} and {Counting.Of(Math.Abs(height.Rows), "cable row")} back {Toward(height.Rows)}";
    }

    private static string Distance(int eighths, int rows)
    {
        var spaces = eighths == 0 ? "" : $"{Eighths(eighths)} space";
        var along = rows == 0 ? "" : Counting.Of(rows, "cable row");
        return spaces.Length > 0 && along.Length > 0 ? $"{spaces} and {along}" : spaces + along;
    }

    /// <summary>"toward the top edge".</summary>
    public static string Toward(int down) => down < 0 ? "toward the top edge" : "toward the bottom edge";

    /// <summary>", carried on the back 1 cable row along the pleat and 2 pleats sideways"; empty where nothing is carried.</summary>
    public static string Carried(double rows, int pleats) => Phrases.Carried(
        Math.Abs(rows) < 0.005 ? "" : Math.Abs(rows - Math.Round(rows)) < 0.005 ? Counting.Of((int)Math.Abs(Math.Round(rows)), "cable row") : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(rows):0.##} cable rows"), pleats);

    /// <summary>"an up cable; 3 steps down; a down cable; 3 steps up"; a cycle with how often it comes.</summary>
    public string Of(Pattern pattern)
    {
        if (pattern.Times == 0) return Of(pattern.Lead);
        var lead = pattern.Lead.IsEmpty ? "" : Of(pattern.Lead) + "; then ";
        var tail = pattern.Tail.IsEmpty ? "" : "; then " + Of(pattern.Tail);
        return $"{lead}{Number(pattern.Times)} times ({Of(pattern.Cycle)}){tail}";
    }

    private string Of(IEnumerable<Group> groups) => string.Join("; ", groups.Select(Of));

    private string Of(Group group) => group switch
    {
        { Kind: StitchKind.Over, IsLevel: true, Count: 1 } => $"{Phrases.A(Level(group.Level))} cable",
        { Kind: StitchKind.Over, IsLevel: true } => $"{Counting.Of(group.Count, "stitch", "stitches")} with the thread {Needle(group.Level)}",
        { Kind: StitchKind.Over } => $"{Counting.Of(group.Count, "step")} {Level(group.Level)}",
        { Kind: StitchKind.Catch, Count: 1 } => $"{Phrases.A(Level(group.Level))} catch",
        { Kind: StitchKind.Catch } => $"{Counting.Of(group.Count, "catch", "catches")} {Level(group.Level)}",
        { Kind: StitchKind.Bar } => $"{Counting.Of(group.Count, "bar")} {Level(group.Level)}",
        { Kind: StitchKind.Slip } => $"{Counting.Of(group.Count, "slip")} {Level(group.Level)}",
        _ => $"{Counting.Of(group.Count, "loop")} {Level(group.Level)}",
    };

    /// <summary>"an up half stitch over the last pleat alone".</summary>
    public string Half(Level level, bool first) => $"{Phrases.A(Level(level))} half stitch over the {(first ? "first" : "last")} pleat alone";

    /// <summary>How a stitch or an accent is worked, with the levels' own names.</summary>
    public string Manner(string manner) => manner.Replace("{up}", Level(Chart.Level.Up), StringComparison.Ordinal).Replace("{down}", Level(Chart.Level.Down), StringComparison.Ordinal);

    /// <summary>"r, “sail red”, 4 strands": a thread in full.</summary>
    public static string Thread(Floss thread) => $"{thread.Key}, {(thread.Name.Length > 0 ? $"“{Quotable(thread.Name)}”, " : "")}{Counting.Of(thread.Strands, "strand")}";

    /// <summary>"4, 6 and 7".</summary>
    public static string List(IReadOnlyList<string> items) => items.Count == 1 ? items[0] : string.Join(", ", items.Take(items.Count - 1)) + " and " + items[^1];

    /// <summary>"G1, G3 to G5 and G7".</summary>
    public static string Ranges(IReadOnlyList<int> numbers, string sign)
    {
        var parts = new List<string>();
        for (var i = 0; i < numbers.Count;)
        {
            var end = i;
            while (end + 1 < numbers.Count && numbers[end + 1] == numbers[end] + 1) end++;
            if (end == i + 1) end = i; // two are named one by one
            parts.Add(end == i ? sign + Number(numbers[i]) : $"{sign}{Number(numbers[i])} to {sign}{Number(numbers[end])}");
            i = end + 1;
        }
        return List(parts);
    }

    /// <summary>A number as digits alone.</summary>
    public static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Eighths(int eighths)
    {
        var whole = eighths / 8;
        var part = (eighths % 8) switch { 0 => "", 4 => "1/2", 2 => "1/4", 6 => "3/4", var odd => string.Create(CultureInfo.InvariantCulture, $"{odd}/8") };
        return whole == 0 ? part : part.Length == 0 ? Number(whole) : $"{Number(whole)} {part}";
    }

    // A name can end no quotation but its own.
    private static string Quotable(string name) => name.Replace('“', '"').Replace('”', '"');
}
