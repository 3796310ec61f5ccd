using System.Globalization;
using System.Text.RegularExpressions;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.ReadBack;

/// <summary>
/// Works the directions on paper as one would who has the words alone: every sentence and every line is understood or found fault with, every
/// count is counted, every thread followed, and each stitch put where it comes to lie. It knows the craft, the words listed in docs/directions.md,
/// and nothing of the piece or of what wrote them.
/// </summary>
internal sealed partial class Reader
{
    private readonly Script script;
    private readonly Frame frame;
    private readonly Reading reading;

    private Reader(Script script, Frame frame, Reading reading) => (this.script, this.frame, this.reading) = (script, frame, reading);

    /// <summary>Reads directions, in a table or in sentences.</summary>
    /// <param name="printed">All their words in the order read; how they are broken into lines means nothing.</param>
    public static Reading Read(string printed)
    {
        var reading = new Reading();
        var script = new Script(printed);
        if (script.IsDone) return reading;
        reading.IsEmpty = false;
        foreach (var frame in Frame.Both)
            if (script.Read(frame.Opening) is { } opening)
            {
                new Reader(script, frame, reading).All(opening);
                return reading;
            }
        reading.Fault($"The directions do not say how the work is held and counted: “{script.Next}…”.");
        return reading;
    }

    private void All(Match opening)
    {
        reading.Pleats = Number(opening, "pleats");
        reading.Centre = Number(opening, "a");
        reading.PerSpace = Math.Max(1, Number(opening, "per"));
        reading.RightHanded = frame.GoesRight(opening.Groups["way"].Value);
        saysTurned = opening.Groups["turns"].Success;
        saysHalves = opening.Groups["halves"].Success;
        Agree(Number(opening, "to") == reading.Pleats, "the pleats are numbered to their last");
        Agree(Number(opening, "b") == reading.Centre + 1, "the centre valley lies between two pleats side by side");
        while (!script.IsDone && reading.Faults.Count < MostFaults)
            if (!Known() && !Lines() && !Sentences())
            {
                reading.Fault($"These words are not understood: “{script.Next}…”.");
                return;
            }
        Agree(pending.Count + copies.Count == 0, "figures worked alike are told where they lie");
        Agree(hand == 0, "the last thread is tied off");
        Agree(steps.Values.All(s => s.Goes != Goes.Hang || s.Taken), "every thread left hanging is taken up again");
        Agree(steps.Count == 0 || closed, "the directions say what they come to");
        Agree(!saysTurned || everTurned, "the work is turned where it is said to be");
        Agree(saysTurned || !everTurned, "it is said how the work is held when turned");
        Agree(saysHalves == reading.Cables.Any(c => c.Half), "half stitches are explained where there are any");
        Agree(toldSqueezed.SetEquals(reading.Squeezed), "runs squeezed between finished rows are told");
        Headed();
        Explained();
        Agree(accents == 0 || !turned || !saysTurned, "accents are worked with the work turned back");
    }

    private const int MostFaults = 25;

    private bool saysTurned, saysHalves, everTurned, closed, turned;
    private readonly HashSet<int> toldSqueezed = [];

    private void Agree(bool does, string what)
    {
        if (!does) reading.Fault($"It does not agree that {what}{(last is { } step ? $" (step {step.Number})" : "")}.");
    }

    private static int Number(Match match, string group) => Script.Number(match, group);

