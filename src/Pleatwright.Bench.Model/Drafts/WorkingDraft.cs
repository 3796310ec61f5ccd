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
        Working = desk.Piece.Working;
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

    /// <summary>The ways of working, each with what it means for the hand.</summary>
    public static ImmutableArray<(WayOfWorking Way, string Words)> Ways { get; } =
    [
        (WayOfWorking.RowByRow, "row by row: each row of a figure right across in all its colours, then the next outward"),
        (WayOfWorking.SpaceBySpace, "space by space: all rows between two gathering rows right across, then the next space"),
        (WayOfWorking.FewestStarts, "fewest starts, wherever the thread leads"),
    ];

    public void SetWay(WayOfWorking way) => Set(Working with { Way = way });

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

    private protected override Piece With(Piece piece) => piece.Working == Working ? piece : piece with { Working = Working };

    private void Set(Chart.Working working)
    {
        (Working, Told) = (working, "");
        Answered();
    }
}
