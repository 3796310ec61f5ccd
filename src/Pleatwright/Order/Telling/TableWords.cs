using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Order.Telling;

/// <summary>The facts in a table, a line a run.</summary>
/// <param name="order">The order they tell.</param>
/// <param name="words">The words.</param>
/// <param name="units">Units of lengths.</param>
internal sealed class TableWords(WorkingOrder order, Vocabulary words, UnitSystem units)
{
    private readonly LongWords sentences = new(order, words, units);
    private readonly List<TableBlock> blocks = [];
    private readonly List<string> notes = [];
    private readonly List<TableLine> lines = [];
    private readonly bool rightHanded = order.Work.Piece.Working.Hand == Hand.Right;
    private readonly bool halves = order.Steps.Any(s => s.HalfStitches > 0);
    private bool carries;
    private string heading = "";
    private ImmutableArray<string> columns = [];

    /// <summary>The table of the directions.</summary>
    public static DirectionTable Of(WorkingOrder order, LevelWords words, UnitSystem units, bool named)
    {
        var told = Teller.Of(order, once: true);
        return told.IsEmpty ? DirectionTable.Empty : new TableWords(order, new Vocabulary(words), units).Write(told, named);
    }

    private DirectionTable Write(ImmutableArray<Told> told, bool named)
    {
        List<string> lead = [];
        carries = told.Any(t => t is RunLine { IsFar: true });
        var (part, last) = (-1, 0); // last: of the steps of figures alike
        var (alike, banded) = (false, false);
        foreach (var fact in told)
        {
            switch (fact)
            {
                case Opening o:
                    lead.Add(sentences.Opens(o));
                    if (named) lead.Add(string.Join(' ', Threads()));
                    lead.Add(Key());
                    lead.Add(ThreadKey(told));
                    break;
                case BackOpening:
                    Begin("First, on the back", ["gathering rows", "way", "from", "to", "cables", "thread", "needlefuls", "then"]);
                    notes.Add(sentences.Of(fact)[^1].Text);
                    break;
                case BackRows rows:
                    notes.Add("Change the thread where it runs out. " + (rows.Turned
                        ? $"At the end of a row, where the next gathering row is worked too and what is left reaches it, carry it {Counting.Of(rows.PerSpace, "cable row")} along the pleat, turn the work and come back; else tie off."
                        : "Tie off at the end of every row."));
                    lines.Add(Line(rows));
                    break;
                case BackLine row:
                    lines.Add(Line(row));
                    break;
                case BandOpening o:
                    Begin(o.Band.Stitch.Name.Capital(), ["band", "heights", "thread", "way", "from", "to", "begin", "stitches", "then", "pattern"]);
                    notes.Add(sentences.Of(fact)[^1].Text);
                    if (!banded) notes.Add(BandKey(told.OfType<BandOpening>().Any(b => b.Slopes)));
                    banded = true;
                    break;
                case BandLine l:
                    lines.Add(Line(l));
                    break;
                case RunsOpening:
                    Begin("The runs", []);
                    notes.Add(LongWords.RunsOpen());
                    notes.Add(RunKey(told));
                    (part, alike) = (-1, false);
                    break;
                case UnkeptPlace u:
                    notes.Add(sentences.Unkept(u));
                    break;
                case AlikeOpening a:
                    Begin($"{Vocabulary.Number(a.Times)} figures alike, the first in steps {a.First} to {a.Last}", RunColumns);
                    notes.Add($"Find the centre of each, {(a.OnPleat ? "a pleat, which is 0" : "a valley, with the first pleats on either side of it")}, and work the lines that follow for each, counted from there. Steps go on by {a.Last - a.First + 1} from one figure to the next, and so does every step that a line names; steps named beside a centre are as they are.");
                    (alike, last) = (true, a.Last);
                    break;
                case PartOpening o:
                    if (!alike && o.Part != part) Begin($"Pleats {words.Long(o.From)} to {words.Long(o.To)}", RunColumns);
                    part = o.Part;
                    break;
                case RunLine l:
                    if (alike && columns[0] != "step") Begin("", RunColumns);
                    lines.Add(Line(l));
                    if (alike && l.Step.Number == last) (alike, part) = (false, -1);
                    break;
                case Squeezed s:
                    After($"Step {s.Step.Number} is squeezed between two finished rows, for a run is fixed to its place in the order. Ease the needle in between them.");
                    break;
                case AlikeLine l:
                    columns = ["steps", "its centre", .. l.Level ? (ReadOnlySpan<string>)[] : ["rows"], "levels", "cables", "new needlefuls", .. l.AllNew ? (ReadOnlySpan<string>)[] : ["its starts"]];
                    lines.Add(Line(l));
                    break;
                case Closing c:
                    After(LongWords.Closes(c));
                    break;
                case AccentOpening:
                    Begin("Last, the accents", ["accent", "what", "thread", "height", "long", "needlefuls", "in the valleys"]);
                    foreach (var paragraph in sentences.Of(fact)[1..]) notes.Add(paragraph.Text);
                    notes.Add("Begin and fasten each on the back by itself.");
                    notes.Add($"In a line, height is where it lies{(told.Any(t => t is AccentLine { Laid: [{ Size: > 0 }, ..] }) ? ", long how many pleats it lies over" : "")}. Places are valleys: 0 is the centre valley, 1 {words.Letter(Flank.Right)} the next {words.Beside(Flank.Right)} it.");
                    break;
                case AccentLine l:
                    lines.Add(Line(l));
                    break;
                case RightSideUp or TurnedBack:
                    After(sentences.Of(fact)[0].Text);
                    break;
            }
        }
        End();
        return new([.. lead], [.. blocks]);
    }