    // Sentences that say the same in both editions.
    private bool Known()
    {
        foreach (var sentence in Headings)
            if (script.Read(sentence)) return true;
        if (script.Read(frame.Key) || ReadKeys() || script.Read(frame.Valleys) || script.Read("In a line, height is where it lies.") || script.Read("In a line, height is where it lies, long how many pleats it lies over.") || script.Read("Begin and fasten each on the back by itself.")) return true;
        if (script.Read(frame.Named) is { } named)
        {
            Names(named);
            return true;
        }
        if (script.Read(HowRunsAreWorked)) return true;
        if (script.Read($"Turn the work over again: right side up, {frame.TopEdge}."))
        {
            turned = false;
            return true;
        }
        if (script.Read(frame.Turning) is { } turning)
        {
            var to = frame.IsTurned(turning.Groups["edge"].Value);
            Agree(to != turned && to != turning.Groups["back"].Success, "the work is turned to the other edge");
            turned = to;
            return true;
        }
        if (script.Read(BackOpens()) is { } back)
        {
            Agree(Number(back, "strands") == 2, "the back is cabled with 2 strands");
            Agree(back.Groups["edge"].Value == frame.TopEdge, "the back is begun with the top edge up");
            return true;
        }
        if (script.Read(ManyRows()) is { } many)
        {
            Agree(!many.Groups["n"].Success || Number(many, "n") == reading.PerSpace, "the next gathering row lies a space away");
            return true;
        }
        return ReadManner() || ReadAccentManner() || ReadChecks();
    }

    private string saidLonger = "";
    private bool usesLonger, saysRest, saysHung, saysStart, saysHalvesInLines, saysCarry, isTable, usesRest, usesHung, usesStart, usesCarry, saysSame, saysGoes, saysHalf, usesSame, usesGoes, usesHalf, saysCabled, usesCabled;

    // What the columns of the lines mean: told where there are such columns, and nowhere else.
    private bool ReadKeys()
    {
        if (script.Read(ThreadKey()) is { } key)
        {
            isTable = true;
            reading.Length = key.Groups["length"].Value;
            saidLonger = key.Groups["longer"].Value;
            (saysRest, saysHung, saysStart) = (key.Groups["rest"].Success, key.Groups["hung"].Success, key.Groups["start"].Success);
            (saysSame, saysGoes, saysHalf) = (key.Groups["same"].Success, key.Groups["goes"].Success, key.Groups["half"].Success);
            return true;
        }
        if (script.Read(RunKey()) is { } run)
        {
            (saysHalvesInLines, saysCarry, saysCabled) = (run.Groups["halves"].Success, run.Groups["carry"].Success, run.Groups["cabled"].Success);
            return true;
        }
        return script.Read(BandKey()) is not null;
    }

    private void Explained()
    {
        if (!isTable) return;
        Agree(saidLonger.Length > 0 == usesLonger, "longer lengths are explained where there are any");
        Agree(saysRest == usesRest, "rests are explained where there are any");
        Agree(saysHung == usesHung, "threads left hanging are explained where there are any");
        Agree(saysStart == usesStart, "starts of figures alike are explained where there are any");
        Agree((saysSame, saysGoes, saysHalf) == (usesSame, usesGoes, usesHalf), "how a thread goes on is explained where any does");
        Agree(saysCarry == usesCarry, "carries are explained where there are any");
        Agree(saysCabled == usesCabled, "what is cabled across the back is explained where any is");
        Agree(saysHalvesInLines == saysHalves, "columns of half stitches are explained where there are any");
    }

    private bool ReadManner()
    {
        var heading = script.Read(BandHeading)?.Groups["name"].Value.ToLowerInvariant();
        var stitch = BandStitch.All.FirstOrDefault(s => script.Read(s.Manner));
        if (stitch is null) return false;
        Agree(heading is null || heading == stitch.Name, "a band is worked as its name says");
        band = stitch.Name;
        script.Read(frame.Slopes);
        (sides, begun) = ([], false);
        if (script.Read(frame.Sides) is { } told)
        {
            sides = [frame.IsAbove(told.Groups["side"].Value)];
            if (told.Groups["other"].Success) sides.Add(frame.IsAbove(told.Groups["other"].Value));
            Agree(sides.Count < 2 || sides[0] != sides[1], "the thread lies on one side in one line and on the other in the other");
        }
        if (script.Read(RepeatsTold()) is { } repeats)
            reading.Repeats.Add((band, Number(repeats, "repeat"), Number(repeats, "fit"), repeats.Groups["bare"].Success ? Number(repeats, "bare") : null));
        if (script.Read(frame.OtherWay) is { } other) Agree(frame.GoesRight(other.Groups["way"].Value) != reading.RightHanded, "it is worked the other way than cables");
        Agree(script.Read($"On the back it leaves {stitch.Back}."), "what a band leaves on the back is told");
        pass.Clear();
        return true;
    }

