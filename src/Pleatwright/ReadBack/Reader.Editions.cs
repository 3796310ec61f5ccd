using System.Text.RegularExpressions;

namespace Pleatwright.ReadBack;

// The two editions: lines of a table, and sentences.
internal sealed partial class Reader
{
    private bool alike, onPleat; // whether a figure's centre is a pleat
    private (int First, int Last, int Times) figure;
    private int bandSteps, bandHand;
    private (double Valley, double Depth)? bandLeft; // where the band’s thread in hand came to the back
    private bool half; // half a needleful hangs at the centre
    private bool backKept;
    private (int Row, int Pleat) backLeft;

    private bool Lines()
    {
        if (script.Read(frame.BackRows) is { } rows)
        {
            Agree(frame.GoesRight(rows.Groups["way"].Value) == reading.RightHanded && !rows.Groups["turned"].Success, "the back is worked the way of the hand");
            int from = Pleat(rows, "from", Middle, mirrored: true), to = Pleat(rows, "to", Middle, mirrored: true);
            Agree(Math.Abs(to - from) == Number(rows, "cables"), "a row of the back has as many cables as told");
            foreach (Match range in Range().Matches(rows.Groups["rows"].Value))
                for (var g = Number(range, "a"); g <= (range.Groups["b"].Success ? Number(range, "b") : Number(range, "a")) && reading.Back.Count < 10_000; g++) reading.Back.Add(new(g, from, to));
            reading.Needlefuls = (Number(rows, "n"), reading.Needlefuls.Accents);
            everTurned |= saysTurned; // that some rows are worked back is said beside them
            return true;
        }
        if (script.Read(frame.BackRow) is { } row)
        {
            var isTurned = row.Groups["turned"].Success;
            Agree(frame.GoesRight(row.Groups["way"].Value) == reading.RightHanded, "the back is worked the way of the hand");
            Back(row, isTurned, row.Groups["comes"].Value == "on", row.Groups["then"].Value == "on");
            return true;
        }
        if (script.Read(frame.Band) is { } line) return Band(line);
        if (script.Read(frame.AlikeOpening) is { } opening)
        {
            Agree(pending.Count == 0, "figures worked alike are told where they lie");
            pending.Clear();
            copies.Clear();
            figure = (Number(opening, "first"), Number(opening, "last"), Number(opening, "times"));
            Agree(Number(opening, "by") == figure.Last - figure.First + 1, "steps go on by as many as a figure has");
            alike = true;
            onPleat = opening.Groups["pleat"].Success;
            return true;
        }
        if (script.Read(frame.Alike) is { } copy)
        {
            under = null; // the centres tell where they lie
            copies.Add(copy);
            return true;
        }
        if (script.Read(frame.Run) is { } run) return Run(run);
        return script.Read(frame.Accent) is { } accent && Accents(accent, Script.Number(accent, "number"), frame.ShortPlace, Short(accent.Groups["at"].Value, false), accent.Groups["thread"].Value[0]);
    }

    private void Back(Match match, bool isTurned, bool goesOn, bool keeps)
    {
        if (isTurned != turned && !match.Groups["fp"].Success) turned = isTurned; // in lines the turn is not told apart
        Agree(isTurned == turned, "the work is turned for a row of the back");
        everTurned |= isTurned;
        int from = Pleat(match, "from", Middle, !isTurned), to = Pleat(match, "to", Middle, !isTurned);
        Agree((to - from) * (reading.RightHanded != isTurned ? -1 : 1) == Number(match, "cables"), "a row of the back has as many cables as told");
        Agree(!match.Groups["fp"].Success || (Number(match, "fp"), Number(match, "tp")) == (from, to), "a pleat has the number told");
        Agree(goesOn == backKept, "the back’s thread is kept for the row that goes on with it");
        if (goesOn)
        {
            Agree(!match.Groups["fp"].Success || Math.Abs(Rows(match) - reading.PerSpace * Math.Abs(Number(match, "row") - backLeft.Row)) < 1e-6, "the back’s thread is carried as many rows as lie between");
            Agree(!match.Groups["fp"].Success || Number(match, "side") == Math.Abs(from - backLeft.Pleat), "the back’s thread is carried as many pleats as lie between");
            if (match.Groups["fp"].Success) Across(match);
        }
        (backKept, backLeft) = (keeps, (Number(match, "row"), to));
        reading.Back.Add(new(Number(match, "row"), from, to));
        reading.Needlefuls = (reading.Needlefuls.Back + Number(match, "n"), reading.Needlefuls.Accents);
        turned = isTurned;
    }

