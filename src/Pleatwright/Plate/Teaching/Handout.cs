using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Moves;
using Pleatwright.Order;
using Pleatwright.Order.Telling;
using Pleatwright.Plate.Parts;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Teaching;

/// <summary>The basics of stacked cables, drawn with this plate's cloth and thread: a sheet for each hand.</summary>
internal static class Handout
{
    private const double Gutter = 9;
    private const int OnAPage = 6;
    private static readonly double[] Sizes = [1.25, 1.2, 1.15, 1.1, 1.05, 1, 0.95, 0.9, 0.86, 1]; // none under 8 points

    /// <summary>A figure: drawn in the thread of the first step, or in one of its own.</summary>
    private sealed record Figure(string Heading, string Words, Func<HandPicture, Drawing> Draw)
    {
        public Floss? Thread { get; init; }
    }

    public static List<Page> Of(ClassPack pack) => [.. For(pack, Hand.Right), .. For(pack, Hand.Left)];

    private static List<Page> For(ClassPack pack, Hand hand)
    {
        var options = pack.Plate.Options;
        var look = options.Look;
        var order = pack.OrderOf(hand);
        var step = order.Steps.IsEmpty ? null : order.Steps[0];
        var thread = step is null ? null : order.Work.Piece.Thread(step.Thread);
        thread ??= order.Work.Piece.Threads.FirstOrDefault() ?? new Floss(new ThreadKey('a'), "", Colour.Parse("#2f6f79"), Floss.DefaultStrands);
        var level = step?.HeldBegin ?? Level.Up;
        var figures = Figures(order, step, thread, level, hand, options.Levels).ToList();
        // Both sides of one sheet of paper, in the largest type that they hold; large print takes what it takes.
        List<Page> pages = [];
        foreach (var size in look.Large ? (double[])[1] : Sizes)
        {
            pages = Lay(size);
            if (pages.Count <= 2) break;
        }
        return pages;

        List<Page> Lay(double size)
        {
            List<Page> laid = [];
            var columns = look.Large ? 1 : 2;
            double leading = look.Leading * size, y = NewPage(first: true);
            TypeStyle body = look.Body with { Points = look.Body.Points * size }, heading = look.Subheading with { Points = look.Subheading.Points * size }, note = look.Note;
            var inner = laid[0].Inner;
            var width = (inner.Width - (columns - 1) * Gutter) / columns;
            for (var i = 0; i < figures.Count; i += columns)
            {
                var row = figures.Skip(i).Take(columns).ToList();
                var drawn = row.Select(f => f.Draw(new HandPicture(order.Work, f.Thread ?? thread, hand, level, width, size, look))).ToList();
                var lines = row.Select(f => Wrapping.Lines(f.Words, body, width)).ToList();
                var picture = drawn.Max(d => d.View.Height);
                var height = picture + leading * (1.3 + lines.Max(l => l.Count)) + 3.6;
                if (y + height > inner.Bottom || (!look.Large && i == OnAPage)) y = NewPage(first: false);
                for (var c = 0; c < row.Count; c++)
                {
                    var x = inner.X + c * (width + Gutter);
                    var view = drawn[c].View;
                    var page = laid[^1];
                    var top = y + picture - view.Height;
                    page.Figure(FigureWords.Beside, new Inset(drawn[c].Marks, new Spot(x - view.X, top - view.Y), new Box(x, top, width, view.Height)));
                    page.Put(new Shape(Outline.Rectangle(new Box(x, top, width, view.Height)), null, look.Fine));
                    var at = y + picture + leading * 1.05;
                    page.Text(new Tag(Role.Subheading), x, at, $"{i + c + 1}  {row[c].Heading}", heading);
                    using var _ = page.As(new Tag(Role.Paragraph));
                    for (var l = 0; l < lines[c].Count; l++) page.Text(x, at + leading * (l + 1), lines[c][l], body);
                }
                y += height;
            }
            var words = Wrapping.Lines($"{CautionsPart.Heading}. {CautionsPart.Words}", note, inner.Width);
            if (y + words.Count * note.Points * 0.46 > inner.Bottom) y = NewPage(first: false);
            var warned = new Tag(Role.Paragraph);
            for (var i = 0; i < words.Count; i++) laid[^1].Text(warned, inner.X, y + note.Points * 0.46 * (i + 0.8), words[i], note);
            return laid;

            double NewPage(bool first)
            {
                var name = hand == Hand.Right ? "right hand" : "left hand";
                var page = new Page($"Handout, {name}", options.Paper, look);
                laid.Add(page);
                return page.Heading($"Stacked cables, {name}", first ? Wrapping.Shorten(pack.Plate.Title, look.Lead, page.Inner.Width * 0.5) : "continued", first ? 0 : -1);
            }
        }
    }