    private bool ReadAccentManner()
    {
        foreach (var accent in Accent.All)
            if (script.Read($"{accent.Name}: {accent.Manner.Replace("{up}", frame.Levels.Up, StringComparison.Ordinal).Replace("{down}", frame.Levels.Down, StringComparison.Ordinal)}")) return true;
        return false;
    }

    private bool ReadChecks()
    {
        if (script.Read(BandCheck()) is { } band)
        {
            var told = band.Groups["rows"].Value.Split(" and ").Select(Script.Number).ToHashSet();
            var met = pass.Where(s => s.Kind is "over" or "catch" && Math.Abs(s.FromDepth - s.ToDepth) < 1e-6 && Math.Abs(s.FromDepth - Math.Round(s.FromDepth)) < 1e-6).Select(s => (int)Math.Round(s.FromDepth) + 1).ToHashSet();
            Agree(told.IsSubsetOf(met) && told.Count == band.Groups["rows"].Value.Split(" and ").Length, "a band lies on the gathering rows told");
            return true;
        }
        if (script.Read(RowCheck()) is { } row)
        {
            Agree(last is { } step && step.Row == (Number(row, "row") - 1) * reading.PerSpace, "a row lies on the gathering row told");
            return true;
        }
        if (script.Read(RowCount()) is { } count)
        {
            var (cables, runs) = (0, 0);
            for (var n = last?.Number ?? 0; steps.TryGetValue(n, out var step) && step.Row == last!.Row && runs < Number(count, "runs"); n--)
            {
                cables += step.Cables;
                if (!step.Continues) runs++;
            }
            Agree((cables, runs) == (Number(count, "cables"), Number(count, "runs")), "a row in several runs has the cables told");
            return true;
        }
        if (script.Read(Squeezed()) is { } squeezed)
        {
            toldSqueezed.Add(squeezed.Groups["step"].Success ? Number(squeezed, "step") : last?.Number ?? 0);
            return true;
        }
        if (script.Read(frame.Unkept) is { } unkept)
        {
            var side = unkept.Groups["ats"].Success ? frame.Side(unkept.Groups["ats"].Value) * Number(unkept, "at") : 0;
            Agree(Math.Abs(Tall(unkept, "h") * reading.PerSpace - Number(unkept, "row")) < 1e-6, "a row lies where it is said to lie");
            reading.Unkept.Add((Number(unkept, "row"), reading.Centre + side, Number(unkept, "place")));
            return true;
        }
        if (script.Read(Done()) is { } done)
        {
            Agree(Number(done, "cables") == reading.Cables.Count(c => !c.Half), "the cables come to what is told");
            Agree(Number(done, "halves") == reading.Cables.Count(c => c.Half), "the half stitches come to what is told");
            Agree(Number(done, "needlefuls") == needlefuls, "the needlefuls come to what is told");
            Agree(Number(done, "turns") == turns, "the turns come to what is told");
            closed = true;
            return true;
        }
        return false;
    }

    /// <summary>Spaces below gathering row 1, of a height in words.</summary>
    private double Tall(Match match, string name)
    {
        double depth = Number(match, name + "g") - 1;
        var way = match.Groups[name + "t"].Value.Equals("top", StringComparison.OrdinalIgnoreCase) ? -1 : 1;
        depth += way * Part(match.Groups[name + "e"].Value) + way * (double)Number(match, name + "r") / reading.PerSpace;
        if (match.Groups[name + "b"].Success) depth += (match.Groups[name + "bt"].Value.Equals("top", StringComparison.OrdinalIgnoreCase) ? -1 : 1) * (double)Number(match, name + "b") / reading.PerSpace;
        return depth;
    }

