using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Files;
using Pleatwright.Measure;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>A piece as it comes on the table.</summary>
/// <param name="Key">The key of its journal, which this tab has claimed.</param>
/// <param name="Standing">How it stands with the shelf.</param>
/// <param name="History">Its history, perhaps only the latest part.</param>
/// <param name="State">How that is told.</param>
public sealed record Opened(PieceKey Key, Standing Standing, History History, Kept State)
{
    /// <summary>What is wrong, for the maker; empty when nothing is.</summary>
    public string Trouble { get; init; } = "";

    /// <summary>Whether the shelf is still to get it.</summary>
    public bool Dirty { get; init; }

    /// <summary>The journal it came from; null when it came from elsewhere.</summary>
    public JournalRecord? Record { get; init; }

    /// <summary>Moments of the journal not read yet, before those of the history.</summary>
    public int Older { get; init; }

    /// <summary>The moments of the history that stand in the journal already.</summary>
    public ImmutableArray<Moment> Written { get; init; } = [];
}

/// <summary>A piece would cost much to open, and the maker has not said that it be opened all the same.</summary>
/// <param name="what">Whose it is, as a title or a name.</param>
/// <param name="dear">What makes it dear.</param>
public sealed class DearPieceException(string what, string dear)
    : ShelfException(ShelfTrouble.Unreadable, $"“{what}” is very large: {dear}. It stays as it is.");

/// <summary>Finds what comes on the table: from this browser's journal, from the shelf, or from both.</summary>
internal sealed class Opening(IShelf shelf, Journals journals)
{
    private const int MostTries = 4; // where every one fails the browser stores nothing at all
    private const int ReadAtOnce = 30; // moments of a long history read before the piece is shown

    private readonly HashSet<string> takenOn = []; // however dear

    /// <summary>Opens a piece of this name from now on, however dear it is.</summary>
    public void TakeOn(PieceName name) => takenOn.Add(name.ToString());

    /// <summary>A new piece, on no shelf yet.</summary>
    public async Task<Opened> NewAsync(string place, Piece piece, Kept state) =>
        new(await journals.NewKeyAsync(place), Standing.None, Fits(new History(piece), true), state) { Dirty = state != Kept.Example };

    /// <summary>A piece of the shelf, with its history and with edits the shelf has not seen.</summary>
    /// <param name="place">The shelf.</param>
    /// <param name="name">Its name.</param>
    /// <param name="table">What is on the table now; its journal is this tab's already.</param>
    /// <param name="preferred">The journal this tab kept before it was reloaded.</param>
    /// <exception cref="ShelfException">It cannot be reached or read.</exception>
    public async Task<Opened> ByNameAsync(string place, PieceName name, PieceKey table, PieceKey? preferred = null)
    {
        var key = table.Place == place && table.Name == name ? table
            : preferred is { } p && p.Name == name && await journals.ClaimAsync(p) ? p
            : await journals.KeyAsync(place, name);
        for (var tries = 0; tries < MostTries && key != table && !(await journals.ReadAsync(key)).Read; tries++)
        {
            journals.LetGo(key); // what it holds is not known, so nothing is written there
            key = await journals.KeyAsync(place, name, key.Tab + 1);
        }
        return await ByKeyAsync(key, table);
    }

    /// <summary>What this browser holds under a key that this tab has claimed.</summary>
    /// <exception cref="ShelfException">It cannot be reached or read.</exception>
    public async Task<Opened> ByKeyAsync(PieceKey key, PieceKey table)
    {
        try
        {
            return key.Name is { } name ? await NamedAsync(key, name) : await NewestAsync(key);
        }
        catch
        {
            if (key != table) journals.LetGo(key);
            throw;
        }
    }

    private async Task<Opened> NewestAsync(PieceKey key) => await journals.LoadAsync(key) is { } record
        ? FromJournal(key, record, record.Standing with { Parted = false }, Kept.UnderWay) with { Dirty = true }
        : throw new ShelfException(ShelfTrouble.NotFound, "This browser holds that piece no more.");

