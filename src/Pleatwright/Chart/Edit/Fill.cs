using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>Fills a patch of one thread, or a bare patch inside a figure, with another thread.</summary>
internal static class Fill
{
    /// <summary>
    /// The cells joined to this one, side by side or one above the other, that show the same thread. Bare cells are
    /// joined only inside the figure they lie in.
    /// </summary>
    /// <returns>The cells, this one first; none when it is bare and in no figure, or off the cloth.</returns>
    public static IReadOnlyList<(Valley Valley, CableRow Row)> Region(Work work, Valley valley, CableRow row)
    {
        if (!work.OnCloth(valley, row)) return [];
        var like = work.ThreadIndexAt(valley, row);
        int left = 1, right = work.Valleys, top = 0, bottom = work.CableRows - 1;
        if (like < 0)
        {
            if (Spot.Within(work.Piece, work.Pleating, valley, row) is not { } spot) return [];
            var seat = Spot.SeatOf(work.Piece, work.Pleating, spot.Placement, spot.Copy);
            (left, right) = (Math.Max(left, seat.Left), Math.Min(right, seat.Right));
            (top, bottom) = (Math.Max(top, seat.Top), Math.Min(bottom, seat.Bottom));
        }
        var found = new List<(Valley, CableRow)> { (valley, row) };
        var seen = new HashSet<(int, int)> { (valley.Number, row.Index) };
        for (var i = 0; i < found.Count; i++)
        {
            var (at, y) = (found[i].Item1.Number, found[i].Item2.Index);
            Look(at - 1, y);
            Look(at + 1, y);
            Look(at, y - 1);
            Look(at, y + 1);
        }
        return found;

        void Look(int v, int y)
        {
            if (v < left || v > right || y < top || y > bottom || !seen.Add((v, y))) return;
            if (work.ThreadIndexAt(new Valley(v), new CableRow(y)) == like) found.Add((new Valley(v), new CableRow(y)));
        }
    }

    /// <summary>Fills the region of a cell with a thread; the same piece when there is no region.</summary>
    public static Piece With(Work work, Valley valley, CableRow row, ThreadKey thread)
    {
        var cells = Region(work, valley, row);
        if (cells.Count == 0) return work.Piece;
        (int, int)? into = Spot.Within(work.Piece, work.Pleating, valley, row) is { } spot ? (spot.Placement, spot.Copy) : null;
        return Draw.Cables(work.Piece, cells, thread, into).Piece;
    }
}