    /// <summary>The same, of "G2+1/2 space-1".</summary>
    private double Short(string height, bool isTurned)
    {
        var match = ShortHeight().Match(height);
        var down = isTurned ? -1 : 1; // + lies below as the work is held
        double depth = Number(match, "g") - 1;
        if (match.Groups["e"].Success) depth += down * (match.Groups["es"].Value == "-" ? -1 : 1) * Part(match.Groups["e"].Value);
        if (match.Groups["r"].Success) depth += down * (match.Groups["rs"].Value == "-" ? -1 : 1) * (double)Number(match, "r") / reading.PerSpace;
        return depth;
    }

    // "1/2", "1 3/8", "2"
    private static double Part(string words)
    {
        double sum = 0;
        foreach (var word in words.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var halves = word.Split('/');
            sum += halves.Length == 2 ? (double)Script.Number(halves[0]) / Math.Max(1, Script.Number(halves[1])) : Script.Number(word);
        }
        return sum;
    }

    /// <summary>The pleat at a place counted from a centre, the sum of the two pleats beside it or twice a pleat.</summary>
    private int Pleat(Match match, string name, int centre, bool mirrored)
    {
        if (!match.Groups[name + "s"].Success) return centre / 2;
        var side = frame.Side(match.Groups[name + "s"].Value) * (mirrored ? -1 : 1);
        var count = Number(match, name);
        Agree(count > 0, "a place on a side of the centre is the first from it or further");
        return (centre & 1) == 0 ? centre / 2 + side * count : side < 0 ? centre / 2 + 1 - count : centre / 2 + count;
    }

    private int Middle => 2 * reading.Centre + 1;

    private static double Rows(Match match) => match.Groups["r"].Success ? double.Parse(match.Groups["r"].Value, CultureInfo.InvariantCulture) : 0;

    private static readonly string[] Headings =
    [
        "First, on the back", "The runs", "Last, the accents",
        "gathering rows way from to cables thread needlefuls then", "band heights thread way from to begin stitches then pattern", "band heights thread way from to begin stitches then",
        "step row at thread way from to before cables first after then", "step row at thread way from to cables first then",
        "step row at thread carry way from to before cables first after then", "step row at thread carry way from to cables first then",
        "steps its centre levels cables new needlefuls its starts", "steps its centre levels cables new needlefuls", "steps its centre rows levels cables new needlefuls its starts", "steps its centre rows levels cables new needlefuls",
        "accent what thread height long needlefuls in the valleys", "accent what thread height long needlefuls",
    ];

    [GeneratedRegex(@"\GThread: new is a length newly cut, of (?<length>" + Frame.Measure + ")(?:; longer, one cut (?<longer>" + Frame.Measure + ") longer)?(?<rest>; rest of a step, what was left of its thread there)?(?:; on, the thread in the needle)?"
        + "(?<hung>; hung by a step, the thread left hanging after it, at the place told as the work is now held)?(?<same>; same run, the run goes on with it)?(?<goes>; goes on, from where the one before it ended)?"
        + "(?<half>; half left at the centre, begin there with the middle of the length and leave half of it hanging at the back, to be threaded for the other side)?(?<start>; start, in figures alike, a new length, or what is told beside its centre)?\\.", Plain)]
    private static partial Regex ThreadKey();

    [GeneratedRegex(@"\GIn a line, first is the level of the first cable(?<halves>; before and after, a half stitch before the first cable and after the last)?"
        + "(?<carry>; carry, so many rows along the pleat and so many pleats sideways, told where the thread goes past the next row or more than 2 pleats sideways(?<cabled>; cabled, worked across in small cables on the back)?)?"
        + "; then, what becomes of the thread(?:: on is to keep it for the next step)?(?:(?:: |, )hang to leave it hanging at the back)?\\. Where the row is a gathering row, keep it straight along its thread, a thread's width away\\.", Plain)]
    private static partial Regex RunKey();

