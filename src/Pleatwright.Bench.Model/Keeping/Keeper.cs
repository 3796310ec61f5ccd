using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>How the piece on the table stands with the shelf.</summary>
public enum Kept
{
    /// <summary>An example, not on the shelf until something is changed.</summary>
    Example,

    /// <summary>The shelf has it as it is.</summary>
    Safe,

    /// <summary>An edit is on its way to the shelf.</summary>
    UnderWay,

    /// <summary>The shelf could not take it; the journal has it, and it is tried again.</summary>
    Trouble,

    /// <summary>Another bench or program changed or removed it; the maker must say what to do.</summary>
    Parted,
}

/// <summary>
/// Keeps the piece on the table: every edit goes to the journal at once and to the shelf within a second, so that nobody
/// needs to save and nothing but the last moment can be lost.
/// </summary>
public sealed class Keeper(Desk desk, IShelf shelf, IJournalStore journals, IMemory memory, TimeProvider time)
{
    private const int JournalAfter = 120; // ms; a quick hand makes many moments
    private const int ShelfAfter = 700; // ms, after the first edit not yet there
    private const int AgainAfter = 5000;
    private const int ReadAtOnce = 30; // moments of a long history read before the piece is shown

    private readonly Journal journal = new(journals);
    private readonly SemaphoreSlim one = new(1);
    private History? seen;
    private Edition edition;
    private string place = "";
    private bool noteDue, saveDue, dirty;

    /// <summary>The name on the shelf; null while the piece is on none.</summary>
    public PieceName? Name { get; private set; }

    /// <summary>How the piece stands with the shelf.</summary>
    public Kept State { get; private set; } = Kept.Example;

    /// <summary>What is wrong, for the maker; empty when nothing is.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>The shelf itself.</summary>
    public IShelf Shelf => shelf;

    /// <summary>A piece and the shelf it is on: a key for what this browser remembers of it.</summary>
    public string Place(PieceName? name) => $"{place}\n{name}";

    /// <summary>Raised when any of the above changed.</summary>
    public event Action? Changed;

    /// <summary>Puts on the table what was there last, with its way back; else an example.</summary>
    public async Task StartAsync()
    {
        try { place = (await shelf.ListAsync()).Place; }
        catch (ShelfException) { place = await memory.RememberedAsync("place") ?? ""; }
        await memory.RememberAsync("place", place);
        desk.Changed += OnDeskChanged;
        memory.OnLeave(() => Flush(leaving: true));
        try
        {
            if (await memory.RememberedAsync(OpenKey) is { Length: > 0 } last && PieceName.TryParse(last, out var name, out _)) await OpenAsync(name);
            else await OpenUnnamedAsync();
        }
        catch (ShelfException e)
        {
            _ = memory.RememberAsync(OpenKey, null);
            seen = desk.History;
            Set(Kept.Example);
            desk.Say(e.Message);
        }
    }

    /// <summary>Opens a piece from the shelf, with its history and with edits the shelf has not seen.</summary>
    /// <exception cref="ShelfException">It cannot be reached or read; what was on the table stays.</exception>
    public async Task OpenAsync(PieceName name)
    {
        await SettleAsync();
        await one.WaitAsync();
        try
        {
            var record = await journal.LoadAsync(Key(name));
            StoredPiece? stored = null;
            try { stored = await shelf.LoadAsync(name); }
            catch (ShelfException e) when (e.Trouble == ShelfTrouble.Unavailable && record is not null) { Trouble = e.Message; }
            var now = record is null ? default : Edition.Of(record.Now);
            if (stored is null || (record is not null && (now == stored.Edition || record.Base == stored.Edition)))
            {
                await PutOnTableAsync(name, record!, record!.Base);
                if (stored is null || now != stored.Edition) SaveSoon();
                Set(stored is null ? Kept.Trouble : dirty ? Kept.UnderWay : Kept.Safe);
            }
            else
            {
                var piece = Read(stored);
                if (record is not null && now != record.Base) await KeepAsideAsync(name, record);
                if (record is not null) await journal.ClearAsync(Key(name));
                await PutOnTableAsync(name, piece, stored.Edition);
                Set(Kept.Safe);
            }
        }
        finally
        {
            one.Release();
        }
    }

