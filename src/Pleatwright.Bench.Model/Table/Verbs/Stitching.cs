using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>Working cables, clearing and filling.</summary>
public static class Stitching
{
    private const string Group = "Stitch";

    internal const string NothingToFill = "There is nothing here to fill: mark an area, or begin a figure.";

    public static IEnumerable<Verb> All { get; } =
    [
        new(Group, "Stitch here, or put the accent in hand on; with the seam ripper clear it", " ", Here),
        .. Ways.All.Select(w => new Verb(Group, "Stitch and go on", "Ctrl+" + w.Key, at => { Here(at); w.Step(at); }) { Unlisted = w.Key != "ArrowRight" }),
        new(Group, "Clear here, the accent first, or all that is marked", "Delete", Remove) { Short = "Clear" },
        new(Group, "Clear here, the accent first, or all that is marked", "Backspace", Remove) { Unlisted = true },
        new(Group, "Fill from here, or all that is marked", "*", FillIn) { Short = "Fill", Can = at => at.Needle.Thread is not null },
        new(Group, "Work this figure's thread here in the thread in hand", "%", RecolourFigure) { Can = at => Other(at) && at.Needle.Spot is not null },
        new(Group, "Work this thread everywhere in the thread in hand", "", RecolourAll) { Can = Other },
        new(Group, "Take up the seam ripper", ".", at => at.Needle.TakeThread(null)),
    ];

    /// <summary>Works one cell with what is in needle.</summary>
    public static void Here(Workplace at)
    {
        var (desk, needle) = (at.Desk, at.Needle);
        if (needle.Doing == Doing.Accent)
        {
            if (needle.Thread is not null) Accents.Put(at, needle.Accent);
            else if (Accents.At(at) is { } laid) Accents.TakeOff(at, laid);
            else desk.Say(Accents.NoneHere);
            return;
        }
        var cell = (needle.Valley, needle.Row);
        if (needle.Thread is { } thread) Work(at, "a stitch", [cell], thread);
        else desk.Edit("clearing", p => Clear.Cables(p, needle.Both([cell])));
    }

    /// <summary>Works cells as parts of the figure being drawn.</summary>
    private static void Work(Workplace at, string edit, IReadOnlyList<(Valley Valley, CableRow Row)> cells, ThreadKey thread)
    {
        string? figure = null;
        var leftOut = false;
        at.Desk.Edit(edit, p =>
        {
            (var piece, figure, leftOut) = at.Needle.Drawn(p, at.Needle.FigureFor(p, cells[0].Valley, cells[0].Row), cells, thread);
            return piece;
        });
        if (leftOut) at.Desk.Say(Needle.OtherPhase);
        if (figure is not null && at.Desk.Piece.Figure(figure) is not null) at.Needle.Drew(figure);
    }

    private static void Remove(Workplace at)
    {
        if (at.Needle.Area is null && Accents.At(at) is { } laid) { Accents.TakeOff(at, laid); return; } // it lies over the rest
        var area = at.Needle.AreaOrCell;
        var before = at.Desk.Piece;
        at.Desk.Edit("clearing", _ => Clear.Cables(at.Needle.AccentsOff(at.Desk.Work, area), at.Needle.Both(area.Cells())));
        if (ReferenceEquals(before, at.Desk.Piece) && at.Desk.Work.IsWorked(area.From, area.Top))
            at.Desk.Say("A band lies here; it is worked from side to side, and taken off as a whole.");
    }

    private static void FillIn(Workplace at)
    {
        if (at.Needle.Thread is not { } thread) return;
        if (at.Needle.Area is { } area)
        {
            Work(at, "filling", [.. area.Cells()], thread);
            return;
        }
        var before = at.Desk.Piece;
        at.Desk.Edit("filling", _ => at.Needle.Filled(at.Desk.Work, at.Needle.Valley, at.Needle.Row, thread));
        if (ReferenceEquals(before, at.Desk.Piece)) at.Desk.Say(at.Desk.Work.IsWorked(at.Needle.Valley, at.Needle.Row) ? "All that is joined here is worked in this thread already." : NothingToFill);
    }

    private static bool Other(Workplace at) =>
        at.Needle.Thread is { } thread && at.Desk.Work.ThreadAt(at.Needle.Valley, at.Needle.Row) is { } here && here != thread;

    private static void RecolourFigure(Workplace at)
    {
        var here = at.Desk.Work.ThreadAt(at.Needle.Valley, at.Needle.Row)!.Value;
        var figure = at.Needle.Spot!.Value.FigureIn(at.Desk.Piece).Name;
        at.Desk.Edit("another thread", p => Recolour.InFigure(p, figure, here, at.Needle.Thread!.Value));
    }

    private static void RecolourAll(Workplace at)
    {
        var here = at.Desk.Work.ThreadAt(at.Needle.Valley, at.Needle.Row)!.Value;
        at.Desk.Edit("another thread", p => Recolour.Everywhere(p, here, at.Needle.Thread!.Value));
    }
}

/// <summary>The four ways to go on the cloth, seen on the right side.</summary>
public sealed record Way(string Key, int Valleys, int Rows)
{
    /// <summary>Moves the hand one cell this way; on the wrong side left and right change places.</summary>
    public void Step(Workplace at)
    {
        var (valley, row) = From(at, 1);
        at.Needle.GoTo(valley, row);
        at.Cloth.Reveal(at.Needle.Valley, at.Needle.Row, false);
    }

    /// <summary>The cell so many steps this way.</summary>
    public (Valley, CableRow) From(Workplace at, int steps)
    {
        var side = at.Needle.Look == Look.Back ? -1 : 1;
        return (new Valley(at.Needle.Valley.Number + side * Valleys * steps), new CableRow(at.Needle.Row.Index + Rows * steps));
    }
}

public static class Ways
{
    public static IReadOnlyList<Way> All { get; } =
        [new("ArrowRight", 1, 0), new("ArrowLeft", -1, 0), new("ArrowUp", 0, -1), new("ArrowDown", 0, 1)];
}
