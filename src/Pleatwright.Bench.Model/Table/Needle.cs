using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Table;

/// <summary>What a touch on the cloth does.</summary>
public enum Doing
{
    /// <summary>Works cables in the thread in hand, or clears them when none is.</summary>
    Stitch,

    /// <summary>Fills what is joined to the touched cell.</summary>
    Fill,

    /// <summary>Marks an area out, and moves it once it is marked.</summary>
    Mark,

    /// <summary>Takes hold of a whole figure and moves it.</summary>
    Figure,

    /// <summary>Puts an accent on, or takes hold of one and moves it; with no thread in hand takes it off.</summary>
    Accent,
}

/// <summary>A question put to the maker in a sheet over the table.</summary>
public enum Question { Do, Keys, Thread, Cloth, Swatch, Sizes, Figure, Band, Accent }

/// <summary>What the maker has in hand at the table, and where the hand is. It outlives the view, so that coming back finds it.</summary>
public sealed class Needle
{
    private readonly Desk desk;

    public Needle(Desk desk)
    {
        this.desk = desk;
        desk.Opened += Reset;
        desk.Changed += KeepOnCloth;
        Reset();
    }

    /// <summary>The thread in the needle; null to clear.</summary>
    public ThreadKey? Thread { get; private set; }

    public Doing Doing { get; private set; }

    /// <summary>The accent the hand puts on.</summary>
    public string Accent { get; private set; } = Chart.Accents.Accent.All[0].Name;

    public Look Look { get; private set; }

    /// <summary>The cell under the hand.</summary>
    public Valley Valley { get; private set; }

    /// <summary>The cable row under the hand.</summary>
    public CableRow Row { get; private set; }

    /// <summary>The area marked out, or null.</summary>
    public Area? Area { get; private set; }

    /// <summary>Where the marking began.</summary>
    public (Valley Valley, CableRow Row) Corner { get; private set; }

    /// <summary>What was lifted off the cloth to be laid again.</summary>
    public Patch? Lifted { get; private set; }

    /// <summary>What the last question is about: a thread's letter, the index of a placement, a band or an accent.</summary>
    public object? Subject { get; private set; }

    /// <summary>Raised when the hand moved or took something else up.</summary>
    public event Action? Changed;

    /// <summary>Raised when something is to be asked.</summary>
    public event Action<Question>? Asked;

    /// <summary>The figure under the hand: the one whose cable shows there, else the one in whose bounds it is.</summary>
    public Spot? Spot => Chart.Edit.Spot.Within(desk.Piece, desk.Work.Pleating, Valley, Row);

    /// <summary>The area marked out, else the cell under the hand.</summary>
    public Area AreaOrCell => Area ?? Chart.Edit.Area.Between(Valley, Row, Valley, Row);

    public void TakeThread(ThreadKey? thread)
    {
        Thread = thread;
        if (Doing is Doing.Mark or Doing.Figure) Doing = Doing.Stitch;
        Changed?.Invoke();
        desk.Say(thread is { } key ? $"In the needle: {desk.Piece.Thread(key)?.Name}." : "In hand: the seam ripper. It clears.");
    }

    public void TakeUp(Doing doing)
    {
        Doing = doing;
        Changed?.Invoke();
    }

    /// <summary>Takes up an accent to be put on.</summary>
    public void TakeAccent(string accent)
    {
        (Accent, Doing) = (accent, Doing.Accent);
        Changed?.Invoke();
    }

    public void LookAt(Look look)
    {
        Look = look;
        Changed?.Invoke();
    }

    public void GoTo(Valley valley, CableRow row)
    {
        (Valley, Row) = OnCloth(valley, row);
        Changed?.Invoke();
    }

    public void Mark(Area? area)
    {
        Area = area;
        if (area is { } a) Corner = (a.From, a.Top);
        Changed?.Invoke();
    }

    /// <summary>Marks from a corner to the hand.</summary>
    public void MarkFrom(Valley valley, CableRow row)
    {
        Corner = (valley, row);
        Area = Chart.Edit.Area.Between(valley, row, Valley, Row);
        Changed?.Invoke();
    }

    /// <summary>Moves the hand and marks what lies between it and the corner.</summary>
    public void MarkTo(Valley valley, CableRow row)
    {
        (Valley, Row) = OnCloth(valley, row);
        Area = Chart.Edit.Area.Between(Corner.Valley, Corner.Row, Valley, Row);
        Changed?.Invoke();
    }

    public void Lift(Patch patch) => Lifted = patch;

    public void Ask(Question question, object? subject = null)
    {
        Subject = subject;
        Asked?.Invoke(question);
    }

    private (Valley, CableRow) OnCloth(Valley valley, CableRow row) =>
        (new Valley(Math.Clamp(valley.Number, 1, desk.Work.Valleys)), new CableRow(Math.Clamp(row.Index, 0, desk.Work.CableRows - 1)));

    private void Reset()
    {
        Thread = desk.Piece.Threads.Length > 0 ? desk.Piece.Threads[0].Key : null;
        Area = null;
        (Valley, Row) = OnCloth(new Valley(desk.Work.Pleating.CentreValley), new CableRow(desk.Work.CableRows / 2));
        Changed?.Invoke();
    }

    private void KeepOnCloth()
    {
        if (Thread is { } key && desk.Piece.Thread(key) is null) Thread = desk.Piece.Threads.Length > 0 ? desk.Piece.Threads[0].Key : null;
        if (Area is { } a && !(desk.Work.OnCloth(a.From, a.Top) && desk.Work.OnCloth(a.To, a.Bottom))) Area = null;
        if (!desk.Work.OnCloth(Valley, Row)) (Valley, Row) = OnCloth(Valley, Row);
    }
}
