using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Chart;

/// <summary>
/// A figure kept by itself, in no piece: its stitches, the threads they are worked in, and the gauge it was drawn for. This is what a
/// figure file holds, no more and no less.
/// </summary>
/// <param name="Figure">Its stitches, and its name.</param>
/// <param name="Threads">Its threads, each with a letter of its own; every letter of its rows is among them.</param>
/// <param name="Gauge">The gauge it was drawn for.</param>
public sealed record KeptFigure(Figure Figure, ImmutableArray<Floss> Threads, Gauge Gauge)
{
    /// <summary>Letters in an identity and in a mark: hexadecimal digits, lower case.</summary>
    public const int MarkLength = FigureMark.Length;

    private readonly string? id;
    private readonly int? baseRow;

    /// <summary>
    /// Which figure it is, whatever it is called and however it is changed: <see cref="MarkLength"/> hexadecimal digits. Where none is given it is the mark of its
    /// first state, so that the same figure taken out twice is the same figure.
    /// </summary>
    public string Id { get => id ?? State; init => id = value; }

    /// <summary>Its row that lies on a gathering row, 0 at the top. Where none is given it is the widest, the topmost of several: where the work begins.</summary>
    public int BaseRow { get => baseRow ?? WidestRow(Figure); init => baseRow = value; }

    /// <summary>Whose design it is.</summary>
    public Credit Credit { get; init; } = Credit.None;

    /// <summary>Its name.</summary>
    public string Name => Figure.Name;

    /// <summary>
    /// The mark of what it holds: its rows whatever their letters, its half stitches, and of its threads what shows on the cloth. Its name, its
    /// credit, its gauge, and names and notes of its threads are no part of it.
    /// </summary>
    public string State => FigureMark.OfState(this);

    /// <summary>Whether two are the same in all that a file holds.</summary>
    internal bool Same(KeptFigure other) => Id == other.Id && Name == other.Name && BaseRow == other.BaseRow && Gauge == other.Gauge && Credit == other.Credit
        && Figure.Rows.SequenceEqual(other.Figure.Rows) && Figure.Square == other.Figure.Square && Figure.Halves.SequenceEqual(other.Figure.Halves) && Threads.SequenceEqual(other.Threads);

    /// <summary>The row with most cables, the topmost of several.</summary>
    internal static int WidestRow(Figure figure)
    {
        var (widest, most) = (0, -1);
        for (var r = 0; r < figure.Height; r++)
            if (figure.Rows[r].Length - figure.Rows[r].AsSpan().Count(Figure.Bare) is var cables && cables > most) (widest, most) = (r, cables);
        return widest;
    }
}

/// <summary>Where a figure of a piece came from: which figure of the drawer, and in which state it was taken.</summary>
/// <param name="Figure">Its identity, <see cref="KeptFigure.Id"/>.</param>
/// <param name="State">The state last taken, put back or kept beside, <see cref="KeptFigure.State"/>.</param>
/// <param name="As">The mark of its stitches as they then lay in the piece: with another, the maker has changed them since.</param>
/// <param name="BaseRow">The base row it then had in the drawer, 0 at the top.</param>
public sealed record FigureOrigin(string Figure, string State, string As, int BaseRow);