    private bool Band(Match line)
    {
        var comes = line.Groups["comes"].Value;
        var isTurned = line.Groups["turned"].Success;
        turned = isTurned;
        everTurned |= isTurned;
        double high = Short(line.Groups["high"].Value, isTurned), low = line.Groups["low"].Success ? Short(line.Groups["low"].Value, isTurned) : high;
        var (from, to) = (Pleat(line, "from", Middle, isTurned), Pleat(line, "to", Middle, isTurned));
        if (band.Length > 0) reading.Parts.Add((band, 0, 0, 0, 0, high, low, Number(line, "of")));
        BandThread(line, comes == "on", comes.EndsWith("half left at the centre", StringComparison.Ordinal) && !comes.StartsWith("the ", StringComparison.Ordinal), comes.StartsWith("the half", StringComparison.Ordinal), line.Groups["then"].Value == "on");
        Stitch(line, line.Groups["thread"].Value[0], isTurned, frame.GoesRight(line.Groups["way"].Value), high, low, Number(line, "start"), Number(line, "of"), from, to);
        return true;
    }

    private void BandThread(Match match, bool on, bool leavesHalf, bool takesHalf, bool keeps)
    {
        bandSteps++;
        Agree(Number(match, "number") == bandSteps, "steps of bands are numbered one after the other");
        if (match.Groups["goes"].Success) Agree(pass.Count > 0, "a thread goes on where another ended");
        usesRest |= match.Groups["rest"].Success;
        usesGoes |= match.Groups["goes"].Success;
        usesHalf |= leavesHalf || takesHalf;
        if (match.Groups["rest"].Success) reading.BandRests[bandSteps] = Number(match, "rest");
        Agree(on == (bandHand > 0), "the thread of a band that is kept is used next");
        Agree(!takesHalf || half, "half a needleful hangs at the centre");
        half = leavesHalf || half && !takesHalf;
        bandHand = keeps ? bandSteps : 0;
    }

    private bool Run(Match line)
    {
        var comes = line.Groups["comes"].Value;
        Agree(frame.GoesRight(line.Groups["way"].Value) == reading.RightHanded, "cables go the way of the hand");
        var told = new Told(line, line.Groups["turned"].Success,
            comes.StartsWith("new", StringComparison.Ordinal) ? Comes.New : comes.StartsWith("rest", StringComparison.Ordinal) ? Comes.Rest : comes == "start" ? Comes.Start : comes == "on" ? Comes.Same : Comes.TakenUp,
            Number(line, "before"), line.Groups["same"].Success, line.Groups["then"].Value switch { "on" => Goes.Keep, "hang" => Goes.Hang, _ => Goes.TieOff },
            frame.IsUp(line.Groups["first"].Value), Half(line, "begin"), Half(line, "end"), Longer(line), "");
        Agree(Math.Abs(Short(line.Groups["at"].Value, told.Turned) * reading.PerSpace - Number(line, "row")) < 1e-6, "a row lies where it is said to lie");
        usesRest |= told.Comes == Comes.Rest;
        usesHung |= told.Comes == Comes.TakenUp;
        usesSame |= line.Groups["same"].Success;
        usesStart |= told.Comes == Comes.Start;
        usesCarry |= line.Groups["far"].Success;
        usesCabled |= line.Groups["cabled"].Success;
        Cabled(line, "cpleats");
        if (!alike)
        {
            Agree(told.Comes != Comes.Start, "it is said whether a thread is new");
            Work(told, Number(line, "step"), 0, Middle, false, 0);
            return true;
        }
        Agree(Number(line, "step") == figure.First + pending.Count, "steps are numbered one after the other");
        pending.Add(told);
        if (Number(line, "step") != figure.Last) return true;
        foreach (var copy in copies) Copy(copy);
        Agree(figure.Times == 0, "figures worked alike are as many as told");
        copies.Clear();
        pending.Clear();
        return true;
    }

    private readonly List<Match> copies = []; // the figures worked alike whose lines are still to come

    // Loose over more than 3 pleats it would pull them together.
    private void Cabled(Match match, string pleats) => Agree(match.Groups["cabled"].Success == (match.Groups[pleats].Success && Number(match, pleats) > 3), "a thread that goes far is worked across the back in small cables");

    // How much longer is told once, beside the lines.
    private string Longer(Match match)
    {
        if (!match.Groups["longer"].Success) return "";
        usesLonger = true;
        return saidLonger;
    }

    private bool? Half(Match match, string name) => match.Groups[name] is { Success: true } found && found.Value != "-" ? frame.IsUp(found.Value) : null;

