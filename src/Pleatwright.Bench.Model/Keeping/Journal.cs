using System.Collections.Immutable;
using Pleatwright.Chart.Edit;
using Pleatwright.Files;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>
/// The journal of the piece on the table: every moment of its history, so that a reload or a crash loses neither an edit nor the way back.
/// Only what changed since the last note is written, one note at a time, each built on what is known to stand in the store.
/// </summary>
public sealed class Journal(Journals journals)
{
    private readonly List<Moment> written = []; // as they stand in the store after the unread ones, oldest first
    private PieceKey key;
    private int unread;
    private (History History, Standing Standing)? due;
    private History? held;
    private bool busy;
    private int clearings;
    private Task last = Task.CompletedTask;

    /// <summary>Whether the store has a history as it is.</summary>
    public bool Holds(History history) => ReferenceEquals(held, history) && due is null && !busy;

    /// <summary>Begins to keep the journal of a piece, which this tab has claimed. No note may be under way.</summary>
    /// <param name="of">Which piece.</param>
    /// <param name="older">How many moments stand in the store before those given; they stay there.</param>
    /// <param name="standing">The moments that stand in the store already; none to begin anew.</param>
    public void Begin(PieceKey of, int older, IEnumerable<Moment> standing)
    {
        key = of;
        unread = older;
        written.Clear();
        written.AddRange(standing);
        (due, held) = (null, null);
    }

    /// <summary>The older moments have been read and joined the history.</summary>
    public void Recalled(IReadOnlyList<Moment> older)
    {
        written.InsertRange(0, older);
        unread = 0;
    }

    /// <summary>Writes what is new in a history. Returns at once; <see cref="DoneAsync"/> waits.</summary>
    public void Note(History history, Standing standing)
    {
        due = (history, standing);
        if (!busy) last = WriteAsync();
    }

    /// <summary>The same when the page may be gone the next moment.</summary>
    public void Leave(History history, Standing standing)
    {
        if (Holds(history)) return;
        journals.Store.Leave(key.ToString(), NoteOf(history, standing, out _));
    }

    /// <summary>Waits until the last note is in the store, or has failed.</summary>
    public async Task DoneAsync()
    {
        while (busy) await last;
    }

    /// <summary>Takes what was written to another key, which this tab has claimed, and goes on there.</summary>
    public Task MoveAsync(PieceKey to)
    {
        return busy ? AfterAsync() : last = MoveNowAsync();

        async Task AfterAsync()
        {
            await DoneAsync();
            await MoveAsync(to);
        }

        async Task MoveNowAsync()
        {
            busy = true;
            var from = key;
            key = to; // whoever leaves meanwhile leaves it there
            var moved = await journals.MoveAsync(from, to);
            if (!moved)
            {
                // Written anew there; the old one stays until it is known to be no more than this.
                written.Clear();
                (unread, held) = (0, null);
            }
            if (moved) journals.LetGo(from);
            await WriteAsync();
        }
    }

    // After a note that failed (storage full, say) the next writes everything again.
    private async Task WriteAsync()
    {
        busy = true;
        while (due is var (history, standing))
        {
            due = null;
            var note = NoteOf(history, standing, out var moments);
            try
            {
                await journals.Store.PutAsync(key.ToString(), note);
                written.Clear();
                if (journals.Store.Clearings > clearings)
                {
                    // What the note was built on is gone; it is written whole.
                    clearings = journals.Store.Clearings;
                    (unread, held) = (0, null);
                    due ??= (history, standing);
                    continue;
                }
                written.AddRange(moments);
                held = history;
            }
            catch (MemoryException)
            {
                held = null;
            }
        }
        busy = false;
    }

    private JournalNote NoteOf(History history, Standing standing, out ImmutableArray<Moment> moments)
    {
        moments = [.. history.Past.Reverse(), history.Now, .. history.Future];
        var same = 0;
        while (same < moments.Length && same < written.Count && ReferenceEquals(moments[same], written[same])) same++;
        MomentText[] fresh = [.. moments.Skip(same).Select(m => new MomentText(m.Edit, PieceWriter.Write(m.Piece)))];
        return new JournalNote(unread + same, unread + moments.Length, unread + history.Past.Count(), standing.Base.ToString(), fresh, standing.More);
    }
}
