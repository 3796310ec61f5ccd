using System.Collections.Immutable;
using System.Text;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Files;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>
/// Keeps the piece on the table: every edit goes to the journal at once and to the shelf within a second, so that nobody
/// needs to save and nothing but the last moment can be lost. It sees to it that what waits of other pieces gets there too.
/// </summary>
public sealed class Keeper : IKeepable
{
    private const int LooksForOthers = 12; // every minute, for what another tab left when it was closed
    private static readonly TimeSpan LookEvery = TimeSpan.FromSeconds(5);

    private readonly Desk desk;
    private readonly IMemory memory;
    private readonly TimeProvider time;
    private readonly Journals journals;
    private readonly Journal journal;
    private readonly SaveLoop loop;
    private readonly Sending sending;
    private readonly Opening opening;
    private readonly Errands errands;
    private readonly HashSet<PieceName> deleting = []; // whose answer was lost
    private History? seen;
    private PieceKey key;
    private Standing standing = Standing.None;
    private string place = "";
    private PieceKey? remembered;
    private bool onErrands;
    private int clearings;

    public Keeper(Desk desk, IShelf shelf, IJournalStore store, IMemory memory, TimeProvider time)
    {
        this.desk = desk;
        this.memory = memory;
        this.time = time;
        Shelf = new HeardShelf(shelf, Reach);
        journals = new Journals(store, time);
        journal = new Journal(journals);
        loop = new SaveLoop(this, Reach, time, desk.Say, SavePace.OfPiece);
        sending = new Sending(Shelf, journals);
        opening = new Opening(Shelf, journals);
        errands = new Errands(journals, sending, desk.Say);
    }

    /// <summary>The name on the shelf; null while the piece is on none.</summary>
    public PieceName? Name => key.Name;

    /// <summary>How the piece stands with the shelf.</summary>
    public Kept State => loop.State;

    /// <summary>What is wrong, for the maker; empty when nothing is.</summary>
    public string Trouble => loop.Trouble;

    /// <summary>The shelf itself.</summary>
    public IShelf Shelf { get; }

    /// <summary>Whether it answers.</summary>
    public Reach Reach { get; } = new();

    /// <summary>A piece and the shelf it is on: a key for what this browser remembers of it.</summary>
    public string Place(PieceName? name) => $"{place}\n{name}";

    /// <summary>What this browser remembers the piece on the table by, on a shelf or not, in whatever tab.</summary>
    public string Key => (key with { Tab = 1 }).ToString();

    /// <summary>Whether this tab may keep what is remembered under a name: one tab does at a time.</summary>
    public Task<bool> ClaimAsync(string name) => journals.Store.ClaimAsync(name);

    /// <summary>Lets another tab keep it.</summary>
    public void LetGo(string name) => journals.Store.LetGo(name);

    /// <summary>Whether the browser has cleared what the bench kept in it, as it may where room runs short.</summary>
    public bool WasCleared => journals.Store.Clearings > 0;

    /// <summary>Raised when any of the above changed.</summary>
    public event Action? Changed
    {
        add => loop.Changed += value;
        remove => loop.Changed -= value;
    }

    /// <summary>Raised when the piece on the table has another key: the one it had, and the one it has. Its place goes along.</summary>
    internal event Action<string, string>? Named;

    /// <summary>Puts on the table what was there last, with its way back; else an example. What waits goes to the shelf meanwhile.</summary>
    public async Task StartAsync()
    {
        try { place = (await Shelf.ListAsync()).Place; }
        catch (ShelfException) { place = await memory.RememberedAsync("place") ?? ""; }
        await memory.RememberAsync("place", place);
        await TakeInAsync();
        seen = desk.History;
        desk.Changed += OnDeskChanged;
        memory.OnLeave(() =>
        {
            desk.KeepDraft();
            loop.Leave();
        });
        try
        {
            if (await LastAsync() is { } find) await SwitchAsync(find);
            else await OpenAnExampleAsync();
        }
        catch (ShelfException e)
        {
            if (e.Trouble is ShelfTrouble.NotFound or ShelfTrouble.Unreadable) Remember(null);
            await OpenAnExampleAsync();
            desk.Say(e.Message);
        }
        loop.Start();
        Reach.Back += async () => await OnErrandsAsync();
        LookNowAndThen();
    }

    /// <summary>Opens a piece from the shelf, with its history and with edits the shelf has not seen.</summary>
    /// <exception cref="ShelfException">It cannot be reached or read; what was on the table stays.</exception>
    public Task OpenAsync(PieceName name) => SwitchAsync(() => opening.ByNameAsync(place, name, key));