    /// <summary>Puts a new piece on the shelf and on the table.</summary>
    public async Task NewAsync(Piece piece)
    {
        await SettleAsync();
        var made = await shelf.CreateAsync(PieceName.Nearest(piece.Title), PieceWriter.WriteUtf8(piece));
        await journal.ClearAsync(Key(made.Name));
        await OpenAsync(made.Name);
    }

    /// <summary>Puts an example on the table. It goes to the shelf with the first edit.</summary>
    public async Task OpenExampleAsync(string example)
    {
        await SettleAsync();
        await one.WaitAsync();
        try
        {
            Name = null;
            edition = default;
            _ = memory.RememberAsync(OpenKey, null);
            desk.Open(Examples.Read(example));
            seen = desk.History;
            dirty = false;
            await journal.ClearAsync(Key(null));
            await journal.BeginAsync(Key(null), 0, []);
            Set(Kept.Example);
        }
        finally
        {
            one.Release();
        }
    }

    /// <summary>Brings what is on the table to the shelf now, as a version to go back to.</summary>
    public async Task KeepNowAsync()
    {
        Flush();
        dirty = true;
        await SaveAsync(SaveKind.Kept);
        if (State == Kept.Safe) desk.Say("Kept on the shelf.");
    }

    /// <summary>Puts what is on the table on the shelf as a piece of its own, when it has parted from the one there.</summary>
    public async Task KeepAsNewAsync()
    {
        await one.WaitAsync();
        try
        {
            Name = null;
            edition = default;
            dirty = true;
        }
        finally
        {
            one.Release();
        }
        await SaveAsync(SaveKind.Kept);
    }

    /// <summary>Takes what the shelf has, in place of what is on the table; that stays among the versions.</summary>
    public async Task TakeTheirsAsync()
    {
        if (Name is not { } name) return;
        dirty = false;
        try
        {
            // Drawn on since they parted? Then this, too, is kept.
            try { await shelf.SaveAsync(name, PieceWriter.WriteUtf8(desk.History.Now.Piece), edition, SaveKind.Kept); }
            catch (ShelfException e) when (e.Trouble is ShelfTrouble.Conflict or ShelfTrouble.NotFound) { }
            await journal.ClearAsync(Key(name));
            await OpenAsync(name);
        }
        catch (ShelfException e)
        {
            desk.Say(e.Message);
            if (e.Trouble == ShelfTrouble.NotFound) await OpenExampleAsync(Examples.Names.First());
        }
    }

    /// <summary>Gives a piece another title, and its file the nearest free name to it.</summary>
    /// <param name="name">The piece.</param>
    /// <param name="title">Its new title.</param>
    /// <param name="readable">Whether the piece can be read; if not, its file alone is renamed.</param>
    public async Task<PieceName> RenameAsync(PieceName name, string title, bool readable)
    {
        if (readable && name == Name)
        {
            desk.Edit("a new title", p => p with { Title = title });
            await KeepNowAsync();
        }
        else if (readable)
        {
            var stored = await shelf.LoadAsync(name);
            await shelf.SaveAsync(name, PieceWriter.WriteUtf8(Read(stored) with { Title = title }), stored.Edition, SaveKind.Kept);
        }
        var to = await MoveAsync(name, PieceName.Nearest(title));
        await journal.MoveAsync(Key(name), Key(to));
        if (name != Name) return to;
        Name = to;
        _ = memory.RememberAsync(OpenKey, to.ToString());
        await journal.BeginAsync(Key(to), 0, []);
        journal.Note(desk.History, edition);
        Changed?.Invoke();
        return to;
    }

