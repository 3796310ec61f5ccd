using System.Collections.Immutable;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Bench.Model.Table.Verbs;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Recutting;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>Where a figure lies and how often. Every answer is an edit at once, so that it is seen on the cloth.</summary>
public sealed class FigureDraft
{
    private const int Between = 3; // valleys left bare beside a copy, until the maker says

    private readonly Desk desk;
    private readonly Needle needle;
    private readonly Unread unread = new();
    private int? index;
    private string figure;

    /// <summary>Asks about a placement, or about a figure by its name.</summary>
    /// <param name="desk">The table.</param>
    /// <param name="needle">The hand.</param>
    /// <param name="subject">The index of a placement, or the name of a figure.</param>
    public FigureDraft(Desk desk, Needle needle, object? subject)
    {
        (this.desk, this.needle) = (desk, needle);
        index = subject as int?;
        figure = Placement?.Figure ?? subject as string ?? "";
        Name = figure;
        Every = Placement is { Repeat.Count: > 1 } p ? p.Repeat.Every : (Figure?.Width ?? 0) + Between;
    }

    /// <summary>The figure; null when it is gone.</summary>
    public Figure? Figure => desk.Piece.Figure(figure);

    /// <summary>The placement asked about; null when it lies nowhere.</summary>
    public Placement? Placement => index is >= 0 and var i && i < desk.Piece.Placements.Length && (figure is null || desk.Piece.Placements[i].Figure == figure) ? desk.Piece.Placements[i] : null;

    /// <summary>Its name as it is being written.</summary>
    public string Name { get; set; }

    /// <summary>Valleys from one copy to the next; kept while there is one alone.</summary>
    public int Every { get; private set; }

    /// <summary>What stands in a field and cannot be read, as a sentence; empty when nothing does.</summary>
    public string Fault => unread.Fault ?? "";

    /// <summary>How large it is, as sentences.</summary>
    public string Comes => Figure is { } f ? $"{Words.Of(f.Width, "valley")} wide, {Words.Of(f.Height, "row")} high. What is drawn in one copy is drawn in all." : "";

    /// <summary>What lies between its copies and what room is left, as a sentence; empty where there is one alone.</summary>
    public string GapWords => Placement is not null && Gap.Of(desk.Work, index!.Value) is { } gap ? $"{Where.Of(gap)}." : "";

    /// <summary>The valley its middle lies on; 0 when it lies nowhere.</summary>
    public int CentreValley => Placement?.Centre.On(desk.Work.Pleating).Number ?? 0;

    /// <summary>The cable row its top lies on; 0 when it lies nowhere.</summary>
    public int Top => Placement is null ? 0 : Spot.SeatOf(desk.Piece, desk.Work.Pleating, index!.Value, 0).Top;

    public void Rename()
    {
        desk.Edit("a figure renamed", p => Figures.Rename(p, figure, Name));
        if (desk.Piece.Figure(Name.Trim()) is not null) figure = Name.Trim();
        Name = figure;
    }

    /// <summary>Draws it again so many valleys wide, as high for its width as it is; an odd width stays odd and an even one even.</summary>
    public void SetWidth(string? text)
    {
        if (Figure is null || !unread.Whole("Valleys across", text, out var n, 1)) return;
        desk.Edit(Figuring.Scaling, p => Recutter.Scale(p, figure, n).Piece);
    }

    /// <summary>Draws it again so many cable rows high, as wide as it is.</summary>
    public void SetHeight(string? text)
    {
        if (Figure is not { } f || !unread.Whole("Cable rows down", text, out var n, 1)) return;
        desk.Edit(Figuring.Scaling, p => Recutter.Scale(p, figure, f.Width, n).Piece);
    }

    public void SetCopies(string? text)
    {
        if (unread.Whole("Copies", text, out var n, 1)) Repeat(n);
    }

    public void SetEvery(string? text)
    {
        if (!unread.Whole("Valleys from one to the next", text, out var n, 1)) return;
        Every = n;
        if (Placement is { Repeat.Count: > 1 and var count }) Repeat(count);
    }

    public void SetCentre(string? text)
    {
        if (unread.Whole("Its middle lies on valley", text, out var n)) MoveBy(n - (long)CentreValley, 0);
    }

