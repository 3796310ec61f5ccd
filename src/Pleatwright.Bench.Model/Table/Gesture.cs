using Pleatwright.Bench.Model.Table.Verbs;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Measure;
using Pleatwright.Recutting;

namespace Pleatwright.Bench.Model.Table;

/// <summary>Turns a stroke on the cloth into edits: one stroke, one moment of the history.</summary>
public sealed class Gesture(Workplace at) : IStrokes
{
    private enum Stroke { None, Working, Clearing, Once, Marking, MovingArea, MovingFigure, MovingAccent, PullingGap, Scaling }

    /// <summary>Pixels about the middle of a gap's handle within which it is taken hold of: a touch's 44 across.</summary>
    public const double HandleReach = 22;

    /// <summary>Pixels by which the middle of a figure's grip lies beside its corner and below it, so that it covers nothing of the figure.</summary>
    public const double GripBeside = 20;

    private readonly Desk desk = at.Desk;
    private readonly Needle needle = at.Needle;
    private Stroke stroke;
    private StrokeLine line = new();
    private (Valley Valley, CableRow Row) from;
    private Work basis = null!;
    private Piece shown = null!;  // the piece as this stroke last left it; another hand changed it when it is not that
    private Piece kept = null!;   // the moment of the history it began from
    private HandPlace before = null!;
    private string? figure;       // drawn on
    private Area area;
    private int placement;
    private int accent;
    private double pulledFrom; // pleats across where a gap was taken hold of
    private Grip grip;
    private (double X, double Y) gripped; // pixels at which it was taken hold of
    private string edit = "";
    private bool moved;
    private bool told; // that stitches were left out

    /// <inheritdoc/>
    public bool CanBegin(double x, double y) => CellAt(x, y) is not null || GripAt(x, y) is not null;

    /// <inheritdoc/>
    public void Begin(double x, double y, Held held, bool other)
    {
        End();
        if (GripAt(x, y) is { } corner)
        {
            Ready();
            (grip, gripped, stroke) = (corner, (x, y), Stroke.Scaling);
            return;
        }
        if (CellAt(x, y) is not { } cell) return;
        var (valley, row) = cell;
        Ready();
        (from, moved, told, figure, line) = (cell, false, false, null, new StrokeLine());
        if (held.HasFlag(Held.Shift) && needle.Doing != Doing.Figure)
        {
            needle.MarkFrom(needle.Valley, needle.Row);
            needle.MarkTo(valley, row);
            stroke = Stroke.Marking;
            return;
        }
        if (GapAt(x, y) is { } gap)
        {
            (placement, stroke, pulledFrom) = (gap.Placement, Stroke.PullingGap, AcrossAt(x, y) ?? gap.Across);
            needle.Pull(placement);
            return;
        }
        needle.GoTo(valley, row);
        switch (needle.Doing)
        {
            case Doing.Mark when needle.Area is { } marked && marked.Contains(valley, row):
                (area, stroke) = (marked, Stroke.MovingArea);
                break;
            case Doing.Mark:
                needle.MarkFrom(valley, row);
                stroke = Stroke.Marking;
                break;
            case Doing.Figure when needle.Spot is { } spot:
                (placement, stroke) = (spot.Placement, Stroke.MovingFigure);
                break;
            case Doing.Figure:
                desk.Say("There is no figure here to take hold of.");
                break;
            case Doing.Accent:
                BeginAccent(needle.Thread is null || other);
                break;
            case Doing.Fill when needle.Thread is { } thread && !other:
                if (Once("filling", () => needle.Filled(basis, valley, row, thread)) && ReferenceEquals(desk.Piece, kept)) desk.Say(Stitching.NothingToFill);
                break;
            default:
                if (needle.Area is not null) needle.Mark(null);
                stroke = needle.Thread is null || other ? Stroke.Clearing : Stroke.Working;
                if (stroke == Stroke.Working) figure = needle.FigureFor(desk.Piece, valley, row);
                WorkOn(x, y);
                break;
        }
    }

    private void Ready()
    {
        desk.KeepDraft();
        (basis, shown, kept, before) = (desk.Work, desk.Piece, desk.Piece, needle.Place);
    }

    /// <inheritdoc/>
    public void GoOn(double x, double y)
    {
        if (stroke is Stroke.None or Stroke.Once || Overtaken()) return;
        if (stroke is Stroke.Working or Stroke.Clearing) { WorkOn(x, y); return; }
        if (stroke == Stroke.PullingGap)
        {
            if (AcrossAt(x, y) is { } across) Quietly(() => Gap.Pulled(basis, placement, across - pulledFrom));
            return;
        }
        if (stroke == Stroke.Scaling)
        {
            if (at.Cloth.Sight is { } sight) Quietly(() => grip.Pulled(basis, (x - gripped.X) / sight.Scale * (sight.FromBack ? -1 : 1), (y - gripped.Y) / sight.Scale));
            return;
        }
        if (CellAt(x, y) is not { } cell) return;
        var (valleys, rows) = (cell.Valley.Number - from.Valley.Number, cell.Row.Index - from.Row.Index);
        switch (stroke)
        {
            case Stroke.Marking:
                needle.MarkTo(cell.Valley, cell.Row);
                break;
            case Stroke.MovingArea when Quietly(() => Move.Cables(basis, area, valleys, rows)):
                moved = true;
                needle.GoTo(cell.Valley, cell.Row);
                needle.Mark(Marking.Shift(area, valleys, rows));
                break;
            case Stroke.MovingAccent when Quietly(() => needle.AccentMoved(basis.Piece, accent, valleys, rows)):
            case Stroke.MovingFigure when Quietly(() => Placing.By(basis.Piece, placement, valleys, rows)):
                needle.GoTo(cell.Valley, cell.Row);
                break;
        }
    }