    /// <summary>Takes a piece off the shelf; an example takes its place if it was on the table.</summary>
    public async Task DeleteAsync(PieceName name)
    {
        await SettleAsync();
        await shelf.DeleteAsync(name);
        await journal.ClearAsync(Key(name));
        if (Name != name) return;
        dirty = false;
        await OpenExampleAsync(Examples.Names.First());
    }

    /// <summary>Puts an earlier version of a piece back; on the table that is an edit like any other.</summary>
    public async Task RestoreAsync(PieceName name, int number)
    {
        if (name != Name)
        {
            await shelf.RestoreAsync(name, number);
            return;
        }
        var text = await shelf.LoadVersionAsync(name, number);
        var piece = Read(new StoredPiece(name, text, Edition.Of(text)));
        await KeepNowAsync();
        desk.Edit("an earlier version", _ => piece);
        await KeepNowAsync();
    }

    private async Task<PieceName> MoveAsync(PieceName name, PieceName wanted)
    {
        var to = wanted;
        for (var number = 2; to != name; to = wanted.Numbered(number++))
        {
            try
            {
                await shelf.RenameAsync(name, to);
                break;
            }
            catch (ShelfException e) when (e.Trouble == ShelfTrouble.Taken && number < 100) { }
        }
        return to;
    }

    /// <summary>Brings the last edits to journal and shelf, before something else comes on the table.</summary>
    public async Task SettleAsync()
    {
        Flush();
        if (dirty) await SaveAsync(SaveKind.Auto);
        await journal.DoneAsync();
    }

    private string OpenKey => $"open\n{place}";

    private string Key(PieceName? name) => Place(name);

    private static Piece Read(StoredPiece stored)
    {
        try
        {
            return PieceReader.Read(stored.Text);
        }
        catch (PieceFormatException e)
        {
            throw new ShelfException(ShelfTrouble.Unreadable, $"“{stored.Name}” cannot be read: {e.Located(stored.Name.FileName)}", e);
        }
    }

    private async Task OpenUnnamedAsync()
    {
        if (await journal.LoadAsync(Key(null)) is { Count: > 1 } record)
        {
            await PutOnTableAsync(null, record, default);
            SaveSoon();
            Set(Kept.UnderWay);
            return;
        }
        seen = desk.History;
        await journal.BeginAsync(Key(null), 0, []);
    }

    private async Task PutOnTableAsync(PieceName? name, Piece piece, Edition standing)
    {
        desk.Open(Fits(new History(piece)));
        seen = desk.History;
        await journal.BeginAsync(Key(name), 0, []);
        Took(name, standing);
        journal.Note(desk.History, standing); // so that it can be opened again without the shelf
    }

    private async Task PutOnTableAsync(PieceName? name, JournalRecord record, Edition standing)
    {
        var from = Math.Max(0, record.At - ReadAtOnce);
        ImmutableArray<Moment> moments;
        try
        {
            moments = [.. Enumerable.Range(from, record.Count - from).Select(record.Read)];
        }
        catch (PieceFormatException e)
        {
            throw new ShelfException(ShelfTrouble.Unreadable, $"The edits kept in this browser cannot be read by this bench: {e.Message}", e);
        }
        desk.Open(Fits(History.From(moments, record.At - from)));
        seen = desk.History;
        await journal.BeginAsync(Key(name), from, moments);
        Took(name, standing);
        if (from > 0) _ = RecallAsync(record, from, desk.History);
    }

    // Reads the older part of a long history in small bites, so that the table never stops for it.
    private async Task RecallAsync(JournalRecord record, int count, History of)
    {
        var opened = of.Past.Last();
        var older = ImmutableArray.CreateBuilder<Moment>(count);
        try
        {
            for (var i = 0; i < count; i++)
            {
                older.Add(record.Read(i));
                if (i % 4 == 3) await Task.Delay(TimeSpan.FromMilliseconds(8), time);
            }
        }
        catch (PieceFormatException)
        {
            return; // written by another bench; what was read at once is enough to go on
        }
        if (!ReferenceEquals(desk.History.Past.LastOrDefault() ?? desk.History.Now, opened)) return; // another piece is on the table
        var all = older.MoveToImmutable();
        journal.Recalled(all);
        desk.Recall(all);
        seen = desk.History;
    }

