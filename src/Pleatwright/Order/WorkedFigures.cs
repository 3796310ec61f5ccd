using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Order;

/// <summary>A border or a figure of a piece, as the working order takes it up.</summary>
/// <param name="Names">The figures it is made of, each once; none of a band.</param>
/// <param name="IsBorder">Whether it is a border.</param>
/// <param name="From">Its leftmost valley.</param>
/// <param name="To">Its rightmost valley.</param>
/// <param name="Begins">A place in it, in the row that is worked first of it.</param>
/// <param name="FirstRun">The first of its runs in the work: by that it is known again.</param>
internal sealed record WorkedFigure(ImmutableArray<string> Names, bool IsBorder, Valley From, Valley To, FigurePlace Begins, int FirstRun);

/// <summary>Borders and figures in the order they are worked, and how the maker changes it.</summary>
internal static class WorkedFigures
{
    /// <summary>The borders and figures of an order, as they are taken up one after the other.</summary>
    public static ImmutableArray<WorkedFigure> Of(WorkingOrder order)
    {
        var (work, parts) = (order.Work, order.Parts);
        if (work.Runs.IsEmpty) return [];
        var found = new WorkedFigure?[parts.InOrder[^1].Figure + 1];
        foreach (var part in parts.InOrder)
            found[part.Figure] = found[part.Figure] is { } f
                ? f with { From = f.From.Number < part.From.Number ? f.From : part.From, To = f.To.Number > part.To.Number ? f.To : part.To, IsBorder = f.IsBorder && part.IsBorder }
                : new WorkedFigure([], part.IsBorder, part.From, part.To, default, int.MaxValue);
        var begun = new bool[found.Length];
        foreach (var step in order.Steps)
        {
            var figure = FigureOf(parts, step.RunIndex);
            if (begun[figure]) continue;
            begun[figure] = true;
            found[figure] = found[figure]! with { Begins = new FigurePlace(step.Row, work.Runs[step.RunIndex].From) };
        }
        for (var r = 0; r < work.Runs.Length; r++)
        {
            var figure = found[FigureOf(parts, r)]!;
            var name = parts.PlacementOf(r) is { } placement ? work.Piece.Placements[placement].Figure : null;
            if (name is null || figure.Names.Contains(name))
            {
                if (r < figure.FirstRun) found[FigureOf(parts, r)] = figure with { FirstRun = r };
                continue;
            }
            found[FigureOf(parts, r)] = figure with { Names = figure.Names.Add(name), FirstRun = Math.Min(figure.FirstRun, r) };
        }
        return [.. found.Select(f => f!)];
    }

    /// <summary>"Boat, pleats 30 to 45, from row 20"; "Band of cables, …" where no figure is of it.</summary>
    public static string Say(WorkedFigure figure) =>
        $"{(figure.Names.IsEmpty ? "Band of cables" : string.Join(", ", figure.Names).Capital())}{(figure.IsBorder && !figure.Names.IsEmpty ? ", a border" : "")}, "
        + FormattableString.Invariant($"pleats {figure.From.Number} to {figure.To.Number + 1}, from row {figure.Begins.Row.Index}");

    /// <summary>
    /// Takes one of them up at another place. No more are named than need be: those that follow as they would by themselves go unnamed. A border
    /// stays before what stands on it, whatever is asked for.
    /// </summary>
    /// <param name="order">The order as it is.</param>
    /// <param name="from">Which of <see cref="Of"/>, from 0.</param>
    /// <param name="to">Where it is to stand then, from 0.</param>
    /// <returns>The piece, ordered so; the very piece where nothing is moved.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is none of that number.</exception>
    public static Piece Move(WorkingOrder order, int from, int to)
    {
        var figures = Of(order);
        ArgumentOutOfRangeException.ThrowIfNegative(from);
        ArgumentOutOfRangeException.ThrowIfNegative(to);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(from, figures.Length);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(to, figures.Length);
        var piece = order.Work.Piece;
        if (from == to) return piece;
        var wanted = figures.RemoveAt(from).Insert(to, figures[from]);
        var free = FirstRuns(Work.Lay(With(piece, [])));
        var named = wanted.Length;
        while (named > 0 && FollowsFree(named - 1)) named--;
        var moved = With(piece, [.. wanted.Take(named).Select(f => f.Begins)]);
        return FirstRuns(Work.Lay(moved)).SequenceEqual(figures.Select(f => f.FirstRun)) ? piece : moved;

        // whether those from the one on stand as they would by themselves, were the rest named
        bool FollowsFree(int at) => free.Where(run => !wanted.AsSpan()[..at].ToArray().Any(f => f.FirstRun == run)).SequenceEqual(wanted.Skip(at).Select(f => f.FirstRun));
    }

    private static Piece With(Piece piece, ImmutableArray<FigurePlace> figures) => piece with { Working = piece.Working with { Figures = figures } };

    private static int FigureOf(Parts parts, int run) => parts.InOrder[parts.Of(run)].Figure;

    // The figures as a work takes them up, each by its first run.
    private static ImmutableArray<int> FirstRuns(Work work)
    {
        var parts = new Layout(work).Parts;
        var first = new int[parts.InOrder[^1].Figure + 1];
        for (var r = work.Runs.Length - 1; r >= 0; r--) first[FigureOf(parts, r)] = r;
        return [.. first];
    }
}
