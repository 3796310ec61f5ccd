using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>A run laid or taken out by steps, for a hand that cannot draw it: its row, its ends, its thread.</summary>
public sealed class RunDraft : PieceDraft
{
    private const string RowField = "Cable row", FromField = "From valley", ToField = "To valley";

    private readonly Needle needle;
    private string? figure;
    private bool leftOut;

    private RunDraft(Desk desk, Needle needle) : base(desk)
    {
        this.needle = needle;
        (Row, From, To, Thread) = (needle.Row, needle.Valley, needle.Valley, needle.Thread ?? desk.Piece.Threads.FirstOrDefault()?.Key);
        foreach (var run in desk.Work.Runs)
            if (run.Row == Row && run.From.Number <= From.Number && run.To.Number >= From.Number)
            {
                (From, To, Thread) = (run.From, run.To, desk.Work.ThreadAt(From, Row));
                break;
            }
    }

    /// <summary>A run where the hand is: the one that lies there, else one stitch in the thread in hand.</summary>
    public static RunDraft Open(Desk desk, Needle needle) => new(desk, needle);

    /// <summary>Its row.</summary>
    public CableRow Row { get; private set; }

    /// <summary>One end.</summary>
    public Valley From { get; private set; }

    /// <summary>The other end.</summary>
    public Valley To { get; private set; }

    /// <summary>Its thread; null when the piece has none.</summary>
    public ThreadKey? Thread { get; private set; }

    /// <summary>Whether it is taken out, and not laid.</summary>
    public bool Out { get; private set; }

    /// <summary>What it comes to, as sentences.</summary>
    public string Comes
    {
        get
        {
            if (!Desk.Work.OnCloth(Left, Row)) return "";
            var cables = Right.Number - Left.Number + 1;
            var level = Lattice.LevelAt(Left, Row, (Laid ?? Desk.Work).PhaseAt(Left, Row)) == Level.Up ? "an up" : "a down";
            return $"{Where.Of(Desk.Work, Row)}. {Words.Of(cables, "cable")} over {Words.Of(cables + 1, "pleat")}, from {level} cable at the left.{(leftOut ? $" {Needle.OtherPhase}" : "")}";
        }
    }

    public void SetRow(string? text) => Whole(RowField, text, n => Row = new CableRow(n));

    public void SetFrom(string? text) => Whole(FromField, text, n => From = new Valley(n));

    public void SetTo(string? text) => Whole(ToField, text, n => To = new Valley(n));

    public void SetThread(string? letter)
    {
        if (ThreadDraft.TryKey(letter, out var key)) Step(() => Thread = key);
    }

    /// <summary>Lays it, or takes it out.</summary>
    public void SetOut(bool taken) => Step(() => Out = taken);

    /// <summary>So many rows down; it stays on the cloth.</summary>
    public void StepRow(int by) => Step(() => Row = new CableRow(Math.Clamp(Row.Index + by, 0, Desk.Work.CableRows - 1)), RowField);

    /// <summary>One end so many valleys to the right.</summary>
    public void StepFrom(int by) => Step(() => From = OnCloth(From.Number + by), FromField);

    /// <summary>The other end so many valleys to the right.</summary>
    public void StepTo(int by) => Step(() => To = OnCloth(To.Number + by), ToField);

    /// <summary>The thread so many further in the key.</summary>
    public void StepThread(int by)
    {
        var threads = Desk.Piece.Threads;
        if (threads.IsEmpty) return;
        var at = 0;
        while (at < threads.Length && threads[at].Key != Thread) at++;
        Step(() => Thread = threads[((at < threads.Length ? at + by : 0) % threads.Length + threads.Length) % threads.Length].Key);
    }

    /// <summary>Lays it or takes it out, as one edit; the form goes on.</summary>
    public bool Do()
    {
        if (!Keep()) return false;
        needle.Drew(Out ? null : figure);
        Desk.Say(Out ? "The run is taken out." : "The run is laid.");
        Answered();
        return true;
    }

    private protected override string Edit => Out ? "clearing" : "a run";

    private protected override string? Wrong(Piece piece)
    {
        var work = Desk.Work;
        if (!Out && Thread is null) return "A run wants a thread: add one first.";
        if (Row.Index < 0 || Row.Index >= work.CableRows) return $"Cable rows run from 0 to {Words.Of(work.CableRows - 1)}.";
        return Left.Number < 1 || Right.Number > work.Valleys ? $"Valleys run from 1 to {Words.Of(work.Valleys)}." : null;
    }

    private protected override Piece With(Piece piece)
    {
        var cells = Enumerable.Range(Left.Number, Right.Number - Left.Number + 1).Select(v => (new Valley(v), Row)).ToList();
        (figure, leftOut) = (null, false);
        if (Out) return Clear.Cables(piece, needle.Both(cells));
        (piece, figure, leftOut) = needle.Drawn(piece, needle.FigureFor(piece, Left, Row), cells, Thread!.Value);
        return piece;
    }

    private Valley Left => From.Number <= To.Number ? From : To;

    private Valley Right => From.Number <= To.Number ? To : From;

    private Valley OnCloth(int valley) => new(Math.Clamp(valley, 1, Desk.Work.Valleys));

    private void Step(Action step, string field = "")
    {
        Unread.Forget(field);
        var (from, to) = (From, To);
        step();
        needle.GoTo(from != From && to == To ? From : To, Row); // the hand is where the step went
        Answered();
    }

    private void Whole(string field, string? text, Action<int> set)
    {
        if (Unread.Whole(field, text, out var n)) Step(() => set(n), field);
        else Answered();
    }
}
