using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Drafts;

/// <summary>How the maker means to work: what the order keeps to.</summary>
public sealed class WorkingDraft : PieceDraft
{
    private const string OfBaseRow = "Cable row to begin on";

    /// <summary>The ways of the piece, to be changed.</summary>
    public WorkingDraft(Desk desk) : base(desk)
    {
        (Working, Back) = (desk.Piece.Working, desk.Piece.Back);
        BaseRow = Math.Min(Working.BaseRow?.Index ?? desk.Order.BaseRow.Index, MostBaseRow);
    }

    /// <summary>The ways as answered so far.</summary>
    public Chart.Working Working { get; private set; }

    /// <summary>The cable row to begin on, kept while the widest is chosen.</summary>
    public int BaseRow { get; private set; }

    /// <summary>The last cable row of the cloth.</summary>
    public int MostBaseRow => Desk.Work.CableRows - 1;

    /// <summary>Where <see cref="BaseRow"/> lies, in words.</summary>
    public string BaseRowWords => Where.Of(Desk.Work, new CableRow(BaseRow));

    /// <summary>Whether the widest row is the base row.</summary>
    public bool OnWidest => Working.BaseRow is null;

    /// <summary>Why it was not kept, as a sentence; empty until that was tried.</summary>
    public string Told { get; private set; } = "";

    /// <summary>What is cabled on the back.</summary>
    public Backsmocking Back { get; private set; }

    /// <summary>The ways of working, each with its name and what it means for the hand.</summary>
    public static ImmutableArray<(WayOfWorking Way, string Name, string Words)> Ways { get; } =
    [
        Way(WayOfWorking.RowByRow, "each row of a figure right across in all its colours, then the next outward"),
        Way(WayOfWorking.SpaceBySpace, "all rows between two gathering rows right across, then the next space"),
        Way(WayOfWorking.FewestStarts, "wherever the thread leads"),
    ];

    /// <summary>What may be cabled on the back, each with what it means.</summary>
    public static ImmutableArray<(Backsmocking Back, string Words)> Backs { get; } =
    [
        (Backsmocking.Auto, "right across every gathering row that the front does not hold, but not below a bishop's design"),
        (Backsmocking.Gaps, "only where nothing is stitched on the front"),
        (Backsmocking.All, "right across every such row, below a bishop's design too"),
        (Backsmocking.None, "none"),
    ];

    private static (WayOfWorking Way, string Name, string Words) Way(WayOfWorking way, string words) => (way, WayWords.Of(way).Capital(), words);

    public void SetWay(WayOfWorking way) => Set(Working with { Way = way });

    public void SetBack(Backsmocking back)
    {
        Back = back;
        Set(Working);
    }

    public void SetHand(Hand hand) => Set(Working with { Hand = hand });

    public void SetFirst(FirstWay way) => Set(Working with { First = way });

    public void SetMayTurn(bool may) => Set(Working with { MayTurn = may });

    public void SetSplitRuns(bool may) => Set(Working with { SplitRuns = may });

    public void SetWorkingLength(Length length) => Set(Working with { WorkingLength = length });

    public void SetTails(Length length) => Set(Working with { Tails = length });

    public void SetCarryPleats(int pleats) => Set(Working with { CarryPleats = pleats });

    public void SetParkedThreads(int threads) => Set(Working with { ParkedThreads = threads });

    public void SetThreadFactor(double factor) => Set(Working with { ThreadFactor = factor });

    /// <summary>Begins on the widest row.</summary>
    public void BeginOnWidest()
    {
        Unread.Forget(OfBaseRow);
        Set(Working with { BaseRow = null });
    }

    /// <summary>Begins on the maker's own row.</summary>
    public void BeginOnOwn() => Set(Working with { BaseRow = new CableRow(BaseRow) });

    /// <summary>Chooses that row, or the nearest there is.</summary>
    public void SetBaseRow(string? text)
    {
        if (Unread.Whole(OfBaseRow, text, out var row)) BaseRow = Math.Clamp(row, 0, MostBaseRow);
        BeginOnOwn();
    }

    /// <summary>"Run 3: valley 66, the centre; row 20, on gathering row 5": a run fixed to a place.</summary>
    public string Said(FixedPlace pin) => $"Run {Words.Of(pin.Place)}: {Where.Of(Desk.Work, pin.Valley).Uncapital()}; {Where.Of(Desk.Work, pin.Row).Uncapital()}";

    /// <summary>What letting it go is called.</summary>
    public static string LetGoWords(FixedPlace pin) => $"Let run {Words.Of(pin.Place)} go where it is best";

    /// <summary>Lets a run go that was fixed to a place.</summary>
    public void LetGo(FixedPlace pin) => Set(Working with { Places = Working.Places.Remove(pin) });

    /// <summary>Keeps it, and when it cannot be tells why.</summary>
    public bool KeepOrTell()
    {
        Told = Fault;
        return Keep();
    }

    private protected override string Edit => "how you work";

    private protected override string? Wrong(Piece piece) =>
        Working.WorkingLength <= Working.Tails ? "A needleful must be longer than what its start and tie-off take."
        : piece.Threads.FirstOrDefault(t => Cutting.LengthsPerSkein(t, Working.WorkingLength) < 1) is { } thread ? $"A skein of {thread.Name} gives no needleful so long."
        : Working.Tails < Length.Zero ? "A start takes some thread, or none."
        : Working.CarryPleats is < 0 or > Chart.Working.MostCarryPleats ? $"A thread is carried 0 to {Chart.Working.MostCarryPleats} pleats."
        : Working.ParkedThreads is < 0 or > Chart.Working.MostParkedThreads ? $"0 to {Chart.Working.MostParkedThreads} threads are left hanging."
        : !(Working.ThreadFactor is >= Chart.Working.LeastThreadFactor and <= Chart.Working.MostThreadFactor)
            ? FormattableString.Invariant($"Your stitches take {Chart.Working.LeastThreadFactor} to {Chart.Working.MostThreadFactor} times what is reckoned.")
        : null;

    private protected override Piece With(Piece piece) => piece.Working == Working && piece.Back == Back ? piece : piece with { Working = Working, Back = Back };

    private void Set(Chart.Working working)
    {
        (Working, Told) = (working, "");
        Answered();
    }
}
