using System.Collections.Immutable;

namespace Pleatwright.Plate.Parts;

/// <summary>All that lies inside the rulers of a chart, in the order it is painted: cloth, bands, bricks, gathering threads, letters, accents, centre valley.</summary>
internal static class ChartField
{
    /// <summary>Draws a part of the chart, in the chart's own millimetres; clip it to the part's box.</summary>
    public static ImmutableArray<Mark> Draw(ChartGeometry geometry, ChartWindow window, Look look) =>
    [
        .. ChartCloth.Draw(geometry, window, look),
        .. ThreadShapes.Bands(geometry, window, look),
        .. ChartBricks.Draw(geometry, window, look),
        .. ChartCloth.DrawThreads(geometry, window, look),
        .. ChartBricks.Letters(geometry, window),
        .. ThreadShapes.Accents(geometry, window, look),
        .. ChartCloth.DrawCentre(geometry, window, look),
    ];
}
