using System.Collections.Immutable;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Chart.Edit;

/// <summary>Finds room on the cloth for a figure that is added to a piece.</summary>
internal static class Room
{
    /// <summary>Bare valleys kept on either side of what is added, so that nothing touches it. Our own choice.</summary>
    public const int Beside = 3;

    /// <summary>Bare cable rows kept above and below it. Our own choice.</summary>
    public const int Above = 1;

    /// <summary>
    /// The place nearest to the middle of the cloth where a figure lies free: wholly on the cloth, with bare pleats all round. One
    /// of its rows lies on a gathering row.
    /// </summary>
    /// <param name="work">The work it is added to.</param>
    /// <param name="figure">The figure; it need not be the piece's own yet.</param>
    /// <param name="figureRow">Its row that lies on the gathering row.</param>
    /// <param name="first">The level of a cable in its left valley and top row; null when either will do.</param>
    /// <returns>Places from the nearest on, those first that follow the piece's own phase; none where there is no room.</returns>
    public static IEnumerable<Placement> For(Work work, Figure figure, int figureRow, Level? first)
    {
        var taken = Taken(work);
        var pleating = work.Pleating;
        var perSpace = pleating.Gauge.CableRowsPerSpace;
        var spans = figure.Rows.Select(r => (From: r.AsSpan().IndexOfAnyExcept(Figure.Bare), To: r.AsSpan().LastIndexOfAnyExcept(Figure.Bare))).ToArray();
        var middle = (pleating.Cloth.GatheringRows + 1) / 2.0;
        var places =
            from row in Enumerable.Range(1, pleating.Cloth.GatheringRows)
            from left in Enumerable.Range(1, Math.Max(0, work.Valleys - figure.Width + 1))
            let top = (row - 1) * perSpace - figureRow
            where top >= 0 && top + figure.Height <= work.CableRows
            let centre = left + figure.Middle
            let flip = first is { } level && Lattice.LevelAt(new Valley(left), new CableRow(top), work.Piece.Phase) != level
            orderby flip, Math.Abs(centre - pleating.CentreValley) + Math.Abs(row - middle) * 2 * perSpace
            select (Row: row, Left: left, Top: top, Centre: centre, Flip: flip);
        foreach (var place in places)
            if (IsFree(place.Left, place.Top))
                yield return new Placement(figure.Name, place.Centre == pleating.CentreValley ? Centre.Middle : Centre.At(new Valley(place.Centre)), new GatheringRow(place.Row), figureRow)
                {
                    FlipPhase = place.Flip,
                };

        bool IsFree(int left, int top)
        {
            for (var r = 0; r < spans.Length; r++)
            {
                if (spans[r].From < 0) continue;
                for (var y = Math.Max(0, top + r - Above); y <= Math.Min(work.CableRows - 1, top + r + Above); y++)
                {
                    var from = Math.Max(1, left + spans[r].From - Beside);
                    var to = Math.Min(work.Valleys, left + spans[r].To + Beside);
                    if (taken[y, to] != taken[y, from - 1]) return false;
                }
            }
            return true;
        }
    }

    /// <summary>The figures and bands whose ground a placement's cables would lie on, by name, each once.</summary>
    public static ImmutableArray<string> Under(Work work, Figure figure, Placement placement)
    {
        var names = new List<string>();
        for (var copy = 0; copy < placement.Repeat.Count; copy++)
        {
            var seat = Seat.Of(placement, figure, work.Pleating, copy);
            for (var r = 0; r < figure.Height; r++)
                for (var c = 0; c < figure.Width; c++)
                {
                    if (figure.Rows[r][c] == Figure.Bare) continue;
                    var (valley, row) = (seat.ValleyOf(c), new CableRow(seat.Top + r));
                    if (!work.OnCloth(valley, row)) continue;
                    var name = work.OriginAt(valley, row) is { } origin ? work.Piece.Placements[origin.Placement].Figure
                        : Bands.IndexAt(work, valley, row) is { } band ? $"the {work.Piece.Bands[band].Stitch} band" : null;
                    if (name is not null && !names.Contains(name)) names.Add(name);
                }
        }
        return [.. names];
    }

    // How much of each row is taken up to a valley: cables, bands and accents.
    private static int[,] Taken(Work work)
    {
        var taken = new int[work.CableRows, work.Valleys + 1];
        for (var y = 0; y < work.CableRows; y++)
        {
            var row = work.CellsOf(new CableRow(y));
            for (var v = 1; v <= work.Valleys; v++)
                if (row[v - 1] != 0) taken[y, v] = 1;
        }
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        foreach (var band in work.Bands)
        {
            var top = Math.Max(0, (int)Math.Floor((band.Highest - Stitch.Hair) * perSpace));
            for (var y = top; y <= Math.Min(work.CableRows - 1, (int)Math.Ceiling((band.Lowest + Stitch.Hair) * perSpace)); y++)
                for (var v = 1; v <= work.Valleys; v++) taken[y, v] = 1;
        }
        foreach (var accent in work.Accents)
        {
            var at = Accenting.RowOf(work, accent).Index;
            var reach = accent.Size + 2;
            for (var y = Math.Max(0, at - reach); y <= Math.Min(work.CableRows - 1, at + reach); y++)
                for (var v = Math.Max(1, accent.Valley.Number - reach); v <= Math.Min(work.Valleys, accent.Valley.Number + reach); v++)
                    if (accent.Covers(new Valley(v), new CableRow(y), work.Pleating.Gauge)) taken[y, v] = 1;
        }
        for (var y = 0; y < work.CableRows; y++)
            for (var v = 1; v <= work.Valleys; v++) taken[y, v] += taken[y, v - 1];
        return taken;
    }
}
