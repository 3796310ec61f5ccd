using System.Collections.Immutable;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>Makes a whole piece round one figure.</summary>
internal static class BareCloth
{
    /// <summary>
    /// The figure in the middle of a panel wide and deep enough for it, its base row on a gathering row, and one gathering row clear above and below.
    /// </summary>
    /// <param name="figure">The figure.</param>
    /// <param name="threads">Its threads.</param>
    /// <param name="baseRow">Its row that lies on a gathering row.</param>
    /// <param name="gauge">The gauge of the cloth.</param>
    /// <param name="title">The piece's title.</param>
    /// <param name="marginPleats">Bare pleats at each side of the figure at least, 0 or more.</param>
    /// <param name="drawnFor">The phase it was drawn for, its left valley and top row both counted as 0; null when either will do.</param>
    /// <param name="colour">The cloth's colour; the usual one when null.</param>
    /// <exception cref="ArgumentException">The cloth would be past the caps of <see cref="PleatingPlan"/>.</exception>
    public static Piece Around(Figure figure, ImmutableArray<Floss> threads, int baseRow, Gauge gauge, string title, int marginPleats, Phase? drawnFor = null, Colour? colour = null) =>
        Around(figure, threads, baseRow, gauge, title, marginPleats, 1, drawnFor, colour);

    /// <summary>A figure of the drawer as it is pictured: as large as may be on cloth of the picture's shape.</summary>
    /// <param name="kept">The figure.</param>
    /// <param name="shape">How wide the picture is, to how high.</param>
    /// <exception cref="ArgumentException">The cloth would be past the caps of <see cref="PleatingPlan"/>.</exception>
    public static Piece Pictured(KeptFigure kept, double shape)
    {
        Piece With(int margin) => Around(kept.Figure, kept.Threads, kept.BaseRow, kept.Gauge, kept.Name, margin, 0);
        const int Least = 2;
        var close = With(Least);
        var high = close.Cloth.GatheringRows * kept.Gauge.RowSpacing.Millimetres; // half a space above the first gathering row and below the last
        var margin = (int)Math.Min((shape * high / kept.Gauge.Pitch.Millimetres - kept.Figure.Width - 1) / 2, kept.Figure.Width + PicturedMargin);
        return margin > Least ? With(margin) : close;
    }

    private const int PicturedMargin = 60; // enough for any figure that is higher than wide

    private static Piece Around(Figure figure, ImmutableArray<Floss> threads, int baseRow, Gauge gauge, string title, int marginPleats, int clear, Phase? drawnFor = null, Colour? colour = null)
    {
        var n = gauge.CableRowsPerSpace;
        var above = (baseRow + n - 1) / n; // spaces that hold the rows over the base row
        var below = (figure.Height - 1 - baseRow + n - 1) / n;
        var on = new GatheringRow(above + 1 + clear);
        var plan = WideEnough(new ClothPlan(new Panel(gauge.Pitch), gauge, Math.Max(ClothPlan.LeastGatheringRows, above + below + 1 + 2 * clear)), figure.Width + 1 + 2 * marginPleats);
        if (colour is { } c) plan = plan with { Colour = c };
        var pleating = new PleatingPlan(plan);

        var left = pleating.CentreValley - figure.Middle;
        var top = on.CableRow(n).Index - baseRow;
        // The piece follows whichever phase puts the figure's bricks where they were drawn.
        var asDrawn = Lattice.LevelAt(new Valley(0), new CableRow(0), drawnFor ?? Phase.Even);
        var phase = drawnFor is null || Lattice.LevelAt(new Valley(left), new CableRow(top), Phase.Even) == asDrawn ? Phase.Even : Phase.Odd;
        return new Piece(title, plan, threads, [figure], [new Placement(figure.Name, Centre.Middle, on, baseRow)]) { Phase = phase };
    }

    // As wide as the next even number of pleats, rounded to a measure a maker can read off a tape where that changes no pleat.
    internal static ClothPlan WideEnough(ClothPlan plan, int pleats)
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
