using Pleatwright.Chart;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>Makes a whole piece round a traced figure.</summary>
public static class TracedPiece
{
    /// <summary>Bare pleats left at each side of the figure at least. Default (our own choice).</summary>
    public const int UsualMargin = 8;

    /// <summary>
    /// The figure in the middle of a panel wide and deep enough for it, its base row on a gathering row, and one
    /// gathering row clear above and below.
    /// </summary>
    /// <param name="trace">The figure and its threads.</param>
    /// <param name="gauge">The gauge it was traced for.</param>
    /// <param name="title">The piece's title.</param>
    /// <param name="cloth">The cloth's colour.</param>
    /// <param name="marginPleats">Bare pleats at each side of the figure at least, 0 or more.</param>
    /// <exception cref="ArgumentException">The cloth would be past the caps of <see cref="PleatingPlan"/>.</exception>
    public static Piece Around(Traced trace, Gauge gauge, string title, Colour? cloth = null, int marginPleats = UsualMargin)
    {
        var figure = trace.Figure;
        var n = gauge.CableRowsPerSpace;
        var above = (trace.BaseRow + n - 1) / n; // spaces that hold the rows over the base row
        var below = (figure.Height - 1 - trace.BaseRow + n - 1) / n;
        var baseRow = new GatheringRow(above + 2);
        var plan = WideEnough(new ClothPlan(new Panel(gauge.Pitch), gauge, above + below + 3), figure.Width + 1 + 2 * marginPleats);
        if (cloth is { } colour) plan = plan with { Colour = colour };
        var pleating = new PleatingPlan(plan);

        var left = pleating.CentreValley - figure.Middle;
        var top = baseRow.CableRow(n).Index - trace.BaseRow;
        // The piece follows whichever phase puts the figure's bricks where they were sampled.
        var asTraced = Lattice.LevelAt(new Valley(0), new CableRow(0), trace.Phase);
        var phase = Lattice.LevelAt(new Valley(left), new CableRow(top), Phase.Even) == asTraced ? Phase.Even : Phase.Odd;
        return new Piece(title, plan, trace.Threads, [figure],
            [new Placement(figure.Name, Centre.Middle, baseRow, trace.BaseRow)]) { Phase = phase };
    }

    // As wide as the next even number of pleats, rounded to a measure a maker can read off a tape where that changes no pleat.
    private static ClothPlan WideEnough(ClothPlan plan, int pleats)
    {
        pleats += pleats % 2;
        var exact = plan.Gauge.Pitch * pleats;
        var rounded = exact.Unit == LengthUnit.Inch
            ? Length.FromInches(Math.Round(exact.Inches * 16) / 16)
            : Length.FromMillimetres(Math.Round(exact.Millimetres));
        var byTape = plan with { Form = new Panel(rounded) };
        return byTape.Form.Pleats(byTape) == pleats ? byTape : plan with { Form = new Panel(exact) };
    }
}
