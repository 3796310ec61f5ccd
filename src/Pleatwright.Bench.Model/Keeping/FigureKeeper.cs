using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Files;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>A figure of the drawer as it lies on the shelf, or is on its way there.</summary>
/// <param name="Name">The name of its file; the key for all that is done with it.</param>
/// <param name="Kept">The figure; null where its file cannot be read.</param>
/// <param name="Modified">When its file was last written, UTC; for show only.</param>
/// <param name="Edition">Which edition stands there; null while it is on its way, and where it was not read.</param>
/// <param name="Problem">Why its file cannot be read; null when it can.</param>
/// <param name="Usable">Whether it can be renamed or taken out by its name.</param>
public sealed record DrawerFigure(string Name, KeptFigure? Kept, DateTimeOffset Modified, Edition? Edition, string? Problem, bool Usable);

/// <summary>A figure that comes to the drawer, where the same figure lies in another state already: the maker says which stays.</summary>
/// <param name="Mine">The one that comes.</param>
/// <param name="Standing">The one that lies there.</param>
public sealed record DrawerDoubt(KeptFigure Mine, KeptFigure Standing);

/// <summary>
/// Keeps the maker's drawer of figures: what is put into it goes there at once, over the state it was made from and never over another's; what the shelf cannot take
/// waits in this browser, each tab's by itself. A figure is known by its identity, whatever its file is called by now.
/// </summary>
public sealed class FigureKeeper : IKeepable
{
    private const int MostTries = 4; // other benches may be faster so often running
    private const char Between = '\u001e'; // never within JSON
    private static readonly Edition NoEdition = new("none");

    private readonly ITextShelf shelf;
    private readonly IMemory memory;
    private readonly TimeProvider time;
    private readonly SaveLoop loop;
    private readonly TabNotes notes;
    private readonly Dictionary<Edition, KeptFigure?> read = [];
    private ImmutableList<Put> puts = [];
    private IReadOnlyList<DrawerFigure> standing = [];
    private Task? opening;
    private Task claimed = Task.CompletedTask;

    /// <summary>An empty drawer; <see cref="OpenAsync"/> looks into it.</summary>
    public FigureKeeper(ITextShelf shelf, Keeper keeper, IMemory memory, TimeProvider time, Action<string> say)
    {
        this.shelf = new HeardTexts(shelf, keeper.Reach);
        (this.memory, this.time) = (memory, time);
        notes = new TabNotes(memory, keeper, "figures");
        loop = new SaveLoop(this, keeper.Reach, time, say, SavePace.OfStash);
        loop.Changed += () => Changed?.Invoke();
        loop.Stands(Kept.Safe, "", dirty: false);
        loop.Start();
    }

    /// <summary>The shelf itself.</summary>
    public ITextShelf Shelf => shelf;

    /// <summary>What lies in it, with what is on its way there; the newest first.</summary>
    public IReadOnlyList<DrawerFigure> All { get; private set; } = [];

    /// <summary>What is on its way to the shelf, in the order in which it was put in.</summary>
    internal IEnumerable<KeptFigure> OnTheWay => puts.Select(p => p.Kept);

    /// <summary>What was taken out and can be put back, the newest first.</summary>
    public IReadOnlyList<DeletedPiece> TakenOut { get; private set; } = [];

    /// <summary>Whether it has been looked into.</summary>
    public bool IsSeen { get; private set; }

    /// <summary>Why it could not be looked into, or what is on its way could not be kept yet; empty when all is well.</summary>
    public string Trouble => unseen.Length > 0 ? unseen : loop.Trouble;

    private string unseen = "";

    /// <summary>How what was put in stands with the shelf.</summary>
    public Kept State => loop.State;

    /// <summary>Raised when any of the above changed.</summary>
    public event Action? Changed;

    /// <summary>The figure of an identity as the drawer has it; null when it has none, or was not looked into. Of two with one identity the one in the state asked for, else the newer.</summary>
    public KeptFigure? Find(string id, string? state = null)
    {
        var found = All.Where(f => f.Kept?.Id == id).Select(f => f.Kept!).ToList();
        return found.Find(f => f.State == state) ?? found.FirstOrDefault();
    }

    /// <summary>Takes up what an earlier sitting could not bring to the shelf, and what closed tabs left: it goes there by itself.</summary>
    public async Task StartAsync()
    {
        await (claimed = notes.ClaimAsync());
        memory.OnLeave(loop.Leave);
        puts = [.. Read(await notes.RememberedAsync()), .. puts];
        await notes.EachLeftAsync(async text =>
        {
            var left = Read(text);
            puts = puts.AddRange(left);
            await NoteAsync(); // before the other's is forgotten
            return left.Count > 0;
        });
        if (puts.IsEmpty) return;
        Show();
        loop.Edited();
    }

    /// <summary>Looks into it once; after trouble it is tried again.</summary>
    public Task OpenAsync() => opening ??= BeginAsync();

    /// <summary>Looks into it again.</summary>
    public async Task LookAsync()
    {
        await OpenAsync();
        await ReadAsync();
    }

