using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Perf;

/// <summary>Pieces of any size, alike in everything else.</summary>
internal static class Pictures
{
    private const int Margin = 4;

    /// <summary>
    /// A filled picture of about so many cables, twice as wide as high, in four threads: slanting bands of 17 cables
    /// that lean the other way every 40 rows.
    /// </summary>
    public static Piece Filled(int cables)
    {
        var width = (int)Math.Sqrt(cables * 2.0) | 1;
        var height = cables / width;
        var spaces = (height + 4) / 5;
        var rows = ImmutableArray.CreateBuilder<string>();
        for (var y = 0; y <= spaces * 5; y++)
        {
            var lean = y / 40 % 2 == 0 ? y % 40 : 40 - y % 40;
            rows.Add(y >= height ? new string('.', width) : string.Create(width, lean, (row, by) =>
            {
                for (var i = 0; i < row.Length; i++) row[i] = (char)('a' + (i + by) / 17 % 4);
            }));
        }
        string[] colours = ["#b3202c", "#1f4e79", "#2f7f48", "#d8a200"];
        var pleats = width + 1 + 2 * Margin;
        return new Piece("Filled", new ClothPlan(new Panel(Length.FromInches(pleats / 12.0)), Gauge.Common, spaces + 1),
            [.. colours.Select((c, i) => new Floss(new ThreadKey((char)('a' + i)), $"thread {i}", Colour.Parse(c), 4))],
            [new Figure("picture", rows.ToImmutable())], [new Placement("picture", Centre.Middle, new GatheringRow(1), 0)]);
    }
}