    [GeneratedRegex(@"\GIn a line, heights are where it lies, or between which it goes; (?:begin, how much of its first slope lies before its first stitch, as the work is then held; )?stitches, how many there are, and under the line which\.", Plain)]
    private static partial Regex BandKey();

    private const string HowRunsAreWorked =
        "Every run is worked alike. If the work is not held so already, turn it first. Secure a new thread, or a rest, on the back with two small stitches through the first pleat, never in a valley; carry a thread kept or left hanging to it on the back, and past 3 pleats sideways cable across with it. "
        + "Bring the needle to the front in the valley between the first two pleats, take it back through the first so that the thread leaves its outer side, cable to the last pleat, and take the needle to the back in the valley before it. "
        + "To tie off, make one or two small cables on the back, through pleats. A thread kept or left hanging stays on the back in its needle.";

    private const RegexOptions Plain = RegexOptions.CultureInvariant | RegexOptions.IgnoreCase;

    [GeneratedRegex(@"\GBacksmocking holds the pleats (?:where no stitching on the front does|behind the picture)\. Turn the work over: wrong side up, (?<edge>[a-z ]+)\. Cable along the gathering threads with (?<strands>\d+) strands? near the colour of the cloth\. Take shallow bites, so that nothing shows on the front\. Pleats keep their numbers\.", Plain)]
    private static partial Regex BackOpens();

    [GeneratedRegex(@"\GChange the thread where it runs out\. (?:At the end of a row, where the next gathering row is worked too and what is left reaches it, carry it (?<n>\d+) cable rows? along the pleat, turn the work and come back; else tie off|Tie off at the end of every row)\.", Plain)]
    private static partial Regex ManyRows();

    private static readonly Regex BandHeading = new($@"\G(?<name>{string.Join('|', BandStitch.All.Select(s => s.Name).OrderByDescending(n => n.Length))})(?:, thread [A-Za-z])? (?=[A-Z])", Plain);

    [GeneratedRegex(@"\GOne repeat is (?<repeat>\d+) valleys?; (?<fit>\d+) whole repeats? fit(?:, and both ends come out alike|, and at both ends a part of one, alike|, with (?<bare>\d+) pleats? left bare at each side)?\.", Plain)]
    private static partial Regex RepeatsTold();

    [GeneratedRegex(@"\GLevel check: it lies on gathering rows? (?<rows>\d+(?: and \d+)*); keep a thread's width from the gathering thread all along\.", Plain)]
    private static partial Regex BandCheck();

    [GeneratedRegex(@"\G(?:This row lies along gathering row (?<row>\d+): keep it level with that thread, a thread's width away from it all along|Level check: this row meets gathering row (?<row>\d+)\. If it drifts, ease it back over the next few cable rows)\.", Plain)]
    private static partial Regex RowCheck();

    [GeneratedRegex(@"\GThat completes the row: (?<cables>\d[\d,]*) cables? in (?<runs>\d+) runs\.", Plain)]
    private static partial Regex RowCount();

    [GeneratedRegex(@"\G(?:This run|Step (?<step>\d+)) is squeezed between two finished rows, for a run is fixed to its place in the order\. Ease the needle in between them\.", Plain)]
    private static partial Regex Squeezed();

    [GeneratedRegex(@"\GDone: (?<cables>\d[\d,]*) cables?(?: and (?<halves>\d[\d,]*) half stitch(?:es)?)?, (?<needlefuls>\d[\d,]*) needlefuls?(?:, (?<turns>\d[\d,]*) turns? of the work)?\.", Plain)]
    private static partial Regex Done();

    [GeneratedRegex(@"^G(?<g>\d+)(?:(?<es>[+-])(?<e>(?:\d+ )?(?:\d/\d|\d+)) space)?(?:(?<rs>[+-])(?<r>\d+))?$", Plain)]
    private static partial Regex ShortHeight();
}
