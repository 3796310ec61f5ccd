using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>All journals of this browser. Where the browser stores nothing there are none, and nothing here fails.</summary>
public sealed class Journals(IJournalStore store, TimeProvider time)
{
    private const int MostTries = 4; // where every one fails the browser stores nothing at all

    private int made;

    /// <summary>The store they are in.</summary>
    public IJournalStore Store => store;

    /// <summary>What is held of a piece, or null; null too when it cannot be read just now.</summary>
    public async Task<JournalRecord?> LoadAsync(PieceKey key) => (await ReadAsync(key)).Record;

    /// <summary>What is held of a piece, and whether that could be read: what could not must not be written over.</summary>
    public Task<(bool Read, JournalRecord? Record)> ReadAsync(PieceKey key) => Try(async () => (true, JournalRecord.Of(await store.GetAsync(key.ToString()))), (false, null));

    /// <summary>The journals of one shelf.</summary>
    public Task<IReadOnlyList<(PieceKey Key, JournalHead Head)>> HeadsAsync(string place) => Try<IReadOnlyList<(PieceKey, JournalHead)>>(async () =>
        [.. from head in await store.HeadsAsync() let key = PieceKey.Parse(head.Key) where key?.Place == place select (key.Value, head)], []);

    /// <summary>The text of a journal's present, or null.</summary>
    public Task<string?> PresentAsync(PieceKey key) => Try(() => store.PresentAsync(key.ToString()), null);

    /// <summary>Writes anew how a piece stands that is not on the table.</summary>
    public Task StandsAsync(JournalHead head, Standing standing) => Try(async () =>
    {
        await store.PutAsync(head.Key, new JournalNote(head.Count, head.Count, head.At, standing.Base.ToString(), [], standing.More));
        return true;
    }, false);

    /// <summary>Whether this tab may keep a journal: one tab does at a time.</summary>
    public Task<bool> ClaimAsync(PieceKey key) => store.ClaimAsync(key.ToString());

    /// <summary>Lets another tab keep it.</summary>
    public void LetGo(PieceKey key) => store.LetGo(key.ToString());

    /// <summary>A key for a new piece, this tab's own.</summary>
    public async Task<PieceKey> NewKeyAsync(string place)
    {
        for (var tries = 1; ; tries++)
        {
            var key = PieceKey.OfNew(place, Mark());
            if (!await ClaimAsync(key)) continue;
            var (read, record) = await ReadAsync(key);
            if (record is null && (read || tries >= MostTries)) return key; // what cannot be read may hold something
            LetGo(key);
        }
    }

    /// <summary>Puts the journal of a piece aside that is no more; one that comes back finds it again by its edition.</summary>
    public Task PutAsideAsync(PieceKey key) => MakeWayAsync(key);

    /// <summary>Gives a journal another key; one of a piece that is no more makes way.</summary>
    /// <returns>False when the store gave up; nothing was moved then.</returns>
    public async Task<bool> MoveAsync(PieceKey from, PieceKey to) =>
        await MakeWayAsync(to) && await Try(async () =>
        {
            await store.MoveAsync(from.ToString(), to.ToString());
            return true;
        }, false);

    /// <summary>The first key of a piece, from a tab on, that no other tab keeps; claimed.</summary>
    public Task<PieceKey> KeyAsync(string place, PieceName name, int from = 1) => FreeAsync(PieceKey.Of(place, name, from));

    /// <summary>
    /// The key of a piece, or of its next tab where a journal is being kept there, by whatever tab; claimed. A piece that is no more may
    /// still be worked on when another is given its name.
    /// </summary>
    /// <param name="wanted">The key.</param>
    /// <param name="table">What this tab keeps itself, and which must not make way; none when it is what moves.</param>
    public async Task<PieceKey> FreeAsync(PieceKey wanted, PieceKey table = default)
    {
        for (var key = wanted; ; key = key with { Tab = key.Tab + 1 })
            if (key != table && await ClaimAsync(key))
                return key;
    }

    private async Task<bool> MakeWayAsync(PieceKey key) => await Try(async () =>
    {
        if (await store.GetAsync(key.ToString()) is null) return true;
        var aside = key.Aside(Mark());
        while (await store.GetAsync(aside.ToString()) is not null) aside = key.Aside(Mark()); // another tab's, of the same instant
        await store.MoveAsync(key.ToString(), aside.ToString());
        return true;
    }, false);

    private string Mark() => FormattableString.Invariant($"{time.GetUtcNow():yyyyMMddHHmmssfff}-{++made}");

    private static async Task<T> Try<T>(Func<Task<T>> act, T otherwise)
    {
        try { return await act(); }
        catch (MemoryException) { return otherwise; }
    }
}