    public void ToCentre()
    {
        unread.Forget("Its middle lies on valley");
        MoveBy(desk.Work.Pleating.CentreValley - CentreValley, 0);
    }

    /// <summary>The panels it may hang on; none where the cloth has none.</summary>
    public ImmutableArray<string> Panels => Drafts.Panels.Of(desk.Work);

    /// <summary>The panel it hangs on; empty when it hangs on none.</summary>
    public string Panel => Placement?.Centre.Panel ?? "";

    /// <summary>What its place on the panel is counted from.</summary>
    public CountedFrom From => Placement?.Centre.From ?? CountedFrom.Centre;

    /// <summary>Valleys from there.</summary>
    public int FromThere => Placement is { Centre: { IsHung: true } centre } ? centre.Valleys : 0;

    /// <summary>Hangs it on a panel, to follow it through every size; on none when empty. It stays where it lies.</summary>
    public void SetPanel(string? panel) => Placed("hanging on a panel", (p, i) => Placing.Hang(p, i, string.IsNullOrEmpty(panel) ? null : panel, From));

    public void SetFrom(CountedFrom from)
    {
        if (Panel is { Length: > 0 } panel) Placed("hanging on a panel", (p, i) => Placing.Hang(p, i, panel, from));
    }

    public void SetFromThere(string? text)
    {
        if (Panel.Length > 0 && unread.Whole("Valleys from there", text, out var n)) MoveBy((From == CountedFrom.Right ? -1L : 1) * (n - (long)FromThere), 0);
    }

    /// <summary>Moves it to the centre of the panel it hangs on.</summary>
    public void ToPanelCentre()
    {
        unread.Forget("Valleys from there");
        if (Panel is { Length: > 0 } panel) MoveBy(Centre.Hung(panel, CountedFrom.Centre, 0).On(desk.Work.Pleating).Number - CentreValley, 0);
    }

    public void SetTop(string? text)
    {
        if (unread.Whole("Its top lies on cable row", text, out var n)) MoveBy(0, n - (long)Top);
    }

    public void Mirror() => Placed("mirroring", Placing.Turn);

    public void FlipPhase() => Placed("the other phase", Placing.FlipPhase);

    public void Square()
    {
        if (Figure is { } f) desk.Edit("squaring", p => Halves.Square(p, figure, !f.Square));
    }

    /// <summary>Puts another on the cloth beside it; that one is asked about next.</summary>
    public void Copy()
    {
        if (Figure is { } f) Topmost("a copy", (p, i) => Placing.Copy(p, i, f.Width + Between, 0));
    }

    /// <summary>Lays it over all others.</summary>
    public void Raise() => Topmost("laying over", Placing.Raise);

    /// <summary>Puts it on the cloth where the hand is.</summary>
    public void PutOn()
    {
        if (Figure is null) return;
        if (Edited("a figure put on", p => Placing.Add(p, figure, needle.Valley, needle.Row))) index = desk.Piece.Placements.Length - 1;
    }

    /// <summary>Takes this placement off; the figure stays.</summary>
    public void TakeOff()
    {
        Placed("taking off", Placing.Remove);
        index = null;
    }

    /// <summary>Throws the figure away with all its placements.</summary>
    public void Forget() => desk.Edit("a figure thrown away", p => Figures.Remove(p, figure));

    private void Repeat(int count) => Placed("repeating", (p, i) => Placing.Repeat(p, i, count, Every));

    // As far as any cloth reaches; the core keeps it at the edge.
    private void MoveBy(long valleys, long rows) => Placed("moving", (p, i) => Placing.By(p, i, Far(valleys), Far(rows)));

    private static int Far(long steps) => (int)Math.Clamp(steps, -Chart.Figure.MostValleys, Chart.Figure.MostValleys);

    private void Placed(string edit, Func<Piece, int, Piece> change)
    {
        if (Placement is not null) desk.Edit(edit, p => change(p, index!.Value));
    }

    // An edit that was refused leaves the form as it is.
    private void Topmost(string edit, Func<Piece, int, Piece> change)
    {
        if (Placement is not null && Edited(edit, p => change(p, index!.Value))) index = desk.Piece.Placements.Length - 1;
    }

    private bool Edited(string edit, Func<Piece, Piece> change)
    {
        var before = desk.Piece;
        desk.Edit(edit, change);
        return !ReferenceEquals(before, desk.Piece);
    }
}
