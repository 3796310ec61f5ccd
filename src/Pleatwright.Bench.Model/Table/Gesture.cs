using Pleatwright.Bench.Model.Table.Verbs;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Measure;

namespace Pleatwright.Bench.Model.Table;

/// <summary>Turns what the pointer does on the cloth into edits: one stroke, one moment of the history.</summary>
public sealed class Gesture(Desk desk, Needle needle)
{
    private enum Stroke { None, Working, Clearing, Marking, MovingArea, MovingFigure, MovingAccent }

    private Stroke stroke;
    private (int Placement, int Copy)? into;
    private (Valley Valley, CableRow Row) from;
    private Work basis = null!;
    private Area area;
    private int placement;
    private int accent;
    private string edit = "";
    private bool moved;

    /// <summary>Hears of one cell.</summary>
    public void On(HandMove move, HandHeld held, Valley valley, CableRow row)
    {
        switch (move)
        {
            case HandMove.Down: Begin(held, valley, row); break;
            case HandMove.Move: GoOn(valley, row); break;
            case HandMove.Up: End(); break;
            case HandMove.Cancel: stroke = Stroke.None; desk.Drop(); break;
        }
    }

    private void Begin(HandHeld held, Valley valley, CableRow row)
    {
        (into, from, basis, moved) = (null, (valley, row), desk.Work, false);
        if (held.HasFlag(HandHeld.Shift) && needle.Doing != Doing.Figure)
        {
            needle.MarkFrom(needle.Valley, needle.Row);
            needle.MarkTo(valley, row);
            stroke = Stroke.Marking;
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
            case Doing.Figure:
                stroke = needle.Spot is { } spot ? Stroke.MovingFigure : Stroke.None;
                placement = needle.Spot?.Placement ?? 0;
                if (stroke == Stroke.None) desk.Say("There is no figure here to take hold of.");
                break;
            case Doing.Accent:
                BeginAccent(needle.Thread is null || held.HasFlag(HandHeld.OtherButton));
                break;
            case Doing.Fill when needle.Thread is { } thread && !held.HasFlag(HandHeld.OtherButton):
                stroke = Stroke.None;
                desk.Edit("filling", _ => Fill.With(basis, valley, row, thread));
                break;
            default:
                if (needle.Area is not null) needle.Mark(null);
                stroke = needle.Thread is null || held.HasFlag(HandHeld.OtherButton) ? Stroke.Clearing : Stroke.Working;
                Work(valley, row);
                break;
        }
    }

    // On an accent the hand takes hold of it, and works it in the thread in hand; on bare cloth it puts one on.
    private void BeginAccent(bool off)
    {
        stroke = Stroke.None;
        if (Accents.At(desk, needle) is { } here)
        {
            accent = here.Index;
            if (off) { desk.Edit("an accent taken off", p => Accenting.TakeOff(p, accent)); return; }
            edit = here.Mark.Thread == needle.Thread ? "moving an accent" : "an accent in another thread";
            if (!Try(() => Accenting.Recolour(desk.Piece, accent, needle.Thread!.Value))) return;
        }
        else if (off) { desk.Say("There is no accent here to take off."); return; }
        else
        {
            (accent, edit) = (desk.Piece.Accents.Length, $"a {needle.Accent}");
            if (!Try(() => Accenting.Put(desk.Piece, needle.Accent, from.Valley, from.Row, needle.Thread!.Value))) return;
        }
        (basis, stroke) = (desk.Work, Stroke.MovingAccent);
    }

    private bool Try(Func<Piece> change)
    {
        try { return desk.Draft(change()); }
        catch (ArgumentException e) { desk.Say(Sentences.Of(e.Why())); return false; }
    }

    private void GoOn(Valley valley, CableRow row)
    {
        var (valleys, rows) = (valley.Number - from.Valley.Number, row.Index - from.Row.Index);
        switch (stroke)
        {
            case Stroke.Working or Stroke.Clearing:
                needle.GoTo(valley, row);
                Work(valley, row);
                break;
            case Stroke.Marking:
                needle.MarkTo(valley, row);
                break;
            case Stroke.MovingArea:
                try
                {
                    if (!desk.Draft(Move.Cables(basis, area, valleys, rows))) return;
                    moved = true;
                    needle.GoTo(valley, row);
                    needle.Mark(Marking.Shift(area, valleys, rows));
                }
                catch (ArgumentException) { } // past the edge it stays where it was
                break;
            case Stroke.MovingAccent:
                try { desk.Draft(Accenting.By(basis.Piece, accent, valleys, rows)); }
                catch (ArgumentException) { return; } // past the edge it stays where it was
                needle.GoTo(valley, row);
                break;
            case Stroke.MovingFigure:
                moved = desk.Draft(Placing.By(basis.Piece, placement, valleys, rows));
                needle.GoTo(valley, row);
                break;
        }
    }

    private void Work(Valley valley, CableRow row)
    {
        if (stroke == Stroke.Clearing) { desk.Draft(Clear.Cables(desk.Piece, [(valley, row)])); return; }
        var (piece, drawnInto) = Draw.Cables(desk.Piece, [(valley, row)], needle.Thread!.Value, into);
        if (desk.Draft(piece)) into = drawnInto;
    }

    private void End()
    {
        switch (stroke)
        {
            case Stroke.Working: desk.Keep("stitching"); break;
            case Stroke.Clearing: desk.Keep("clearing"); break;
            case Stroke.MovingArea when !moved: needle.Mark(null); break;
            case Stroke.MovingArea or Stroke.MovingFigure: desk.Keep("moving"); break;
            case Stroke.MovingAccent: desk.Keep(edit); break;
            case Stroke.Marking when needle.Area is { Width: 1, Height: 1 }: needle.Mark(null); break;
        }
        stroke = Stroke.None;
    }
}