    /// <summary>The same, however much it costs to open it.</summary>
    /// <exception cref="ShelfException">It cannot be reached or read; what was on the table stays.</exception>
    public Task OpenLargeAsync(PieceName name)
    {
        opening.TakeOn(name);
        return OpenAsync(name);
    }

    /// <summary>Opens a piece that this browser holds.</summary>
    /// <exception cref="ShelfException">It cannot be read, or another tab has it; what was on the table stays.</exception>
    public Task OpenAsync(HeldPiece held) => SwitchAsync(async () => await journals.ClaimAsync(held.Key)
        ? await opening.ByKeyAsync(held.Key, key)
        : throw new ShelfException(ShelfTrouble.Busy, $"“{held.Title}” is open in another tab. Work on it there."));

    /// <summary>Puts a new piece on the table and on the shelf. Where the shelf cannot take it, it waits in this browser.</summary>
    public async Task NewAsync(Piece piece)
    {
        await SwitchAsync(() => opening.NewAsync(place, piece, Kept.UnderWay));
        await loop.SaveAsync(SaveKind.Auto);
    }

    /// <summary>Puts an example on the table. It goes to the shelf with the first edit, or the first stitch ticked.</summary>
    public Task OpenExampleAsync(string example) => SwitchAsync(() => opening.NewAsync(place, Examples.Read(example), Kept.Example));

    /// <summary>An example on the table is the maker's own from now on, as its first edit makes it: it is being worked.</summary>
    public void Own()
    {
        if (State != Kept.Example) return;
        loop.Edited();
        loop.Flush();
    }

    /// <summary>Brings what is on the table to the shelf now, as a version to go back to.</summary>
    public async Task KeepNowAsync()
    {
        loop.Flush();
        await loop.SaveAsync(SaveKind.Kept);
        if (State == Kept.Safe) desk.Say("Kept on the shelf.");
    }

    /// <summary>Puts what is on the table on the shelf as a piece of its own, when it has parted from the one there. Its history goes with it.</summary>
    public async Task KeepAsNewAsync()
    {
        if (State != Kept.Parted) return;
        await loop.AloneAsync(async () =>
        {
            var fresh = await journals.NewKeyAsync(place);
            var moving = journal.MoveAsync(fresh);
            (key, standing) = (fresh, Standing.None);
            loop.Stands(Kept.UnderWay, "", dirty: true);
            journal.Note(desk.History, standing);
            await moving;
            await journal.DoneAsync();
            Remember(fresh);
        });
        await loop.SaveAsync(SaveKind.Kept);
    }

    /// <summary>
    /// Takes what the shelf has, in place of what is on the table; that stays among the versions, and in the history: it is one undo away.
    /// </summary>
    public async Task TakeTheirsAsync()
    {
        if (Name is not { } name) return;
        try
        {
            await loop.AloneAsync(async () =>
            {
                var stored = await Shelf.LoadAsync(name);
                desk.KeepDraft();
                var now = Opening.Theirs(stored, out var theirs);
                Opening.Fits(new History(theirs), takenOn: true);
                if (!standing.IsOurs(stored.Edition))
                {
                    // Drawn on since they parted? Then this, too, is kept.
                    try { await Shelf.SaveAsync(name, PieceWriter.WriteUtf8(desk.History.Now.Piece), standing.Base, SaveKind.Kept); }
                    catch (ShelfException e) when (e.Trouble == ShelfTrouble.Conflict) { }
                }
                if (!now.IsClean(Edition.Of(PieceWriter.WriteUtf8(desk.History.Now.Piece)))) desk.Edit("what the shelf has", _ => theirs);
                standing = now with { Was = standing.Was };
                loop.Stands(Kept.Safe, "", dirty: false);
                journal.Note(desk.History, standing);
                await journal.DoneAsync();
            });
        }
        catch (ShelfException e)
        {
            desk.Say(e.Message);
        }
    }

    /// <summary>Gives a piece another title, and its file the nearest free name to it.</summary>
    /// <param name="name">The piece.</param>
    /// <param name="title">Its new title.</param>
    /// <param name="readable">Whether the piece can be read; if not, its file alone is renamed.</param>
    /// <exception cref="ShelfException">The shelf could not do it.</exception>
    public async Task<PieceName> RenameAsync(PieceName name, string title, bool readable)
    {
        await SettleAsync(name);
        if (readable && name == Name)
        {
            desk.Edit("a new title", p => p with { Title = title });
            await KeepNowAsync();
            if (State != Kept.Safe) throw new ShelfException(ShelfTrouble.Unavailable, Trouble);
        }
        else if (readable)
        {
            var stored = await Shelf.LoadAsync(name);
            await Shelf.SaveAsync(name, PieceWriter.WriteUtf8(Opening.Read(stored) with { Title = title }), stored.Edition, SaveKind.Kept);
        }
        var to = name;
        await loop.AloneAsync(async () => to = await MoveAsync(name, PieceName.Nearest(title)));
        return to;
    }

