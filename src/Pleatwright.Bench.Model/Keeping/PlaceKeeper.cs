using Pleatwright.Files;
using Pleatwright.Shelf;
using Pleatwright.Ticks;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>
/// Keeps the place of a piece: what is ticked goes into this browser at once and soon to the shelf, beside the piece, so that another device goes on
/// from there. What another device ticked meanwhile comes together with it, stitch by stitch, the later word winning.
/// </summary>
public sealed class PlaceKeeper : IKeepable
{
    private const int MostTries = 4; // other devices may be faster so often running
    private static readonly TimeSpan LookEvery = TimeSpan.FromSeconds(20);

    private readonly Keeper keeper;
    private readonly IMemory memory;
    private readonly TimeProvider time;
    private readonly Action<string> say;
    private readonly SaveLoop loop;
    private string key = "";   // of the piece whose place this is, as this browser remembers it
    private PieceName? name;   // its name on the shelf; null while it is on none
    private Edition? edition;  // on the shelf that this was last in step with; null when it never was
    private int turn;          // counts up when another piece's place is kept
    private Task noting = Task.CompletedTask;
    private Task marking = Task.CompletedTask;
    private bool sendingLeft;
    private bool fresh;        // not yet in step with the shelf since it was taken up

    public PlaceKeeper(Keeper keeper, IMemory memory, TimeProvider time, Action<string> say)
    {
        (this.keeper, this.memory, this.time, this.say) = (keeper, memory, time, say);
        loop = new SaveLoop(this, keeper.Reach, time, say, SavePace.OfPlace);
        keeper.Named += (from, to) => noting = FollowAsync(noting, from, to); // whether or not anybody sits at it
    }

    /// <summary>What is ticked.</summary>
    internal TickLog Log { get; private set; } = TickLog.Nothing;

    /// <summary>How it stands with the shelf.</summary>
    public Kept State => loop.State;

    /// <summary>Raised when ticks of another device, or of another tab, have come to it.</summary>
    public event Action? Merged;

    /// <summary>Begins to listen for the shelf, and sends what other sittings left in this browser.</summary>
    public void Start()
    {
        loop.Start();
        memory.OnLeave(loop.Leave);
        keeper.Reach.Back += async () => await SendLeftAsync();
        LookNowAndThen();
    }

    /// <summary>
    /// Takes up the place of the piece on the table, as this browser has it; what the shelf has comes to it a moment later.
    /// </summary>
    /// <returns>What this browser has of it where that is written as older benches did; else null.</returns>
    internal async Task<string?> OpenAsync()
    {
        await AllNotedAsync(); // the piece before is marked as left before this keeps another's place: a page that goes marks only the one it keeps
        var mine = ++turn;
        (key, name, edition, Log, fresh) = (keeper.Key, keeper.Name, null, TickLog.Nothing, true);
        loop.Stands(Kept.Safe, "", dirty: false); // what is not on the shelf yet of the piece before is marked as left, and goes there by itself
        _ = SendLeftAsync();
        var (noted, text) = await NotedAsync(key);
        if (mine != turn) return null;
        if (noted is var (over, log)) (edition, Log) = (over, log);
        _ = LookAsync();
        return noted is null ? text : null;
    }

    /// <summary>The same piece has another name: its place goes along.</summary>
    internal void Carry()
    {
        turn++;
        (key, name, edition, fresh) = (keeper.Key, keeper.Name, null, false);
        Edited();
    }

    /// <summary>The maker has ticked or taken back until just these are ticked.</summary>
    internal void Set(TickLog log)
    {
        if (log.Equals(Log)) return;
        Log = log;
        Edited();
    }

    /// <summary>Minutes since 1970, by the clock.</summary>
    internal long Minute => Math.Max(0, time.GetUtcNow().ToUnixTimeSeconds() / 60);

    /// <summary>Looks what the shelf has; what this browser has beside it goes there.</summary>
    internal async Task LookAsync()
    {
        var mine = turn;
        try
        {
            await loop.AloneAsync(async () =>
            {
                if (mine == turn && name is { } piece && await MergeAsync(piece, mine)) loop.Stands(Kept.UnderWay, "", dirty: true);
            });
        }
        catch (ShelfException)
        {
            if (mine == turn && name is not null && !Log.Equals(TickLog.Nothing)) loop.Stands(Kept.UnderWay, "", dirty: true); // it is tried again, and told then
        }
    }

    /// <summary>Brings the last ticks to this browser and to the shelf.</summary>
    internal async Task SettleAsync()
    {
        await loop.SettleAsync();
        await AllNotedAsync();
    }

    // All is noted in this browser, what was ticked meanwhile too.
    private async Task AllNotedAsync()
    {
        Task note, mark;
        do
        {
            (note, mark) = (noting, marking);
            await note;
            await mark;
        }
        while (note != noting || mark != marking);
    }

    void IKeepable.Note() => Note();

