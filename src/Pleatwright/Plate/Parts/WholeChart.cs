namespace Pleatwright.Plate.Parts;

/// <summary>The chart in one piece, with its rulers, for formats and screens that need no pages.</summary>
internal static class WholeChart
{
    /// <summary>Draws the part of the chart with stitches.</summary>
    /// <param name="order">The working order; every step is marked.</param>
    /// <param name="options">How the plate is made.</param>
    public static Drawing Draw(Order.WorkingOrder order, PlateOptions options)
    {
        var work = order.Work;
        var look = options.Look;
        var times = ChartPages.Readable(work, look);
        var geometry = ChartGeometry.Scaled(work, times);
        var window = ChartPages.WorkedWindow(work);
        var box = geometry.BoxOf(window);
        var steps = new StepMarks(geometry, order, order.Steps, window, look, bounded: true) { Bands = Excerpts.BandsIn(order, window) };
        return new Drawing(box.Grown(ChartRulers.Sides(look, work) + 1, ChartRulers.Ends(look) + 1),
        [
            new Inset(
                [.. ChartField.Draw(geometry, window, look, steps: steps), .. steps.Draw(window)],
                default, box),
            .. ChartRulers.Draw(geometry, window, look, options.Levels),
        ]);
    }
}