    private ImmutableArray<string> RunColumns =>
    [
        "step", "row", "at", "thread", .. carries ? (ReadOnlySpan<string>)["carry"] : [], "way", "from", "to",
        .. halves ? (ReadOnlySpan<string>)["before", "cables", "first", "after", "then"] : ["cables", "first", "then"],
    ];

    private void Begin(string next, ImmutableArray<string> with)
    {
        End();
        (heading, columns) = (next, with);
    }

    private void End()
    {
        if (heading.Length > 0 || lines.Count > 0) blocks.Add(new(heading, [.. notes], columns, [.. lines]) { LastBeneath = columns is [.., "pattern" or "in the valleys" or "its starts"] });
        notes.Clear();
        lines.Clear();
        heading = "";
    }

    // What closes a block stands under its lines, and so ends it.
    private void After(string text)
    {
        if (lines.Count > 0 || notes.Count > 0)
        {
            var going = columns;
            End();
            columns = going;
        }
        blocks[^1] = blocks[^1] with { After = blocks[^1].After.Add(text) };
    }

    private string Key() =>
        $"In the lines, G and a number is a gathering row, + so many cable rows {words.Toward(Level.Down)} it as the work is held, - {words.Toward(Level.Up)} it. {words.Letter(Flank.Left)} is {words.Beside(Flank.Left)} the centre, "
        + $"{words.Letter(Flank.Right)} {words.Beside(Flank.Right)} it.";

    // Only what some line says is explained.
    private string ThreadKey(ImmutableArray<Told> told)
    {
        var runs = told.OfType<RunLine>().ToList();
        var starts = told.OfType<AlikeLine>().SelectMany(a => a.Starts).ToList();
        List<string> parts = [$"Thread: new is a length newly cut, of {order.Work.Piece.Working.WorkingLength.Say(units)}"];
        if (runs.Any(r => r.Longer > Length.Zero) || starts.Any(s => s.Longer > Length.Zero)) parts.Add($"longer, one cut {order.Work.Piece.Working.Longer.Say(units)} longer");
        if (runs.Any(r => r.Comes == Coming.Rest) || starts.Any(s => s.Rest > 0) || told.Any(t => t is BandLine { Step.RestFrom: > 0 })) parts.Add("rest of a step, what was left of its thread there");
        if (runs.Any(r => r.Comes == Coming.Same) || told.Any(t => t is BandLine { Step.Thread: BandThread.Carry } or BackLine { CarriedRows: > 0 })) parts.Add("on, the thread in the needle");
        if (runs.Any(r => r.Comes == Coming.TakenUp)) parts.Add("hung by a step, the thread left hanging after it, at the place told as the work is now held");
        if (runs.Any(r => r.Step.Continues)) parts.Add("same run, the run goes on with it");
        var bands = told.OfType<BandLine>().ToList();
        if (bands.Any(b => b.Step.Thread == BandThread.GoesOn)) parts.Add("goes on, from where the one before it ended");
        if (bands.Any(b => b.Step.Thread is BandThread.NewWithTail or BandThread.Tail)) parts.Add("half left at the centre, begin there with the middle of the length and leave half of it hanging at the back, to be threaded for the other side");
        if (runs.Any(r => r.Comes == Coming.NewOrRest)) parts.Add("start, in figures alike, a new length, or what is told beside its centre");
        return string.Join("; ", parts) + ".";
    }

