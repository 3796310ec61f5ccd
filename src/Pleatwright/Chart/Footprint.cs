using Pleatwright.Cloth;

namespace Pleatwright.Chart;

/// <summary>Which cell of which figure a cable comes from.</summary>
/// <param name="Placement">The placement, counted from 0.</param>
/// <param name="Copy">Which copy of it, counted from 0 at the left.</param>
/// <param name="Row">The figure's row as it is drawn, 0 at the top.</param>
/// <param name="Column">The figure's valley as it is drawn, unmirrored, 0 at the left.</param>
public readonly record struct Origin(int Placement, int Copy, int Row, int Column);

/// <summary>
/// The ground a placement asks for, bare corners included, whether or not all of it is on the cloth; rows and valleys
/// may therefore be out of the cloth's range.
/// </summary>
public sealed class Footprint
{
    private readonly int drawnLeft; // valley of the figure's column 0, mirrored or not, in copy 0

    private readonly int drawnTop; // row of the figure's row 0

    private Footprint(int index, Placement placement, Figure figure, Drawn drawn, PleatingPlan pleating)
    {
        Index = index;
        Placement = placement;
        Figure = figure;
        drawnLeft = placement.Left(figure, pleating, 0).Number;
        drawnTop = placement.Top(pleating).Index;
        Top = new CableRow(drawnTop + drawn.Top);
        Bottom = new CableRow(drawnTop + drawn.Bottom);
        From = new Valley(drawnLeft + (placement.Mirror ? figure.Width - 1 - drawn.Right : drawn.Left));
        Width = drawn.Right - drawn.Left + 1;
        To = new Valley(From.Number + Width - 1 + (placement.Repeat.Count - 1) * placement.Repeat.Every);
    }

    /// <summary>The placement's place in the piece, counted from 0.</summary>
    public int Index { get; }

    /// <summary>The placement.</summary>
    public Placement Placement { get; }

    /// <summary>Its figure as it is drawn, unmirrored.</summary>
    public Figure Figure { get; }

    /// <summary>Highest row with a cable in it.</summary>
    public CableRow Top { get; }

    /// <summary>Lowest row with a cable in it.</summary>
    public CableRow Bottom { get; }

    /// <summary>Leftmost valley with a cable, of the leftmost copy.</summary>
    public Valley From { get; }

    /// <summary>Rightmost valley with a cable, of the rightmost copy.</summary>
    public Valley To { get; }

    /// <summary>Valleys from the leftmost cable of one copy to its rightmost; 0 when the figure is all bare.</summary>
    public int Width { get; }

    /// <summary>The cell of the copy that lies on top in this valley and row; null where every copy is bare.</summary>
    public Origin? CellAt(Valley valley, CableRow row)
    {
        // Later copies lie over earlier ones.
        for (var copy = LastCopyAt(valley, row); copy >= 0; copy--)
        {
            if (!Reaches(copy, valley)) return null;
            if (CellOf(copy, valley, row) is { } cell) return cell;
        }
        return null;
    }

    /// <summary>How many copies have a cable in this valley and row.</summary>
    public int CopiesAt(Valley valley, CableRow row)
    {
        var copies = 0;
        for (var copy = LastCopyAt(valley, row); copy >= 0 && Reaches(copy, valley); copy--)
            if (CellOf(copy, valley, row) is not null)
                copies++;
        return copies;
    }

    /// <summary>Whether one copy has a cable in this valley and row, whatever lies over it.</summary>
    public bool HasCellAt(int copy, Valley valley, CableRow row) => CellOf(copy, valley, row) is not null;

    private int LastCopyAt(Valley valley, CableRow row) =>
        (uint)(row.Index - drawnTop) >= (uint)Figure.Height || valley.Number < drawnLeft
            ? -1
            : Math.Min((valley.Number - drawnLeft) / Placement.Repeat.Every, Placement.Repeat.Count - 1);

    private bool Reaches(int copy, Valley valley) => valley.Number - drawnLeft - copy * Placement.Repeat.Every < Figure.Width;

    private Origin? CellOf(int copy, Valley valley, CableRow row)
    {
        var (r, i) = (row.Index - drawnTop, valley.Number - drawnLeft - copy * Placement.Repeat.Every);
        if ((uint)r >= (uint)Figure.Height || (uint)i >= (uint)Figure.Width) return null;
        var column = Placement.Mirror ? Figure.Width - 1 - i : i;
        return Figure.Rows[r][column] == Figure.Bare ? null : new Origin(Index, copy, r, column);
    }

    /// <summary>The footprints of a work's placements, in their order; found once and shared through <see cref="Work.Footprints"/>.</summary>
    internal static Footprint[] Find(Work work)
    {
        var piece = work.Piece;
        var drawn = new Dictionary<string, (Figure Figure, Drawn Drawn)>();
        foreach (var figure in piece.Figures) drawn.TryAdd(figure.Name, (figure, Drawn.Of(figure)));
        var footprints = new Footprint[piece.Placements.Length];
        for (var i = 0; i < footprints.Length; i++)
        {
            var (figure, box) = drawn[piece.Placements[i].Figure];
            footprints[i] = new Footprint(i, piece.Placements[i], figure, box, work.Pleating);
        }
        return footprints;
    }

    /// <summary>The part of a figure that has cables, in its own rows and columns; nothing when it is all bare.</summary>
    private readonly record struct Drawn(int Top, int Bottom, int Left, int Right)
    {
        public static Drawn Of(Figure figure)
        {
            var box = new Drawn(0, -1, figure.Width, -1);
            for (var r = 0; r < figure.Height; r++)
            {
                var row = figure.Rows[r].AsSpan();
                var left = row.IndexOfAnyExcept(Figure.Bare);
                if (left < 0) continue;
                var right = row.LastIndexOfAnyExcept(Figure.Bare);
                box = new Drawn(box.Bottom < 0 ? r : box.Top, r, Math.Min(box.Left, left), Math.Max(box.Right, right));
            }
            return box.Bottom < 0 ? new Drawn(0, -1, 0, -1) : box;
        }
    }
}
