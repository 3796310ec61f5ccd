using System.Collections.Immutable;
using System.Text;
using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Order.Telling;

/// <summary>The facts in sentences, for learners and screen readers: every step and every copy in full.</summary>
/// <param name="order">The order they tell.</param>
/// <param name="words">The words.</param>
/// <param name="units">Units of lengths.</param>
internal sealed class LongWords(WorkingOrder order, Vocabulary words, UnitSystem units)
{
    private readonly bool rightHanded = order.Work.Piece.Working.Hand == Hand.Right;

    /// <summary>A paragraph for each fact, and a heading where a new part begins.</summary>
    public ImmutableArray<Direction> Write(ImmutableArray<Told> told) => [.. told.SelectMany(t => Of(t))];

    /// <summary>A fact in paragraphs.</summary>
    public ImmutableArray<Direction> Of(Told told) => told switch
    {
        Opening o => [Remark(Opens(o))],
        BackOpening o => [Heading("First, on the back"), Remark(BackOpens(o))],
        BackLine l => [new(DirectionKind.Step, Line(l), null) { Back = l.Row }],
        RightSideUp => [Remark($"Turn the work over again: right side up, {words.Edge(false)}.")],
        BandOpening o => [Heading($"{o.Band.Stitch.Name.Capital()}, thread {o.Band.Band.Thread}"), Remark(Opens(o))],
        BandLine l => [new(DirectionKind.Step, Line(l), null) { Band = l.Step }],
        BandCheck c => [new(DirectionKind.LevelCheck, Check(c), null)],
        TurnedBack => [Remark(words.TurnBack)],
        RunsOpening => [Heading("The runs"), Remark(RunsOpen())],
        UnkeptPlace u => [Remark(Unkept(u))],
        PartOpening o => [Heading(Opens(o))],
        RunLine l => [new(DirectionKind.Step, Line(l), l.Step)],
        Squeezed s => [new(DirectionKind.Remark, "This run is squeezed between two finished rows, for a run is fixed to its place in the order. Ease the needle in between them.", s.Step)],
        RowCount c => [new(DirectionKind.Remark, Count(c), c.Step)],
        RowCheck c => [new(DirectionKind.LevelCheck, Check(c), c.Step)],
        Closing c => [Remark(Closes(c))],
        AccentOpening o => [Heading("Last, the accents"), .. o.Kinds.Select(k => Remark($"{k.Name.Capital()}: {words.Manner(k.Manner)}"))],
        AccentLine l => [new(DirectionKind.Step, Line(l), null) { Accents = l.Laid }],
        _ => throw new ArgumentException($"The long words tell every copy in full; they have none for {told.GetType().Name}.", nameof(told)),
    };

    private static Direction Remark(string text) => new(DirectionKind.Remark, text, null);

    private static Direction Heading(string text) => new(DirectionKind.Heading, text, null);

    /// <summary>How the work is held, counted and spoken of: the table says the same.</summary>
    public string Opens(Opening o) =>
        $"There are {o.Pleats} pleats, numbered 1 to {o.Pleats} {(words.Sideways ? "from near to far" : "from left to right")} with the right side and the {words.Edge(false)}. "
        + $"The centre is the valley between pleats {o.Centre} and {o.Centre + 1}; the pleat on either side of it is the first from the centre. "
        + $"There {(o.PerSpace == 1 ? "is 1 cable row" : $"are {o.PerSpace} cable rows")} to a space; row 0 lies on gathering row 1, and rows are numbered toward the bottom edge. "
        + $"{(words.Sideways ? "The work is held sideways. " : "")}Cables go {words.Way(rightHanded)}. "
        + $"For {Phrases.A(words.Level(Level.Up))} cable the thread is {words.Needle(Level.Up)}, for {Phrases.A(words.Level(Level.Down))} cable {words.Needle(Level.Down)}; along a run they alternate. "
        + (o.Turns ? $"Where it says turned, hold the work with the {words.Edge(true)}; where it does not, with the {words.Edge(false)}. " : "")
        + "Every side, level and way is told as you hold the work."
        + (o.Halves ? " A half stitch squares the end of a run: before its first cable, or after its last, the needle goes through the end pleat alone, with the thread on the other side of the needle than for the cable beside it." : "");