    // How a line of the runs is read; only the columns that there are.
    private string RunKey(ImmutableArray<Told> told)
    {
        List<string> parts = ["In a line, first is the level of the first cable"];
        if (halves) parts.Add("before and after, a half stitch before the first cable and after the last");
        if (carries) parts.Add("carry, so many rows along the pleat and so many pleats sideways, told where the thread goes past the next row or more than 2 pleats sideways" + (told.Any(t => t is RunLine { IsFar: true } l && Carries.IsCabled(l.Step.CarriedPleats)) ? "; cabled, worked across in small cables on the back" : ""));
        List<string> goes = [];
        if (told.Any(t => t is RunLine { Goes: Going.Kept })) goes.Add("on is to keep it for the next step");
        if (told.Any(t => t is RunLine { Goes: Going.Hanging })) goes.Add("hang to leave it hanging at the back");
        parts.Add($"then, what becomes of the thread{(goes.Count > 0 ? ": " : "")}{string.Join(", ", goes)}");
        return string.Join("; ", parts) + ". Where the row is a gathering row, keep it straight along its thread, a thread's width away.";
    }

    // How a line of any band is read.
    private static string BandKey(bool slopes) =>
        "In a line, heights are where it lies, or between which it goes; " + (slopes ? "begin, how much of its first slope lies before its first stitch, as the work is then held; " : "") + "stitches, how many there are, and under the line which.";

    // The threads of the front, each in full once.
    private IEnumerable<string> Threads() =>
        from thread in order.Work.Piece.Threads
        where order.Steps.Any(s => s.Thread == thread.Key) || order.Bands.Steps.Any(s => s.Band.Band.Thread == thread.Key) || order.Bands.Accents.Any(a => a.Laid.Mark.Thread == thread.Key)
        select $"Thread {Vocabulary.Thread(thread)}.";

    private TableLine Line(BackRows r) => new(
    [
        Vocabulary.Ranges(r.Rows, "G"), words.Way(rightHanded, false), words.Short(r.From), words.Short(r.To), $"{Vocabulary.Number(r.Cables)} each", "new", $"{Vocabulary.Number(r.Needlefuls)} in all", "as said",
    ]);

    private TableLine Line(BackLine l) => new(
    [
        Vocabulary.Short(new(l.Row.Row, 0, 0)), words.Way(rightHanded, l.Row.Turned), words.Short(l.From), words.Short(l.To), Vocabulary.Number(l.Row.Cables), l.CarriedRows > 0 ? "on" : "new",
        Vocabulary.Number(l.Row.Needlefuls), l.Row.KeepsThread ? "on" : "tie off",
    ]);

