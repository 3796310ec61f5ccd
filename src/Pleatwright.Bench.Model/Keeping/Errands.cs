using System.Text;
using Pleatwright.Files;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>How a piece that this browser holds stands with the shelf.</summary>
public enum HeldStand
{
    /// <summary>The shelf had it as it is.</summary>
    InStep,

    /// <summary>It, or edits of it, are still to go there.</summary>
    Waiting,

    /// <summary>It has parted from the one there, and the maker must say.</summary>
    Parted,
}

/// <summary>A piece that this browser holds a journal of.</summary>
/// <param name="Key">The key of the journal.</param>
/// <param name="Title">The title written in it.</param>
/// <param name="Edition">The edition of its present.</param>
/// <param name="Stand">How it stands with the shelf.</param>
public sealed record HeldPiece(PieceKey Key, string Title, Edition Edition, HeldStand Stand);

/// <summary>
/// Brings to the shelf what waits in this browser of pieces that are not on the table: edits made while it did not answer, new pieces, and
/// what a closed tab left.
/// </summary>
public sealed class Errands(Journals journals, Sending sending, Action<string> say)
{
    private readonly Dictionary<PieceKey, (JournalHead Head, HeldPiece Held)> known = [];
    private readonly HashSet<JournalHead> refused = [];

    /// <summary>Whether anything still waits.</summary>
    public bool Waiting { get; private set; }

    /// <summary>Something was left to wait.</summary>
    public void Expect() => Waiting = true;

    /// <summary>What this browser holds of a shelf, but journals put aside.</summary>
    public async Task<IReadOnlyList<HeldPiece>> HeldAsync(string place)
    {
        var held = new List<HeldPiece>();
        foreach (var (key, head) in await LiveAsync(place))
            if (await HeldAsync(key, head) is { } piece)
                held.Add(piece);
        return held;
    }

    /// <summary>Brings what waits to the shelf, as far as it goes.</summary>
    /// <param name="place">The shelf.</param>
    /// <param name="table">What is on the table, which is kept another way.</param>
    /// <param name="only">A piece that is meant alone; null for all.</param>
    public async Task RunAsync(string place, PieceKey table, PieceName? only = null)
    {
        var left = false;
        foreach (var (key, head) in await LiveAsync(place))
        {
            if (key == table || (only is not null && key.Name != only) || refused.Contains(head)) continue;
            if (await HeldAsync(key, head) is not { Stand: HeldStand.Waiting } || !await journals.ClaimAsync(key)) continue;
            try
            {
                if (await journals.LoadAsync(key) is { } record) await SendAsync(key, record, new JournalHead(key.ToString(), record.Count, record.At, ""), table);
                else left = true; // it cannot be read just now
            }
            catch (ShelfException e) when (e.Trouble == ShelfTrouble.Unreadable)
            {
                refused.Add(head); // of a newer bench, maybe; it stays where it is
                say(e.Message);
            }
            catch (ShelfException e)
            {
                left = true;
                if (e.Trouble == ShelfTrouble.Unavailable) break;
            }
            finally
            {
                journals.LetGo(key);
            }
        }
        if (only is null || left) Waiting = left;
    }

    private async Task SendAsync(PieceKey key, JournalRecord record, JournalHead head, PieceKey table)
    {
        var standing = record.Standing;
        try
        {
            var title = key.IsNew ? TitleOf(record.Now) : "";
            var (to, now) = await sending.SendAsync(key, standing, record.Now, title, SaveKind.Auto, s => journals.StandsAsync(head, standing = s));
            var free = to == key ? key : await journals.FreeAsync(to, table);
            if (free == key || await journals.MoveAsync(key, free)) await journals.StandsAsync(head with { Key = free.ToString() }, now);
            if (free != key) journals.LetGo(free);
        }
        catch (ShelfException e) when (e.Trouble is ShelfTrouble.Conflict or ShelfTrouble.NotFound)
        {
            await journals.StandsAsync(head, record.Standing with { Parted = true });
            say(e.Message);
        }
    }

    // Those that stand for a piece: not put aside, and not left behind by one that has its name by now.
    private async Task<IReadOnlyList<(PieceKey Key, JournalHead Head)>> LiveAsync(string place)
    {
        var all = await journals.HeadsAsync(place);
        var named = all.Select(h => (Standing.Read(h.Head.Base, h.Head.More).Was, h.Key.Piece, h.Head.Count)).Where(h => h.Was.Length > 0 && h.Was != h.Piece).ToLookup(h => h.Was, h => h.Count);
        return [.. all.Where(h => !h.Key.IsAside && !(h.Key.IsNew && named[h.Key.Piece].Any(count => count >= h.Head.Count)))];
    }

    private async Task<HeldPiece?> HeldAsync(PieceKey key, JournalHead head)
    {
        if (known.TryGetValue(key, out var was) && was.Head == head) return was.Held;
        if (await journals.PresentAsync(key) is not { } text) return null;
        var utf8 = Encoding.UTF8.GetBytes(text);
        var edition = Edition.Of(utf8);
        var standing = Standing.Read(head.Base, head.More);
        // Older benches kept every example on the table in one journal; with nothing edited it stands for nothing.
        var stand = key.IsNew ? key.Piece.Length == 0 && head.Count < 2 ? HeldStand.InStep : HeldStand.Waiting
            : standing.Parted ? HeldStand.Parted : standing.IsClean(edition) ? HeldStand.InStep : HeldStand.Waiting;
        var held = new HeldPiece(key, TitleOf(utf8), edition, stand);
        known[key] = (head, held);
        return held;
    }

    private static string TitleOf(byte[] text)
    {
        try { return Smocking.Read(text).Title; }
        catch (PieceFormatException) { return "a piece of a newer bench"; }
    }
}
