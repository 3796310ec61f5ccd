using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Order.Telling;

/// <summary>The facts in a table, a line a run.</summary>
/// <param name="order">The order they tell.</param>
/// <param name="words">The words.</param>
internal sealed class TableWords(WorkingOrder order, Vocabulary words)
{
    private readonly LongWords sentences = new(order, words);
    private readonly List<TableBlock> blocks = [];
    private readonly List<string> notes = [];
    private readonly List<TableLine> lines = [];
    private readonly bool rightHanded = order.Work.Piece.Working.Hand == Hand.Right;
    private readonly bool halves = order.Steps.Any(s => s.HalfStitches > 0);
    private string heading = "";
    private ImmutableArray<string> columns = [];

    /// <summary>The table of the directions.</summary>
    public static DirectionTable Of(WorkingOrder order, LevelWords words)
    {
        var told = Teller.Of(order, once: true);
        return told.IsEmpty ? DirectionTable.Empty : new TableWords(order, new Vocabulary(words)).Write(told);
    }

    private DirectionTable Write(ImmutableArray<Told> told)
    {
        List<string> lead = [];
        var part = -1;
        var alike = false;
        foreach (var fact in told)
        {
            switch (fact)
            {
                case Opening o:
                    lead.Add(sentences.Opens(o));
                    lead.Add(Key(o));
                    break;
                case BackOpening:
                    Begin("First, on the back", ["rows", "way", "from", "to", "cables", "thread", "needlefuls", "then"]);
                    notes.Add(sentences.Of(fact)[^1].Text);
                    break;
                case BackRows rows:
                    notes.Add("Change the thread where it runs out. " + (rows.Turned
                        ? $"Where what is left reaches, carry it {Counting.Of(rows.PerSpace, "cable row")} along the pleat to the next row, turn the work and come back; where it does not, tie off."
                        : "Tie off at the end of every row."));
                    lines.Add(Line(rows));
                    break;
                case BackLine row:
                    lines.Add(Line(row));
                    break;
                case BandOpening o:
                    Begin(o.Band.Stitch.Name.Capital(), ["band", "heights", "thread", "way", "from", "to", "begin", "stitches", "then", "pattern"]);
                    notes.Add(sentences.Of(fact)[^1].Text);
                    break;
                case BandLine l:
                    lines.Add(Line(l));
                    break;
                case RunsOpening:
                    Begin("The runs", []);
                    notes.Add(LongWords.RunsOpen());
                    (part, alike) = (-1, false);
                    break;
                case UnkeptPlace u:
                    notes.Add(sentences.Unkept(u));
                    break;
                case AlikeOpening a:
                    Begin($"{Vocabulary.Number(a.Times)} figures alike, the first in steps {a.First} to {a.Last}", RunColumns);
                    notes.Add($"Work these lines for each of them, counted from its own centre. Steps go on by {a.Last - a.First + 1} from one figure to the next.");
                    alike = true;
                    break;
                case PartOpening o:
                    if (!alike && o.Part != part) Begin($"Pleats {words.Long(o.From)} to {words.Long(o.To)}", RunColumns);
                    part = o.Part;
                    break;
                case RunLine l:
                    lines.Add(Line(l));
                    break;
                case Squeezed s:
                    After($"Step {s.Step.Number} is squeezed between two finished rows, for a run is fixed to its place in the order. Ease the needle in between them.");
                    break;
                case AlikeLine l:
                    if (alike) Begin("", l.Level ? ["steps", "its centre", "levels", "cables", "new needlefuls"] : ["steps", "its centre", "rows", "levels", "cables", "new needlefuls"]);
                    (alike, part) = (false, -1);
                    lines.Add(Line(l));
                    break;
                case Closing c:
                    After(LongWords.Closes(c));
                    break;
                case AccentOpening:
                    Begin("Last, the accents", ["accent", "what", "thread", "height", "long", "needlefuls", "in the valleys"]);
                    foreach (var paragraph in sentences.Of(fact)[1..]) notes.Add(paragraph.Text);
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

    private ImmutableArray<string> RunColumns => halves
        ? ["step", "row", "at", "thread", "way", "from", "to", "half", "cables", "first", "half", "then"]
        : ["step", "row", "at", "thread", "way", "from", "to", "cables", "first", "then"];

    private void Begin(string next, ImmutableArray<string> with)
    {
        End();
        (heading, columns) = (next, with);
    }

    private void End()
    {
        if (heading.Length > 0 || lines.Count > 0) blocks.Add(new(heading, [.. notes], columns, [.. lines]) { LastBeneath = columns is [.., "pattern" or "in the valleys"] });
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

    private string Key(Opening o) =>
        $"In the lines, G and a number is a gathering row, + so many cable rows from it toward the bottom edge, - toward the top edge. {words.Letter(Flank.Left)} is {words.Beside(Flank.Left)} the centre, "
        + $"{words.Letter(Flank.Right)} {words.Beside(Flank.Right)} it. First is the level of the first cable. "
        + "Thread: new is a length newly cut, rest of what was left after that step, on the same thread, from the thread left hanging after that step at that place. "
        + "Then: on is to keep the thread for the next step, hang to leave it hanging at the back. "
        + "Where the row is a gathering row, keep it level with its thread, a thread's width away.";

    private TableLine Line(BackRows r) => new(
    [
        Vocabulary.Ranges(r.Rows, "G"), words.Way(rightHanded, false), words.Short(r.From), words.Short(r.To), $"{Vocabulary.Number(r.Cables)} each", "new", $"{Vocabulary.Number(r.Needlefuls)} in all", "tie off",
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
            _ => needleful,
        };
        return new(
        [
            $"B{l.Number}", l.Slope == 0 ? Vocabulary.Short(l.Highest) : $"{Vocabulary.Short(l.Highest)} to {Vocabulary.Short(l.Lowest)}", $"{step.Band.Band.Thread} {comes}",
            words.Way(rightHanded != step.Band.Stitch.Backward, step.Pass.Turned), words.Short(l.From), words.Short(l.To), l.Slope == 0 ? "-" : sentences.Begins(l),
            Vocabulary.Number(step.Count), step.TieOff ? "tie off" : "on", words.Of(l.Pattern),
        ]);
    }

    private TableLine Line(RunLine l)
    {
        var step = l.Step;
        var comes = l.Comes switch
        {
            Coming.New => l.Longer > Length.Zero ? $"new, {sentences.Roughly(l.Longer)} longer" : "new",
            Coming.Rest => $"rest of {l.Before}",
            Coming.NewOrRest => "start",
            Coming.Same => "on",
            _ => $"from {l.Before} at {words.Short(l.Hangs)}",
        };
        List<string> cells =
        [
            Vocabulary.Number(step.Number), Vocabulary.Number(step.Row.Index), Vocabulary.Short(l.At), $"{step.Thread} {comes}{(step.Continues ? ", same run" : "")}",
            words.Way(l.Rightward, step.Turned), words.Short(l.From), words.Short(l.To), Vocabulary.Number(step.Cables), words.Level(step.HeldBegin),
            l.Goes switch { Going.Kept => "on", Going.Hanging => "hang", _ => "tie off" },
        ];
        if (halves)
        {
            cells.Insert(9, step.HalfAtEnd ? words.Level(step.HeldEnd.Opposite()) : "-");
            cells.Insert(7, step.HalfAtBegin ? words.Level(step.HeldBegin.Opposite()) : "-");
        }
        return new([.. cells]) { Step = step, IsLevel = l.IsOnGatheringRow };
    }

    private TableLine Line(AlikeLine l) => new(
    [
        $"{Vocabulary.Number(l.First)} to {Vocabulary.Number(l.Last)}",
        l.Pleat is { } pleat ? $"pleat {words.Short(pleat)}" : l.Valley is { Flank: not Flank.Neither } valley ? $"valley {words.Short(valley)}" : "centre valley",
        .. l.Level ? (ReadOnlySpan<string>)[] : [l.Lower == 0 ? "as told" : $"{Counting.Of(Math.Abs(l.Lower), "space")} ({Counting.Of(Math.Abs(l.Lower) * l.PerSpace, "row")}) {Vocabulary.Toward(l.Lower)}"],
        l.Swapped ? $"each {words.Level(Level.Up)} cable {words.Level(Level.Down)}, each {words.Level(Level.Down)} cable {words.Level(Level.Up)}" : "as told",
        Vocabulary.Number(l.Cables), Vocabulary.Number(l.Needlefuls),
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