    private static IEnumerable<Figure> Figures(WorkingOrder order, Step? step, Floss thread, Level level, Hand hand, LevelWords words)
    {
        var other = level.Opposite();
        var work = order.Work;
        var (here, there) = hand == Hand.Right ? ("right", "left") : ("left", "right");
        string Word(Level l) => Phrases.Level(l, words);
        string Needle(Level l) => Phrases.Thread(l, words);
        var strands = Counting.Of(thread.Strands, "strand");
        var named = Tidy.Line(thread.Name) is { Length: > 0 } name ? $"{strands} of {thread.Key}, {name}" : strands;
        var pleats = step is null ? "" : Pleats(order, step);
        // Where needle and thread go in the pictures is told by the moves, as it is for every row that is worked.
        var row = HandPicture.Worked(level, [".aaa..."])[0].Moves;
        Move The(MoveKind kind, int time = 1) => row.Where(m => m.Kind == kind).ElementAt(time - 1);
        var (begin, cables) = (The(MoveKind.Begin), row.Where(m => m.Kind == MoveKind.Cable).ToList());

        yield return new("Secure the start", $"Thread {named}, stripped apart and laid together again. On the back, make two small stitches through the row’s first pleat: through the pleat, never in a valley, where a knot would lift the row. "
            + "What is left of a length is secured so, too."
            + (words == LevelWords.LeftRight ? " The pictures stand upright: held sideways, up is left and down is right." : ""),
            p => p.FromBehind().End(The(MoveKind.Secure).From).Lies(The(MoveKind.Secure)).Lies(The(MoveKind.Secure, 2)).Lies(The(MoveKind.ComeUp)).Through(The(MoveKind.ComeUp))
                .Say("the back", 1.2, -2, strong: false).Say("to the front", 4.5, -1.4, strong: false).Cut(2.7, 2.5));

        yield return new("Begin", $"Come up from the back in the valley between the first two pleats{pleats}. Take the needle back through the first pleat, from {here} to {there}: the thread now leaves its outer side.",
            p => p.GatheringThread().Lies(The(MoveKind.ComeUp)).Needle(begin).Thread(begin).Say("1", 1.5, -2).Say("2", 2.5, -2).Cut(2.7, 2.5));

        yield return new($"The first cable, {Word(level)}", $"{MoveWords.Through($"from {here} to {there}", Needle(level))} Draw the thread down until it lies flat over both pleats: "
            + $"{Phrases.A(Word(level))} cable.",
            p => p.GatheringThread().Needle(cables[0]).Thread(cables[0]).Cut(2.6, 2.6));

        yield return new($"The next, {Word(other)}", $"One pleat on, the same bite, now with {Needle(other)}. Then {Word(level)} again, and {Word(other)}, to the row’s end. "
            + "Every stitch covers two pleats, and every bite lies at one height, a thread’s width from the gathering thread.",
            p => p.Stitched(p.Row(1)).GatheringThread().Needle(cables[1]).Thread(cables[1]).Cut(2.6, 2.6));

        var halves = order.Steps.Sum(s => s.HalfStitches);
        yield return new("The half stitch", (halves > 0
                ? $"Where the directions ask for it (this plate has {Counting.Of(halves, "half stitch", "half stitches")}), "
                : "This plate leaves its edges as they are. Where an edge is to be straight, ")
            + "go once more over the last pleat alone, opposite the end cable. It fills the notch and squares the row off.",
            p => Half(p, level, HandPicture.Half(level, 3)).Cut(2.6, 2.6));

        var second = Second(order, thread);
        var colours = work.Piece.Threads.Count(t => order.Steps.Any(s => s.Thread == t.Key));
        yield return new("Change the colour", (colours > 1 ? "" : "This plate has one colour. ")
            + (order.Way == WayOfWorking.RowByRow ? "A row is finished right across, in all its colours, before the next is begun. " : "Work the lines one after the other as they stand. ")
            + "At the end of a colour the needle goes to the back in the valley before its last pleat; there it is tied off or left hanging in its needle, as the line says. "
            + "The next colour comes up in the next valley, goes back through that same last pleat, and the levels go on as before.",
            p => Changed(p, level, thread, second, colours > 1).Cut(2.7, 2.5));

        yield return new("Turn the work", (order.Turns > 0
                ? $"This plate is turned {Counting.Of(order.Turns, "time")}. To come back along a row, turn the work top to bottom "
                : "This plate is worked without turning. Should you come back along a row, turn the work top to bottom ")
            + $"and go on {Phrases.Way(hand == Hand.Right)}. What was {Word(level)} is now {Word(other)}: the same cable is ringed in figure 9 and here. The lines say turned, and tell the level as you then hold it.",
            p => Mirror(p, level).Turned().Say(Word(other), 6, 3.7, strong: false).Cut(2.5, 4.3));

        var below = EntersBelow(order);
        yield return new("Enter the next row", "Turned, you stand where the row ended. Take the thread along the back, up or down the pleat to the height of the new row, a thread’s width from the last: come up in the valley between its first two pleats and go back through the first. "
            + "Begun over the two pleats just worked, its first cable is held as the last one was; begun a pleat further in or out, the other way.",
            p => Entered(p, level, below).Cut(below ? 2.6 : 4.4, below ? 4.4 : 2.6));

        yield return new("The mirror row", $"The new row touches the last and mirrors it: over the same pleats, where one has {Phrases.A(Word(level))} cable, the other has {Phrases.A(Word(other))} cable. They lie end to end, brick on brick, "
            + "and no cloth shows.",
            p => Mirror(p, level).Say(Word(level), 2, -1.7, strong: false).Cut(2.5, 4.3));

        yield return new("Tie off", "Go down in the valley before the last pleat. Look at the back: cable once or twice over the pleats just worked, as in front, and cut the thread a fingertip long. No knots. Where the line says on or hang, do not tie off: the thread stays at the back in its needle.",
            p => p.FromBehind().GatheringThread().Through(The(MoveKind.GoDown)).Lies(The(MoveKind.TieOff)).Lies(The(MoveKind.TieOff, 2)).End(The(MoveKind.TieOff, 2).Out)
                .Say("the back", 6.8, -2, strong: false).Say("from the front", 2.3, -1.7, strong: false).Cut(2.6, 2.6));

        var back = order.Backsmock;
        yield return new("Backsmocking", (back.Rows.IsEmpty ? "This plate has none. " : $"Before the picture, {Counting.Of(back.Rows.Select(r => r.Row).Distinct().Count(), "gathering row")} of this plate {(back.Rows.Length == 1 ? "is" : "are")} cabled on the back. ")
            + $"Turn the cloth over and cable along the gathering thread with {Counting.Of(Backsmock.Strands, "strand")} near the cloth’s colour, up and down as in front. Take the back of each pleat and no more: nothing shows on the right side.",
            p => p.Stitched(p.Row(2)).GatheringThread().Needle(cables[2]).Thread(cables[2]).Say("the back", 1.2, -2, strong: false).Cut(2.7, 2.5))
        { Thread = back.Thread };

        yield return new("Keep the count", $"Count each row when it is done, and again where it meets a gathering row: those rows are the checks. A carried thread passes at most {Counting.Of(work.Piece.Working.CarryPleats, "pleat")} "
            + $"on the back{(work.Piece.Working.CarryPleats > Carries.MostFloated ? $"; past {Carries.MostFloated} it is cabled across" : "")}. A wrong stitch is drawn out with the eye of the needle, never cut.",
            p => Counted(p, level).Cut(2.8, 2.8));
    }