    private async Task<Opened> NamedAsync(PieceKey key, PieceName name)
    {
        var (read, record) = await journals.ReadAsync(key);
        if (!read && key.Tab <= MostTries) throw new ShelfException(ShelfTrouble.Busy, $"What this browser holds of “{name}” cannot be read just now. Try again.");
        StoredPiece? stored = null;
        ShelfException? silent = null;
        try { stored = await shelf.LoadAsync(name); }
        catch (ShelfException e) when (e.Trouble == ShelfTrouble.NotFound) { silent = e; }
        catch (ShelfException e) { silent = e; }
        var borrowed = silent is not null && silent.Trouble != ShelfTrouble.NotFound && record is null;
        if (borrowed) record = await OfAnotherTabAsync(key);
        if (record is null && stored is not null) record = await AdoptAsync(key, stored.Edition);
        if (stored is not null && !takenOn.Contains(name.ToString()) && Outlay.OfFile(stored.Text.Length) is { } heavy) throw new DearPieceException(name.ToString(), heavy.Words);
        var answered = silent is null or { Trouble: ShelfTrouble.NotFound };
        switch (Reconciling.Decide(record is null ? null : (record.Edition, record.Standing), answered, stored?.Edition))
        {
            case Reconciled.InStep: return FromJournal(key, record!, record!.Standing.InStep(stored!.Edition), Kept.Safe);
            case Reconciled.Ahead: return FromJournal(key, record!, record!.Standing with { Base = stored!.Edition, Parted = false }, Kept.UnderWay) with { Dirty = true };
            case Reconciled.Waiting: return FromJournal(key, record!, record!.Standing, Kept.Trouble, borrowed) with { Dirty = true, Trouble = silent!.Message };
            case Reconciled.Parted:
                return FromJournal(key, record!, record!.Standing with { Parted = true }, Kept.Parted, borrowed) with { Dirty = true, Trouble = Reconciling.Words(name, gone: answered && stored is null) };
            case Reconciled.TheirsOnTop:
                var ours = FromJournal(key, record!, Theirs(stored!, out var theirs) with { Was = record!.Standing.Was }, Kept.Safe);
                return ours with { History = Fits(ours.History.Do(theirs, "what the shelf has"), takenOn.Contains(name.ToString())) };
            case Reconciled.Theirs: return new Opened(key, Theirs(stored!, out var piece), Fits(new History(piece), takenOn.Contains(name.ToString())), Kept.Safe);
            default: throw silent!;
        }
    }

    // Without the shelf a second tab begins from what the first one holds; what it does with it is its own.
    private async Task<JournalRecord?> OfAnotherTabAsync(PieceKey key)
    {
        for (var tab = 1; tab < key.Tab; tab++)
            if (await journals.LoadAsync(key with { Tab = tab }) is { } record) return record;
        return null;
    }

    // The journal of a piece that came by another name, or came back: known by the edition it was left at.
    private async Task<JournalRecord?> AdoptAsync(PieceKey key, Edition there)
    {
        if (key.Tab > 1) return null;
        foreach (var (other, head) in await journals.HeadsAsync(key.Place))
        {
            var standing = Standing.Read(head.Base, head.More);
            if ((!other.IsAside && standing.To != key.Name) || !standing.IsOurs(there) || !await journals.ClaimAsync(other)) continue;
            var moved = await journals.MoveAsync(other, key);
            journals.LetGo(other);
            if (moved) return await journals.LoadAsync(key);
        }
        return null;
    }

    // What is borrowed from another tab's journal does not stand in this one yet, so all of it is read and will be written.
    private Opened FromJournal(PieceKey key, JournalRecord record, Standing standing, Kept state, bool borrowed = false)
    {
        var from = borrowed ? 0 : Math.Max(0, record.At - ReadAtOnce);
        try
        {
            var moments = record.ReadFrom(from);
            return new Opened(key, standing, Fits(History.From(moments, record.At - from), key.Name is null || takenOn.Contains(key.Piece)), state) { Record = record, Older = from, Written = borrowed ? [] : moments };
        }
        catch (PieceFormatException e)
        {
            throw new ShelfException(ShelfTrouble.Unreadable, $"The edits kept in this browser cannot be read by this bench: {e.Message}", e);
        }
    }

    /// <summary>How a piece stands that was just read from the shelf.</summary>
    /// <exception cref="ShelfException">It is no piece.</exception>
    public static Standing Theirs(StoredPiece stored, out Piece piece)
    {
        piece = Read(stored);
        return new Standing(stored.Edition) { As = Edition.Of(PieceWriter.WriteUtf8(piece)) };
    }

    /// <summary>A text of the shelf, read.</summary>
    /// <exception cref="ShelfException">It is no piece.</exception>
    public static Piece Read(StoredPiece stored)
    {
        try
        {
            return Smocking.Read(stored.Text);
        }
        catch (PieceFormatException e)
        {
            throw new ShelfException(ShelfTrouble.Unreadable, $"“{stored.Name}” cannot be read: {e.Located(stored.Name.FileName)}", e);
        }
    }

    /// <summary>A history whose present can be laid out.</summary>
    /// <param name="history">The history.</param>
    /// <param name="takenOn">Whether it may be dear.</param>
    /// <exception cref="DearPieceException">It is dear.</exception>
    /// <exception cref="ShelfException">It cannot.</exception>
    public static History Fits(History history, bool takenOn)
    {
        var piece = history.Now.Piece;
        try
        {
            if (!takenOn && Outlay.Of(piece) is { } dear) throw new DearPieceException(piece.Title, dear.Words);
            Smocking.Lay(piece);
            return history;
        }
        catch (ArgumentException e)
        {
            throw new ShelfException(ShelfTrouble.Unreadable, $"This piece is too large to lay out: {e.Why()}.", e);
        }
    }
}
