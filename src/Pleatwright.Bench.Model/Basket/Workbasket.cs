using System.Collections.Immutable;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Files;
using Pleatwright.Shelf;
using Pleatwright.Shopping;

namespace Pleatwright.Bench.Model.Basket;

/// <summary>
/// The maker's stash at the bench: every edit is kept at once beside the shelf and can be undone. What cannot be kept just now waits
/// in this browser, each tab's by itself; what a closed tab left goes to the shelf with the next tab that opens the stash.
/// </summary>
public sealed class Workbasket : IKeepable
{
    private const int MostSent = 16;

    private readonly Desk desk;
    private readonly IStashShelf shelf;
    private readonly IMemory memory;
    private readonly Keeper keeper;
    private readonly TabNotes notes;
    private readonly SaveLoop loop;
    private ImmutableStack<(Stash Stash, string Edit)> past = [], future = [];
    private (Stash Stash, string Edit) now = (Stash.Empty, "");
    private Edition? edition; // on the shelf; null when there is none
    private ImmutableArray<Edition> sent = []; // whose answer never came
    private string unreadable = "";
    private Task? opening;
    private object? history;

    /// <summary>An empty basket; <see cref="OpenAsync"/> fills it.</summary>
    public Workbasket(Desk desk, IStashShelf shelf, Keeper keeper, IMemory memory, TimeProvider time)
    {
        this.memory = memory;
        this.desk = desk;
        this.shelf = shelf;
        this.keeper = keeper;
        notes = new TabNotes(memory, keeper, "stash");
        loop = new SaveLoop(this, keeper.Reach, time, desk.Say, SavePace.OfStash);
        loop.Start();
        loop.Changed += () => Changed?.Invoke();
        history = desk.History;
        desk.Changed += OnDesk;
    }

    /// <summary>What is in it.</summary>
    public Stash Stash => now.Stash;

    /// <summary>Why it could not be read or kept, for the maker; empty when all is well.</summary>
    public string Trouble => unreadable.Length > 0 ? unreadable : loop.Trouble;

    /// <summary>Whether it has been read. A file that cannot be, or has not been yet, is left untouched and nothing can be edited.</summary>
    public bool CanEdit { get; private set; }

    /// <summary>Whether the last edit anywhere was made here, so that “undo” means it.</summary>
    public bool IsLast { get; private set; }

    /// <summary>The last edit, in a word or two.</summary>
    public string Edit => now.Edit;

    public bool CanUndo => !past.IsEmpty;

    public bool CanRedo => !future.IsEmpty;

    /// <summary>Raised when any of the above changed.</summary>
    public event Action? Changed;

    /// <summary>Reads the stash once; again only after trouble.</summary>
    public Task OpenAsync() => opening ??= ReadAsync();

    /// <summary>Tries again after trouble: to keep what was edited, else to read.</summary>
    public Task TryAgainAsync() => CanEdit ? loop.SettleAsync() : opening = ReadAsync();

    /// <summary>Makes one edit and keeps it.</summary>
    /// <returns>False when nothing can be edited; then nothing was done.</returns>
    public bool Do(string edit, Func<Stash, Stash> change)
    {
        if (!CanEdit) return false;
        var changed = change(Stash);
        if (changed == Stash) return true;
        past = past.Push(now);
        future = [];
        Show((changed, edit));
        return true;
    }

    /// <summary>Undoes the last edit.</summary>
    public void Undo()
    {
        if (past.IsEmpty) return;
        var undone = now.Edit;
        future = future.Push(now);
        past = past.Pop(out var before);
        Show(before);
        desk.Say($"Undone: {undone}.");
    }

    /// <summary>Redoes the edit last undone.</summary>
    public void Redo()
    {
        if (future.IsEmpty) return;
        past = past.Push(now);
        future = future.Pop(out var next);
        Show(next);
        desk.Say($"Done again: {now.Edit}.");
    }

