using Pleatwright.Order;

namespace Pleatwright.Bench.Model.Painting;

/// <summary>
/// The thread's way as numbers for the painting module, seven a leg: kind (0 worked, 1 carried, 2 started, 3 tied off,
/// 4 backsmocked), pleat and cable row of its two ends, thread (-1 for that of the backsmocking), and state (0 done, 1 now, 2 next).
/// </summary>
public static class Route
{
    /// <summary>All that lies on the wrong side: starts, carries, tie-offs, and the backsmocking that is planned.</summary>
    /// <param name="order">The order.</param>
    /// <param name="done">Steps already worked; only theirs is shown.</param>
    public static double[] OnBack(WorkingOrder order, int done)
    {
        var legs = new List<double>();
        foreach (var back in order.Backsmock.Rows)
        {
            var row = back.Row.CableRow(order.Work.Pleating.Gauge.CableRowsPerSpace).Index + 0.5;
            legs.AddRange([4, back.From.Number, row, back.To.Number, row, -1, 0]);
        }
        foreach (var points in BackPath.CarriesOfBacksmocking(order))
            for (var i = 1; i < points.Length; i++) legs.AddRange([1, points[i - 1].Pleat, points[i - 1].Row, points[i].Pleat, points[i].Row, -1, 0]);
        foreach (var path in BackPath.OfBands(order)) Add(legs, order, path, 0);
        foreach (var path in BackPath.Of(order))
            if (path.Step <= done) Add(legs, order, path, path.Step == done ? 1 : 0);
        return [.. legs];
    }

    /// <summary>The step at hand with its start and end, and the step after it.</summary>
    public static double[] At(WorkingOrder order, int step)
    {
        var legs = new List<double>();
        foreach (var path in BackPath.Of(order))
            if (path.Step == step) Add(legs, order, path, 1);
        for (var number = step; number <= Math.Min(step + 1, order.Steps.Length); number++)
        {
            if (number < 1) continue;
            var s = order.Steps[number - 1];
            legs.AddRange([0, s.From.Number + 0.5, s.Row.Index + 0.5, s.To.Number + 0.5, s.Row.Index + 0.5, order.Work.ThreadIndexAt(s.From, s.Row), number == step ? 1 : 2]);
        }
        return [.. legs];
    }

    /// <summary>A byte a cell, 1 where one of the first steps has worked it.</summary>
    public static byte[] Worked(WorkingOrder order, int steps)
    {
        var done = new byte[order.Work.Valleys * order.Work.CableRows];
        foreach (var step in order.Steps.AsSpan()[..steps])
        {
            var (from, to) = (Math.Min(step.From.Number, step.To.Number), Math.Max(step.From.Number, step.To.Number));
            done.AsSpan(step.Row.Index * order.Work.Valleys + from - 1, to - from + 1).Fill(1);
        }
        return done;
    }

    private static void Add(List<double> legs, WorkingOrder order, BackPath path, int state)
    {
        var kind = path.Kind switch { BackPathKind.Start => 2, BackPathKind.Carry => 1, _ => 3 };
        var thread = order.Work.Piece.Threads.IndexOf(order.Work.Piece.Thread(path.Thread)!);
        for (var i = 1; i < path.Points.Length; i++)
        {
            var (a, b) = (path.Points[i - 1], path.Points[i]);
            legs.AddRange([kind == 3 && i < path.Points.Length - 1 ? 5 : kind, a.Pleat, a.Row, b.Pleat, b.Row, thread, state]);
        }
    }
}
