using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Measure;
using Pleatwright.Recutting;
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
public enum Question { Do, Keys, Thread, Cloth, Gauge, Swatch, Sizes, Credit, Figure, Letters, Band, Accent, Run, Match, Coming, Newer, WhichStays }

/// <summary>Where the hand was, and what was marked and drawn on.</summary>
internal sealed record HandPlace(Valley Valley, CableRow Row, Area? Area, (Valley Valley, CableRow Row) Corner, string? Drawing, bool Another);

/// <summary>What the maker has in hand at the table, and where the hand is. It outlives the view, so that coming back finds it.</summary>
public sealed class Needle
{
    private readonly Desk desk;
    private string? drawing;
    private Figure? drawn; // as it was last seen: a figure renamed is known by its rows
    private int? pulled;   // the placement whose gap is in hand
    private bool another;  // the figure drawn on was closed: what is drawn next begins another

    public Needle(Desk desk)
    {
        this.desk = desk;
        desk.Opened += Reset;
        desk.Changed += KeepOnCloth;
        Reset();
    }

    /// <summary>The thread in the needle; null to clear.</summary>
    public ThreadKey? Thread { get; private set; }

    /// <summary>Raised when the maker wants to see in motion what lies under the hand.</summary>
    public event Action? ShowWanted;

    /// <summary>Asks to see in motion what lies under the hand.</summary>
    public void ShowIt()
    {
        desk.Say("The stitch in motion.");
        ShowWanted?.Invoke();
    }

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

    /// <summary>The valley about which all that is drawn and cleared is mirrored while it is; null when nothing is.</summary>
    public Valley? Mirror { get; private set; }

    /// <summary>What the mirror does, as a sentence.</summary>
    public string MirrorWords => Mirror is { } axis
        ? $"What you draw, clear and lay is mirrored about {Where.Of(desk.Work, axis).Uncapital()}, accents too."
        : "What you draw, clear and lay can be mirrored about a valley while you do it.";

    /// <summary>The cell that lies as the one under the hand does on the other side of the mirror; null without one, on it, and off the cloth.</summary>
    public Valley? Image => Mirror is { } axis && axis != Valley && Chart.Edit.Mirror.Image(Valley, axis) is var image && desk.Work.OnCloth(image, Row) ? image : null;

    /// <summary>The gaps that can be taken hold of: between the first two copies of every repeated figure, while the hand takes hold of figures.</summary>
    public IEnumerable<Gap> Gaps => Doing == Doing.Figure
        ? Enumerable.Range(0, desk.Work.Piece.Placements.Length).Select(i => Gap.Of(desk.Work, i)).OfType<Gap>()
        : [];

    /// <summary>The corner by which the figure under the hand is scaled, while the hand takes hold of figures; null where there is none.</summary>
    internal Grip? Grip => Doing == Doing.Figure && Spot is { } spot ? Recutting.Grip.Of(desk.Work, spot.Placement, spot.Copy) : null;

    /// <summary>All that can be taken hold of now.</summary>
    public IEnumerable<Handle> Handles =>
    [
        .. Gaps.Select(g => new Handle(g.Across, g.Line, false, Where.Of(g))),
        .. Grip is { } grip && Spot?.FigureIn(desk.Piece) is { } figure ? new[] { new Handle(grip.Across, grip.Line, true, Words.Size(figure)) } : [],
    ];

    /// <summary>The gap in hand, else that of the repeated figure under the hand; null when there is none.</summary>
    public Gap? GapHere => (pulled ?? Spot?.Placement) is { } placement && placement < desk.Work.Piece.Placements.Length ? Gap.Of(desk.Work, placement) : null;

    /// <summary>The gap told where the hand is: while figures are taken hold of, and while one is pulled.</summary>
    public Gap? GapTold => Doing == Doing.Figure || pulled is not null ? GapHere : null;

    /// <summary>What was lifted off the cloth to be laid again.</summary>
    public Patch? Lifted { get; private set; }

    /// <summary>Whether it was lifted off another piece than the one on the table.</summary>
    public bool LiftedElsewhere { get; private set; }

    /// <summary>
    /// The figure being drawn, by name; null when none is. Until it is closed every stitch on bare pleats is part of it,
    /// however far away.
    /// </summary>
    public string? Drawing => drawing is { } name && desk.Piece.Figure(name) is not null ? name : null;

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