    private string BackOpens(BackOpening o) =>
        $"Backsmocking holds the pleats {(o.Gaps ? "where no stitching on the front does" : "behind the picture")}. Turn the work over: wrong side up, {words.Edge(false)}. "
        + $"Cable along the gathering threads with {Counting.Of(Backsmock.Strands, "strand")} near the colour of the cloth. Take shallow bites, so that nothing shows on the front. Pleats keep their numbers.";

    private string Line(BackLine l)
    {
        var row = l.Row;
        return words.Turning(row.Turned, WasTurned(row)) + $"On the back, {row.Row}{(row.Turned ? ", turned" : "")}. "
            + (l.CarriedRows > 0 ? $"The same thread{Vocabulary.Carried(l.CarriedRows, row.CarriedPleats)}. " : "Start a new needleful. ")
            + $"From {Place(l.From, row.Begin.Number)} to {Place(l.To, row.End.Number)}: {Counting.Of(row.Cables, "cable")} with {(row.Needlefuls == 0 ? "what is left of it" : Counting.Of(row.Needlefuls, "new needleful"))}. "
            + (row.KeepsThread ? "Keep the thread for the next step." : "Tie off.");
    }

    private bool WasTurned(BackRow row)
    {
        var at = order.Backsmock.Rows.IndexOf(row);
        return at > 0 && order.Backsmock.Rows[at - 1].Turned;
    }

    private string Opens(BandOpening o)
    {
        var band = o.Band;
        var text = new StringBuilder(words.Manner(band.Stitch.Manner));
        if (o.Slopes) text.Append($" The thread is {words.Needle(Level.Down)} for what slopes {words.Level(Level.Up)} and {words.Needle(Level.Up)} for what slopes {words.Level(Level.Down)}.");
        if (!o.Sides.IsEmpty) text.Append($" Books disagree on which side of the needle outline and stem have the thread; here it {words.Sides(o.Sides)}.");
        if (band.Fit.Repeat > 1)
        {
            text.Append($" One repeat is {Counting.Of(band.Fit.Repeat, "valley")}; {Counting.Of(band.Fit.Repeats, "whole repeat")} fit");
            text.Append(band.Fit.IsExact ? ", and both ends come out alike."
                : band.Band.Ends == BandEnds.Cut ? ", and at both ends a part of one, alike."
                : band.Fit.EndsAlike ? $", with {Counting.Of(band.Fit.Spare / 2, "pleat")} left bare at each side." : ".");
        }
        if (o.Rightward is { } rightward) text.Append($" It is worked the other way than cables, {words.Way(rightward)}.");
        text.Append($" On the back it leaves {band.Stitch.Back}.");
        return text.ToString();
    }

