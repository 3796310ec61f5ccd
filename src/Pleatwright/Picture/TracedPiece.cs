using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>What came of adding a figure to a piece.</summary>
/// <param name="Piece">The piece with it.</param>
/// <param name="Figure">The name it has there.</param>
/// <param name="Threads">Its threads, as they came and as they are there.</param>
/// <param name="IsFree">Whether it lies free: wholly on the cloth, touching nothing.</param>
/// <param name="Over">What it lies over where it does not lie free, by name; may be empty.</param>
internal sealed record AddedFigure(Piece Piece, string Figure, ImmutableArray<BroughtThread> Threads, bool IsFree, ImmutableArray<string> Over);

/// <summary>Makes a whole piece round a traced figure.</summary>
internal static class TracedPiece
{
    /// <summary>Bare pleats left at each side of the figure at least. Default (our own choice).</summary>
    public const int UsualMargin = 8;

    /// <summary>
    /// The figure in the middle of a panel wide and deep enough for it, its base row on a gathering row, and one
    /// gathering row clear above and below.
    /// </summary>
    /// <param name="trace">The figure and its threads.</param>
    /// <param name="gauge">The gauge it was traced for.</param>
    /// <param name="title">The piece's title.</param>
    /// <param name="cloth">The cloth's colour.</param>
    /// <param name="marginPleats">Bare pleats at each side of the figure at least, 0 or more.</param>
    /// <exception cref="ArgumentException">The cloth would be past the caps of <see cref="PleatingPlan"/>.</exception>
    public static Piece Around(TracedFigure trace, Gauge gauge, string title, Colour? cloth = null, int marginPleats = UsualMargin) =>
        BareCloth.Around(trace.Figure, trace.Threads, trace.BaseRow, gauge, title, marginPleats, trace.Phase, cloth);

    /// <summary>
    /// A piece with the figure added: its threads, those alike already there taken for its own, and one placement, in the phase it
    /// was traced for, its base row on a gathering row. It lies where there is room, as near to the middle as may be; where there is none it lies in the middle, over what is there.
    /// </summary>
    /// <param name="piece">The piece; it keeps its cloth.</param>
    /// <param name="trace">The figure and its threads.</param>
    /// <exception cref="ArgumentException">The piece would have more than 52 threads, or be past the caps of <see cref="Work.Lay"/>.</exception>
    public static AddedFigure Into(Piece piece, TracedFigure trace)
    {
        var (with, brought) = Threads.Bring(piece, trace.Threads);
        var figure = new Figure(with.FreeName(trace.Figure.Name), Threads.Relettered(trace.Figure.Rows, brought))
        {
            Square = trace.Figure.Square,
            Halves = trace.Figure.Halves,
        };
        var work = Work.Lay(with);
        var asTraced = Lattice.LevelAt(new Valley(0), new CableRow(0), trace.Phase);
        var free = Room.For(work, figure, trace.BaseRow, asTraced).FirstOrDefault();
        var placement = free ?? InTheMiddle(work, figure, trace.BaseRow, asTraced);
        return new AddedFigure(
            with with { Figures = with.Figures.Add(figure), Placements = with.Placements.Add(placement) },
            figure.Name, brought, free is not null, free is null ? Room.Under(work, figure, placement) : []);
    }

    private static Placement InTheMiddle(Work work, Figure figure, int baseRow, Level asTraced)
    {
        var placement = new Placement(figure.Name, Centre.Middle, new GatheringRow((work.Piece.Cloth.GatheringRows + 1) / 2), baseRow);
        var seat = Seat.Of(placement, figure, work.Pleating, 0);
        return placement with { FlipPhase = Lattice.LevelAt(new Valley(seat.Left), new CableRow(seat.Top), work.Piece.Phase) != asTraced };
    }
}