    /// <summary>Puts a figure in, over a state of it that was there; null when it was not there.</summary>
    public void Put(KeptFigure kept, string? over)
    {
        puts = puts.Add(new Put(kept, over));
        Show();
        loop.Edited();
    }

    /// <summary>A name that no figure of the drawer has yet.</summary>
    public string FreeName(string stem)
    {
        var name = stem;
        for (var number = 2; All.Any(f => string.Equals(f.Kept?.Name, name, StringComparison.OrdinalIgnoreCase)); number++)
        {
            var tail = FormattableString.Invariant($" {number}");
            name = stem[..Math.Min(stem.Length, Figure.LongestName - tail.Length)] + tail;
        }
        return name;
    }

    /// <summary>A figure as another than those that lie in the drawer: with an identity and a name of its own.</summary>
    public KeptFigure AsAnother(KeptFigure kept)
    {
        var name = FreeName(kept.Name);
        var another = kept with { Figure = kept.Figure with { Name = name, From = null } };
        var id = FigureMark.OfText($"{kept.State} {name}");
        for (var number = 2; All.Any(f => f.Kept?.Id == id); number++) id = FigureMark.OfText(FormattableString.Invariant($"{kept.State} {name} {number}"));
        return another with { Id = id };
    }

    /// <summary>Takes a figure in from a file; what lies there already in another state is asked about first, and nothing is done.</summary>
    /// <exception cref="PieceFormatException">The text is no figure; says where and what would serve.</exception>
    public async Task<DrawerDoubt?> BringInAsync(byte[] text)
    {
        var kept = FigureReader.Read(text);
        await LookAsync();
        if (Find(kept.Id, kept.State) is not { } there) Put(kept, null);
        else if (there.State != kept.State) return new DrawerDoubt(kept, there);
        await SettleAsync();
        return null;
    }

    /// <summary>Gives a figure another name, and its file the nearest free one.</summary>
    /// <exception cref="ShelfException">The shelf could not do it.</exception>
    public async Task RenameAsync(DrawerFigure figure, string title)
    {
        await SettleAsync();
        title = title.Trim();
        if (title.Length is 0 or > Figure.LongestName) throw new ShelfException(ShelfTrouble.BadName, $"A figure's name has 1 to {Figure.LongestName} characters.");
        var name = PieceName.Parse(figure.Name);
        if (figure.Kept is not null)
        {
            var stored = await shelf.LoadAsync(name);
            var kept = Readable(stored);
            await shelf.SaveAsync(name, FigureWriter.WriteUtf8(kept with { Figure = kept.Figure with { Name = title } }), stored.Edition, SaveKind.Kept);
        }
        var wanted = PieceName.Nearest(title);
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
        await ReadAsync();
    }

    /// <summary>Takes a figure out of the drawer; it can be put back. Pieces that use it keep theirs.</summary>
    /// <exception cref="ShelfException">The shelf could not do it.</exception>
    public async Task TakeOutAsync(DrawerFigure figure)
    {
        await SettleAsync();
        await shelf.DeleteAsync(PieceName.Parse(figure.Name));
        await ReadAsync();
    }

    /// <summary>Puts a figure back that was taken out.</summary>
    /// <exception cref="ShelfException">The shelf could not do it.</exception>
    public async Task PutBackAsync(string name)
    {
        await shelf.UndoDeleteAsync(PieceName.Parse(name));
        await ReadAsync();
    }

    /// <summary>Puts an earlier version of a figure back; what stood there becomes a version.</summary>
    /// <exception cref="ShelfException">The shelf could not do it.</exception>
    public async Task RestoreAsync(DrawerFigure figure, int number)
    {
        await SettleAsync();
        await shelf.RestoreAsync(PieceName.Parse(figure.Name), number);
        await ReadAsync();
    }

    /// <summary>Brings what is on its way to the shelf.</summary>
    public Task SettleAsync() => loop.SettleAsync();

    void IKeepable.Note() => _ = NoteAsync();

    void IKeepable.Leave()
    {
        if (notes.IsClaimed && !puts.IsEmpty) notes.Leave(Written());
    }

    async Task IKeepable.SendAsync(SaveKind kind)
    {
        var second = new List<string>();
        while (puts is [var put, ..])
        {
            try { await SendAsync(put); }
            catch (ShelfException e) when (e.Trouble is ShelfTrouble.Conflict or ShelfTrouble.Unreadable) { second.Add(e.Message); }
            puts = puts.Remove(put);
            await NoteAsync();
        }
        await ReadAsync();
        if (second.Count > 0) throw new ShelfException(ShelfTrouble.Conflict, string.Join(' ', second));
    }

    // Ours is among the versions of the one that stands; what the drawer has is offered to the piece it came from.
    Task<Kept> IKeepable.PartedAsync(ShelfException because) => Task.FromResult(Kept.Safe);

