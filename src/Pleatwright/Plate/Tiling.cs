using System.Collections.Immutable;
using Pleatwright.Chart;

namespace Pleatwright.Plate;

/// <summary>One page's share of a chart.</summary>
/// <param name="Column">Its column among the pages, from 0.</param>
/// <param name="Row">Its row among the pages, from 0.</param>
/// <param name="Window">The part of the chart it shows, overlaps and all.</param>
internal readonly record struct Tile(int Column, int Row, ChartWindow Window);

/// <summary>
/// How a chart is shared out over pages. Neighbouring pages show a few pleats and rows twice, so that they can be trimmed
/// and joined; pages without a stitch are left out.
/// </summary>
internal sealed class Tiling
{
    /// <summary>Pleats that a page shows again from the page at its left.</summary>
    public const int OverlapPleats = 4;

    /// <summary>Cable rows that a page shows again from the page above it.</summary>
    public const int OverlapRows = 2;

    private Tiling(ChartGeometry geometry, ChartWindow window, Box room)
    {
        Geometry = geometry;
        Window = window;
        (Columns, var pleats) = Share(window.Pleats, (int)(room.Width / geometry.Pitch + 1e-9), OverlapPleats);
        (Rows, var rows) = Share(window.Rows, (int)(room.Height / geometry.RowHeight + 1e-9), OverlapRows);
        PleatsPerTile = pleats;
        RowsPerTile = rows;
    }

    /// <summary>Where everything lies on the chart.</summary>
    public ChartGeometry Geometry { get; }

    /// <summary>The part of the chart shared out.</summary>
    public ChartWindow Window { get; }

    /// <summary>Pages side by side.</summary>
    public int Columns { get; }

    /// <summary>Pages one above another.</summary>
    public int Rows { get; }

    /// <summary>Pages in all, blank ones counted.</summary>
    public long Count => (long)Columns * Rows;

    private int PleatsPerTile { get; }

    private int RowsPerTile { get; }

    /// <summary>Shares a part of a chart over pages with so much room, in millimetres, each.</summary>
    public static Tiling Over(ChartGeometry geometry, ChartWindow window, Box room) => new(geometry, window, room);

    /// <summary>The part of the chart one page shows.</summary>
    public ChartWindow WindowOf(int column, int row)
    {
        var pleat = Window.FirstPleat + column * (PleatsPerTile - OverlapPleats);
        var top = Window.FirstRow + row * (RowsPerTile - OverlapRows);
        return new ChartWindow(pleat, Math.Min(pleat + PleatsPerTile - 1, Window.LastPleat), top, Math.Min(top + RowsPerTile - 1, Window.LastRow));
    }

    /// <summary>The pages that show a stitch, from left to right and from the top down.</summary>
    public ImmutableArray<Tile> Tiles()
    {
        var tiles = ImmutableArray.CreateBuilder<Tile>();
        for (var row = 0; row < Rows; row++)
            for (var column = 0; column < Columns; column++)
            {
                var window = WindowOf(column, row);
                if (HasStitch(window)) tiles.Add(new Tile(column, row, window));
            }
        return tiles.ToImmutable();
    }

    private bool HasStitch(ChartWindow window)
    {
        for (var y = Math.Max(0, window.FirstRow); y <= Math.Min(window.LastRow, Geometry.Work.CableRows - 1); y++)
            foreach (var run in Geometry.Work.RunsIn(new CableRow(y)))
                if (run.FirstPleat.Number <= window.LastPleat && run.LastPleat.Number >= window.FirstPleat) return true;
        return Parts.ThreadShapes.Spans(Geometry.Work).Any(span => Parts.ThreadShapes.Meet(span, window));
    }

    // Pages needed for a length when each holds so much and repeats the overlap, and what each then holds when they share evenly.
    private static (int Pages, int Each) Share(int length, int room, int overlap)
    {
        room = Math.Max(room, overlap + 1);
        if (length <= room) return (1, length);
        var pages = (length - overlap + room - overlap - 1) / (room - overlap);
        return (pages, (length - overlap + pages - 1) / pages + overlap);
    }
}
