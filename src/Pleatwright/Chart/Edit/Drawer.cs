using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>What came of putting a figure of the drawer into a piece, or of taking its newer state.</summary>
/// <param name="Piece">The piece then.</param>
/// <param name="Figure">The figure's name there.</param>
/// <param name="Threads">Its threads, as they came and as they are there.</param>
internal sealed record DrawnIn(Piece Piece, string Figure, ImmutableArray<BroughtThread> Threads);

/// <summary>
/// Figures between a piece and the maker's drawer: taken out of the piece, put into one, brought up to a newer state, put back. A piece's figure remembers which
/// figure of the drawer it came from and in which state, so that a change is offered, never forced.
/// </summary>
internal static class Drawer
{
    /// <summary>A figure of a piece, by itself: the threads it is worked in, the piece's gauge, and the row that lies on a gathering row.</summary>
    /// <exception cref="ArgumentException">No such figure.</exception>
    public static KeptFigure Take(Piece piece, string figure)
    {
        var found = Found(piece, figure);
        var kept = new KeptFigure(found with { From = null }, UsedIn(piece, found), piece.Cloth.Gauge) { Credit = piece.Credit with { Photograph = "" } };
        if (piece.Placements.FirstOrDefault(p => p.Figure == figure) is { } placed) kept = kept with { BaseRow = placed.FigureRow };
        return kept with { Id = found.From?.Figure ?? kept.State };
    }

    /// <summary>
    /// A figure of a piece as it is put back over the one in the drawer: its identity, name and credit stay. A thread near one of the drawer's figure is that one still,
    /// for in the piece it was only matched.
    /// </summary>
    /// <exception cref="ArgumentException">No such figure.</exception>
    public static KeptFigure Return(Piece piece, string figure, KeptFigure over)
    {
        var taken = Take(piece, figure);
        var matches = ThreadMatching.Of(over.Threads, taken.Threads);
        var used = new HashSet<ThreadKey>();
        // The nearest first; two of the piece's threads never become one.
        var keeps = matches.Where(m => !m.Choices.IsEmpty).OrderBy(m => m.Choices[0].Difference)
            .Select(m => (m.From.Key, Own: m.Choices.Select(c => c.Thread).FirstOrDefault(t => used.Add(t.Key))))
            .Where(k => k.Own is not null).ToDictionary(k => k.Key, k => k.Own!);
        var threads = taken.Threads.Select(t => keeps.TryGetValue(t.Key, out var own) ? own with { Key = t.Key } : t);
        return taken with { Id = over.Id, Figure = taken.Figure with { Name = over.Name }, Credit = over.Credit, Threads = [.. threads] };
    }

    /// <summary>Puts a figure of the drawer on the cloth, its middle near a cell and its base row on the gathering row nearest to that.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="kept">The figure.</param>
    /// <param name="valley">Where its middle valley lies.</param>
    /// <param name="row">Near which cable row its middle lies.</param>
    /// <param name="answers">What the maker said of threads in doubt; see <see cref="Threads.Bring"/>.</param>
    /// <exception cref="ArgumentException">The piece would have more than 52 threads.</exception>
    public static DrawnIn Put(Piece piece, KeptFigure kept, Valley valley, CableRow row, IReadOnlyDictionary<ThreadKey, ThreadKey?>? answers = null)
    {
        var perSpace = piece.Cloth.Gauge.CableRowsPerSpace;
        var lies = row.Index - kept.Figure.Height / 2 + kept.BaseRow;
        return Put(piece, kept, valley, new GatheringRow(Math.Clamp((int)Math.Round((double)lies / perSpace, MidpointRounding.AwayFromZero), 0, piece.Cloth.GatheringRows - 1) + 1), answers);
    }

