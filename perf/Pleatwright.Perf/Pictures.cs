using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Perf;

/// <summary>Pieces of any size, alike in everything else.</summary>
internal static class Pictures
{
    private const int Tile = 20, Reach = 9;

    /// <summary>
    /// A scene of about so many cables: diamonds of 17 rows in two threads, side by side and row under row with bare
    /// pleats between, so that rows, runs, figures and gaps all grow with the cables.
    /// </summary>
    public static Piece Scene(int cables)
    {
        var tiles = (int)Math.Round(Math.Sqrt(cables / 179.0));
        var width = tiles * Tile | 1;
        var spaces = tiles * Tile / 5;
        var rows = ImmutableArray.CreateBuilder<string>();
        for (var y = 0; y <= spaces * 5; y++)
            rows.Add(string.Create(width, y, (row, at) =>
            {
                for (var i = 0; i < row.Length; i++)
                {
                    int dx = i % Tile - Tile / 2, dy = at % Tile - Tile / 2;
                    var filled = Math.Abs(dx) + Math.Abs(dy) <= Reach && Math.Abs(dy) < Reach;
                    row[i] = !filled ? '.' : "abcd"[(i / Tile % 2 * 2) + (dy < 0 ? 0 : 1)];
                }
            }));
        string[] colours = ["#b3202c", "#1f4e79", "#2f7f48", "#d8a200"];
        return new Piece("Scene", new ClothPlan(new Panel(Length.FromInches((width + 1) / 12.0)), Gauge.Common, spaces + 1),
            [.. colours.Select((c, i) => new Floss(new ThreadKey((char)('a' + i)), $"thread {i}", Colour.Parse(c), 4))],
            [new Figure("scene", rows.ToImmutable())], [new Placement("scene", Centre.Middle, new GatheringRow(1), 0)]);
    }
}
