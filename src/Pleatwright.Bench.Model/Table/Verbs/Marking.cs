using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>Marking an area out, and what can be done with it.</summary>
public static class Marking
{
    private const string Group = "Mark and move";

    public static IEnumerable<Verb> All { get; } =
    [
        .. Ways.All.Select(w => new Verb(Group, "Mark on from here", "Shift+" + w.Key, at => Extend(at, w)) { Unlisted = w.Key != "ArrowRight" }),
        new(Group, "Mark this figure; once more, the whole cloth", "Ctrl+a", MarkAll),
        new(Group, "Let the marking go", "Escape", at => at.Needle.Mark(null)) { Short = "Let go" },
        new(Group, "Copy", "Ctrl+c", at => Copy(at)) { Short = "Copy" },
        new(Group, "Lift off", "Ctrl+x", at => { if (Copy(at)) at.Desk.Edit("lifting off", p => Clear.Cables(p, at.Needle.AreaOrCell.Cells())); }),
        new(Group, "Lay what was copied", "Ctrl+v", Lay) { Short = "Lay copy", Can = at => at.Needle.Lifted is not null },
        .. Ways.All.Select(w => new Verb(Group, "Move what is marked, else the accent or the figure", "Alt+" + w.Key, at => Push(at, w)) { Unlisted = w.Key != "ArrowRight" }),
        new(Group, "Mirror what is marked in its place", "\\", at => InPlace(at, "mirroring", Mirror.InPlace)) { Short = "Mirror", Can = Marked },
        new(Group, "Turn what is marked top to bottom", "^", at => InPlace(at, "turning over", Mirror.Upend)) { Short = "Turn over", Can = Marked },
        new(Group, "Mirror about this valley", "|", Across) { Short = "Mirror across", Can = at => Marked(at) || BoundsOf(at) is not null },
        new(Group, "Make what is marked a figure of its own", "", at => InPlace(at, "a new figure", Chart.Edit.Figures.FromArea)) { Can = Marked },
    ];

    private static bool Marked(Workplace at) => at.Needle.Area is not null;

    private static void Extend(Workplace at, Way way)
    {
        if (at.Needle.Area is null) at.Needle.MarkFrom(at.Needle.Valley, at.Needle.Row);
        var (valley, row) = way.From(at, 1);
        at.Needle.MarkTo(valley, row);
        at.Cloth.Reveal(at.Needle.Valley, at.Needle.Row, false);
    }

    private static void MarkAll(Workplace at)
    {
        var work = at.Desk.Work;
        var whole = Area.Between(new Valley(1), new CableRow(0), new Valley(work.Valleys), new CableRow(work.CableRows - 1));
        at.Needle.Mark(BoundsOf(at) is { } bounds && bounds != at.Needle.Area ? bounds : whole);
    }

    // The figure's bounds, as far as they lie on the cloth.
    private static Area? BoundsOf(Workplace at)
    {
        if (at.Needle.Spot is not { } spot) return null;
        var work = at.Desk.Work;
        var seat = Spot.SeatOf(work.Piece, work.Pleating, spot.Placement, spot.Copy);
        return Area.Between(
            new Valley(Math.Max(1, seat.Left)), new CableRow(Math.Max(0, seat.Top)),
            new Valley(Math.Min(work.Valleys, seat.Right)), new CableRow(Math.Min(work.CableRows - 1, seat.Bottom)));
    }

    private static bool Copy(Workplace at)
    {
        var patch = Patch.Lift(at.Desk.Work, at.Needle.AreaOrCell);
        if (patch.IsBare) { at.Desk.Say("Nothing lies here to copy: mark an area with cables in it."); return false; }
        at.Needle.Lift(patch);
        at.Desk.Say("Copied. Go where it should lie and lay it there.");
        return true;
    }

    // What was lifted off another piece brings its threads; those in doubt are asked about first.
    private static void Lay(Workplace at)
    {
        var patch = at.Needle.Lifted!;
        if (IsElsewhere(at, at.Desk.Piece, patch)) ThreadQuestion.Before(at.Desk, at.Needle, "what was copied", patch.Threads, answers => Lay(at, answers));
        else Lay(at, null);
    }

    // Within its own piece a thread keeps its letter, whatever has become of its colour since.
    private static bool IsElsewhere(Workplace at, Piece piece, Patch patch) => at.Needle.LiftedElsewhere || patch.Threads.Any(t => piece.Thread(t.Key) is null);

