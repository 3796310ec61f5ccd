using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Measure;
using Pleatwright.Order;
using Pleatwright.Proof;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model;

/// <summary>The piece on the table and all that follows from it: laid out, proofread, ordered, counted.</summary>
public sealed class Desk
{
    private const int FewRuns = 1_500; // so many are ordered in a few milliseconds
    private static readonly TimeSpan Rest = TimeSpan.FromMilliseconds(600), LongRest = TimeSpan.FromSeconds(10);

    private readonly TimeProvider time;
    private WorkingOrder? order;
    private WorkingOrder? drawn;  // the last quick order, of an earlier state
    private readonly IOrders? orders;
    private Task? seeking;
    private Work? sought; // whose order is being sought
    private CancellationTokenSource stop = new();
    private WorkingOrder? rested; // the last order planned with the hand at rest, maybe of an earlier state
    private ImmutableArray<ThreadAmount>? amounts;
    private bool orderDue;
    private int shows;
    private string drafted = ""; // what the stroke under way is called
    private string uncut = "";

    /// <summary>Opens a piece on an empty table.</summary>
    /// <param name="time">The clock.</param>
    /// <param name="orders">Where orders are planned with the care of the commands; without it they are planned here, with less.</param>
    public Desk(TimeProvider time, IOrders? orders = null)
    {
        (this.time, this.orders) = (time, orders);
        Open(Examples.Read(Examples.First));
    }

    /// <summary>How hard the order is searched here, where it cannot be planned with the care of the commands.</summary>
    internal Effort AtRest { get; init; } = Effort.Resting;

    /// <summary>Every moment of the piece since it was opened.</summary>
    public History History { get; private set; } = null!;

    /// <summary>The piece as shown; ahead of <see cref="History"/> while a stroke is being drawn.</summary>
    public Piece Piece { get; private set; } = null!;

    /// <summary>The piece laid out.</summary>
    public Work Work { get; private set; } = null!;

    /// <summary>What the proof found.</summary>
    public ImmutableArray<Finding> Findings { get; private set; } = [];

    /// <summary>
    /// The working order of <see cref="Work"/>: a quick one while the hand moves; once it rests, or <see cref="SettleAsync"/> was
    /// called, the one that the commands give.
    /// </summary>
    public WorkingOrder Order => order ??= drawn = Plan(drawn, Effort.Drawing);

    /// <summary>What to buy and cut of each thread, in the order of the key; no skeins of one whose skein gives no needleful, which is said.</summary>
    public ImmutableArray<ThreadAmount> Amounts => amounts is { } a ? a : (amounts = Cut()).Value;

    /// <summary>Raised when the piece has changed, its layout and its proof with it.</summary>
    public event Action? Changed;

    /// <summary>Raised after <see cref="Changed"/>, once the cloth is painted, when the order and the amounts are known again.</summary>
    public event Action? Ordered;

    /// <summary>Raised once the hand has rested a moment after the last change: what would disturb it while it draws waits for this.</summary>
    public event Action? Rested;

    /// <summary>Raised after another piece was put on the table, before <see cref="Changed"/>.</summary>
    public event Action? Opened;

    /// <summary>Raised when the bench has something to say to the maker; read aloud by screen readers.</summary>
    public event Action<string>? Said;

    /// <summary>Raised after an edit that makes other cloth to stitch of the piece: no stitch of it is where it was.</summary>
    public event Action? CutAnew;

    /// <summary>Puts a piece on the table, with nothing to undo.</summary>
    public void Open(Piece piece) => Open(new History(piece));

    /// <summary>
    /// Puts a piece on the table with its history. A stroke under way is let go: who opens keeps it first with <see cref="KeepDraft"/>,
    /// while it still belongs to the piece that is kept.
    /// </summary>
    public void Open(History history)
    {
        History = history;
        Lay(history.Now.Piece);
        Opened?.Invoke();
        Changed?.Invoke();
        OrderSoon();
    }

    /// <summary>Puts older moments, just read from the journal, before all that is known.</summary>
    public void Recall(ImmutableArray<Moment> older)
    {
        History = History.From([.. older, .. History.Past.Reverse(), History.Now, .. History.Future], older.Length + History.Past.Count());
        Changed?.Invoke();
    }

    /// <summary>Shows an edited piece without keeping it yet: a stroke under way.</summary>
    /// <param name="piece">The edited piece.</param>
    /// <param name="edit">What is being done, should it be kept before it is done.</param>
    /// <returns>False when the piece cannot be laid out; nothing is changed then and the maker is told why.</returns>
    public bool Draft(Piece piece, string edit = "")
    {
        drafted = edit;
        if (ReferenceEquals(piece, Piece)) return true;
        try
        {
            // what was taken on large may grow on
            if (Outlay.Of(piece) is { } dear && Outlay.Of(Piece) is null) throw new ArgumentException(dear.Words);
            Show(piece);
            return true;
        }
        catch (ArgumentException e)
        {
            Say(Sentences.Of(e.Why()));
            return false;
        }
    }

    /// <summary>Keeps what is shown as one moment of the history.</summary>
    public void Keep(string edit)
    {
        if (ReferenceEquals(Piece, History.Now.Piece)) return;
        History = History.Do(Piece, edit);
        Changed?.Invoke();
    }

    /// <summary>Keeps a stroke under way, so that what comes between loses nothing of it.</summary>
    public void KeepDraft() => Keep(drafted);

    /// <summary>Lets the stroke under way go.</summary>
    public void Drop() => Draft(History.Now.Piece);