    /// <summary>Puts a figure of the drawer on the cloth, its middle valley on a valley and its base row on a gathering row.</summary>
    /// <inheritdoc cref="Put(Piece, KeptFigure, Valley, CableRow, IReadOnlyDictionary{ThreadKey, ThreadKey?})"/>
    public static DrawnIn Put(Piece piece, KeptFigure kept, Valley valley, GatheringRow on, IReadOnlyDictionary<ThreadKey, ThreadKey?>? answers = null)
    {
        var (with, figure, brought) = Lettered(piece, kept, piece.FreeName(kept.Name), answers);
        var pleating = new PleatingPlan(piece.Cloth);
        var centre = Math.Clamp(valley.Number, 1, pleating.Valleys);
        var placement = new Placement(figure.Name, centre == pleating.CentreValley ? Centre.Middle : Centre.At(new Valley(centre)), on, kept.BaseRow);
        return new DrawnIn(with with { Figures = with.Figures.Add(figure), Placements = with.Placements.Add(placement) }, figure.Name, brought);
    }

    /// <summary>
    /// Puts a figure of the drawer on the cloth where there is room, as near to the middle as may be.
    /// </summary>
    /// <returns>Null when there is no room where it would lie free.</returns>
    /// <inheritdoc cref="Put(Piece, KeptFigure, Valley, CableRow, IReadOnlyDictionary{ThreadKey, ThreadKey?})"/>
    public static DrawnIn? PutWhereFree(Piece piece, KeptFigure kept, IReadOnlyDictionary<ThreadKey, ThreadKey?>? answers = null)
    {
        if (Room.For(Work.Lay(piece), kept.Figure, kept.BaseRow, null).FirstOrDefault() is not { } free) return null;
        return Put(piece, kept, free.Centre.On(new PleatingPlan(piece.Cloth)), free.GatheringRow, answers);
    }

    /// <summary>
    /// Gives a figure of the piece the state that the drawer has. Its name stays; every placement keeps its centre and its gathering row, and the row that lies on it moves
    /// along with the figure's base row.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="figure">The figure's name in the piece.</param>
    /// <param name="kept">The figure as the drawer has it.</param>
    /// <param name="answers">What the maker said of threads in doubt; see <see cref="Threads.Bring"/>.</param>
    /// <exception cref="ArgumentException">No such figure, or the piece would have more than 52 threads.</exception>
    public static DrawnIn Renew(Piece piece, string figure, KeptFigure kept, IReadOnlyDictionary<ThreadKey, ThreadKey?>? answers = null)
    {
        var before = Found(piece, figure);
        var (with, renewed, brought) = Lettered(piece, kept, figure, answers);
        var moved = kept.BaseRow - (before.From?.BaseRow ?? kept.BaseRow);
        return new DrawnIn(with.WithFigure(renewed) with
        {
            Placements = [.. with.Placements.Select(p => p.Figure == figure ? p with { FigureRow = Math.Clamp(p.FigureRow + moved, 0, renewed.Height - 1) } : p)],
        }, figure, brought);
    }

    /// <summary>Notes of a figure that it stands in the drawer as it is in the piece, or is kept beside the state the drawer has.</summary>
    /// <exception cref="ArgumentException">No such figure.</exception>
    public static Piece Noted(Piece piece, string figure, KeptFigure kept)
    {
        var found = Found(piece, figure);
        var from = Origin(found, kept);
        return found.From == from ? piece : piece.WithFigure(found with { From = from });
    }

    private static FigureOrigin Origin(Figure figure, KeptFigure kept) => new(kept.Id, kept.State, FigureMark.OfStitches(figure), kept.BaseRow);

    private static (Piece Piece, Figure Figure, ImmutableArray<BroughtThread> Brought) Lettered(Piece piece, KeptFigure kept, string name, IReadOnlyDictionary<ThreadKey, ThreadKey?>? answers)
    {
        var (with, brought) = Threads.Bring(piece, kept.Threads, answers);
        var figure = new Figure(name, Threads.Relettered(kept.Figure.Rows, brought)) { Square = kept.Figure.Square, Letters = kept.Figure.Letters, Halves = kept.Figure.Halves };
        return (with, figure with { From = Origin(figure, kept) }, brought);
    }

    private static ImmutableArray<Floss> UsedIn(Piece piece, Figure figure) => [.. piece.Threads.Where(t => figure.Rows.Any(r => r.Contains(t.Key.Letter)))];

    private static Figure Found(Piece piece, string figure) =>
        piece.Figure(figure) ?? throw new ArgumentException($"No figure is called “{figure}”.", nameof(figure));
}