    // One of the figures worked alike.
    private bool Copy(Match copy)
    {
        var (first, end, cables) = (Number(copy, "first"), Number(copy, "last"), 0);
        if (alike)
        {
            Agree(first == figure.First && end == figure.Last && pending.Count == end - first + 1, "the first figure is worked in its own steps");
            alike = false;
        }
        figure.Times--;
        Agree(end - first + 1 == pending.Count, "a figure has as many steps as its lines");
        var isValley = copy.Groups["valley"].Success;
        Agree(isValley != onPleat, "a figure’s centre is a pleat or a valley as told");
        var at = Pleat(copy, "at", Middle, false);
        Agree(!isValley || Pleat(copy, "bt", Middle, false) == at + 1, "a valley lies between two pleats side by side");
        var centre = isValley ? 2 * at + 1 : 2 * at;
        var lower = Number(copy, "lower") * (copy.Groups["taken"].Success ? -1 : 1);
        Agree(Number(copy, "spaces") * reading.PerSpace == Number(copy, "lower"), "a space has as many rows as told");
        var starts = new Dictionary<int, Match>();
        foreach (Match start in Started().Matches(copy.Groups["starts"].Value)) Agree(starts.TryAdd(Number(start, "step"), start), "the start of a step is told once");
        var before = needlefuls;
        foreach (var (i, told) in pending.Index())
        {
            var number = first + i;
            var its = told.Comes != Comes.Start ? told
                : !starts.Remove(number, out var start) ? told with { Comes = Comes.New }
                : start.Groups["rest"].Success ? told with { Comes = Comes.Rest, Before = Number(start, "rest") - (first - figure.First) }
                : told with { Comes = Comes.New, Longer = Longer(start) };
            Work(its, number, first - figure.First, centre, copy.Groups["swapped"].Success, lower);
            usesRest |= its.Comes == Comes.Rest;
            cables += Number(told.Match, "cables");
        }
        Agree(starts.Count == 0, "what is told of starts is of steps that start");
        Agree(cables == Number(copy, "cables"), "a figure has as many cables as told");
        Agree(needlefuls - before == Number(copy, "n"), "a figure takes as many new needlefuls as told");
        return true;
    }

    [GeneratedRegex(@"step (?<step>\d+) starts with (?:the rest of (?<rest>\d+)|a (?<longer>longer) length)", Plain)]
    private static partial Regex Started();

    private bool Accents(Match match, int number, Regex place, double depth, char thread)
    {
        accents++;
        Agree(number == accents, "accents are numbered one after the other");
        var places = place.Matches(match.Groups["places"].Value);
        Agree(!match.Groups["all"].Success || Number(match, "all") == places.Count, "accents are as many as told");
        foreach (Match at in places)
            reading.Accents.Add(new(match.Groups["what"].Value.ToLowerInvariant(), thread, reading.Centre + (at.Groups["ats"].Success ? frame.Side(at.Groups["ats"].Value) * Number(at, "at") : 0), depth, Number(match, "size"), match.Groups["upright"].Success));
        reading.Needlefuls = (reading.Needlefuls.Back, reading.Needlefuls.Accents + Number(match, "n"));
        return true;
    }

    private bool Sentences()
    {
        if (script.Read(frame.LongBack) is { } back)
        {
            Back(back, back.Groups["turned"].Success, back.Groups["on"].Success, back.Groups["then"].Value.StartsWith("Keep", StringComparison.OrdinalIgnoreCase));
            return true;
        }
        if (script.Read(frame.LongBand) is { } step) return LongBand(step);
        if (script.Read(frame.LongRun) is { } run) return LongRun(run);
        if (script.Read(frame.LongAccent) is { } accent)
        {
            Names(accent);
            return Accents(accent, accents + 1, frame.LongPlace, Tall(accent, "h"), accent.Groups["letter"].Value[0]);
        }
        if (script.Read(frame.Part) is { } part)
        {
            Heading(part, part.Groups["range"].Success, part.Groups["bg"].Success ? Tall(part, "b") : null, part.Groups["way"].Value.ToLowerInvariant(), part.Groups["out"].Success, part.Groups["border"].Success);
            return true;
        }
        if (script.Read(frame.PartHeading) is not { } heading) return false;
        Heading(heading, true, null, "", false, false);
        return true;
    }

