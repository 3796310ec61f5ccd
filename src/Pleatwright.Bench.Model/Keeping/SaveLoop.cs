using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>How what the maker works on stands with the shelf.</summary>
public enum Kept
{
    /// <summary>An example, not on the shelf until something is changed.</summary>
    Example,

    /// <summary>The shelf has it as it is.</summary>
    Safe,

    /// <summary>An edit is on its way to the shelf.</summary>
    UnderWay,

    /// <summary>The shelf could not take it; this browser has it, and it is tried again.</summary>
    Trouble,

    /// <summary>Another bench or program changed or removed it; the maker must say what to do.</summary>
    Parted,
}

/// <summary>What a <see cref="SaveLoop"/> keeps: the piece on the table, its place at the chair, or the stash.</summary>
public interface IKeepable
{
    /// <summary>Notes in this browser what is new; returns at once.</summary>
    void Note();

    /// <summary>The same when the page may be gone the next moment.</summary>
    void Leave();

    /// <summary>Brings what is new to the shelf.</summary>
    /// <exception cref="ShelfException">It could not; on <see cref="ShelfTrouble.Conflict"/> and <see cref="ShelfTrouble.NotFound"/> they have parted.</exception>
    Task SendAsync(SaveKind kind);

    /// <summary>Another was faster. What is to be done?</summary>
    /// <returns>How it stands now: <see cref="Kept.Parted"/> when the maker must say.</returns>
    /// <exception cref="ShelfException">The shelf could not be asked; it is tried again.</exception>
    Task<Kept> PartedAsync(ShelfException because);
}

/// <summary>
/// The one way in which edits are kept: noted in this browser at once, on the shelf soon, again after trouble; and when another bench was
/// faster, not over its work. Nobody needs to save, and nothing but the last moment can be lost.
/// </summary>
/// <param name="of">What is kept.</param>
/// <param name="reach">Tells when the shelf answers again.</param>
/// <param name="time">The clock.</param>
/// <param name="say">Tells the maker something.</param>
/// <param name="pace">How long it waits.</param>
public sealed class SaveLoop(IKeepable of, Reach reach, TimeProvider time, Action<string> say, SavePace pace)
{
    private readonly SemaphoreSlim one = new(1);
    private bool noteDue, saveDue;

    /// <summary>How it stands with the shelf.</summary>
    public Kept State { get; private set; } = Kept.Example;

    /// <summary>What is wrong, for the maker; empty when nothing is.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>Whether there is anything that the shelf has not.</summary>
    public bool Dirty { get; private set; }

    /// <summary>Raised when any of the above changed.</summary>
    public event Action? Changed;

    /// <summary>Begins to listen for the shelf.</summary>
    public void Start() => reach.Back += () =>
    {
        if (State == Kept.Trouble) SaveAfter(TimeSpan.Zero);
    };

    /// <summary>Something was edited.</summary>
    public void Edited()
    {
        Dirty = true;
        if (State is Kept.Safe or Kept.Example) Stands(Kept.UnderWay, "", dirty: true);
        NoteSoon();
        SaveSoon();
    }

    /// <summary>Says how what is now kept stands; something else has come in its place.</summary>
    public void Stands(Kept state, string trouble, bool dirty)
    {
        var changed = (State, Trouble) != (state, trouble);
        (State, Trouble, Dirty) = (state, trouble, dirty);
        if (dirty) SaveSoon();
        if (changed) Changed?.Invoke();
    }

    /// <summary>Notes what is due at once.</summary>
    public void Flush()
    {
        if (!noteDue) return;
        noteDue = false;
        of.Note();
    }

    /// <summary>The page is going, or may be.</summary>
    public void Leave()
    {
        if (State != Kept.Example || Dirty) of.Leave();
    }

    /// <summary>Brings what is new to this browser and to the shelf; parted or in trouble, it stays in this browser.</summary>
    public async Task SettleAsync()
    {
        Flush();
        if (Dirty && State != Kept.Parted) await SaveAsync(SaveKind.Auto);
    }

    /// <summary>Brings it to the shelf now.</summary>
    public async Task SaveAsync(SaveKind kind)
    {
        await one.WaitAsync();
        try
        {
            if (kind == SaveKind.Auto && !Dirty) return;
            Dirty = false;
            await SendAsync(kind);
        }
        finally
        {
            one.Release();
        }
    }

    /// <summary>Does something while nothing is being saved.</summary>
    public async Task AloneAsync(Func<Task> act)
    {
        await one.WaitAsync();
        try { await act(); }
        finally { one.Release(); }
    }

    private async Task SendAsync(SaveKind kind)
    {
        try
        {
            try
            {
                await of.SendAsync(kind);
                Stands(Dirty ? Kept.UnderWay : Kept.Safe, "", Dirty);
            }
            catch (ShelfException e) when (e.Trouble is ShelfTrouble.Conflict or ShelfTrouble.NotFound)
            {
                var stands = await of.PartedAsync(e);
                Stands(stands, stands == Kept.Parted ? e.Message : "", dirty: stands == Kept.Parted || Dirty);
                say(e.Message);
            }
        }
        catch (ShelfException e)
        {
            var first = State != Kept.Trouble;
            if (!saveDue) SaveAfter(pace.Again); // before anything else is due
            Stands(Kept.Trouble, e.Message, dirty: true);
            if (first) say(e.Message);
        }
    }

    private async void NoteSoon()
    {
        if (pace.Note == TimeSpan.Zero)
        {
            of.Note();
            return;
        }
        if (noteDue) return;
        noteDue = true;
        await Task.Delay(pace.Note, time);
        Flush();
    }

    private void SaveSoon()
    {
        if (State == Kept.Parted || saveDue) return;
        SaveAfter(pace.Shelf);
    }

    private async void SaveAfter(TimeSpan wait)
    {
        if (wait > TimeSpan.Zero)
        {
            saveDue = true;
            await Task.Delay(wait, time);
            saveDue = false;
        }
        if (Dirty && State != Kept.Parted) await SaveAsync(SaveKind.Auto);
    }
}

/// <summary>How long a <see cref="SaveLoop"/> waits.</summary>
/// <param name="Note">After an edit, before it is noted in this browser: a quick hand makes many moments.</param>
/// <param name="Shelf">After the first edit that is not on the shelf yet.</param>
/// <param name="Again">After trouble.</param>
public sealed record SavePace(TimeSpan Note, TimeSpan Shelf, TimeSpan Again)
{
    /// <summary>As the piece on the table is kept.</summary>
    public static SavePace OfPiece { get; } = new(TimeSpan.FromMilliseconds(120), TimeSpan.FromMilliseconds(700), TimeSpan.FromSeconds(5));

    /// <summary>As the place of a piece is kept: a tick is noted at once, and goes to the shelf with those that follow it soon.</summary>
    public static SavePace OfPlace { get; } = new(TimeSpan.Zero, TimeSpan.FromMilliseconds(1500), TimeSpan.FromSeconds(5));

    /// <summary>As the stash is kept: its edits are few.</summary>
    public static SavePace OfStash { get; } = new(TimeSpan.Zero, TimeSpan.FromMilliseconds(1), TimeSpan.FromSeconds(5));
}
