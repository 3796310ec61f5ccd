using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Measure;
using Pleatwright.Moves;
using Pleatwright.Thread;

namespace Pleatwright.Order.Telling;

/// <summary>
/// The moves of the needle in words, a sentence a move. The directions, the handout and the captions of moving pictures say them alike, for they are
/// said here.
/// </summary>
/// <param name="words">The words for levels, sides and ways.</param>
internal sealed class MoveWords(Vocabulary words)
{
    /// <summary>How a thread is secured.</summary>
    public const string Securing = "on the back with two small stitches through the first pleat, never in a valley";

    /// <summary>How the needle comes up.</summary>
    public const string ComingUp = "Bring the needle to the front in the valley between the first two pleats";

    /// <summary>How every row begins; said after <see cref="ComingUp"/>.</summary>
    public static string Beginning { get; } = Begins("it", "the first");

    private static string Begins(string needle, string pleat) => $"take {needle} back through {pleat} so that the thread leaves its outer side";

    /// <summary>How the needle goes down.</summary>
    public const string GoingDown = "take the needle to the back in the valley";

    /// <summary>How a thread is tied off.</summary>
    public const string TyingOff = "make one or two small cables on the back, through pleats";

    /// <summary>How a thread is laid by.</summary>
    public const string Waiting = "Leave the thread hanging at the back.";

    /// <summary>"The same thread r, carried on the back 1 cable row along the pleat."</summary>
    public static string Same(ThreadKey key, double rows, int pleats) => $"The same thread {key}{Vocabulary.Carried(rows, pleats)}.";

    /// <summary>"Take up the thread r".</summary>
    public static string TakingUp(ThreadKey key) => $"Take up the thread {key}";

    /// <summary>"Needle through the next pleat, from right to left, with the thread above the needle."</summary>
    /// <param name="way">The way the needle goes, in words.</param>
    /// <param name="thread">On which side the thread is, in words; empty for on none.</param>
    /// <param name="pleat">Which pleat.</param>
    public static string Through(string way, string thread, string pleat = "the next pleat") => $"Needle through {pleat}, {way}{(thread.Length > 0 ? $", with {thread}" : "")}.";

    /// <summary>A caption for each move of a passage.</summary>
    /// <param name="passage">The moves.</param>
    /// <param name="gauge">How the cloth is gathered.</param>
    /// <param name="accents">The accents it works, for their own words.</param>
    public ImmutableArray<string> Of(Passage passage, Cloth.Gauge gauge, ImmutableArray<LaidAccent> accents) => [.. passage.Moves.Select((move, i) => Of(passage, i, gauge, accents))];

    private string Of(Passage passage, int index, Cloth.Gauge gauge, ImmutableArray<LaidAccent> accents)
    {
        var move = passage.Moves[index];
        var key = passage.Thread.Key;
        var level = passage.Held(move) ?? Level.Up;
        var word = words.Level(level);
        // The needle goes through a pleat against the way of the stitches; a loop's along it.
        var needle = words.Way(passage.Rightward(move.Lies) == (move.Kind == MoveKind.Loop));
        var thread = $"the thread {words.Needle(level)}";
        var rises = move.Out.Height < move.From.Height != passage.Turned;
        return move.Kind switch
        {
            MoveKind.Turn => passage.Turned ? $"Turn the work: {words.Edge(true)}." : words.TurnBack,
            MoveKind.Secure => move.Time.Number == 1 ? $"Secure the thread {Securing}: the first of them." : "The second small stitch, beside the first.",
            MoveKind.LeaveHalf => "Leave half of the needleful hanging there at the back.",
            MoveKind.TakeUp => $"{TakingUp(key)} left hanging.",
            MoveKind.Carry => Same(key, (move.In.Height - move.From.Height) / gauge.CableRowHeight, (int)Math.Round(move.In.Across - move.From.Across)),
            MoveKind.Across => $"{(move.Time.Number == 1 ? Same(key, 0, move.Time.Of + 1)[..^1] : "Across on the back")}: small cable {move.Time.Number} of {move.Time.Of}. {Through(words.Way(Rightward(move, passage)), thread)}",
            MoveKind.ComeUp => $"{ComingUp}.",
            MoveKind.Begin => $"{Begins("the needle", "the first pleat").Capital()}.",
            MoveKind.Cable => $"{Phrases.A(word).Capital()} cable. {Through(needle, thread)}",
            MoveKind.Half => $"{words.Half(level, first: passage.Moves[index - 1].Kind == MoveKind.Begin).Capital()}. {Through(needle, thread, "that pleat")}",
            MoveKind.Rope => Through(needle, thread),
            MoveKind.Step => $"A step {Way(rises)}. {Through(needle, thread)}",
            MoveKind.Bar => $"A bar {Way(rises)}, over one pleat. {Through(needle, "", "that pleat")}",
            MoveKind.Catch => $"{Phrases.A(word).Capital()} catch: the first of its two small stitches. {Through(needle, "", "both pleats")}",
            MoveKind.CatchAgain => $"The second, in the same place. {Through(needle, "", "the pleat ahead")}",
            MoveKind.Slip => $"{(move.Stitch == move.LastStitch ? "" : "The second, in the same place. ")}A slip {Way(rises)}: the needle inside the fold of the pleat ahead.",
            MoveKind.Loop => $"A loop {Way(rises)}. {Through(needle, "", "two pleats")} Draw it out over the loop of thread.",
            MoveKind.Accent => Part(accents[move.Stitch].Accent, move.Part),
            MoveKind.GoDown => $"{GoingDown.Capital()} before the last pleat.",
            MoveKind.Wait => Waiting,
            _ => move.Time.Number == 1 ? $"To tie off, {TyingOff}: the first of them." : "The second small cable; then cut the thread a fingertip long.",
        };
    }

    // Whether the needle goes from left to right, as held and as the face it is on is seen.
    private static bool Rightward(Move move, Passage passage) => move.Out.Across > move.In.Across != passage.Turned != (move.Lies == ClothSide.Wrong);

    private string Way(bool rises) => words.Level(rises ? Level.Up : Level.Down);

    // A part of a sentence as a sentence of its own.
    private string Part(Accent accent, int part)
    {
        var told = words.Manner(accent.Parts[part].Words).Trim().TrimEnd(',', ';', '.');
        foreach (var and in (ReadOnlySpan<string>)["and ", "then "]) if (told.StartsWith(and, StringComparison.Ordinal)) told = told[and.Length..];
        return Sentences.Of(told);
    }
}