    /// <summary>Makes one edit and keeps it.</summary>
    public void Edit(string edit, Func<Piece, Piece> change, bool anew = false)
    {
        KeepDraft();
        Piece changed;
        try { changed = change(Piece); }
        catch (ArgumentException e) { Say(Sentences.Of(e.Why())); return; }
        if (!Draft(changed)) return;
        Keep(edit);
        if (anew) CutAnew?.Invoke();
    }

    /// <summary>Undoes the last edit.</summary>
    public void Undo()
    {
        KeepDraft();
        if (!History.CanUndo) { Say("Nothing to undo."); return; }
        var undone = History.Now.Edit;
        History = History.Undo();
        Show(History.Now.Piece);
        Say($"Undone: {undone}.");
    }

    /// <summary>Redoes the edit last undone.</summary>
    public void Redo()
    {
        KeepDraft();
        if (!History.CanRedo) { Say("Nothing to redo."); return; }
        History = History.Redo();
        Show(History.Now.Piece);
        Say($"Done again: {History.Now.Edit}.");
    }

    /// <summary>How far the search for the order has come, 0 to 1; null when none is under way.</summary>
    public double? Sought { get; private set; }

    /// <summary>Raised when <see cref="Sought"/> has changed.</summary>
    public event Action? Seeking;

    /// <summary>Plans the order with care, for a view that shows it. Where that takes a while the quick one stands meanwhile.</summary>
    public async Task SettleAsync()
    {
        while (order is null || !ReferenceEquals(order, rested))
        {
            if (seeking is not { IsCompleted: false } || !ReferenceEquals(sought, Work)) seeking = SeekAsync(sought = Work);
            await seeking;
            if (orders is null) return;
        }
    }

    /// <summary>An order of a work that is not on the table, planned with the same care.</summary>
    /// <param name="work">The work.</param>
    /// <param name="told">Told how much is done, 0 to 1.</param>
    /// <param name="cancel">Says that it is wanted no more.</param>
    /// <exception cref="OperationCanceledException">It was wanted no more.</exception>
    public async Task<WorkingOrder> PlanAsync(Work work, Action<double>? told = null, CancellationToken cancel = default)
    {
        var found = orders is null ? null : await orders.OfAsync(work, told ?? (_ => { }), cancel);
        cancel.ThrowIfCancellationRequested();
        return found ?? Smocking.Plan(work, AtRest, cancel: cancel);
    }

    private async Task SeekAsync(Work work)
    {
        stop.Cancel();
        stop.Dispose();
        stop = new CancellationTokenSource();
        WorkingOrder? found = null;
        if (orders is not null)
        {
            Share(0);
            found = await orders.OfAsync(work, done => Share(done), stop.Token);
            if (!ReferenceEquals(work, Work)) return;
        }
        (int, int, double)? known = order is null ? null : Words(order);
        (order, amounts) = (rested = found ?? Plan(rested, AtRest), null);
        if (known is not null && (found is not null || Words(order) != known)) Ordered?.Invoke();
        Share(null);

        static (int, int, double) Words(WorkingOrder o) => (o.Starts, o.Turns, o.Carried.Millimetres);

        void Share(double? done)
        {
            if (!ReferenceEquals(work, Work) || Sought == done) return;
            Sought = done;
            Seeking?.Invoke();
        }
    }

    /// <summary>Tells the maker something.</summary>
    public void Say(string words)
    {
        Sayings++;
        Said?.Invoke(words);
    }

    /// <summary>How often it has told the maker something.</summary>
    internal int Sayings { get; private set; }

    private void Show(Piece piece)
    {
        Lay(piece);
        Changed?.Invoke();
        OrderSoon();
    }

    private void Lay(Piece piece)
    {
        var work = Smocking.Lay(piece);
        Piece = piece;
        Work = work;
        (order, amounts, Sought) = (null, null, null);
        Findings = Smocking.Prove(work);
    }

    // A file may ask for needlefuls longer than its skeins.
    private ImmutableArray<ThreadAmount> Cut()
    {
        var (uses, length) = (Order.ThreadUses(), Piece.Working.WorkingLength);
        var before = uncut;
        uncut = uses.Where(u => u.Needlefuls > 0 && !Gives(u)).Select(u => $"A skein of {u.Thread.Name} gives no needleful of {Model.Words.Of(length)}: working length or skein is wrong.").FirstOrDefault("");
        if (uncut.Length > 0 && uncut != before) Say(uncut);
        return [.. uses.Select(u => Gives(u) ? Cutting.Amount(u, length) : new ThreadAmount(u, 0))];

        bool Gives(ThreadUse use) => Cutting.StrandsPerSkein(use.Thread, length) > 0;
    }

    private WorkingOrder Plan(WorkingOrder? before, Effort effort) =>
        before is null ? Smocking.Plan(Work, effort) : Smocking.Plan(Work, before, effort);

    // The order of a large piece waits until the page has had a breath, so that a quick hand sees every stitch at once;
    // the search for a better one waits until the hand rests.
    private async void OrderSoon()
    {
        var show = ++shows;
        if (!orderDue)
        {
            if (Work.Runs.Length > FewRuns)
            {
                orderDue = true;
                await Task.Delay(TimeSpan.FromMilliseconds(1), time);
                orderDue = false;
            }
            _ = Amounts;
            Ordered?.Invoke();
        }
        await Task.Delay(Rest, time);
        if (show != shows) return;
        if (orders is null) await SettleAsync();
        Rested?.Invoke();
        await Task.Delay(LongRest, time);
        if (show == shows) await SettleAsync();
    }
}