    private static void Lay(Workplace at, IReadOnlyDictionary<ThreadKey, ThreadKey?>? answers)
    {
        var (left, top) = at.Needle.Area is { } a ? (a.From, a.Top) : (at.Needle.Valley, at.Needle.Row);
        ImmutableArray<BroughtThread> brought = [];
        string? figure = null;
        Patch? came = null;
        var leftOut = false;
        var before = at.Desk.Piece;
        at.Desk.Edit("laying a copy", p =>
        {
            var patch = at.Needle.Lifted!;
            if (IsElsewhere(at, p, patch)) (p, patch, brought) = patch.BringTo(p, answers);
            came = patch;
            if (patch.CablesAt(left, top).SelectMany(t => t).Where(c => at.Desk.Work.OnCloth(c.Valley, c.Row)).ToList() is not [var first, ..]) return at.Desk.Piece;
            figure = at.Needle.FigureFor(p, first.Valley, first.Row);
            (p, figure, leftOut) = at.Needle.Laid(p, figure, patch, left, top);
            return p;
        });
        if (leftOut) at.Desk.Say(Needle.OtherPhase);
        if (ReferenceEquals(before, at.Desk.Piece)) return;
        if (answers is { Count: > 0 }) at.Needle.Lift(came!); // answered once: laid again, it is of this piece
        at.Needle.Drew(figure);
        at.Needle.Mark(null);
        if (BroughtWords.Of(brought) is { Length: > 0 } words) at.Desk.Say(words);
    }

    private static void Push(Workplace at, Way way)
    {
        var side = at.Needle.Look == Look.Back ? -1 : 1;
        var (valleys, rows) = (way.Valleys * side, way.Rows);
        if (at.Needle.Area is { } area)
        {
            var before = at.Desk.Piece;
            at.Desk.Edit("moving", _ => Move.Cables(at.Desk.Work, area, valleys, rows));
            if (ReferenceEquals(before, at.Desk.Piece)) return;
            at.Needle.GoTo(new Valley(at.Needle.Valley.Number + valleys), new CableRow(at.Needle.Row.Index + rows));
            at.Needle.Mark(Shift(area, valleys, rows));
        }
        else if (Accents.At(at) is { } laid)
        {
            var before = at.Desk.Piece;
            at.Desk.Edit("moving an accent", p => at.Needle.AccentMoved(p, laid.Index, valleys, rows));
            if (!ReferenceEquals(before, at.Desk.Piece)) at.Needle.GoTo(new Valley(at.Needle.Valley.Number + valleys), new CableRow(at.Needle.Row.Index + rows));
        }
        else if (at.Needle.Spot is { } spot)
        {
            var before = at.Desk.Piece;
            at.Desk.Edit("moving", p => Placing.By(p, spot.Placement, valleys, rows));
            if (!ReferenceEquals(before, at.Desk.Piece)) at.Needle.GoTo(new Valley(at.Needle.Valley.Number + valleys), new CableRow(at.Needle.Row.Index + rows));
        }
        else at.Desk.Say("There is no figure here to move.");
    }

    /// <summary>An area some way off.</summary>
    public static Area Shift(Area area, int valleys, int rows) => Area.Between(
        new Valley(area.From.Number + valleys), new CableRow(area.Top.Index + rows),
        new Valley(area.To.Number + valleys), new CableRow(area.Bottom.Index + rows));

    private static void InPlace(Workplace at, string edit, Func<Work, Area, Piece> change)
    {
        var area = at.Needle.Area!.Value;
        at.Desk.Edit(edit, _ => change(at.Desk.Work, area));
    }

    // What is marked is mirrored to the other side of the hand's valley; where nothing is marked, the wider side of the figure.
    private static void Across(Workplace at)
    {
        var axis = at.Needle.Valley;
        var area = at.Needle.Area ?? WiderSide(BoundsOf(at)!.Value, axis);
        if (area is null) at.Desk.Say("There is nothing beside this valley to mirror.");
        else at.Desk.Edit("mirroring", _ => Mirror.Across(at.Desk.Work, area.Value, axis));
    }

    private static Area? WiderSide(Area figure, Valley axis)
    {
        var (left, right) = (axis.Number - figure.From.Number, figure.To.Number - axis.Number);
        if (left <= 0 && right <= 0) return null;
        return left >= right
            ? Area.Between(figure.From, figure.Top, new Valley(axis.Number - 1), figure.Bottom)
            : Area.Between(new Valley(axis.Number + 1), figure.Top, figure.To, figure.Bottom);
    }
}