    private async Task SendAsync(Put put)
    {
        for (var tries = 1; ; tries++)
        {
            var there = await ThereAsync(put.Kept);
            if (there is null)
            {
                try
                {
                    await shelf.CreateAsync(PieceName.Nearest(put.Kept.Name), FigureWriter.WriteUtf8(put.Kept));
                    return;
                }
                catch (ShelfException e) when (tries < MostTries && e.Trouble == ShelfTrouble.Taken)
                {
                    continue; // another bench has just begun it, or we ourselves with an answer lost
                }
            }
            var (stored, kept) = there.Value;
            if (kept.State == put.Kept.State) return; // it is there: an answer was lost, or another was of the same mind
            var text = FigureWriter.WriteUtf8(put.Kept with { Figure = put.Kept.Figure with { Name = kept.Name } }); // renamed meanwhile, it keeps that name
            try
            {
                await shelf.SaveAsync(stored.Name, text, kept.State == put.Over ? stored.Edition : NoEdition, SaveKind.Kept);
                return;
            }
            catch (ShelfException e) when (tries < MostTries && (e.Trouble == ShelfTrouble.NotFound || (e.Trouble == ShelfTrouble.Conflict && kept.State == put.Over)))
            {
                // Renamed, taken out or written anew between two calls: it is looked for again.
            }
        }
    }

    // The figure of the same identity on the shelf: the one it goes over, else one in its very state, else the newest.
    private async Task<(StoredPiece Stored, KeptFigure Kept)?> ThereAsync(KeptFigure of)
    {
        await ReadAsync();
        foreach (var figure in standing.Where(f => f.Kept?.Id == of.Id).OrderByDescending(f => f.Kept!.State == of.State))
        {
            StoredPiece stored;
            try { stored = await shelf.LoadAsync(PieceName.Parse(figure.Name)); }
            catch (ShelfException e) when (e.Trouble == ShelfTrouble.NotFound) { continue; }
            if (TryRead(stored.Text) is { } kept && kept.Id == of.Id) return (stored, kept);
        }
        return null;
    }

    private async Task BeginAsync()
    {
        try
        {
            await ReadAsync();
        }
        catch (ShelfException)
        {
            opening = null; // it is said, and tried again
        }
    }

    private async Task ReadAsync()
    {
        try
        {
            var contents = await shelf.ListAsync();
            var found = new List<DrawerFigure>();
            foreach (var entry in contents.Pieces)
            {
                var kept = entry.Edition is { } edition && entry.Problem is null ? await KeptOfAsync(entry, edition) : null;
                found.Add(new DrawerFigure(entry.Name, kept, entry.Modified, entry.Edition, entry.Problem, entry.Usable));
            }
            (standing, TakenOut, unseen, IsSeen) = (found, contents.Deleted, "", true);
        }
        catch (ShelfException e)
        {
            unseen = e.Message;
            Changed?.Invoke();
            throw;
        }
        Show();
    }

    private async Task<KeptFigure?> KeptOfAsync(ShelfEntry entry, Edition edition)
    {
        if (read.TryGetValue(edition, out var known)) return known;
        StoredPiece stored;
        try { stored = await shelf.LoadAsync(PieceName.Parse(entry.Name)); }
        catch (ShelfException e) when (e.Trouble is ShelfTrouble.NotFound or ShelfTrouble.Unreadable) { return null; } // gone or changed just now
        return read[stored.Edition] = TryRead(stored.Text);
    }

    private static KeptFigure? TryRead(byte[] text)
    {
        try { return FigureReader.Read(text); }
        catch (PieceFormatException) { return null; }
    }

    private static KeptFigure Readable(StoredPiece stored)
    {
        try { return FigureReader.Read(stored.Text); }
        catch (PieceFormatException e) { throw new ShelfException(ShelfTrouble.Unreadable, $"“{stored.Name}” cannot be read: {e.Placed}"); }
    }

    // What is on its way lies over what stands there.
    private void Show()
    {
        var all = standing.ToList();
        foreach (var put in puts)
        {
            var at = all.FindIndex(f => f.Kept?.Id == put.Kept.Id);
            if (at < 0) all.Insert(0, new DrawerFigure(PieceName.Nearest(put.Kept.Name).ToString(), put.Kept, time.GetUtcNow(), null, null, true));
            else if (all[at].Kept!.State == put.Over) all[at] = all[at] with { Kept = put.Kept with { Figure = put.Kept.Figure with { Name = all[at].Kept!.Name } }, Edition = null };
        }
        All = all;
        Changed?.Invoke();
    }

    // Under the name of this tab, which comes a moment after the page.
    private async Task NoteAsync()
    {
        await claimed;
        await notes.RememberAsync(puts.IsEmpty ? null : Written());
    }

    private string Written() => string.Join(Between, puts.Select(p => $"{p.Over}\n{FigureWriter.Write(p.Kept)}"));

    private static List<Put> Read(string? remembered)
    {
        var left = new List<Put>();
        foreach (var one in (remembered ?? "").Split(Between))
            if (one.Split('\n', 2) is [var over, var text] && TryRead(System.Text.Encoding.UTF8.GetBytes(text)) is { } kept)
                left.Add(new Put(kept, over.Length > 0 ? over : null));
        return left;
    }
}

/// <summary>A figure on its way to the drawer.</summary>
/// <param name="Kept">The figure.</param>
/// <param name="Over">The state of it that it takes the place of; null when it was not there.</param>
internal sealed record Put(KeptFigure Kept, string? Over);
