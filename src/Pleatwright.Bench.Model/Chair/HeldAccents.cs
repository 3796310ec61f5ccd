using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Order;

namespace Pleatwright.Bench.Model.Chair;

/// <summary>Accents as the hands hold them: they are put on with the top edge up, one after the other.</summary>
public static class HeldAccents
{
    /// <summary>Their shapes, each with the number of its accent, in pleats from the left and lines down.</summary>
    public static ImmutableArray<HeldShape> Shapes(Work work, ImmutableArray<LaidAccent> accents) =>
        [.. accents.SelectMany((laid, i) => laid.Accent.Shapes(laid, work.Pleating.Gauge).Select(shape => new HeldShape(i, shape)))];

    /// <summary>Where the gathering rows lie, in lines down.</summary>
    public static ImmutableArray<double> GatheringRows(Work work) =>
        [.. Enumerable.Range(0, work.Piece.Cloth.GatheringRows).Select(g => StitchDrawing.Down(g, work.Pleating.Gauge.CableRowsPerSpace))];
}
