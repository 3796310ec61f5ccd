using System.Globalization;
using Pleatwright.Bench.Model.Keeping;
using Pleatwright.Chart;
using Pleatwright.Order;

namespace Pleatwright.Bench.Model.Chair;

/// <summary>
/// The sitting at the chair: what is to do, what is ticked, and where the maker is. Ticks belong to stitches, so an edit elsewhere,
/// a new order or other words keep the place. It outlives the view.
/// </summary>
public sealed class Ticking
{
    private const int MostUndo = 500;

    private readonly Desk desk;
    private readonly Keeper keeper;
    private readonly PlaceKeeper places;
    private readonly IMemory memory;
    private readonly LinkedList<Worked> past = new(), future = new();
    private WorkingOrder? of;
    private string piece = "";
    private Piece? cutTo; // what the piece became when it was cut anew, for as long as that can be undone here
    private bool opened = true, begun;
    private int turn;

    /// <summary>At the chair; <see cref="SitDownAsync"/> finds the place.</summary>
    public Ticking(Desk desk, Keeper keeper, PlaceKeeper places, IMemory memory)
    {
        (this.desk, this.keeper, this.places, this.memory) = (desk, keeper, places, memory);
        Sideways = memory.Setting("held") == "sideways";
        Awake = memory.Setting("awake") != "no";
        Pedal = memory.Setting("pedal");
        Heard = memory.Setting("heard") == "yes";
        desk.Opened += () => (opened, cutTo) = (true, null);
        desk.CutAnew += OnCut;
        desk.Changed += OnCutUndone;
        keeper.Changed += OnKeeper;
        places.Merged += OnMerged;
    }

    /// <summary>What there is to do.</summary>
    public ChairWork Work { get; private set; } = ChairWork.Nothing;

    /// <summary>The stitches ticked.</summary>
    public Worked Worked { get; private set; } = Worked.Nothing;

    /// <summary>The next tick, from 0; the number of ticks when all is done.</summary>
    public int Tick { get; private set; }

    /// <summary>The item under way, from 0; the number of items when all is done.</summary>
    public int Item => Work.ItemOf(Tick);

    /// <summary>The item under way; null when all is done.</summary>
    public WorkItem? Now => Item < Work.Items.Length ? Work.Items[Item] : null;

    /// <summary>Ticks done in the item under way, as far as the first that is not.</summary>
    public int InItem => Now is null ? 0 : Tick - Work.Before(Item);

    /// <summary>Ticks done in all.</summary>
    public int Done { get; private set; }

    /// <summary>Stitches ticked that the piece no longer has, as when a figure was changed under them.</summary>
    public int Gone { get; private set; }

    /// <summary>Whether the maker should see that the place is right: stitches ticked are gone, or an older bench kept the place.</summary>
    public bool InDoubt { get; private set; }

    /// <summary>Whether the piece was cut anew since anything was ticked: the ticks are of stitches that lie elsewhere now.</summary>
    public bool CutSince => Worked.Count > 0 && memory.Setting(CutMark) is not null;

    /// <summary>Whether the work is held sideways.</summary>
    public bool Sideways { get; private set; }

    /// <summary>The words that go with it.</summary>
    public LevelWords Levels => Sideways ? LevelWords.LeftRight : LevelWords.UpDown;

    /// <summary>Whether the screen is to stay awake.</summary>
    public bool Awake { get; private set; }

    /// <summary>The maker's own key for a tick, as the page names it; null for none.</summary>
    public string? Pedal { get; private set; }

    /// <summary>Whether the next key pressed becomes the one that ticks.</summary>
    public bool SettingPedal { get; private set; }

    /// <summary>Whether a tick is heard.</summary>
    public bool Heard { get; private set; }

    /// <summary>Raised at a tick that is to be heard; true when it ended its item.</summary>
    public event Action<bool>? Sounded;

    /// <summary>The order that is worked by; while a newer one is planned after an edit, the one before. Null until the maker sits.</summary>
    public WorkingOrder? Order => of;

    /// <summary>Whether the order and the place are known; until then nothing is ticked.</summary>
    public bool Sits => of is not null;

    /// <summary>Whether a tick can be taken back.</summary>
    public bool CanUndo => Sits && past.Count > 0 || Tick > 0;

    /// <summary>Whether what was taken back can be ticked again.</summary>
    public bool CanRedo => Sits && future.Count > 0;

    /// <summary>Raised when any of this changed.</summary>
    public event Action? Changed;

