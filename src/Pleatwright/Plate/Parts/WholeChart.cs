namespace Pleatwright.Plate.Parts;

/// <summary>The chart in one piece, with its rulers, for formats and screens that need no pages.</summary>
internal static class WholeChart
{
    /// <summary>Draws the part of the chart with stitches.</summary>
    /// <param name="work">The work.</param>
    /// <param name="options">How the plate is made.</param>
    public static Drawing Draw(Chart.Work work, PlateOptions options)
    {
        var look = options.Look;
        var times = ChartPages.Readable(work, look);
        var geometry = ChartGeometry.Scaled(work, times);
        var window = ChartPages.WorkedWindow(work);
        var box = geometry.BoxOf(window);
        return new Drawing(box.Grown(ChartRulers.Sides(look, work) + 1, ChartRulers.Ends(look) + 1),
        [
            new Inset(
                ChartField.Draw(geometry, window, look),
                default, box),
            .. ChartRulers.Draw(geometry, window, look),
        ]);
    }
}