    private bool LongBand(Match step)
    {
        var isTurned = step.Groups["turned"].Success;
        Agree(isTurned == turned, "the work is turned for a band");
        everTurned |= isTurned;
        Names(step);
        Agree(band.Length == 0 || step.Groups["what"].Value.Equals(band, StringComparison.OrdinalIgnoreCase), "a step belongs to the band under way");
        double high = Tall(step, "h"), low = step.Groups["lg"].Success ? Tall(step, "l") : high;
        var (from, to) = (Pleat(step, "from", Middle, isTurned), Pleat(step, "to", Middle, isTurned));
        Agree((Number(step, "fp"), Number(step, "tp")) == (from, to), "a pleat has the number told");
        BandThread(step, step.Groups["on"].Success, step.Groups["half"].Value.Contains("leave half", StringComparison.Ordinal), !step.Groups["on"].Success && !step.Groups["start"].Success, step.Groups["then"].Value.StartsWith("Keep", StringComparison.OrdinalIgnoreCase));
        reading.Parts.Add((step.Groups["what"].Value.ToLowerInvariant(), One("time"), One("times"), One("journey"), One("journeys"), high, low, Number(step, "of")));
        var (slope, begin) = (Number(step, "of"), Number(step, "begin"));
        if (step.Groups["on"].Success && bandLeft is { } left)
        {
            var depth = slope == 0 ? high : high + (low - high) * (isTurned ? slope - begin : begin) / slope;
            Agree(Math.Abs(Rows(step) - Math.Abs(depth - left.Depth) * reading.PerSpace) < 0.006, "a thread is carried as many rows as lie between");
            // from the valley where the one before was left to the valley between this one's first two pleats
            Agree(Number(step, "side") == Math.Abs(from + 0.5 * Math.Sign(to - from) - left.Valley), "a thread is carried as many pleats as lie between");
            Across(step);
        }
        Stitch(step, step.Groups["letter"].Value[0], isTurned, to != from && to > from != isTurned, high, low, begin, slope, from, to);
        bandLeft = reading.Stitches.Count > 0 ? (reading.Stitches[^1].ToPleat + (step.Groups["pattern"].Value.Contains("loop", StringComparison.Ordinal) ? 0.5 : -0.5) * Math.Sign(to - from), reading.Stitches[^1].ToDepth) : null;
        return true;

        int One(string group) => step.Groups[group].Success ? Number(step, group) : 1; // one that is not told is the only one
    }

    private bool LongRun(Match run)
    {
        if (run.Groups["edge"].Success)
        {
            var to = frame.IsTurned(run.Groups["edge"].Value);
            Agree(to != turned && to != run.Groups["back"].Success, "the work is turned to the other edge");
            turned = to;
        }
        var isTurned = run.Groups["turned"].Success;
        Agree(isTurned == turned, "the work is turned for a run");
        Agree(Math.Abs(Tall(run, "h") * reading.PerSpace - Number(run, "row")) < 1e-6, "a row lies where it is said to lie");
        Agree(run.Groups["chart"].Success == isTurned && (!isTurned || frame.IsUp(run.Groups["chart"].Value) != frame.IsUp(run.Groups["first"].Value)), "a level is the other on the chart when the work is turned");
        Names(run);
        var then = run.Groups["then"].Value;
        var told = new Told(run, isTurned, run.Groups["on"].Success ? Comes.Same : run.Groups["up"].Success ? Comes.TakenUp : run.Groups["before"].Success ? Comes.Rest : Comes.New,
            Number(run, "before"), run.Groups["start"].Value.StartsWith("Go", StringComparison.OrdinalIgnoreCase),
            then.StartsWith("Keep", StringComparison.OrdinalIgnoreCase) ? Goes.Keep : then.StartsWith("Leave", StringComparison.OrdinalIgnoreCase) ? Goes.Hang : Goes.TieOff,
            frame.IsUp(run.Groups["first"].Value), Half(run, "begin"), Half(run, "end"), run.Groups["longer"].Value, run.Groups["left"].Value);
        Work(told, run.Groups["step"].Success ? Number(run, "step") : steps.Count + 1, 0, Middle, false, 0);
        Agree(last is { } step && (Number(run, "fp"), Number(run, "tp")) == (step.First, step.Last), "a pleat has the number told");
        Agree(!run.Groups["last"].Success ? Number(run, "cables") == 1 : frame.IsUp(run.Groups["last"].Value) == (told.FirstUp == (Number(run, "cables") % 2 == 1)), "levels alternate from the first cable to the last");
        Agree((Number(run, "sofar"), Number(run, "needlefuls")) == (cables, needlefuls), "it comes so far to what is told");
        return true;
    }

    private void Names(Match match)
    {
        if (match.Groups["strands"].Success) reading.Named.Add((match.Groups["letter"].Value[0], match.Groups["name"].Value, Number(match, "strands")));
    }

    [GeneratedRegex(@"G(?<a>\d+)(?: to G(?<b>\d+))?", Plain)]
    private static partial Regex Range();
}