    // What is being noted may not come through any more; with what another tab left in the same moment.
    void IKeepable.Leave()
    {
        if (noting.IsCompleted && marking.IsCompleted) return;
        if (name is { } piece && loop.State != Kept.Safe) memory.SetSetting(Left, Lines(Names(memory.Setting(Left)).Append(piece)));
        var log = Read(memory.Setting(Remembered(key))) is var (_, left) ? Log.With(left) : Log;
        memory.SetSetting(Remembered(key), Text(edition, log));
    }

    async Task IKeepable.SendAsync(SaveKind kind)
    {
        var mine = turn;
        if (name is not { } piece) return; // on no shelf yet; it goes there when the piece does
        for (var tries = 0; tries < MostTries; tries++)
        {
            var log = Log;
            try
            {
                var stands = await keeper.Shelf.SavePlaceAsync(piece, TickLogWriter.WriteUtf8(log), edition);
                if (mine != turn) return;
                (edition, fresh) = (stands, false);
                Note();
                if (log.Equals(Log)) Mark(false);
                return;
            }
            catch (ShelfException e) when (e.Trouble == ShelfTrouble.Conflict)
            {
                if (mine != turn || !await MergeAsync(piece, mine)) return;
            }
            catch (ShelfException e) when (e.Trouble == ShelfTrouble.NotFound)
            {
                return; // the piece was taken off the shelf or renamed by another; this browser has its place until that is settled
            }
        }
        throw new ShelfException(ShelfTrouble.Busy, "Other devices are ticking this piece faster than your ticks come through. Yours are kept in this browser, and it is tried again.");
    }

    Task<Kept> IKeepable.PartedAsync(ShelfException because) => Task.FromResult(Kept.Safe); // never: what parts is brought together

    // What stands on the shelf comes to what is here. True when the shelf lacks something of it.
    private async Task<bool> MergeAsync(PieceName piece, int mine)
    {
        var stored = await keeper.Shelf.LoadPlaceAsync(piece);
        if (mine != turn) return false;
        if (stored is null)
        {
            if (edition is not null && fresh && await IsThereAsync(piece) && mine == turn)
            {
                await ForgetAsync();
                return false;
            }
            if (mine != turn || keeper.State == Kept.Parted) return false;
            (edition, fresh) = (null, false);
            return !Log.Equals(TickLog.Nothing);
        }
        TickLog theirs;
        try
        {
            theirs = TickLogReader.Read(stored.Text);
        }
        catch (PieceFormatException e)
        {
            say($"The place on the shelf cannot be read, and was left as it is: {e.Located($"{piece}{FileShelf.PlaceEnding}")} What you tick is kept in this browser.");
            return false;
        }
        var both = Log.With(theirs);
        var came = !both.Equals(Log);
        (edition, Log, fresh) = (stored.Edition, both, false);
        Note();
        if (came) Merged?.Invoke();
        var lacks = !Log.Equals(theirs);
        if (!lacks) Mark(false);
        return lacks;
    }

    // What this browser was in step with is gone with its piece: another of the name stands there, and is not worked yet. What was known of the
    // one before is put aside.
    private async Task ForgetAsync()
    {
        var gone = TickLogWriter.Write(Log);
        (edition, Log, fresh) = (null, TickLog.Nothing, false);
        await noting;
        await memory.RememberAsync($"place aside\n{key}", gone);
        memory.SetSetting(Remembered(key), null);
        await memory.RememberAsync(Remembered(key), null);
        Mark(false);
        Merged?.Invoke();
    }

    private async Task<bool> IsThereAsync(PieceName piece)
    {
        try
        {
            await keeper.Shelf.LoadAsync(piece);
            return true;
        }
        catch (ShelfException e) when (e.Trouble == ShelfTrouble.NotFound) { return false; }
    }

    private void Edited()
    {
        loop.Edited();
        Mark(true);
    }

    // One after another, so that an earlier one never comes last; with what another tab noted meanwhile.
    private void Note() => noting = NoteAsync(noting, key, edition, Log);

    private async Task NoteAsync(Task before, string of, Edition? over, TickLog log)
    {
        await before;
        string? left;
        while (true)
        {
            left = memory.Setting(Remembered(of));
            var (noted, text) = await NotedAsync(of);
            if (noted is var (_, known)) log = log.With(known);
            if (log.Equals(TickLog.Nothing)) over = null;
            if (await memory.ReplaceAsync(Remembered(of), text, Text(over, log))) break;
        }
        if (left is not null && memory.Setting(Remembered(of)) == left) memory.SetSetting(Remembered(of), null); // it stands there now
    }

    // The place of a piece that has another name now; it waits under the old one until it is known to stand under the new.
    private async Task FollowAsync(Task before, string from, string to)
    {
        await before;
        if (await NotedAsync(from) is not ({ Log: var log }, _)) return;
        await NoteAsync(Task.CompletedTask, to, null, log);
        if (await NotedAsync(to) is not ({ Log: var there }, _) || !there.With(log).Equals(there)) return;
        memory.SetSetting(Remembered(from), null);
        await memory.RememberAsync(Remembered(from), null);
        if (PieceKey.Parse(to)?.Name is { } piece && !log.Equals(TickLog.Nothing)) marking = MarkAsync(marking, piece, waits: true, log);
    }