    private TableLine Line(BandLine l)
    {
        var step = l.Step;
        var needleful = step.Threads ? "new" : $"rest of B{step.RestFrom}";
        var comes = step.Thread switch
        {
            BandThread.NewWithTail => $"{needleful}, half left at the centre",
            BandThread.Tail => "the half left at the centre",
            BandThread.Carry => "on",
            BandThread.GoesOn => $"{needleful}, goes on",
            _ => needleful,
        };
        return new(
        [
            $"B{l.Number}", l.Slope == 0 ? Vocabulary.Short(l.Highest, step.Pass.Turned) : $"{Vocabulary.Short(l.Highest, step.Pass.Turned)} to {Vocabulary.Short(l.Lowest, step.Pass.Turned)}", $"{step.Band.Band.Thread} {comes}",
            words.Way(rightHanded != step.Band.Stitch.Backward, step.Pass.Turned), words.Short(l.From), words.Short(l.To), l.Slope == 0 ? "-" : $"{l.Start} of {Counting.Of(l.Slope, "step")} {words.Level(Level.Down)}",
            Vocabulary.Number(step.Count), step.TieOff ? "tie off" : "on", words.Of(l.Pattern),
        ]);
    }

    private TableLine Line(RunLine l)
    {
        var step = l.Step;
        var comes = l.Comes switch
        {
            Coming.New => l.Longer > Length.Zero ? "new, longer" : "new",
            Coming.Rest => $"rest of {l.Before}",
            Coming.NewOrRest => "start",
            Coming.Same => "on",
            _ => $"hung by {l.Before} at {words.Short(l.Hangs)}",
        };
        List<string> cells =
        [
            Vocabulary.Number(step.Number), Vocabulary.Number(step.Row.Index), Vocabulary.Short(l.At, step.Turned), $"{step.Thread} {comes}{(step.Continues ? ", same run" : "")}",
            words.Way(l.Rightward, step.Turned), words.Short(l.From), words.Short(l.To), Vocabulary.Number(step.Cables), words.Level(step.HeldBegin),
            l.Goes switch { Going.Kept => "on", Going.Hanging => "hang", _ => "tie off" },
        ];
        if (carries) cells.Insert(4, l.IsFar ? $"{Math.Abs(step.CarriedRows)} and {Math.Abs(step.CarriedPleats)}{(Carries.IsCabled(step.CarriedPleats) ? ", cabled" : "")}" : "-");
        if (halves)
        {
            var at = carries ? 1 : 0;
            cells.Insert(at + 9, step.HalfAtEnd ? words.Level(step.HeldEnd.Opposite()) : "-");
            cells.Insert(at + 7, step.HalfAtBegin ? words.Level(step.HeldBegin.Opposite()) : "-");
        }
        return new([.. cells]) { Step = step, IsLevel = l.IsOnGatheringRow };
    }

    private TableLine Line(AlikeLine l) => new(
    [
        $"{Vocabulary.Number(l.First)} to {Vocabulary.Number(l.Last)}",
        l.Pleat is { } pleat ? $"pleat {words.Short(pleat)}" : $"between {words.Short(l.Between!.Value.Left)} and {words.Short(l.Between.Value.Right)}",
        .. l.Level ? (ReadOnlySpan<string>)[] : [l.Lower == 0 ? "the same" : l.Lower > 0 ? $"{l.Lower * l.PerSpace} added to every row, {l.Lower} to every G" : $"{-l.Lower * l.PerSpace} taken from every row, {-l.Lower} from every G"],
        l.Swapped ? $"{words.Level(Level.Up)} and {words.Level(Level.Down)} swapped" : "the same",
        Vocabulary.Number(l.Cables), Vocabulary.Number(l.Needlefuls),
        .. l.AllNew ? (ReadOnlySpan<string>)[] : [l.Starts.IsEmpty ? "all starts new" : $"{string.Join(", ", l.Starts.Select(s => $"step {s.Step} starts with {(s.Rest > 0 ? $"the rest of {s.Rest}" : "a longer length")}"))}; every other is new"],
    ]) { Step = l.Step };

    private TableLine Line(AccentLine l)
    {
        var laid = l.Laid[0];
        return new(
        [
            $"A{l.Number}", laid.Accent.Name, l.Thread.Key.ToString(), Vocabulary.Short(l.At), laid.Size == 0 ? "-" : laid.Mark.Upright ? $"{laid.Size} pleats upright" : $"{laid.Size} pleats",
            Vocabulary.Number(l.Needlefuls), string.Join(", ", l.Valleys.Select(words.Short)),
        ]);
    }
}
