using Pleatwright.Chart;

namespace Pleatwright.Bench.Model.Table;

/// <summary>
/// The cells a stroke goes over. It is walked on the lattice, so that a quick hand skips no stitch: along a row every valley
/// between its ends, whichever of the row's two lines the pointer is on; down the rows one column, a brick wide; aslant
/// from cell to cell through shared sides, so that no hole is left.
/// </summary>
public sealed class StrokeLine
{
    // Pleats that the pointer must go along a row before the stroke does: a hand going down is never quite straight.
    private const double Along = 0.5;

    // Lines past a row's edge that the pointer must go before the stroke does.
    private const double Slack = 0.2;

    private const int MostSteps = 8000;

    private (double X, double Y, Sight Sight)? last; // on the cloth or off it
    private double entered; // pleats across where the pointer came into the row
    private double chosen;  // pleats across where the valley was chosen
    private Valley valley;
    private CableRow row;
    private bool on; // the pointer was on the cloth

    /// <summary>The cell it is at.</summary>
    public (Valley Valley, CableRow Row) At => (valley, row);

    /// <summary>Goes on to a place in pixels.</summary>
    /// <returns>The cells gone over since the last place, in order; those gone over before may be among them.</returns>
    public IReadOnlyList<(Valley Valley, CableRow Row)> To(Work work, Sight sight, double x, double y)
    {
        var plan = work.Pleating;
        var cells = new List<(Valley, CableRow)>();
        var (x0, y0) = last is { } l ? l.Sight.MovedTo(sight, l.X, l.Y) : (x, y);
        last = (x, y, sight);
        var grain = Math.Max(0.25, 0.2 * sight.Grain(plan));
        var steps = (int)Math.Clamp(Math.Ceiling(Math.Max(Math.Abs(x - x0), Math.Abs(y - y0)) / grain), 1, MostSteps);
        for (var i = 1; i <= steps; i++)
            Step(work, sight.At(plan, x0 + (x - x0) * i / steps, y0 + (y - y0) * i / steps), cells);
        return cells;
    }

    private void Step(Work work, Spotted? seen, List<(Valley, CableRow)> cells)
    {
        if (seen is not { } at || !at.OnCloth(work.Pleating)) { on = false; return; }
        var across = at.Across;
        if (!on)
        {
            (on, entered, chosen, row, valley) = (true, across, across, at.Row, at.Brick(work));
            cells.Add((valley, row));
            return;
        }
        if (at.Line < row.Index * 2 - Slack || at.Line >= row.Index * 2 + 2 + Slack)
        {
            entered = across;
            while (row != at.Row)
            {
                row = new CableRow(row.Index + Math.Sign(at.Row.Index - row.Index));
                cells.Add((valley, row));
            }
        }
        // Along the row it goes to the brick under the pointer; else it keeps its column until the pointer has left that for good.
        if (Math.Abs(across - entered) >= Along) Fill(at.Brick(work, row, at.Line < row.Index * 2 + 1 ? 0 : 1), across, cells);
        else if (Math.Abs(across - valley.Number) > 1 && Math.Abs(across - chosen) >= Along)
            Fill(new Valley(Math.Clamp((int)Math.Round(across), 1, work.Valleys)), across, cells);
    }

    private void Fill(Valley to, double across, List<(Valley, CableRow)> cells)
    {
        if (valley != to) chosen = across;
        while (valley != to)
        {
            valley = new Valley(valley.Number + Math.Sign(to.Number - valley.Number));
            cells.Add((valley, row));
        }
    }
}