    /// <summary>Whether “undo” and “redo” at a view mean the stash rather than the piece.</summary>
    public bool IsMeantAt(View view) => view == View.Stash && IsLast;

    /// <summary>Undoes the last edit of what is meant at a view.</summary>
    public void UndoFrom(View view)
    {
        if (IsMeantAt(view) && CanUndo) { Undo(); return; }
        desk.Undo();
        // At the stash an edit of the piece stands between those of the stash; the next undo is theirs again.
        if (view == View.Stash) IsLast = CanUndo;
        Changed?.Invoke();
    }

    /// <summary>Redoes what was undone last at a view.</summary>
    public void RedoFrom(View view)
    {
        if (IsMeantAt(view) && CanRedo) Redo();
        else desk.Redo();
    }

    /// <summary>Earlier stashes, latest first.</summary>
    public Task<IReadOnlyList<PieceVersion>> VersionsAsync() => shelf.StashVersionsAsync();

    /// <summary>Puts an earlier stash back; an edit like any other.</summary>
    public async Task PutBackAsync(int number)
    {
        var earlier = StashReader.Read(await shelf.LoadStashVersionAsync(number));
        (CanEdit, unreadable) = (true, "");
        Do("an earlier stash", _ => earlier);
    }

    void IKeepable.Note() => _ = NoteAsync();

    void IKeepable.Leave()
    {
        if (loop.State is Kept.UnderWay or Kept.Trouble) notes.Leave(Note());
    }

    async Task IKeepable.SendAsync(SaveKind kind)
    {
        var text = StashWriter.WriteUtf8(Stash);
        var doubted = !sent.IsEmpty;
        if (doubted) await AskAsync();
        var sending = Edition.Of(text);
        if (!sent.Contains(sending)) sent = [.. sent.TakeLast(MostSent - 1), sending];
        await NoteAsync();
        while (true)
        {
            var over = edition;
            try
            {
                edition = await keeper.Reach.Of(shelf.SaveStashAsync(text, over));
                break;
            }
            catch (ShelfException e) when (doubted && e.Trouble == ShelfTrouble.Conflict)
            {
                await AskAsync(); // what was sent before may have come late
                if (edition == over) throw;
            }
        }
        sent = [];
        await (loop.Dirty ? NoteAsync() : notes.RememberAsync(null));
    }

    // Theirs stands now; undoing goes back to ours.
    async Task<Kept> IKeepable.PartedAsync(ShelfException because)
    {
        var stored = await keeper.Reach.Of(shelf.LoadStashAsync());
        // Edited while it was on its way, it is sent once more: among the earlier ones the shelf has only what was sent.
        for (var ours = StashWriter.WriteUtf8(Stash); !sent.Contains(Edition.Of(ours)); ours = StashWriter.WriteUtf8(Stash))
        {
            sent = [.. sent.TakeLast(MostSent - 1), Edition.Of(ours)];
            try
            {
                var standing = await keeper.Reach.Of(shelf.SaveStashAsync(ours, edition));
                stored = new StoredStash(ours, standing);
            }
            catch (ShelfException e) when (e.Trouble == ShelfTrouble.Conflict) { }
        }
        (edition, sent) = (stored?.Edition, []);
        var forgotten = notes.RememberAsync(null); // what is edited from here on is remembered after it
        try
        {
            var theirs = stored is null ? Stash.Empty : StashReader.Read(stored.Text);
            if (theirs != Stash)
            {
                past = past.Push(now);
                future = [];
                now = (theirs, "what another bench kept");
            }
        }
        catch (PieceFormatException e)
        {
            (CanEdit, unreadable) = (false, $"The stash was changed meanwhile and cannot be read: {e.Located(FileStash.FileName)}");
        }
        await forgotten;
        Changed?.Invoke();
        return Kept.Safe;
    }