    /// <summary>Reads the order as it is now, and the place of the piece on the table.</summary>
    public async Task SitDownAsync()
    {
        begun = true;
        var mine = ++turn;
        if (opened && Sits)
        {
            (of, Work, Tick, Done) = (null, ChairWork.Nothing, 0, 0); // what was to do is of another piece
            Changed?.Invoke();
        }
        await desk.SettleAsync();
        if (mine != turn) return;
        var place = keeper.Key;
        if (!opened) ReadOrder();
        if (place == piece && !opened)
        {
            Find();
            InDoubt |= Gone > 0 || CutSince;
            Changed?.Invoke();
            _ = places.LookAsync(); // another device may have gone on
            return;
        }
        if (!opened && piece.Length > 0)
        {
            if (memory.Setting(MarkOf(piece)) is { } mark) memory.SetSetting(MarkOf(place), mark);
            piece = place; // the same piece under another name, as when an example finds its own
            Find();
            InDoubt |= Gone > 0;
            places.Carry();
            Changed?.Invoke();
            return;
        }
        var older = await places.OpenAsync();
        if (mine != turn) return; // whoever sat down since reads it, too
        opened = false;
        piece = place;
        ReadOrder();
        past.Clear();
        future.Clear();
        InDoubt = false;
        Worked = older is null ? Worked.Of(places.Log) : Worked.Read(older) ?? Old(older);
        if (older is not null) places.Set(places.Log.With(Worked.ToLog(0))); // any word since is later
        Find();
        if (Gone > 0 || CutSince) InDoubt = true;
        Changed?.Invoke();
    }

    /// <summary>One stitch worked.</summary>
    public void TickOne()
    {
        if (Tick < Work.Ticks) Move(Worked.With(Work[Tick]));
    }

    /// <summary>So many stitches worked, but none beyond the item.</summary>
    public void TickMany(int count)
    {
        if (Now is null) return;
        var worked = Worked;
        for (var i = Tick; i < Math.Min(Tick + count, Work.Before(Item + 1)); i++) worked = worked.With(Work[i]);
        Move(worked);
    }

    /// <summary>The rest of the item worked.</summary>
    public void TickItem()
    {
        if (Now is not null) TickMany(Work.TicksOf(Item));
    }

    /// <summary>The last stitch before the place taken back.</summary>
    public void TakeBack()
    {
        if (Tick > 0) Move(Worked.Without(Work[Tick - 1]));
    }

    /// <summary>Goes to an item: all before it is worked, it and all after it are not.</summary>
    /// <param name="item">From 0; the nearest there is.</param>
    public void GoTo(int item)
    {
        if (Work.Items.IsEmpty) return;
        var first = Work.Before(Math.Clamp(item, 0, Work.Items.Length - 1));
        var worked = Worked;
        for (var i = 0; i < Work.Ticks; i++) worked = i < first ? worked.With(Work[i]) : worked.Without(Work[i]);
        Move(worked);
    }

    /// <summary>Goes to a step of the cables by the number that the order, the directions and the plate give it; false when there is none.</summary>
    public bool GoToStep(int number)
    {
        for (var i = 0; i < Work.Items.Length; i++)
        {
            if (Work.Items[i].Step?.Number != number) continue;
            GoTo(i);
            return true;
        }
        return false;
    }

    /// <summary>
    /// A key pressed at the chair: the arrows and Page Down, and the maker's own key for a tick, as a pedal sends it. While a pedal is
    /// being set the next key becomes it.
    /// </summary>
    /// <returns>Whether the key was taken.</returns>
    public bool Press(string key)
    {
        if (SettingPedal)
        {
            if (key is "Shift" or "Control" or "Alt" or "Meta" or "Tab") return false;
            SettingPedal = false;
            if (key != "Escape")
            {
                Pedal = key;
                memory.SetSetting("pedal", key);
                desk.Say("That key ticks from now on.");
            }
            Changed?.Invoke();
            return true;
        }
        if (key == Pedal) { TickOne(); return true; }
        switch (key)
        {
            case "ArrowRight" or "ArrowDown": TickOne(); return true;
            case "ArrowLeft" or "ArrowUp" or "Backspace": TakeBack(); return true;
            case "PageDown": TickItem(); return true;
            default: return false;
        }
    }

    /// <summary>Waits for the key that is to tick.</summary>
    public void SetPedal()
    {
        SettingPedal = true;
        Changed?.Invoke();
    }

    /// <summary>Lets a tick be heard, or not.</summary>
    public void BeHeard(bool on)
    {
        Heard = on;
        memory.SetSetting("heard", on ? "yes" : null);
        Changed?.Invoke();
    }

    /// <summary>Takes the last act back: a tick, a whole run, a leap.</summary>
    public void Undo()
    {
        if (!CanUndo) return;
        var before = past.Last?.Value ?? Worked.Without(Work[Tick - 1]); // of ticks of another sitting the last stitch is known, not the act
        if (past.Count > 0) past.RemoveLast();
        Remember(future, Worked);
        Show(before);
        desk.Say("Ticked back.");
    }

    /// <summary>Does again what was taken back last.</summary>
    public void Redo()
    {
        if (!CanRedo || future.Last is not { } next) return;
        future.RemoveLast();
        Remember(past, Worked);
        Show(next.Value);
        desk.Say("Ticked again.");
    }