    /// <inheritdoc/>
    public void End()
    {
        if (stroke == Stroke.None || Overtaken()) return;
        var done = stroke;
        stroke = Stroke.None;
        needle.Pull(null);
        switch (done)
        {
            case Stroke.Marking when needle.Area is { Width: 1, Height: 1 }:
            case Stroke.MovingArea when !moved:
                needle.Mark(null);
                break;
            case Stroke.Marking:
                break;
            default:
                desk.Keep(edit);
                break;
        }
        if (done == Stroke.Working) needle.Drew(figure);
        if (done == Stroke.Scaling) Figuring.SayScaled(at, basis.Piece, basis.Piece.Placements[grip.Placement].Figure);
    }

    /// <inheritdoc/>
    public void TakeBack()
    {
        if (stroke == Stroke.None || Overtaken()) return;
        stroke = Stroke.None;
        needle.Pull(null);
        desk.Drop();
        needle.Return(before);
    }

    // A key, a sheet or another piece came between: what was drawn so far has been kept, and the rest of the stroke is nothing.
    private bool Overtaken()
    {
        if (ReferenceEquals(desk.Piece, shown) && ReferenceEquals(desk.History.Now.Piece, kept)) return false;
        stroke = Stroke.None;
        needle.Pull(null);
        return true;
    }

    private (Valley Valley, CableRow Row)? CellAt(double x, double y) =>
        at.Cloth.Sight is { } sight && sight.At(desk.Work.Pleating, x, y) is { } seen && seen.OnCloth(desk.Work.Pleating)
            ? (seen.Brick(desk.Work), seen.Row)
            : null;

    // The handle under a place in pixels, the nearest.
    private Gap? GapAt(double x, double y)
    {
        if (at.Cloth.Sight is not { } sight) return null;
        var away = needle.Gaps.Select(g => (Gap: g, Place: sight.PlaceOf(desk.Work.Pleating, new Spotted(g.Line, g.Across))))
            .Select(g => (g.Gap, Away: Math.Max(Math.Abs(g.Place.X - x), Math.Abs(g.Place.Y - y)))).Where(g => g.Away <= HandleReach).ToList();
        return away.Count == 0 ? null : away.MinBy(g => g.Away).Gap;
    }

    private Grip? GripAt(double x, double y)
    {
        if (at.Cloth.Sight is not { } sight || needle.Grip is not { } corner) return null;
        var place = sight.PlaceOf(desk.Work.Pleating, new Spotted(Math.Min(corner.Line, 2 * desk.Work.CableRows - 0.01), corner.Across));
        var (away, down) = (x - place.X - (sight.FromBack ? -GripBeside : GripBeside), y - place.Y - GripBeside);
        return Math.Max(Math.Abs(away), Math.Abs(down)) <= HandleReach ? corner : null;
    }

    private double? AcrossAt(double x, double y) => at.Cloth.Sight?.At(desk.Work.Pleating, x, y)?.Across;

    private void WorkOn(double x, double y)
    {
        if (at.Cloth.Sight is not { } sight) return;
        var cells = line.To(desk.Work, sight, x, y);
        if (cells.Count == 0) return;
        edit = stroke == Stroke.Clearing ? "clearing" : "stitching";
        if (stroke == Stroke.Clearing) Draft(() => Clear.Cables(desk.Piece, needle.Both(cells)));
        else if (needle.Thread is { } thread) // the ripper may be taken up in the midst of a stroke
        {
            var leftOut = false;
            Draft(() => { (var piece, figure, leftOut) = needle.Drawn(desk.Piece, figure, cells, thread); return piece; });
            if (leftOut && !told) desk.Say(Needle.OtherPhase);
            told |= leftOut;
        }
        needle.GoTo(line.At.Valley, line.At.Row);
    }

    // On an accent the hand takes hold of it, and works it in the thread in hand; on bare cloth it puts one on.
    private void BeginAccent(bool off)
    {
        if (Accents.At(desk, needle) is { } here)
        {
            accent = here.Index;
            if (off) { Once("an accent taken off", () => needle.AccentOff(desk.Piece, accent)); return; }
            edit = here.Mark.Thread == needle.Thread ? "moving an accent" : "an accent in another thread";
            if (!Draft(() => needle.AccentRecoloured(desk.Piece, accent))) return;
        }
        else if (off) { desk.Say(Accents.NoneHere); return; }
        else
        {
            (accent, edit) = (desk.Piece.Accents.Length, $"a {needle.Accent}");
            if (!Draft(() => needle.Accented(desk.Piece, needle.Accent, from.Valley, from.Row))) return;
        }
        (basis, stroke) = (desk.Work, Stroke.MovingAccent);
    }

    private bool Once(string words, Func<Piece> change)
    {
        (edit, stroke) = (words, Stroke.Once);
        return Draft(change);
    }

    private bool Draft(Func<Piece> change)
    {
        try
        {
            if (!desk.Draft(change(), edit)) return false;
        }
        catch (ArgumentException e)
        {
            desk.Say(Sentences.Of(e.Why()));
            return false;
        }
        shown = desk.Piece;
        return true;
    }

    // Past the edge it stays where it was.
    private bool Quietly(Func<Piece> change)
    {
        edit = stroke switch { Stroke.MovingAccent => edit, Stroke.PullingGap => "the gap between copies", Stroke.Scaling => Figuring.Scaling, _ => "moving" };
        try
        {
            if (!desk.Draft(change(), edit)) return false;
        }
        catch (ArgumentException) { return false; }
        shown = desk.Piece;
        return true;
    }
}