    /// <summary>Takes a piece off the shelf; an example takes its place if it was on the table. Its history waits for it to be put back.</summary>
    /// <exception cref="ShelfException">The shelf could not do it.</exception>
    public async Task DeleteAsync(PieceName name)
    {
        await SettleAsync(name);
        try
        {
            await Shelf.DeleteAsync(name);
            deleting.Remove(name);
        }
        catch (ShelfException e) when (e.Trouble == ShelfTrouble.NotFound && deleting.Remove(name)) { } // done the last time; its answer was lost
        catch (ShelfException e)
        {
            if (e.Trouble == ShelfTrouble.Unavailable) deleting.Add(name);
            throw;
        }
        var gone = PieceKey.Of(place, name);
        if (name == Name)
        {
            if (State == Kept.Parted) return; // ours lives on
            gone = key;
            await OpenAnExampleAsync();
        }
        if (!await journals.ClaimAsync(gone)) return;
        if (await journals.LoadAsync(gone) is { IsClean: true }) await journals.PutAsideAsync(gone);
        journals.LetGo(gone);
    }

    /// <summary>Puts an earlier version of a piece back; on the table that is an edit like any other.</summary>
    /// <exception cref="ShelfException">The shelf could not do it.</exception>
    public async Task RestoreAsync(PieceName name, int number)
    {
        await SettleAsync(name);
        if (name != Name)
        {
            await Shelf.RestoreAsync(name, number);
            return;
        }
        var text = await Shelf.LoadVersionAsync(name, number);
        var piece = Opening.Read(new StoredPiece(name, text, Edition.Of(text)));
        if (name != Name) return; // another is on the table by now
        await KeepNowAsync();
        desk.Edit("an earlier version", _ => piece);
        await KeepNowAsync();
    }

    /// <summary>Brings the last edits to journal and shelf.</summary>
    public async Task SettleAsync()
    {
        await loop.SettleAsync();
        await journal.DoneAsync();
    }

    /// <summary>Brings the last edits of a piece to the shelf, before it is copied, renamed or removed there.</summary>
    public async Task SettleAsync(PieceName name)
    {
        await SettleAsync();
        if (name != Name) await loop.AloneAsync(() => errands.RunAsync(place, key, name));
    }

    /// <summary>What this browser holds of the pieces on this shelf, and of new ones on none.</summary>
    public async Task<IReadOnlyList<HeldPiece>> HeldAsync()
    {
        await journal.DoneAsync();
        return await errands.HeldAsync(place);
    }

    /// <summary>The text of a piece that this browser holds.</summary>
    /// <exception cref="ShelfException">It holds it no more.</exception>
    public async Task<byte[]> TextAsync(HeldPiece held) =>
        await journals.PresentAsync(held.Key) is { } text ? Encoding.UTF8.GetBytes(text)
            : throw new ShelfException(ShelfTrouble.NotFound, $"This browser holds “{held.Title}” no more.");

    /// <summary>Whether a piece that this browser holds is the one on the table.</summary>
    public bool IsOnTable(HeldPiece held) => held.Key == key;

    void IKeepable.Note()
    {
        if (remembered != key) Remember(key);
        journal.Note(desk.History, standing);
    }

    void IKeepable.Leave()
    {
        if (loop.Dirty && remembered != key) Remember(key);
        journal.Leave(desk.History, standing);
    }

    async Task IKeepable.SendAsync(SaveKind kind)
    {
        var piece = desk.History.Now.Piece;
        var text = PieceWriter.WriteUtf8(piece);
        var (to, now) = await SendAnewAsync(text) ?? await sending.SendAsync(key, standing, text, piece.Title, kind, async s =>
        {
            standing = s;
            journal.Note(desk.History, s);
            await journal.DoneAsync();
        });
        standing = now;
        if (to != key) await NowAsync(to);
        journal.Note(desk.History, standing);
    }

