using System.Collections.Immutable;
using Pleatwright.Bench.Model.Drafts;
using Pleatwright.Bench.Model.Table;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Proof;
using Pleatwright.Thread;

namespace Pleatwright.Bench.Model.Drawer;

/// <summary>
/// A figure of the drawer that is to come into the piece, or to take the place of what the piece has of it: all that changes is told, and shown on the cloth, before it does.
/// </summary>
public sealed class FigureComing : PieceDraft
{
    private const int FindingsTold = 3; // the proof tells the others, once it is there

    private readonly Func<Piece, IReadOnlyDictionary<ThreadKey, ThreadKey?>, DrawnIn> act;
    private readonly string? renewed;
    private DrawnIn? drawn;
    private (Work Laid, ImmutableArray<Finding> Findings)? proved;

    private FigureComing(Desk desk, KeptFigure kept, string? renewed, Func<Piece, IReadOnlyDictionary<ThreadKey, ThreadKey?>, DrawnIn> act) : base(desk)
    {
        (Kept, this.renewed, this.act) = (kept, renewed, act);
        Threads = ThreadQuestion.Of(desk.Piece.Threads, kept.Name, kept.Threads);
        Threads.Chosen += Answered;
    }

    /// <summary>A figure of the drawer, to be put on the cloth where the hand is.</summary>
    internal static FigureComing Down(Desk desk, Needle needle, KeptFigure kept)
    {
        var (valley, row) = (needle.Valley, needle.Row);
        return new FigureComing(desk, kept, null, (p, answers) => Chart.Edit.Drawer.Put(p, kept, valley, row, answers));
    }

    /// <summary>What the drawer has of a figure of the piece, to be taken.</summary>
    internal static FigureComing Instead(Desk desk, NewerFigure newer) =>
        new(desk, newer.Kept, newer.Figure, (p, answers) => Chart.Edit.Drawer.Renew(p, newer.Figure, newer.Kept, answers));

    /// <summary>The figure as the drawer has it.</summary>
    public KeptFigure Kept { get; }

    /// <summary>Its threads in doubt, with what is answered of them.</summary>
    public ThreadQuestion Threads { get; }

    /// <summary>Whether there is anything that the maker should see before: a thread in doubt, stitches that cannot be worked there, an error the proof finds more.</summary>
    public bool AsksALook => !Threads.InDoubt.IsEmpty || Laid is not { } laid || Unfit(laid) != default || ErrorsMore(laid) > 0;

    /// <summary>What changes, a sentence each.</summary>
    public ImmutableArray<string> Changes => Laid is not { } laid || drawn is null ? []
        : renewed is null ? DrawerWords.Before(drawn, new GaugeFit(Kept.Gauge, laid.Piece.Cloth.Gauge)) : DrawerWords.Before(Desk.Work, laid, renewed, drawn);

    /// <summary>What cannot be worked as it would lie, and what the proof would find more, a sentence each.</summary>
    public ImmutableArray<string> Faults
    {
        get
        {
            if (Laid is not { } laid || drawn is null) return [];
            var (now, before) = (Proved(laid), Desk.Findings.Select(f => f.Message).ToHashSet());
            Counts after = Counts.Of(now), was = Counts.Of(Desk.Findings);
            string[] more = [.. new[] { (after.Errors - was.Errors, "error"), (after.Warnings - was.Warnings, "warning") }.Where(m => m.Item1 > 0).Select(m => Words.Of(m.Item1, m.Item2))];
            return
            [
                .. new[] { DrawerWords.Of(Unfit(laid)) }.Where(w => w.Length > 0),
                .. more.Length == 0 ? [] : (string[])[$"The proof finds {string.Join(" and ", more)} more:", .. now.Where(f => f.Severity != Severity.Note && !before.Contains(f.Message)).Take(FindingsTold).Select(f => f.Message)],
            ];
        }
    }

    /// <summary>Does it, and says what came of it.</summary>
    /// <returns>False when it cannot be.</returns>
    public bool Do()
    {
        if (Laid is not { } laid || drawn is not { } put) return false;
        var (unfit, more) = (Unfit(laid), ErrorsMore(laid));
        if (!Keep()) return false;
        Desk.Say(renewed is null
            ? $"{put.Figure} is on the cloth. {DrawerWords.Of(put, new GaugeFit(Kept.Gauge, laid.Piece.Cloth.Gauge), unfit)}".TrimEnd()
            : string.Join(' ', ((string[])[$"{renewed} is as in your drawer.", BroughtWords.Of([.. put.Threads.Where(t => t.Added)]), DrawerWords.Of(unfit), more > 0 ? $"The proof finds {Words.Of(more, "error")} more." : ""]).Where(s => s.Length > 0)));
        return true;
    }

    private protected override string Edit => renewed is null ? $"{Kept.Name} put on" : $"{renewed} as in the drawer";

    private protected override string? Wrong(Piece piece) => renewed is not null && piece.Figure(renewed) is null ? $"{renewed} is no longer in the piece." : null;

    private protected override Piece With(Piece piece)
    {
        drawn = null;
        return (drawn = act(piece, Threads.Answers)).Piece;
    }

    private ImmutableArray<Finding> Proved(Work laid)
    {
        if (proved?.Laid != laid) proved = (laid, Smocking.Prove(laid));
        return proved.Value.Findings;
    }

    private int ErrorsMore(Work laid) => Counts.Of(Proved(laid)).Errors - Counts.Of(Desk.Findings).Errors;

    // What cannot be worked of it that could be before.
    private LeftOut Unfit(Work laid)
    {
        var now = LeftOut.Of(laid, drawn!.Figure);
        var before = renewed is null ? default : LeftOut.Of(Desk.Work, renewed);
        return new LeftOut(Math.Max(0, now.Cables - before.Cables), Math.Max(0, now.Halves - before.Halves));
    }
}