    // The thread that is worked next in another colour; where there is none, a paler one of the kind.
    private static Floss Second(WorkingOrder order, Floss thread)
    {
        var next = order.Steps.FirstOrDefault(s => s.Thread != thread.Key)?.Thread;
        return (next is { } key ? order.Work.Piece.Thread(key) : null)
            ?? thread with { Key = new ThreadKey(thread.Key.Letter == 'z' ? 'a' : 'z'), Colour = Look.Lighter(thread.Colour, 0.55) };
    }

    // Whether the first row that is worked back lies below the one before it, as held.
    private static bool EntersBelow(WorkingOrder order)
    {
        for (var i = 1; i < order.Steps.Length; i++)
        {
            var (before, step) = (order.Steps[i - 1], order.Steps[i]);
            if (step.Turned && !before.Turned && step.Row != before.Row) return step.Row.Index < before.Row.Index;
        }
        return true;
    }

    private static HandPicture Changed(HandPicture p, Level level, Floss thread, Floss second, bool named)
    {
        var steps = HandPicture.Worked(level, [".aaabb."]);
        Move Of(int step, MoveKind kind) => steps[step].Moves.First(m => m.Kind == kind);
        p.Stitched(p.Row(3)).GatheringThread().Hangs(Of(0, MoveKind.GoDown));
        p.With(second).Lies(Of(1, MoveKind.ComeUp)).Needle(Of(1, MoveKind.Begin)).Thread(Of(1, MoveKind.Begin));
        return named ? p.Say(thread.Key.ToString(), 3, -2).Say(second.Key.ToString(), 6, -2) : p;
    }