    // The browser has cleared its storage, the shelf in it too: what is on the table is put there again, under its name.
    private async Task<(PieceKey, Standing)?> SendAnewAsync(byte[] text)
    {
        if (Shelf.InBrowserOnly)
        {
            journal.Note(desk.History, standing); // whoever writes hears of it
            await journal.DoneAsync();
        }
        if (journals.Store.Clearings == clearings) return null;
        var known = journals.Store.Clearings;
        (PieceKey, Standing)? sent = null;
        if (Shelf.InBrowserOnly && key.Name is { } name && !(await Shelf.ListAsync()).Pieces.Any(p => p.Name == name.ToString()))
        {
            var made = await Shelf.CreateAsync(name, text);
            sent = (PieceKey.Of(key.Place, made.Name), new Standing(made.Edition) { Was = key.Piece });
        }
        clearings = known;
        Remember(key);
        desk.Say(ClearedWords);
        return sent;
    }

    /// <summary>What the maker is told when the browser has cleared its storage.</summary>
    public const string ClearedWords = "This browser has cleared what the bench kept in it, for want of room or because it was told to. The piece on the table is kept again, with its way back. Bring in from your files what else is missing.";

    Task<Kept> IKeepable.PartedAsync(ShelfException because)
    {
        standing = standing with { Parted = true };
        journal.Note(desk.History, standing);
        return Task.FromResult(Kept.Parted);
    }

    private string OpenKey => $"open\n{place}";

    // The journal follows the piece to its new name before anything is noted under it.
    private async Task NowAsync(PieceKey to)
    {
        to = await journals.FreeAsync(to);
        var moving = journal.MoveAsync(to);
        var was = Key;
        key = to;
        if (Key != was) Named?.Invoke(was, Key);
        journal.Note(desk.History, standing);
        await moving;
        await journal.DoneAsync();
        await RememberAsync(to);
    }

    private async Task<PieceName> MoveAsync(PieceName name, PieceName wanted)
    {
        var to = wanted;
        for (var number = 2; to != name; to = wanted.Numbered(number++))
        {
            try
            {
                await GivingAsync(name, to);
                await Shelf.RenameAsync(name, to);
                await GivenAsync(name, to);
                break;
            }
            catch (ShelfException e) when (e.Trouble == ShelfTrouble.Taken && number < 100) { }
            catch (ShelfException e) when (e.Trouble != ShelfTrouble.Unavailable)
            {
                await GivingAsync(name, null); // refused, and no doubt about it
                throw;
            }
        }
        if (to == name) await GivingAsync(name, null);
        return to;
    }

    private async Task GivingAsync(PieceName name, PieceName? to)
    {
        if (name == Name)
        {
            standing = standing with { To = to };
            journal.Note(desk.History, standing);
            await journal.DoneAsync();
            return;
        }
        var of = PieceKey.Of(place, name);
        if (!await journals.ClaimAsync(of)) return; // another tab has it, and will ask the shelf
        if (await journals.LoadAsync(of) is { } record)
            await journals.StandsAsync(new JournalHead(of.ToString(), record.Count, record.At, ""), record.Standing with { To = to });
        journals.LetGo(of);
    }

    private async Task GivenAsync(PieceName name, PieceName to)
    {
        if (name == Name)
        {
            standing = standing with { To = null };
            await NowAsync(PieceKey.Of(place, to));
            loop.Stands(loop.State, loop.Trouble, loop.Dirty);
            return;
        }
        var from = PieceKey.Of(place, name);
        if (!await journals.ClaimAsync(from)) return; // another tab has it, and will ask the shelf
        var free = await journals.FreeAsync(PieceKey.Of(place, to), key);
        await journals.MoveAsync(from, free);
        journals.LetGo(from);
        journals.LetGo(free);
    }

    private Task OpenAnExampleAsync() => OpenExampleAsync(Examples.First);

    // Before the shelf was ever reached its place was not known.
    private async Task TakeInAsync()
    {
        if (place.Length == 0) return;
        foreach (var (of, _) in await journals.HeadsAsync(""))
        {
            if (!await journals.ClaimAsync(of)) continue; // another tab works on it
            var to = await journals.FreeAsync(of with { Place = place });
            await journals.MoveAsync(of, to);
            journals.LetGo(of);
            journals.LetGo(to);
        }
        if (await memory.RememberedAsync("open\n") is not { } open) return;
        if (await memory.RememberedAsync(OpenKey) is null) await memory.RememberAsync(OpenKey, open);
        await memory.RememberAsync("open\n", null);
    }