    // What this browser has of a place, with what the last moment of a page left; and the text of it.
    private async Task<((Edition? Over, TickLog Log)? Noted, string? Text)> NotedAsync(string of)
    {
        var text = await memory.RememberedAsync(Remembered(of));
        return (Read(text), Read(memory.Setting(Remembered(of)))) switch
        {
            (var noted, null) => (noted, text),
            (null, var left) => (left, text),
            ({ } noted, { } left) => ((noted.Over, noted.Log.With(left.Log)), text),
        };
    }

    private static string Text(Edition? over, TickLog log) => $"{over}\n{TickLogWriter.Write(log)}";

    private static string Remembered(string key) => $"place\n{key}";

    private static (Edition? Over, TickLog Log)? Read(string? text)
    {
        if (text?.Split('\n', 2) is not [var over, ['{', ..] and var log]) return null;
        try { return (over.Length > 0 ? new Edition(over) : null, TickLogReader.Read(log)); }
        catch (PieceFormatException) { return null; } // of a newer bench
    }

    // ---- What was left in this browser by sittings at other pieces: their names, until the shelf has their places.

    private string Left => $"places waiting\n{keeper.Place(null)}";

    private void Mark(bool waits)
    {
        if (name is not { } piece) return;
        // each time anew: another tab may have sent what waited before, and taken its mark away
        marking = MarkAsync(marking, piece, waits, Log);
    }

    // One after another, so that none works on what another is about to change. What another tab noted meanwhile still waits.
    private async Task MarkAsync(Task before, PieceName piece, bool waits, TickLog sent)
    {
        await before;
        if (!waits && await NotedAsync(keeper.Place(piece)) is ({ Log: var noted }, _) && !sent.With(noted).Equals(sent)) return;
        if (!waits) memory.SetSetting(Left, Lines(Names(memory.Setting(Left)).Where(p => p != piece)));
        while (true)
        {
            var text = await memory.RememberedAsync(Left);
            var left = Names(text);
            if (left.Contains(piece) == waits) return;
            if (await memory.ReplaceAsync(Left, text, Lines(waits ? left.Append(piece) : left.Where(p => p != piece)))) return;
        }
    }

    // With what the last moment of a page left.
    private async Task<IReadOnlyList<PieceName>> LeftAsync() => [.. Names(await memory.RememberedAsync(Left)).Union(Names(memory.Setting(Left)))];

    private static string? Lines(IEnumerable<PieceName> names) => string.Join('\n', names.Distinct()) is { Length: > 0 } lines ? lines : null;

    private static IReadOnlyList<PieceName> Names(string? text) =>
        [.. (text ?? "").Split('\n').Select(p => PieceName.TryParse(p, out var piece, out _) ? piece : (PieceName?)null).OfType<PieceName>().Distinct()];

    private async Task SendLeftAsync()
    {
        if (sendingLeft) return;
        sendingLeft = true;
        try
        {
            foreach (var piece in await LeftAsync())
                if (piece != name) await loop.AloneAsync(() => SendLeftAsync(piece));
                else await TakeUpAsync();
        }
        catch (ShelfException) { } // it is tried again
        finally { sendingLeft = false; }
    }

    // What another tab noted of this same piece, and left.
    private async Task TakeUpAsync()
    {
        var mine = turn;
        if (await NotedAsync(key) is not ({ Log: var noted }, _) || mine != turn || Log.With(noted) is var both && both.Equals(Log)) return;
        Log = both;
        Edited();
        Merged?.Invoke();
    }

    private async Task SendLeftAsync(PieceName piece)
    {
        var of = keeper.Place(piece);
        var sent = TickLog.Nothing;
        if (await NotedAsync(of) is (var (over, log), _))
        {
            sent = log;
            var stored = await keeper.Shelf.LoadPlaceAsync(piece);
            try
            {
                var theirs = stored is null ? TickLog.Nothing : TickLogReader.Read(stored.Text);
                if ((stored is not null || over is null) && log.With(theirs) is var both && !both.Equals(theirs))
                    await keeper.Shelf.SavePlaceAsync(piece, TickLogWriter.WriteUtf8(both), stored?.Edition);
            }
            catch (PieceFormatException) { } // it is told when the piece is sat down at
            catch (ShelfException e) when (e.Trouble == ShelfTrouble.NotFound) { }
        }
        if (piece != name) await (marking = MarkAsync(marking, piece, waits: false, sent));
    }

    private async void LookNowAndThen()
    {
        while (true)
        {
            await SendLeftAsync();
            await Task.Delay(LookEvery, time);
        }
    }
}