    private string Line(BandLine l)
    {
        var step = l.Step;
        var turned = step.Pass.Turned;
        var text = new StringBuilder(words.Turning(turned, l.WasTurned));
        text.Append($"Band step {l.Number}. {step.Band.Stitch.Name.Capital()}");
        if (l.Time.Of > 1) text.Append($", time {l.Time.Row} of {l.Time.Of}");
        if (l.Journey.Of > 1) text.Append($", journey {l.Journey.Journey} of {l.Journey.Of}");
        text.Append(l.Slope == 0 ? $", at {Vocabulary.Long(l.Highest)}" : $", between {Vocabulary.Long(l.Highest)} and {Vocabulary.Long(l.Lowest)}");
        text.Append(turned ? ", turned. " : ". ");
        var thread = Vocabulary.Thread(order.Work.Piece.Thread(step.Band.Band.Thread)!);
        var needleful = step.Threads ? $"a new needleful of {thread}" : $"what was left of {step.Band.Band.Thread} after band step {step.RestFrom}";
        text.Append(step.Thread switch
        {
            BandThread.NewWithTail => $"Start at the centre with {needleful}; leave half of it hanging there at the back. ",
            BandThread.Tail => $"Thread the half of {step.Band.Band.Thread} left hanging at the centre and go on from the centre stitch. ",
            BandThread.GoesOn => $"Go on with {needleful}. ",
            BandThread.Carry => $"{MoveWords.Same(step.Band.Band.Thread, l.CarriedRows, step.CarriedPleats)} ",
            _ when step.Band.Stitch.StartOf(step.Band.Band) != WorkFrom.Centre => $"Start with {needleful}. ",
            _ when step.Pass.GoesOn => $"Start with {needleful} and go on from the centre stitch. ",
            _ => $"Start at the centre with {needleful}. ",
        });
        text.Append($"From {Place(l.From, step.Begin.From.Pleat.Number)} to {Place(l.To, step.End.To.Pleat.Number)}");
        if (l.Slope > 0) text.Append($", beginning {Begins(l)}");
        text.Append($": {Counting.Of(step.Count, "stitch", "stitches")}, {words.Of(l.Pattern)}. ");
        text.Append(!step.TieOff ? "Keep the thread for the next step." : step.Continues ? "The thread ends here: tie off." : "Tie off.");
        return text.ToString();
    }

    /// <summary>"0 of 3 down": how far down its slope a step begins, as held.</summary>
    public string Begins(BandLine l) => $"{l.Start} of {l.Slope} {words.Level(Level.Down)}";

    private static string Check(BandCheck c) =>
        $"Level check: it lies on gathering {(c.Rows.Length == 1 ? "row" : "rows")} {string.Join(" and ", c.Rows)}; keep a thread's width from the gathering thread all along.";

    /// <summary>How every run is worked and its thread secured.</summary>
    public static string RunsOpen() =>
        $"Every run is worked alike. If the work is not held so already, turn it first. Secure a new thread, or a rest, {MoveWords.Securing}; carry a thread kept or left hanging to it on the back, and past {Carries.MostFloated} pleats sideways cable across with it. "
        + $"{MoveWords.ComingUp}, {MoveWords.Beginning}, cable to the last pleat, and {MoveWords.GoingDown} before it. "
        + $"To tie off, {MoveWords.TyingOff}. A thread kept or left hanging stays on the back in its needle.";

    /// <summary>A pin that cannot be kept.</summary>
    public string Unkept(UnkeptPlace u) =>
        $"The run over the valley {words.Long(Middle.Of(order.Work).To(u.Pin.Valley, false))}, row {u.Pin.Row.Index}, {Lies(u.At)}, was to be number {u.Pin.Place} among the runs, where a run worked with several threads counts once. "
        + "That cannot be kept: no run lies there, another has the place, or the order has fewer runs.";

    private string Opens(PartOpening o)
    {
        var text = o.Way switch
        {
            0 => $"Base row, {Lies(o.Base)}",
            _ when o.Again => $"Back {Vocabulary.Toward(o.Way)}",
            _ => $"From the {(o.OnBorder ? "border" : "base row")} {Vocabulary.Toward(o.Way)}",
        };
        if (o.Pinned) return $"Pleats {words.Long(o.From)} to {words.Long(o.To)}";
        return o.Alone ? text : $"Pleats {words.Long(o.From)} to {words.Long(o.To)}: {text.Uncapital()}";
    }

    private static string Lies(Height height) => height is { Eighths: 0, Rows: 0 } ? $"on {height.From}" : Vocabulary.Long(height);