    // What was on the table of this tab, else of this browser.
    private async Task<Func<Task<Opened>>?> LastAsync()
    {
        var mine = memory.OfTab(OpenKey);
        var last = mine is null ? await memory.RememberedAsync(OpenKey) ?? "" : mine;
        var of = new PieceKey(place, last.Split('\n')[0], mine?.Split('\n') is [_, var tab] && int.TryParse(tab, out var number) ? number : 1);
        if (of.Name is { } name) return () => opening.ByNameAsync(place, name, key, of);
        if (await journals.LoadAsync(of) is not { } record || (of.Piece.Length == 0 && record.Count < 2) || !await journals.ClaimAsync(of)) return null;
        return () => opening.ByKeyAsync(of, key);
    }

    // Puts something else on the table; what was there is in this browser or on the shelf first.
    private async Task SwitchAsync(Func<Task<Opened>> find)
    {
        desk.KeepDraft();
        await SettleAsync();
        await loop.AloneAsync(async () =>
        {
            var (before, held) = (desk.History, journal.Holds(desk.History));
            var opened = await find();
            if (opened.Key == key && !(held && ReferenceEquals(before, desk.History))) return; // it is on the table, and newer than what was found
            await journal.DoneAsync();
            for (var tried = false; ; tried = true)
            {
                desk.KeepDraft(); // a stroke under way is of the piece that is put away
                if (journal.Holds(desk.History) || (!loop.Dirty && (tried || State == Kept.Example))) break;
                var history = desk.History;
                journal.Note(history, standing);
                await journal.DoneAsync();
                if (!loop.Dirty || journal.Holds(history) || !ReferenceEquals(history, desk.History)) continue; // on the shelf, it may go without its way back
                journals.LetGo(opened.Key);
                throw new ShelfException(ShelfTrouble.Full,
                    "What is on the table can be kept neither on the shelf nor in this browser just now, so it stays there. Export it to a file on the Plate page, or try again.");
            }
            if (loop.Dirty) errands.Expect();
            Put(opened);
        });
    }

    private void Put(Opened opened)
    {
        if (key != opened.Key && key.Place is not null) journals.LetGo(key);
        (key, standing) = (opened.Key, opened.Standing);
        seen = opened.History; // so that the desk's saying so is no edit
        journal.Begin(key, opened.Older, opened.Written);
        desk.Open(opened.History);
        seen = desk.History;
        if (opened.State != Kept.Example) journal.Note(desk.History, standing); // so that it can be opened again without the shelf
        Remember(opened.State == Kept.Example ? null : key);
        loop.Stands(opened.State, opened.Trouble, opened.Dirty);
        if (opened.State == Kept.Safe && key.Tab > 1) desk.Say("This piece is open in another tab too. Work on it in one of them.");
        if (opened.Older > 0) Recall(opened.Record!, opened.Older, desk.History);
    }

    // Reads the older part of a long history in small bites, so that the table never stops for it.
    private async void Recall(JournalRecord record, int count, History of)
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
        await journal.DoneAsync();
        if (!ReferenceEquals(desk.History.Past.LastOrDefault() ?? desk.History.Now, opened)) return; // another piece is on the table
        var all = older.MoveToImmutable();
        journal.Recalled(all);
        desk.Recall(all);
    }

    private void OnDeskChanged()
    {
        if (ReferenceEquals(desk.History, seen)) return;
        var same = seen is not null && ReferenceEquals(desk.History.Now, seen.Now);
        seen = desk.History;
        if (!same) loop.Edited();
    }

    // An example is nothing to come back to until it is edited.
    private void Remember(PieceKey? of) => _ = RememberAsync(of);

    private async Task RememberAsync(PieceKey? of)
    {
        remembered = of;
        memory.SetOfTab(OpenKey, of is { } k ? k.ToString()[(place.Length + 1)..] : "");
        await memory.RememberAsync(OpenKey, of?.Piece);
    }

    private async void LookNowAndThen()
    {
        for (var looks = 0; ; looks++)
        {
            if (!Reach.Answers) await AskAsync();
            if (errands.Waiting || looks % LooksForOthers == 0) await OnErrandsAsync();
            await Task.Delay(LookEvery, time);
        }
    }

    // Whatever is on the table: what waits must go as soon as the shelf answers.
    private async Task AskAsync()
    {
        try { await Shelf.ListAsync(); }
        catch (ShelfException) { }
    }

    private async Task OnErrandsAsync()
    {
        if (onErrands) return;
        onErrands = true;
        try { await loop.AloneAsync(() => errands.RunAsync(place, key)); }
        finally { onErrands = false; }
    }
}