    /// <summary>
    /// Mirrors from now on what is drawn and cleared. About a valley every cable keeps its level and every row mirrors the last; about a pleat
    /// none would, so a place between two valleys becomes the nearer.
    /// </summary>
    /// <param name="across">Pleats across from the cloth's left edge; valley v lies at v.</param>
    public void MirrorAbout(double across)
    {
        var axis = new Valley((int)Math.Clamp(Math.Round(across, MidpointRounding.AwayFromZero), 1, desk.Work.Valleys));
        if (Mirror == axis) return;
        Mirror = axis;
        Changed?.Invoke();
        desk.Say(MirrorWords);
    }

    /// <summary>Mirrors no longer.</summary>
    public void PutMirrorAway()
    {
        if (Mirror is null) return;
        Mirror = null;
        Changed?.Invoke();
        desk.Say("Nothing is mirrored any more.");
    }

    /// <summary>Takes a gap between copies in hand, or lets it go.</summary>
    internal void Pull(int? placement)
    {
        if (pulled == placement) return;
        pulled = placement;
        Changed?.Invoke();
    }

    /// <summary>Draws cables as parts of a figure, on both sides of the mirror while there is one.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="figure">The figure; null to begin another.</param>
    /// <param name="cells">Cells of the cloth.</param>
    /// <param name="thread">One of the piece's threads.</param>
    /// <returns>The piece, the figure drawn on, and whether cells were left out because their image would be held the other way.</returns>
    /// <exception cref="ArgumentException">The piece has no such thread.</exception>
    internal (Piece Piece, string? Figure, bool LeftOut) Drawn(Piece piece, string? figure, IEnumerable<(Valley Valley, CableRow Row)> cells, ThreadKey thread)
    {
        if (Mirror is { } axis && Chart.Edit.Mirror.Draw(piece, figure, cells, thread, axis) is var (mirrored, into, leftOut)) return (mirrored, into, leftOut > 0);
        var (drawn, on) = Draw.Parts(piece, figure, cells, thread);
        return (drawn, on, false);
    }

    /// <summary>Fills from a cell, and with a mirror the image of what is filled.</summary>
    internal Piece Filled(Work work, Valley valley, CableRow row, ThreadKey thread) => Mirror is { } axis
        ? Chart.Edit.Mirror.Draw(work.Piece, Chart.Edit.Spot.Within(work.Piece, work.Pleating, valley, row)?.FigureIn(work.Piece).Name, Fill.Region(work, valley, row), thread, axis).Piece
        : Fill.With(work, valley, row, thread);

    /// <summary>Cells, and with a mirror those on its other side.</summary>
    internal IEnumerable<(Valley Valley, CableRow Row)> Both(IEnumerable<(Valley Valley, CableRow Row)> cells) =>
        Mirror is { } axis ? Chart.Edit.Mirror.Both(cells, axis) : cells;

    /// <summary>Lays a patch with its upper left corner on a cell, on both sides of the mirror while there is one.</summary>
    /// <returns>As of <see cref="Drawn"/>.</returns>
    internal (Piece Piece, string? Figure, bool LeftOut) Laid(Piece piece, string? figure, Patch patch, Valley left, CableRow top)
    {
        if (Mirror is { } axis && Chart.Edit.Mirror.Lay(piece, figure, patch, left, top, axis) is var (mirrored, into, leftOut)) return (mirrored, into, leftOut > 0);
        foreach (var thread in patch.CablesAt(left, top)) (piece, figure) = Draw.Parts(piece, figure, thread, thread.Key);
        return (piece, figure, false);
    }

    /// <summary>Puts an accent on in the thread in hand, and its image while there is a mirror.</summary>
    internal Piece Accented(Piece piece, string accent, Valley valley, CableRow row)
    {
        var mark = Accenting.MarkAt(piece, accent, valley, row, Thread!.Value);
        return Mirror is { } axis ? Chart.Edit.Mirror.Put(piece, mark, axis) : Accenting.Put(piece, mark);
    }

    /// <summary>Takes an accent off, and its image while there is a mirror.</summary>
    internal Piece AccentOff(Piece piece, int index) => Mirror is { } axis ? Chart.Edit.Mirror.TakeOff(piece, index, axis) : Accenting.TakeOff(piece, index);

    /// <summary>Takes off what accents lie in an area, and in its image while there is a mirror.</summary>
    internal Piece AccentsOff(Work work, Area area) => Mirror is { } axis ? Chart.Edit.Mirror.TakeOff(work, area, axis) : Accenting.TakeOff(work, area);

    /// <summary>Works an accent in the thread in hand, and its image while there is a mirror.</summary>
    internal Piece AccentRecoloured(Piece piece, int index) =>
        Mirror is { } axis ? Chart.Edit.Mirror.Recolour(piece, index, Thread!.Value, axis) : Accenting.Recolour(piece, index, Thread!.Value);

