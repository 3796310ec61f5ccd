using System.Collections.Immutable;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Plate.Writers;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>A small ornament on a valley: which, where, how large, how often, how it will lie.</summary>
public sealed class AccentDraft : PieceDraft
{
    private const string Valley = "On valley";
    private const int UsuallyApart = 12; // valleys, until the maker says

    private readonly int? index;
    private readonly AccentMark? old;

    private AccentDraft(Desk desk, int? index, AccentMark mark) : base(desk)
    {
        (this.index, Mark) = (index, mark);
        old = index is null ? null : mark;
        Every = mark.Repeat.Count > 1 ? mark.Repeat.Every : UsuallyApart;
    }

    /// <summary>An accent of the piece, or one more where the hand is; null when the piece has no thread to work it in.</summary>
    public static AccentDraft? Open(Desk desk, Needle needle, int? index)
    {
        if (index is { } at && at >= 0 && at < desk.Piece.Accents.Length) return new AccentDraft(desk, at, desk.Piece.Accents[at]);
        return (needle.Thread ?? desk.Piece.Threads.FirstOrDefault()?.Key) is { } thread
            ? new AccentDraft(desk, null, Accenting.MarkAt(desk.Piece, needle.Accent, needle.Valley, needle.Row, thread))
            : null;
    }

    /// <summary>The accent as answered so far.</summary>
    public AccentMark Mark { get; private set; }

    /// <summary>Whether it is one more, not one of the piece.</summary>
    public bool IsNew => index is null;

    /// <summary>What it is.</summary>
    public Accent Accent => Accent.Named(Mark.Accent)!;

    /// <summary>Valleys from one copy to the next; kept while there is one alone.</summary>
    public int Every { get; private set; }

    /// <summary>The valley it is centred on.</summary>
    public int CentreValley => Mark.Centre.Panel is { } gone && Desk.Work.Pleating.Panel(gone) is null ? 0 : Mark.Centre.On(Desk.Work.Pleating).Number;

    /// <summary>Where it will lie, as a sentence.</summary>
    public string Comes => CentreValley > 0 ? Where.Of(Mark, Desk.Work.Pleating) : "";

    /// <summary>How it will lie, as an SVG picture, and in words; null when it cannot.</summary>
    public (string Svg, string Words)? Picture =>
        Laid is { } work ? (Glimpse.Draw(work, Glimpse.OfAccent(work, index ?? work.Piece.Accents.Length - 1), "accent-glimpse", "How it will lie", Comes), Comes) : null;

    /// <summary>Takes another accent; what it does not take is left out.</summary>
    public void SetAccent(string? name)
    {
        if (name is null || Accent.Named(name) is not { } accent) return;
        Set(Mark with { Accent = accent.Name, Size = null, Upright = accent.MayBeUpright && Mark.Upright });
    }

    public void SetThread(string? letter)
    {
        if (ThreadDraft.TryKey(letter, out var key)) Set(Mark with { Thread = key });
    }

    /// <summary>Pleats it is long; what is usual is not written down.</summary>
    public void SetSize(string? text) => Whole("Pleats long", text, n => Mark with { Size = n == Accent.Size?.Usual ? null : n });

    public void TurnUpright() => Set(Mark with { Upright = !Mark.Upright });

    public void SetValley(string? text) => Whole(Valley, text, n => Mark with { Centre = Hangs ? Mark.Centre.To(new Chart.Valley(n), Desk.Work.Pleating) : Centre.At(new Chart.Valley(n)) }, least: 1);

    /// <summary>The panels it may hang on; none where the cloth has none.</summary>
    public ImmutableArray<string> Panels => Drafts.Panels.Of(Desk.Work);

    /// <summary>The panel it hangs on; empty when it hangs on none.</summary>
    public string Panel => Mark.Centre.Panel ?? "";

    /// <summary>Hangs it on a panel, to follow it through every size; on none when empty. It stays where it lies.</summary>
    public void SetPanel(string? panel)
    {
        Unread.Forget(Valley);
        var plan = Desk.Work.Pleating;
        if (Panel.Length > 0 && plan.Panel(Panel) is null) Set(Mark with { Centre = Centre.Middle }); // a panel gone meanwhile holds nothing
        Set(Mark with { Centre = string.IsNullOrEmpty(panel) || plan.Panel(panel) is null ? Mark.Centre.Unhung(plan) : Mark.Centre.HungOn(panel, Mark.Centre.From, plan) });
    }

    /// <summary>Counts its place from the centre or an edge of its panel.</summary>
    public void SetFrom(CountedFrom from)
    {
        if (Hangs) Set(Mark with { Centre = Mark.Centre.HungOn(Panel, from, Desk.Work.Pleating) });
    }

    public void SetFromThere(string? text)
    {
        if (Hangs) Whole("Valleys from there", text, n => Mark with { Centre = Centre.Hung(Panel, Mark.Centre.From, Math.Clamp(n, -PleatingPlan.MostPleats, PleatingPlan.MostPleats)) });
    }

    /// <summary>Moves it to the centre of the panel it hangs on.</summary>
    public void ToPanelCentre()
    {
        Unread.Forget(Valley);
        if (Hangs) Set(Mark with { Centre = Centre.Hung(Panel, CountedFrom.Centre, 0) });
    }

    private bool Hangs => Panel.Length > 0 && Desk.Work.Pleating.Panel(Panel) is not null;

    public void ToCentre()
    {
        Unread.Forget(Valley);
        Set(Mark with { Centre = Centre.Middle });
    }

    public void SetGatheringRow(string? text) => Whole("On gathering row", text, n => Mark with { GatheringRow = new GatheringRow(n) });

    public void SetOffset(string? text) => Whole("Quarter spaces lower", text, n => Mark with { Offset = n });

    public void SetDrop(string? text) => Whole("Cable rows lower still", text, n => Mark with { Drop = n });

    public void SetCopies(string? text) => Whole("Copies", text, n => Mark with { Repeat = n == 1 ? Repeat.Once : new Repeat(n, Every) });

    public void SetEvery(string? text) => Whole("Valleys from one to the next", text, n =>
    {
        Every = n;
        return Mark.Repeat.Count == 1 ? Mark : Mark with { Repeat = Mark.Repeat with { Every = n } };
    });

    /// <summary>Takes the accent off the piece.</summary>
    public void TakeOff()
    {
        if (index is { } i && IsThere(Desk.Piece)) Desk.Edit("an accent taken off", p => Accenting.TakeOff(p, i));
    }

    private protected override string Edit => IsNew ? "an accent" : "an accent changed";

    private bool IsThere(Piece piece) => index is not { } i || i < piece.Accents.Length && piece.Accents[i] == old;

    private protected override string? Wrong(Piece piece) => IsThere(piece) ? Accenting.Fault(piece, Mark) : "This accent was changed or taken off meanwhile.";

    private protected override Piece With(Piece piece) => index is { } i ? Accenting.Change(piece, i, Mark) : Accenting.Put(piece, Mark);

    private void Whole(string field, string? text, Func<int, AccentMark> with, int least = int.MinValue)
    {
        if (Unread.Whole(field, text, out var n, least)) Set(with(n));
        else Answered();
    }

    private void Set(AccentMark mark)
    {
        Mark = mark;
        Answered();
    }
}
