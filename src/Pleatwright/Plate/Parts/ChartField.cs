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
    /// <param name="steps">What is written on it: threads that cross the back lie over the stitches, and letters keep clear of the rest.</param>
    public static ImmutableArray<Mark> Draw(ChartGeometry geometry, ChartWindow window, Look look, Middle? middle = null, IEnumerable<Mark>? behind = null, StepMarks? steps = null) =>
    [
        .. ChartCloth.Draw(geometry, window, look, middle),
        .. ChartCloth.DrawCentre(geometry, window, look),
        .. behind ?? [],
        .. ThreadShapes.Bands(geometry, window, look, steps),
        .. ChartBricks.Draw(geometry, window, look),
        .. ChartCloth.DrawThreads(geometry, window, look),
        .. steps?.Crossings(window) ?? [],
        .. steps?.Letters(window) ?? Letters(geometry, window, look),
        .. ThreadShapes.Accents(geometry, window, look),
    ];

    private static IEnumerable<Mark> Letters(ChartGeometry geometry, ChartWindow window, Look look) =>
        ThreadLetters.Of(geometry, window, look, null).Letters.SelectMany(l => ThreadLetters.Draw(l.Thread, l.Centre, l.Radius, look));
}
