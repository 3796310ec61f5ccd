using System.Collections.Immutable;
using Pleatwright.Chart.Edit;
using Pleatwright.Files;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>What a journal holds of a piece: its moments as text, the present, and the edition that stood on the shelf.</summary>
public sealed class JournalRecord
{
    private readonly JournalText text;

    /// <summary>A record as the store gave it.</summary>
    public JournalRecord(JournalText text) => this.text = text;

    /// <summary>Moments held.</summary>
    public int Count => text.Moments.Count;

    /// <summary>Which is the present, from 0.</summary>
    public int At => text.At;

    /// <summary>The edition on the shelf when the journal was last written; empty when it was on none.</summary>
    public Edition Base => new(text.Base);

    /// <summary>The text of the present.</summary>
    public byte[] Now => System.Text.Encoding.UTF8.GetBytes(text.Moments[At].Text);

    /// <summary>One moment, read.</summary>
    /// <exception cref="PieceFormatException">An older or newer bench wrote what this one cannot read.</exception>
    public Moment Read(int index) => new(PieceReader.Read(text.Moments[index].Text), text.Moments[index].Edit);
}

/// <summary>
/// The journal of a piece in this browser: every moment of its history, so that a reload or a crash loses neither an
/// edit nor the way back. Only what changed since the last note is written.
/// </summary>
public sealed class Journal(IJournalStore store)
{
    private readonly List<Moment> written = []; // as they stand in the store after the unread ones, oldest first
    private string piece = "";
    private int unread;
    private Task last = Task.CompletedTask;

    /// <summary>Whether this tab keeps the journal of the piece it was begun for; another may have it open.</summary>
    public bool Ours { get; private set; }

    /// <summary>What is held of a piece, or null.</summary>
    public async Task<JournalRecord?> LoadAsync(string key)
    {
        try
        {
            return await store.GetAsync(key) is { } held && (uint)held.At < (uint)held.Moments.Count ? new JournalRecord(held) : null;
        }
        catch (MemoryException)
        {
            return null; // no storage, no journal
        }
    }

    /// <summary>Begins to keep the journal of a piece.</summary>
    /// <param name="key">Which piece, on which shelf.</param>
    /// <param name="older">How many moments stand in the store before those given; they stay there.</param>
    /// <param name="standing">The moments that stand in the store already; none to begin anew.</param>
    public async Task BeginAsync(string key, int older, IEnumerable<Moment> standing)
    {
        if (piece.Length > 0 && piece != key) store.LetGo(piece);
        piece = key;
        unread = older;
        written.Clear();
        written.AddRange(standing);
        Ours = await store.ClaimAsync(key);
    }

    /// <summary>The older moments have been read and joined the history.</summary>
    public void Recalled(IReadOnlyList<Moment> older)
    {
        written.InsertRange(0, older);
        unread = 0;
    }

    /// <summary>Writes what is new in a history. Returns at once; <see cref="DoneAsync"/> waits.</summary>
    /// <param name="history">The history as it is now.</param>
    /// <param name="standing">The edition on the shelf.</param>
    /// <param name="leaving">Whether the page may be gone the next moment.</param>
    public void Note(History history, Edition standing, bool leaving = false)
    {
        if (!Ours) return;
        ImmutableArray<Moment> moments = [.. history.Past.Reverse(), history.Now, .. history.Future];
        var same = 0;
        while (same < moments.Length && same < written.Count && ReferenceEquals(moments[same], written[same])) same++;
        MomentText[] fresh = [.. moments.Skip(same).Select(m => new MomentText(m.Edit, PieceWriter.Write(m.Piece)))];
        written.RemoveRange(same, written.Count - same);
        written.AddRange(moments.AsSpan()[same..]);
        var note = new JournalNote(unread + same, unread + moments.Length, unread + history.Past.Count(), standing.ToString(), fresh);
        if (leaving) store.Leave(piece, note);
        else last = WriteAsync(store.PutAsync(piece, note));
    }

    /// <summary>Waits until the last note is in the store.</summary>
    public Task DoneAsync() => last;

    /// <summary>Forgets a piece.</summary>
    public async Task ClearAsync(string key)
    {
        try { await store.ClearAsync(key); }
        catch (MemoryException) { } // nothing held, nothing to forget
    }

    /// <summary>Follows a piece to another name.</summary>
    public async Task MoveAsync(string from, string to)
    {
        try { await store.MoveAsync(from, to); }
        catch (MemoryException) { } // the history is lost, the piece is not
    }

    // After a note that failed (storage full, say) the next writes everything again.
    private async Task WriteAsync(Task put)
    {
        try { await put; }
        catch (MemoryException) { written.Clear(); }
    }
}