    /// <summary>The maker has looked: the place is right. Ticks of stitches that are gone are forgotten.</summary>
    public void PlaceIsRight()
    {
        if (of is null) return;
        InDoubt = false;
        SetCut(false);
        var kept = Worked.Nothing;
        for (var i = 0; i < Work.Ticks; i++)
            if (Worked.Has(Work[i])) kept = kept.With(Work[i]);
        Show(kept);
    }

    /// <summary>Nothing of the piece is worked: it was cut anew. It is an act that can be taken back.</summary>
    public void BeginAnew()
    {
        if (of is null) return;
        InDoubt = false;
        SetCut(false);
        if (Worked.Count > 0) Move(Worked.Nothing);
        else Changed?.Invoke();
    }

    /// <summary>Holds the work upright or sideways; the words follow.</summary>
    public void Hold(bool sideways)
    {
        Sideways = sideways;
        memory.SetSetting("held", sideways ? "sideways" : null);
        if (Sits)
        {
            of = null;
            ReadOrder();
            Find();
        }
        Changed?.Invoke();
    }

    /// <summary>Keeps the screen awake, or lets it sleep.</summary>
    public void StayAwake(bool on)
    {
        Awake = on;
        memory.SetSetting("awake", on ? null : "no");
        Changed?.Invoke();
    }

    private string CutMark => MarkOf(keeper.Key);

    private static string MarkOf(string key) => $"cut anew\n{key}";

    private void SetCut(bool cut)
    {
        memory.SetSetting(CutMark, cut ? "yes" : null);
        if (!cut) cutTo = null;
    }

    // Undone at the table the ticks hold again, and done again they do not.
    private void OnCut()
    {
        (cutTo, var first) = (desk.History.Now.Piece, cutTo is null);
        if (first) SetCut(true);
        InDoubt |= CutSince;
        Changed?.Invoke();
    }

    private void OnCutUndone()
    {
        if (cutTo is not { } to) return;
        var stands = ReferenceEquals(desk.History.Now.Piece, to) || desk.History.Past.Any(m => ReferenceEquals(m.Piece, to));
        if (stands == memory.Setting(CutMark) is not null) return;
        memory.SetSetting(CutMark, stands ? "yes" : null);
        InDoubt = stands ? CutSince || InDoubt : InDoubt && Gone > 0;
        Changed?.Invoke();
    }

    private void OnKeeper()
    {
        if (begun && keeper.Key != piece) _ = SitDownAsync();
    }

    private void ReadOrder()
    {
        if (ReferenceEquals(of, desk.Order)) return;
        of = desk.Order;
        Work = ChairWork.Of(of, Levels);
    }

    private void Move(Worked worked)
    {
        if (ReferenceEquals(worked, Worked)) return;
        keeper.Own();
        Remember(past, Worked);
        future.Clear();
        var item = Item;
        Show(worked);
        if (Heard) Sounded?.Invoke(Item != item);
    }

    private void Show(Worked worked)
    {
        Worked = worked;
        Find();
        Keep();
        Changed?.Invoke();
    }

    private static void Remember(LinkedList<Worked> moments, Worked worked)
    {
        moments.AddLast(worked);
        if (moments.Count > MostUndo) moments.RemoveFirst();
    }

    private void Find()
    {
        if (of is null) return; // the order is still being planned
        Tick = Work.Next(Worked);
        Done = Work.Done(Worked);
        Gone = Worked.Count - Done;
    }

    private void Keep() => places.Set(places.Log.Become(Worked.Lines, places.Minute));

    // Ticks of another device came: they are nothing that this one did, so there is nothing to take back of them here.
    private void OnMerged()
    {
        var worked = Worked.Of(places.Log);
        if (worked.Write() == Worked.Write()) return;
        past.Clear();
        future.Clear();
        Worked = worked;
        Find();
        InDoubt |= Gone > 0;
        Changed?.Invoke();
        desk.Say($"Ticked on another device meanwhile: {Words.Of(Done, "stitch", "stitches")} of {Words.Of(Work.Ticks)} are worked.");
    }

    // Benches before this one kept how many items and ticks were done, and a mark of the words; the maker is asked to look.
    private Worked Old(string? text)
    {
        if (text?.Split(' ') is not [var items, var ticks, _]
            || !int.TryParse(items, NumberStyles.None, CultureInfo.InvariantCulture, out var i)
            || !int.TryParse(ticks, NumberStyles.None, CultureInfo.InvariantCulture, out var t)) return Worked.Nothing;
        i = Math.Min(i, Work.Items.Length);
        var done = Work.Before(i) + (i < Work.Items.Length ? Math.Min(t, Work.TicksOf(i) - 1) : 0);
        InDoubt = done > 0;
        var worked = Worked.Nothing;
        for (var tick = 0; tick < done; tick++) worked = worked.With(Work[tick]);
        return worked;
    }
}