    private string Line(RunLine l)
    {
        var step = l.Step;
        var text = new StringBuilder(words.Turning(step.Turned, l.WasTurned ?? step.Turned));
        text.Append($"Row {step.Row.Index}, {Lies(l.At)}{(step.Turned ? ", turned. " : ". ")}");
        text.Append(Thread(l)).Append(' ');
        text.Append($"From {Place(l.From, l.Pleats!.Value.From)} to {Place(l.To, l.Pleats!.Value.To)}: ");
        if (step.HalfAtBegin) text.Append($"{words.Half(step.HeldBegin.Opposite(), first: true)}, then ");
        text.Append(Counting.Of(step.Cables, "cable")).Append(step.Cables == 1 ? ", " : ", the first ").Append(words.Level(step.HeldBegin));
        if (step.Turned) text.Append($" (on the chart {words.Level(step.Begin)})");
        if (step.Cables > 1) text.Append($", the last {words.Level(step.HeldEnd)}");
        if (step.HalfAtEnd) text.Append($", then {words.Half(step.HeldEnd.Opposite(), first: false)}");
        text.Append(". ").Append(l.Goes switch
        {
            Going.UsedUp => $"Here about {Phrases.Roughly(step.Left, units)} of the thread is left: tie off.",
            Going.TiedOff => "Tie off.",
            Going.Hanging => MoveWords.Waiting,
            _ => "Keep the thread for the next step.",
        });
        text.Append($" So far {Counting.Of(l.Cables, "cable")}, {Counting.Of(l.Needlefuls, "needleful")}.");
        return text.ToString();
    }

    private string Thread(RunLine l)
    {
        var (step, key) = (l.Step, l.Step.Thread);
        var start = step.Continues ? "Go on in the same run with" : "Start with";
        return l.Comes switch
        {
            Coming.Rest => $"{start} what was left of {key} after step {l.Before}.",
            Coming.New => $"{start} a new needleful of {Vocabulary.Thread(l.Thread)}{(l.Longer > Length.Zero ? $", cut {l.Longer.Say(units)} longer" : "")}.",
            Coming.Same => MoveWords.Same(key, step.CarriedRows, step.CarriedPleats),
            _ => $"{MoveWords.TakingUp(key)} left hanging after step {l.Before}, {words.Long(l.Hangs)}{Vocabulary.Carried(step.CarriedRows, step.CarriedPleats)}.",
        };
    }

    private static string Count(RowCount c) => $"That completes the row: {Counting.Of(c.Cables, "cable")} in {c.Runs} runs.";

    private static string Check(RowCheck c) => c.IsBase
        ? $"This row lies along gathering row {c.Row}: keep it level with that thread, a thread's width away from it all along."
        : $"Level check: this row meets gathering row {c.Row}. If it drifts, ease it back over the next few cable rows.";

    /// <summary>What all runs come to.</summary>
    public static string Closes(Closing c) =>
        $"Done: {Counting.Of(c.Cables, "cable")}{(c.Halves == 0 ? "" : $" and {Counting.Of(c.Halves, "half stitch", "half stitches")}")}, {Counting.Of(c.Needlefuls, "needleful")}{(c.Turns == 0 ? "" : $", {Counting.Of(c.Turns, "turn")} of the work")}.";

    private string Line(AccentLine l)
    {
        var laid = l.Laid[0];
        var places = l.Valleys.Select(v => v.Flank == Flank.Neither ? "the centre valley" : words.Long(v)).ToList();
        return $"{laid.Accent.Name.Capital()} in {Vocabulary.Thread(l.Thread)}, at {Vocabulary.Long(l.At)}: "
            + (laid.Size > 0 ? $"{Counting.Of(laid.Size, "pleat")} long{(laid.Mark.Upright ? ", along the valley" : "")}, " : "")
            + $"{Vocabulary.Number(l.Laid.Length)} in all, in {(l.Laid.Length == 1 && l.Valleys[0].Flank == Flank.Neither ? "" : l.Laid.Length == 1 ? "the valley " : "the valleys ")}{Vocabulary.List(places)}. "
            + $"Begin and fasten each on the back by itself; together they take {Counting.Of(l.Needlefuls, "new needleful")}.";
    }

    private string Place(Away away, int pleat) => $"{words.Long(away)} (pleat {Vocabulary.Number(pleat)})";
}