    /// <summary>Moves an accent, and its image while there is a mirror.</summary>
    internal Piece AccentMoved(Piece piece, int index, int valleys, int rows) =>
        Mirror is { } axis ? Chart.Edit.Mirror.By(piece, index, valleys, rows, axis) : Accenting.By(piece, index, valleys, rows);

    /// <summary>Why stitches were left out beside a mirror.</summary>
    internal const string OtherPhase = "On one side of the mirror lies a figure of the other phase: there a stitch and its image cannot be held alike, so neither is laid.";

    public void Lift(Patch patch)
    {
        (Lifted, LiftedElsewhere) = (patch, false);
        Changed?.Invoke();
    }

    /// <summary>Takes a figure up to draw on it.</summary>
    public void DrawOn(string figure)
    {
        Drew(figure);
        desk.Say($"Drawing: {figure}.");
    }

    /// <summary>Closes the figure being drawn: the next stitches on bare pleats begin another.</summary>
    public void CloseFigure()
    {
        if (Drawing is not { } figure) { desk.Say("No figure is being drawn."); return; }
        (drawing, drawn, another) = (null, null, true);
        Changed?.Invoke();
        desk.Say($"{figure} is closed; the next stitches begin another figure.");
    }

    /// <summary>
    /// The figure a stroke that begins here draws on: the one whose cable lies here, else the one being drawn, else the one close
    /// by; null when it begins another.
    /// </summary>
    public string? FigureFor(Piece piece, Valley valley, CableRow row)
    {
        var pleating = desk.Work.Pleating;
        var spot = Chart.Edit.Spot.OfCable(piece, pleating, valley, row);
        if (spot is null && drawing is { } name && piece.Placements.Any(p => p.Figure == name)) return name;
        if (spot is null && !another) spot = Chart.Edit.Spot.Near(piece, pleating, valley, row, Draw.Nearby);
        return spot?.FigureIn(piece).Name;
    }

    /// <summary>A figure was drawn on, and is from now on until it is closed.</summary>
    public void Drew(string? figure)
    {
        if (figure is null) return;
        var same = figure == Drawing;
        (drawing, drawn, another) = (figure, desk.Piece.Figure(figure), false);
        if (!same) Changed?.Invoke();
    }

    /// <summary>Where the hand is, to be returned to.</summary>
    internal HandPlace Place => new(Valley, Row, Area, Corner, drawing, another);

    /// <summary>Returns to where it was.</summary>
    internal void Return(HandPlace place)
    {
        (Valley, Row) = OnCloth(place.Valley, place.Row);
        (Area, Corner, drawing, another) = (place.Area, place.Corner, place.Drawing, place.Another);
        KeepOnCloth();
        Changed?.Invoke();
    }

    public void Ask(Question question, object? subject = null)
    {
        Subject = subject;
        Questions++;
        Asked?.Invoke(question);
    }

    /// <summary>How often something was asked.</summary>
    internal int Questions { get; private set; }

    private (Valley, CableRow) OnCloth(Valley valley, CableRow row) =>
        (new Valley(Math.Clamp(valley.Number, 1, desk.Work.Valleys)), new CableRow(Math.Clamp(row.Index, 0, desk.Work.CableRows - 1)));

    private void Reset()
    {
        Thread = desk.Piece.Threads.Length > 0 ? desk.Piece.Threads[0].Key : null;
        (Area, Mirror) = (null, null);
        (drawing, drawn, another, LiftedElsewhere) = (null, null, false, Lifted is not null);
        (Valley, Row) = OnCloth(new Valley(desk.Work.Pleating.CentreValley), new CableRow(desk.Work.CableRows / 2));
        Changed?.Invoke();
    }

    private void KeepOnCloth()
    {
        if (Thread is { } key && desk.Piece.Thread(key) is null) Thread = desk.Piece.Threads.Length > 0 ? desk.Piece.Threads[0].Key : null;
        if (Area is { } a && !(desk.Work.OnCloth(a.From, a.Top) && desk.Work.OnCloth(a.To, a.Bottom))) Area = null;
        if (Mirror is { } axis && axis.Number > desk.Work.Valleys) Mirror = null;
        if (!desk.Work.OnCloth(Valley, Row)) (Valley, Row) = OnCloth(Valley, Row);
        if (drawing is null) return;
        if (desk.Piece.Figure(drawing) is { } now) drawn = now;
        else if (drawn is not null && desk.Piece.Figures.FirstOrDefault(f => f.Rows == drawn.Rows) is { } renamed) (drawing, drawn) = (renamed.Name, renamed);
    }
}
