using System.Collections.Immutable;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Files;
using Pleatwright.Shelf;
using Pleatwright.Shopping;

namespace Pleatwright.Bench.Model.Basket;

/// <summary>
/// The maker's stash at the bench: every edit is kept at once beside the shelf and can be undone. What cannot be kept just now waits
/// in this browser.
/// </summary>
public sealed class Workbasket
{
    private const int AgainAfter = 5000; // ms

    private readonly Desk desk;
    private readonly IStashShelf shelf;
    private readonly IMemory memory;
    private readonly TimeProvider time;
    private readonly SemaphoreSlim one = new(1);
    private ImmutableStack<(Stash Stash, string Edit)> past = [], future = [];
    private (Stash Stash, string Edit) now = (Stash.Empty, "");
    private readonly Keeper keeper;
    private Edition? edition, underWay;
    private bool dirty, again;
    private Task? opening;
    private object? history;

    /// <summary>An empty basket; <see cref="OpenAsync"/> fills it.</summary>
    public Workbasket(Desk desk, IStashShelf shelf, Keeper keeper, IMemory memory, TimeProvider time)
    {
        this.memory = memory;
        this.time = time;
        this.desk = desk;
        this.shelf = shelf;
        this.keeper = keeper;
        history = desk.History;
        desk.Changed += OnDesk;
    }

    /// <summary>What is in it.</summary>
    public Stash Stash => now.Stash;

    /// <summary>Why it could not be read or kept, for the maker; empty when all is well.</summary>
    public string Trouble { get; private set; } = "";

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
    public Task TryAgainAsync() => CanEdit ? KeepAsync() : opening = ReadAsync();

    /// <summary>Makes one edit and keeps it.</summary>
    public void Do(string edit, Func<Stash, Stash> change)
    {
        if (!CanEdit) return;
        var changed = change(Stash);
        if (changed == Stash) return;
        past = past.Push(now);
        future = [];
        Show((changed, edit));
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
        if (!CanEdit) (CanEdit, Trouble) = (true, "");
        Do("an earlier stash", _ => earlier);
    }

    // What this browser remembers until the shelf has it.
    private string Waiting => $"stash {keeper.Place(null)}";

    private void Show((Stash Stash, string Edit) moment)
    {
        now = moment;
        (IsLast, dirty) = (true, true);
        Note();
        Changed?.Invoke();
        _ = KeepAsync();
    }

    // The edition it goes over, the one perhaps just reaching the shelf, and the stash itself.
    private void Note() => _ = memory.RememberAsync(Waiting, $"{edition}\n{underWay}\n{StashWriter.Write(Stash)}");

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
        var unreadable = false;
        await one.WaitAsync();
        try
        {
            var stored = await shelf.LoadStashAsync();
            edition = stored?.Edition;
            now = (stored is null ? Stash.Empty : StashReader.Read(stored.Text), "");
            (CanEdit, Trouble) = (true, "");
        }
        catch (PieceFormatException e)
        {
            unreadable = true;
            (CanEdit, Trouble) = (false, $"The stash cannot be read, and was left as it is: {e.Located(FileStash.FileName)}");
        }
        catch (ShelfException e)
        {
            Trouble = e.Message;
            opening = null;
        }
        finally
        {
            one.Release();
        }
        if (!unreadable) await TakeUpWaitingAsync();
        Changed?.Invoke();
    }

    // An edit that never reached the shelf before the page was left.
    private async Task TakeUpWaitingAsync()
    {
        if ((await memory.RememberedAsync(Waiting))?.Split('\n', 3) is not [var over, var perhaps, var text]) return;
        try
        {
            var left = StashReader.Read(text);
            if (!CanEdit) // the shelf does not answer: work goes on with what waits, and it is kept when the shelf is back
            {
                now = (left, "");
                edition = over.Length > 0 ? new Edition(over) : null;
                (CanEdit, dirty) = (true, true);
                return;
            }
            var standing = edition?.ToString() ?? "";
            if (standing == over || standing == perhaps)
            {
                Do("what waited to be kept", _ => left);
                return;
            }
            // Changed meanwhile: the shelf keeps what waited among the earlier stashes and says so.
            await shelf.SaveStashAsync(StashWriter.WriteUtf8(left), over.Length > 0 ? new Edition(over) : null);
        }
        catch (ShelfException e)
        {
            desk.Say(e.Message);
            if (e.Trouble != ShelfTrouble.Conflict) return; // it waits on
        }
        catch (PieceFormatException) { } // another bench wrote it
        await memory.RememberAsync(Waiting, null);
    }

    private async Task KeepAsync()
    {
        await one.WaitAsync();
        try
        {
            if (!dirty) return;
            dirty = false;
            var text = StashWriter.WriteUtf8(Stash);
            underWay = Edition.Of(text);
            Note();
            edition = await shelf.SaveStashAsync(text, edition);
            Trouble = "";
            if (!dirty) _ = memory.RememberAsync(Waiting, null);
        }
        catch (ShelfException e) when (e.Trouble == ShelfTrouble.Conflict)
        {
            await TakeTheirsAsync(e.Message);
        }
        catch (ShelfException e)
        {
            (Trouble, dirty) = (e.Message, true);
            _ = KeepAgainAsync();
        }
        finally
        {
            underWay = null;
            if (dirty) Note();
            one.Release();
        }
        Changed?.Invoke();
    }

    private async Task KeepAgainAsync()
    {
        if (again) return;
        again = true;
        await Task.Delay(TimeSpan.FromMilliseconds(AgainAfter), time);
        again = false;
        if (dirty) await KeepAsync();
    }

    // Theirs stands now; undoing goes back to ours.
    private async Task TakeTheirsAsync(string words)
    {
        dirty = false;
        await memory.RememberAsync(Waiting, null);
        try
        {
            var stored = await shelf.LoadStashAsync();
            var theirs = stored is null ? Stash.Empty : StashReader.Read(stored.Text);
            edition = stored?.Edition;
            past = past.Push(now);
            future = [];
            now = (theirs, "what another bench kept");
            desk.Say(words);
        }
        catch (PieceFormatException e)
        {
            (CanEdit, Trouble) = (false, $"The stash was changed meanwhile and cannot be read: {e.Located(FileStash.FileName)}");
        }
        catch (ShelfException e)
        {
            Trouble = e.Message;
        }
    }
}
