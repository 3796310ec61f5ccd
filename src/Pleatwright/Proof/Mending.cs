using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Thread;

namespace Pleatwright.Proof;

/// <summary>The small changes to a piece that mends are made of.</summary>
internal static class Mending
{
    public static Piece WithPlacement(this Piece piece, int index, Func<Placement, Placement> change) =>
        piece with { Placements = piece.Placements.SetItem(index, change(piece.Placements[index])) };

    public static Piece WithThread(this Piece piece, ThreadKey key, Func<Floss, Floss> change) =>
        piece with { Threads = [.. piece.Threads.Select(t => t.Key == key ? change(t) : t)] };

    public static Piece WithFigure(this Piece piece, string name, Func<Figure, Figure> change) =>
        piece with { Figures = [.. piece.Figures.Select(f => f.Name == name ? change(f) : f)] };

    /// <summary>
    /// Draws a block of one figure's cells anew, worked in one thread or bare. Null unless all of it comes from one copy
    /// of one figure, nothing lies under it, no half stitch hangs on it, and it may be redrawn wherever else that figure
    /// is placed.
    /// </summary>
    /// <param name="work">The work.</param>
    /// <param name="block">The block; all of it worked, or bare with a cable of the figure on its left in every row.</param>
    /// <param name="letter">The letter to draw.</param>
    /// <param name="words">The mend's words.</param>
    /// <param name="may">Whether a block like it, on another copy, may be redrawn so.</param>
    public static Mend? Redraw(Work work, Place block, char letter, string words, Func<Place, bool> may)
    {
        var beside = work.IsWorked(block.From, block.Top) ? 0 : 1;
        if (work.OriginAt(new Valley(block.From.Number - beside), block.Top) is not { } origin) return null;
        var placed = work.Footprints[origin.Placement];
        var mirror = placed.Placement.Mirror;
        int width = block.To.Number - block.From.Number + 1, height = block.Bottom.Index - block.Top.Index + 1;
        var column = mirror ? origin.Column - beside - (width - 1) : origin.Column + beside;
        if (column < 0 || column + width > placed.Figure.Width || origin.Row + height > placed.Figure.Height) return null;

        var seen = 0;
        foreach (var other in work.Footprints)
        {
            if (other.Figure.Name != placed.Figure.Name) continue;
            for (var copy = 0; copy < other.Placement.Repeat.Count; copy++)
            {
                if (++seen > MostCopies) return null;
                var left = other.Placement.Left(other.Figure, work.Pleating, copy).Number
                    + (other.Placement.Mirror ? other.Figure.Width - column - width : column);
                var top = other.Placement.Top(work.Pleating).Index + origin.Row;
                var there = new Place(new CableRow(top), new CableRow(top + height - 1), new Valley(left), new Valley(left + width - 1));
                if (there.On(work) != there || HasHalves(work, there) || !IsOnlyOf(work, other, copy, there) || !may(there)) return null;
            }
        }
        return new Mend(words, piece => piece.WithFigure(placed.Figure.Name, figure =>
        {
            var rows = figure.Rows.ToBuilder();
            for (var r = origin.Row; r < origin.Row + height; r++)
                rows[r] = string.Concat(rows[r].AsSpan(0, column), new string(letter, width), rows[r].AsSpan(column + width));
            return new Figure(figure.Name, rows.ToImmutable()) { Square = figure.Square, Halves = figure.Halves, From = figure.From };
        }));
    }

    private const int MostCopies = 64;

    // Half stitches named in these rows hang on the ends of runs, which a change may move.
    private static bool HasHalves(Work work, Place block)
    {
        foreach (var placed in work.Footprints)
        {
            var top = placed.Placement.Top(work.Pleating).Index;
            if (placed.Figure.Halves.Any(h => top + h.Row >= block.Top.Index && top + h.Row <= block.Bottom.Index)) return true;
        }
        return false;
    }

    // Whether nothing but this copy has a cable in the block, whatever lies on top.
    private static bool IsOnlyOf(Work work, Footprint placed, int copy, Place block)
    {
        if (!IsClearOfBands(work, block)) return false;
        for (var y = block.Top.Index; y <= block.Bottom.Index; y++)
            for (var v = block.From.Number; v <= block.To.Number; v++)
                foreach (var any in work.Footprints)
                    if (any.CopiesAt(new Valley(v), new CableRow(y)) > (any.Index == placed.Index && any.HasCellAt(copy, new Valley(v), new CableRow(y)) ? 1 : 0))
                        return false;
        return true;
    }

    /// <summary>
    /// Whether a placement, moved by so many valleys and rows, lies wholly on the cloth and neither leaves nor meets
    /// anything but bare pleats.
    /// </summary>
    public static bool MayMove(Work work, Footprint placed, int valleys, int rows)
    {
        if (placed.Width == 0) return false;
        var now = new Place(placed.Top, placed.Bottom, placed.From, placed.To);
        var then = new Place(new CableRow(now.Top.Index + rows), new CableRow(now.Bottom.Index + rows),
            new Valley(now.From.Number + valleys), new Valley(now.To.Number + valleys));
        if (then.On(work) != then) return false;
        var swept = now.And(then);
        foreach (var other in work.Footprints)
            if (other.Index != placed.Index && other.Width > 0
                && other.Top.Index <= swept.Bottom.Index + 1 && other.Bottom.Index >= swept.Top.Index - 1
                && other.From.Number <= swept.To.Number + 1 && other.To.Number >= swept.From.Number - 1)
                return false;
        return IsClearOfBands(work, swept);
    }

    /// <summary>Whether no band is worked in these rows or next to them.</summary>
    public static bool IsClearOfBands(Work work, Place place)
    {
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        double top = (place.Top.Index - 1.0) / perSpace - Stitch.Hair, bottom = (place.Bottom.Index + 1.0) / perSpace + Stitch.Hair;
        return !work.Bands.Any(b => b.Highest <= bottom && b.Lowest >= top) && !work.Piece.Bands.Any(b => IsOfCables(b) && IsNear(b));

        bool IsOfCables(Band band) => BandStitch.Named(band.Stitch) is { OnLattice: true };
        bool IsNear(Band band) => LaidBand.TopOf(band, perSpace) is var row && row <= bottom && row + (band.Rows - 1.0) / perSpace >= top;
    }
}