    private static HandPicture Entered(HandPicture p, Level level, bool below)
    {
        // Held turned the row lies one pleat further on, and what lies above it on the chart is below.
        var next = HandPicture.Worked(level, ["aaaaaa.", "aaaaaa."], first: below ? 1 : 0)[1].Moves;
        Move The(MoveKind kind) => next.First(m => m.Kind == kind);
        p.Stitched(p.Row(6));
        if (below) p.GatheringThread();
        return p.AsTurned().Lies(The(MoveKind.Carry)).Needle(The(MoveKind.Begin)).Thread(The(MoveKind.Begin));
    }

    private static HandPicture Mirror(HandPicture p, Level level) =>
        p.Stitched(p.Row(6), p.Row(6)).GatheringThread().Ring(1, 2, level == Level.Up ? -1 : 0, 1);

    private static HandPicture Half(HandPicture p, Level level, Move half)
    {
        // Three cables: the last lies as the first, over pleats 4 and 5, and the notch is on the other line.
        var notch = level == Level.Up ? 0 : -1;
        return p.Stitched(p.Row(3)).GatheringThread().Needle(half).Thread(half).Ring(4, 1, notch, 1);
    }

    private static HandPicture Counted(HandPicture p, Level level)
    {
        p.Stitched(p.Row(6)).GatheringThread();
        for (var i = 0; i < 6; i++) p.Say((i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture), i + 2, (i % 2 == 0) == (level == Level.Up) ? -2.1 : 2.1);
        return p;
    }

    private static string Pleats(WorkingOrder order, Step step)
    {
        var right = order.TravelsRight(step);
        var first = right ? step.From.LeftPleat.Number : step.From.RightPleat.Number;
        return $" (here pleats {first} and {(right ? first + 1 : first - 1)})";
    }
}