    private static History Fits(History history)
    {
        try
        {
            Work.Lay(history.Now.Piece);
            return history;
        }
        catch (ArgumentException e)
        {
            throw new ShelfException(ShelfTrouble.Unreadable, $"This piece is too large to lay out: {e.Why()}.", e);
        }
    }

    private void Took(PieceName? name, Edition standing)
    {
        Name = name;
        edition = standing;
        dirty = false;
        _ = memory.RememberAsync(OpenKey, name?.ToString());
        if (!journal.Ours) desk.Say("This piece is open in another tab too. Work on it in one of them.");
    }

    // Edits made here that the shelf never saw, over a piece that has changed there: kept as a version.
    private async Task KeepAsideAsync(PieceName name, JournalRecord record)
    {
        try
        {
            await shelf.SaveAsync(name, record.Now, record.Base, SaveKind.Kept);
        }
        catch (ShelfException e)
        {
            if (e.Trouble != ShelfTrouble.Conflict) throw;
            desk.Say(e.Message);
        }
    }

    private void OnDeskChanged()
    {
        if (ReferenceEquals(desk.History, seen)) return;
        seen = desk.History;
        dirty = true;
        if (State is Kept.Safe or Kept.Example) Set(Kept.UnderWay);
        if (!noteDue)
        {
            noteDue = true;
            _ = NoteSoonAsync();
        }
        SaveSoon();
    }

    private async Task NoteSoonAsync()
    {
        await Task.Delay(TimeSpan.FromMilliseconds(JournalAfter), time);
        Flush();
    }

    private void Flush(bool leaving = false)
    {
        if (!noteDue) return;
        noteDue = false;
        journal.Note(desk.History, edition, leaving);
    }

    private void SaveSoon(int after = ShelfAfter)
    {
        dirty = true;
        if (saveDue || State == Kept.Parted) return;
        saveDue = true;
        _ = SaveSoonAsync(after);
    }

    private async Task SaveSoonAsync(int after)
    {
        await Task.Delay(TimeSpan.FromMilliseconds(after), time);
        saveDue = false;
        if (dirty) await SaveAsync(SaveKind.Auto);
    }

    private async Task SaveAsync(SaveKind kind)
    {
        await one.WaitAsync();
        try
        {
            dirty = false;
            var history = desk.History;
            var text = PieceWriter.WriteUtf8(history.Now.Piece);
            if (Name is { } name)
            {
                edition = await shelf.SaveAsync(name, text, edition, kind);
                journal.Note(desk.History, edition);
            }
            else
            {
                var made = await shelf.CreateAsync(PieceName.Nearest(history.Now.Piece.Title), text);
                (Name, edition) = (made.Name, made.Edition);
                // The way back is written under the new name before the old is let go: a reload may come at any moment.
                await journal.BeginAsync(Key(made.Name), 0, []);
                journal.Note(desk.History, edition);
                await journal.DoneAsync();
                await memory.RememberAsync(OpenKey, made.Name.ToString());
                await journal.ClearAsync(Key(null));
            }
            Set(dirty ? Kept.UnderWay : Kept.Safe);
        }
        catch (ShelfException e) when (e.Trouble is ShelfTrouble.Conflict or ShelfTrouble.NotFound)
        {
            Set(Kept.Parted, e.Message);
            desk.Say(e.Message);
        }
        catch (ShelfException e)
        {
            var first = State != Kept.Trouble;
            Set(Kept.Trouble, e.Message);
            if (first) desk.Say(e.Message);
            SaveSoon(AgainAfter);
        }
        finally
        {
            one.Release();
        }
    }

    private void Set(Kept state, string trouble = "")
    {
        if (state == Kept.Trouble && trouble.Length == 0) trouble = Trouble;
        if ((State, Trouble) == (state, trouble)) return;
        (State, Trouble) = (state, trouble);
        Changed?.Invoke();
    }
}