    // An answer was lost: what stands on the shelf may be what was sent from here.
    private async Task AskAsync()
    {
        var stored = await keeper.Reach.Of(shelf.LoadStashAsync());
        if (stored is { } s && sent.Contains(s.Edition)) edition = s.Edition;
    }

    private void Show((Stash Stash, string Edit) moment)
    {
        now = moment;
        IsLast = true;
        loop.Edited();
        Changed?.Invoke();
    }

    // The edition it goes over, those perhaps just reaching the shelf, and the stash itself.
    private string Note() => $"{edition}\n{string.Join(' ', sent)}\n{StashWriter.Write(Stash)}";

    private Task NoteAsync() => notes.RememberAsync(Note());

    private void OnDesk()
    {
        if (ReferenceEquals(history, desk.History)) return;
        history = desk.History;
        if (!IsLast) return;
        IsLast = false;
        Changed?.Invoke();
    }

    private async Task ReadAsync()
    {
        await loop.AloneAsync(async () =>
        {
            if (!notes.IsClaimed)
            {
                await notes.ClaimAsync();
                memory.OnLeave(loop.Leave);
            }
            StoredStash? stored = null;
            var answered = true;
            try
            {
                await SendLeftAsync();
                stored = await keeper.Reach.Of(shelf.LoadStashAsync());
            }
            catch (ShelfException e)
            {
                answered = false;
                loop.Stands(Kept.Trouble, e.Message, dirty: false);
                opening = null;
            }
            if (answered)
            {
                try
                {
                    var stash = stored is null ? Stash.Empty : StashReader.Read(stored.Text);
                    (edition, now) = (stored?.Edition, (stash, ""));
                    (CanEdit, unreadable) = (true, "");
                    loop.Stands(Kept.Safe, "", dirty: false);
                }
                catch (PieceFormatException e)
                {
                    (CanEdit, unreadable) = (false, $"The stash cannot be read, and was left as it is: {e.Located(FileStash.FileName)}");
                    return;
                }
            }
            await TakeUpWaitingAsync(answered);
        });
        Changed?.Invoke();
    }

    // An edit that never reached the shelf before the page was left. The shelf does not answer? Work goes on with what waits.
    private async Task TakeUpWaitingAsync(bool answered)
    {
        if (Left(await notes.RememberedAsync()) is not var (over, doubted, left)) return;
        if (answered)
        {
            if (left == Stash)
            {
                await notes.RememberAsync(null);
                return;
            }
            past = past.Push(now);
            // Changed meanwhile, the shelf keeps what waited among the earlier stashes, and theirs comes back on top of it.
            if (edition != over && !(edition is { } standing && doubted.Contains(standing))) edition = over;
        }
        else
        {
            (edition, sent) = (over, doubted);
        }
        (now, CanEdit, IsLast) = ((left, "what waited to be kept"), true, answered);
        loop.Edited();
    }

    // What closed tabs left goes to the shelf by itself; the shelf keeps it among the earlier stashes where another was faster.
    private Task SendLeftAsync() => notes.EachLeftAsync(async text =>
    {
        if (Left(text) is not var (over, doubted, left)) return false;
        if (await keeper.Reach.Of(shelf.LoadStashAsync()) is { } stored && doubted.Contains(stored.Edition)) over = stored.Edition;
        try { await keeper.Reach.Of(shelf.SaveStashAsync(StashWriter.WriteUtf8(left), over)); }
        catch (ShelfException e) when (e.Trouble == ShelfTrouble.Conflict) { desk.Say(e.Message); }
        return true;
    });

    private static (Edition? Over, ImmutableArray<Edition> Doubted, Stash Left)? Left(string? remembered)
    {
        if (remembered?.Split('\n', 3) is not [var over, var perhaps, var text]) return null;
        try
        {
            return (over.Length > 0 ? new Edition(over) : null, [.. perhaps.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(m => new Edition(m))], StashReader.Read(text));
        }
        catch (PieceFormatException)
        {
            return null; // another bench wrote it; it stays
        }
    }
}
