using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Order;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Working;

/// <summary>The working order as it is paced through: the step at hand, the part of the directions about it, runs fixed to places.</summary>
public sealed class Pacer
{
    private const int AtOnce = 40; // paragraphs on the page; of long directions only the part about the step at hand
    private const int Before = 8, Around = 3, After = 6;

    private readonly Desk desk;
    private readonly Stand stand;
    private Run? follows; // the run just fixed or let go, while the order is still being sought
    private int first, shown = AtOnce;

    /// <summary>Writes the directions of the order on the table.</summary>
    public Pacer(Desk desk, Stand stand)
    {
        (this.desk, this.stand) = (desk, stand);
        Write();
    }

    /// <summary>The steps of the cables.</summary>
    public ImmutableArray<Step> Steps => desk.Order.Steps;

    /// <summary>The step at hand; null before the first.</summary>
    public Step? Here => stand.Step > 0 ? Steps[stand.Step - 1] : null;

    /// <summary>The directions.</summary>
    public ImmutableArray<Direction> Directions { get; private set; } = [];

    /// <summary>The paragraphs of <see cref="Directions"/> that are on the page.</summary>
    public Range InSight => first..Math.Min(Directions.Length, first + shown);

    /// <summary>Whether paragraphs come before those on the page.</summary>
    public bool HasEarlier => first > 0;

    /// <summary>Whether paragraphs come after those on the page.</summary>
    public bool HasLater => first + shown < Directions.Length;

    /// <summary>How the thread is cut; null when a skein is too short for one needleful.</summary>
    public CuttingPlan? Cutting { get; private set; }

    /// <summary>Where one stands, in short.</summary>
    public string Short => Steps.IsEmpty ? "Nothing is worked yet."
        : stand.Step == 0 ? $"Before the first of {Words.Of(Steps.Length, "step")}."
        : $"Step {Words.Of(stand.Step)} of {Words.Of(Steps.Length)}.";

    /// <summary>The direction of the step at hand; empty before the first.</summary>
    public string Long => stand.Step == 0 ? "" : Directions.FirstOrDefault(d => IsNow(d) && d.Kind == DirectionKind.Step)?.Text ?? "";

    /// <summary>What the order comes to, label and number, in the order it is told.</summary>
    public IEnumerable<(string Label, string Value)> Sums
    {
        get
        {
            var order = desk.Order;
            yield return (order.Starts == 1 ? "start of a run" : "starts of runs", Words.Of(order.Starts));
            yield return ("at the very least", Words.Of(order.LowerBoundStarts));
            if (order.Bands.Starts > 0) yield return ("of bands", Words.Of(order.Bands.Starts));
            if (order.Bands.AccentNeedlefuls > 0) yield return ("of accents", Words.Of(order.Bands.AccentNeedlefuls));
            if (order.Backsmock.Needlefuls > 0) yield return ("of backsmocking", Words.Of(order.Backsmock.Needlefuls));
            if (order.Needlefuls > order.Starts) yield return ("in all", Words.Of(order.Needlefuls));
            yield return (order.TurnsInAll == 1 ? "turn" : "turns", Words.Of(order.TurnsInAll));
            yield return ("carried", Words.Of(order.CarriedInAll.In(desk.Piece.Working.WorkingLength.Unit)));
            yield return (Steps.Length == 1 ? "step" : "steps", Words.Of(Steps.Length));
        }
    }

    /// <summary>Whether a paragraph tells of the step at hand.</summary>
    public bool IsNow(Direction direction) => direction.Step is { } step && step.Number == stand.Step;

    /// <summary>Which run of the order the step at hand belongs to, from 1; 0 before the first.</summary>
    public int PlaceHere => Here is { } step ? desk.Order.PlaceOf(step) : 0;

    /// <summary>The place the run at hand is fixed to; null when it goes where it is best.</summary>
    public int? PinnedHere => RunHere is { } run ? Pinning.PlaceOf(desk.Piece, run) : null;

    /// <summary>Goes to a step, or to the nearest there is.</summary>
    public void GoTo(int step)
    {
        follows = null;
        stand.GoTo(step);
        Window();
    }

    /// <summary>Goes to the step that is written; stays where that is no number.</summary>
    public void GoTo(string? text)
    {
        if (int.TryParse(text, out var step)) GoTo(step);
    }

    /// <summary>Takes other words for the levels.</summary>
    public void Say(LevelWords words)
    {
        stand.Words = words;
        Write();
    }

    /// <summary>Fixes the run at hand to a place in the order, or to the nearest there is; stays as it is where none is written.</summary>
    public void Pin(string? text)
    {
        if (int.TryParse(text, out var place)) Pin(place);
    }

    /// <summary>Fixes the run at hand to a place. The maker stays with the run, wherever it goes.</summary>
    public void Pin(int place)
    {
        if (RunHere is not { } run) return;
        follows = run;
        desk.Edit("a run fixed in the order", p => Pinning.Fix(p, run, Math.Clamp(place, 1, desk.Work.Runs.Length)));
    }

    /// <summary>Lets the run at hand go where it is best.</summary>
    public void Unpin()
    {
        if (RunHere is not { } run) return;
        follows = run;
        desk.Edit("a run let go in the order", p => Pinning.Free(p, run));
    }

    /// <summary>The order was planned anew.</summary>
    public void Ordered()
    {
        if (follows is { } run && Steps.FirstOrDefault(s => desk.Work.Runs[s.RunIndex] == run) is { } step) stand.GoTo(step.Number);
        Write();
    }

    /// <summary>Shows what comes before.</summary>
    public void Earlier() => (first, shown) = (Math.Max(0, first - AtOnce), shown + Math.Min(first, AtOnce));

    /// <summary>Shows what comes after.</summary>
    public void Later() => shown += AtOnce;

    private Run? RunHere => Here is { } step ? desk.Work.Runs[step.RunIndex] : null;

    private void Write()
    {
        _ = desk.SettleAsync();
        stand.GoTo(stand.Step);
        Directions = Order.Directions.Write(desk.Order, stand.Words);
        try { Cutting = desk.Order.Cutting(); }
        catch (ArgumentException) { Cutting = null; }
        Window();
    }

    private void Window()
    {
        var at = 0;
        for (var i = 0; i < Directions.Length && stand.Step > 0; i++)
            if (IsNow(Directions[i])) { at = i; break; }
        if (at >= first + Around && at < first + shown - After && first < Math.Max(1, Directions.Length)) return;
        (first, shown) = (Math.Max(0, at - Before), AtOnce);
    }
}
