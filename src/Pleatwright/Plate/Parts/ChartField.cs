using System.Collections.Immutable;
using Pleatwright.Order.Telling;

namespace Pleatwright.Plate.Parts;

/// <summary>All that lies inside the rulers of a chart, in the order it is painted: cloth, centre valley, bands, bricks, gathering threads, letters, accents.</summary>
internal static class ChartField
{
    /// <summary>Draws a part of the chart, in the chart's own millimetres; clip it to the part's box.</summary>
    /// <param name="geometry">Where everything lies.</param>
    /// <param name="window">The part.</param>
    /// <param name="look">How it is dressed.</param>
    /// <param name="middle">The centre that pleats are counted from; the piece's where none is given.</param>
    /// <param name="behind">What else lies behind the stitches.</param>
    /// <param name="crossings">What lies over the stitches and under the letters.</param>
    public static ImmutableArray<Mark> Draw(ChartGeometry geometry, ChartWindow window, Look look, Middle? middle = null, IEnumerable<Mark>? behind = null, IEnumerable<Mark>? crossings = null) =>
    [
        .. ChartCloth.Draw(geometry, window, look, middle),
        .. ChartCloth.DrawCentre(geometry, window, look),
        .. behind ?? [],
        .. ThreadShapes.Bands(geometry, window, look),
        .. ChartBricks.Draw(geometry, window, look),
        .. ChartCloth.DrawThreads(geometry, window, look),
        .. crossings ?? [],
        .. ChartBricks.Letters(geometry, window),
        .. ThreadShapes.Accents(geometry, window, look),
    ];
}
