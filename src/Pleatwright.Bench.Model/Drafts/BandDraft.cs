using System.Collections.Immutable;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Order;
using Pleatwright.Plate.Writers;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>A band from side to side: every choice its stitch has, how its repeats fit, how it will lie.</summary>
public sealed class BandDraft : PieceDraft
{
    private readonly int? index;
    private readonly Band? old;
    private readonly Cut cut; // what the cloth was, and what it becomes with a choice taken

    private sealed class Cut(ClothPlan was)
    {
        public ClothPlan Was { get; } = was;

        public ClothPlan Now { get; set; } = was;
    }

    private BandDraft(Desk desk, int? index, Band band) : base(desk)
    {
        (this.index, Band) = (index, band);
        old = index is null ? null : band;
        cut = new Cut(desk.Piece.Cloth);
    }

    /// <summary>A band of the piece, or one more where the hand is; null when the piece has no thread to work it in.</summary>
    /// <param name="desk">The table.</param>
    /// <param name="needle">The hand.</param>
    /// <param name="index">Which band of the piece; null, or none there is, for one more.</param>
    public static BandDraft? Open(Desk desk, Needle needle, int? index)
    {
        if (index is { } at && at >= 0 && at < desk.Piece.Bands.Length) return new BandDraft(desk, at, desk.Piece.Bands[at]);
        if ((needle.Thread ?? desk.Piece.Threads.FirstOrDefault()?.Key) is not { } thread) return null;
        return new BandDraft(desk, null, new Band(BandStitch.All[0].Name, GatheringRow.AtOrAbove(needle.Row, desk.Work.Pleating.Gauge.CableRowsPerSpace), thread));
    }

    /// <summary>The band as answered so far.</summary>
    public Band Band { get; private set; }

    /// <summary>Whether it is one more, not one of the piece.</summary>
    public bool IsNew => index is null;

    /// <summary>Its stitch.</summary>
    public BandStitch Stitch => BandStitch.Named(Band.Stitch)!;

    /// <summary>Pleats of the cloth, with a choice of cloth taken.</summary>
    public int Pleats => new PleatingPlan(Cloth) is var plan && Band.Panel is { } panel && plan.Panel(panel) is { } share ? share.Pleats : new PleatingPlan(Cloth).Pleats;

    /// <summary>Gathering rows of the cloth.</summary>
    public int GatheringRows => Cloth.GatheringRows;

    /// <summary>How it fits the cloth, as sentences; nothing where something is wrong, for then there is nothing to fit.</summary>
    public string Comes => Fault.Length > 0 ? "" : (Fitting.Words(Cloth, Band) is { Length: > 0 } words ? words : "One stitch in every valley: any count of pleats serves.")
        + (Stitch.SidesOf(Band) is { IsEmpty: false } sides ? $" The thread {Phrases.Sides(sides, LevelWords.UpDown)}." : "")
        + (Cloth == Desk.Piece.Cloth ? "" : $" The cloth becomes {Words.Of(new PleatingPlan(Cloth).FinishedWidth)} wide, {new PleatingPlan(Cloth).Pleats} pleats.");

    /// <summary>What may be chosen to make its repeats come out; nothing where they do, or where something is wrong.</summary>
    public ImmutableArray<FittingChoice> Choices => Fault.Length > 0 ? [] : Fitting.Choices(Cloth, Band);

    /// <summary>How it will lie, as an SVG picture, and in words; null when it cannot.</summary>
    public (string Svg, string Words)? Picture
    {
        get
        {
            if (Laid is not { } work) return null;
            var words = Where.Of(Band, work.Pleating.Gauge.CableRowsPerSpace);
            return (Glimpse.Draw(work, Glimpse.Of(work, Band), "band-glimpse", "How it will lie", words), words);
        }
    }

    /// <summary>Takes another stitch; what it does not take is left out.</summary>
    public void SetStitch(string? name)
    {
        if (name is not null && BandStitch.Named(name) is { } stitch) Set(Bands.WithStitch(Band, stitch));
    }

    public void SetThread(string? letter)
    {
        if (ThreadDraft.TryKey(letter, out var key)) Set(Band with { Thread = key });
    }

    public void SetGatheringRow(string? text) => Whole("On gathering row", text, n => Band with { GatheringRow = new GatheringRow(n) });

    public void SetRows(string? text) => Whole("Times, one under the other", text, n => Band with { Rows = n });

    public void SetSteps(string? text) => Whole("Steps from turn to turn", text, n => Band with { Steps = n });

    public void SetHeight(string? text) => Whole("Quarter spaces high", text, n => Band with { Height = n });

    public void SetOffset(string? text) => Whole("Quarter spaces lower", text, n => Band with { Offset = n });

    public void SetDrop(string? text) => Whole("Cable rows lower still", text, n => Band with { Drop = n });

    /// <summary>The panels it may go across; none where the cloth has none.</summary>
    public ImmutableArray<string> Panels => Laid is { } work ? Drafts.Panels.Of(work) : Drafts.Panels.Of(Desk.Work);

    /// <summary>Lets it go across one panel alone, which it follows through every size; across the whole cloth when empty.</summary>
    public void SetPanel(string? panel) => Set(Band with { Panel = string.IsNullOrEmpty(panel) ? null : panel, From = null, To = null });

    /// <summary>Its first pleat; nothing for the side.</summary>
    public void SetFrom(string? text) => Pleat("First pleat", text, p => Band with { From = p });

    /// <summary>Its last pleat; nothing for the side.</summary>
    public void SetTo(string? text) => Pleat("Last pleat", text, p => Band with { To = p });

    public void SetEnds(BandEnds ends) => Set(Band with { Ends = ends });

    /// <summary>Where its working begins; what is usual for the stitch is not written down.</summary>
    public void SetStart(WorkFrom start) => Set(Band with { WorkFrom = start == Stitch.UsualStart ? null : start });

    public void TurnOver() => Set(Band with { UpsideDown = !Band.UpsideDown });

    /// <summary>Takes a choice that makes its repeats come out, maybe with other cloth.</summary>
    public void Take(FittingChoice choice)
    {
        cut.Now = choice.Cloth;
        Set(choice.Band);
    }

    /// <summary>Takes the band off the piece.</summary>
    public void TakeOff()
    {
        if (index is { } i && IsThere(Desk.Piece)) Desk.Edit("a band taken off", p => Bands.TakeOff(p, p.Bands[i]));
    }

    private protected override string Edit => IsNew ? "a band" : "a band changed";

    // A cloth changed under the form, by undoing, is the cloth.
    private ClothPlan Cloth => Desk.Piece.Cloth == cut.Was ? cut.Now : Desk.Piece.Cloth;

    private bool IsThere(Piece piece) => index is not { } i || i < piece.Bands.Length && piece.Bands[i] == old;

    private protected override string? Wrong(Piece piece) =>
        IsThere(piece) ? Bands.Fault(piece with { Cloth = Cloth }, Band) : "This band was changed or taken off meanwhile.";

    private protected override Piece With(Piece piece) => OtherCloth.To(piece, Cloth) is var p && index is { } i ? Bands.Change(p, i, Band) : Bands.Put(p, Band);

    private void Whole(string field, string? text, Func<int, Band> with)
    {
        if (Unread.Whole(field, text, out var n)) Set(with(n));
        else Answered();
    }

    private void Pleat(string field, string? text, Func<Pleat?, Band> with)
    {
        if (Unread.MaybeWhole(field, text, out var n)) Set(with(n is { } number ? new Pleat(number) : null));
        else Answered();
    }

    private void Set(Band band)
    {
        Band = band;
        Answered();
    }
}
