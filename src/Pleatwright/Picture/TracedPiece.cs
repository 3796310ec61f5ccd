using Pleatwright.Chart;
using Pleatwright.Chart.Edit;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>Makes a whole piece round a traced figure.</summary>
internal static class TracedPiece
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

    /// <summary>
    /// A piece with the figure added: its threads, those alike already there taken for its own, and one placement in the
    /// middle, its base row on the gathering row nearest the cloth's own middle.
    /// </summary>
    /// <param name="piece">The piece; it keeps its cloth, on which the figure may not fit: the proof then says so.</param>
    /// <param name="trace">The figure and its threads.</param>
    /// <exception cref="ArgumentException">The piece would have more than 52 threads.</exception>
    public static Piece Into(Piece piece, Traced trace)
    {
        var letters = new Dictionary<char, char> { [Figure.Bare] = Figure.Bare };
        foreach (var thread in trace.Threads)
        {
            var same = piece.Threads.FirstOrDefault(t => t with { Key = thread.Key } == thread);
            if (same is null)
            {
                var key = piece.Thread(thread.Key) is null ? thread.Key
                    : Threads.FreeKey(piece) ?? throw new ArgumentException("a piece has at most 52 threads, one a letter");
                same = thread with { Key = key };
                piece = Threads.Add(piece, same);
            }
            letters[thread.Key.Letter] = same.Key.Letter;
        }
        var figure = new Figure(piece.FreeName(trace.Figure.Name), [.. trace.Figure.Rows.Select(r => string.Concat(r.Select(c => letters[c])))])
        {
            Square = trace.Figure.Square,
            Halves = trace.Figure.Halves,
        };
        var middle = new GatheringRow((piece.Cloth.GatheringRows + 1) / 2);
        return piece with
        {
            Figures = piece.Figures.Add(figure),
            Placements = piece.Placements.Add(new Placement(figure.Name, Centre.Middle, middle, trace.BaseRow)),
        };
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
