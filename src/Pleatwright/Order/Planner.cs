using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>Plans the working order.</summary>
public static class Planner
{
    /// <summary>Orders a work: the widest row first, then outward. The same work always gives the same order.</summary>
    public static WorkingOrder Plan(Work work)
    {
        var working = work.Piece.Working;
        var widest = work.Runs.Length == 0 ? new CableRow(0) : WidestRow(work);
        var baseRow = working.BaseRow ?? widest;
        var steps = ImmutableArray.CreateBuilder<Step>();
        foreach (var row in Rows(work.CableRows, baseRow, working.First))
            for (var i = work.FirstRunIndex(row); i < work.FirstRunIndex(new CableRow(row.Index + 1)); i++)
                AddRun(work, i, steps);
        return new WorkingOrder(work, baseRow, steps.ToImmutable(), 0);
    }

    private static CableRow WidestRow(Work work)
    {
        var best = new CableRow(0);
        var most = -1;
        for (var y = 0; y < work.CableRows; y++)
        {
            var cables = 0;
            foreach (var run in work.RunsIn(new CableRow(y))) cables += run.Cables;
            if (cables > most) (best, most) = (new CableRow(y), cables);
        }
        return best;
    }

    private static IEnumerable<CableRow> Rows(int rows, CableRow baseRow, FirstWay first)
    {
        yield return baseRow;
        for (var pass = 0; pass < 2; pass++)
        {
            var up = first == FirstWay.Up == (pass == 0);
            if (up) for (var y = baseRow.Index - 1; y >= 0; y--) yield return new CableRow(y);
            else for (var y = baseRow.Index + 1; y < rows; y++) yield return new CableRow(y);
        }
    }

    private static void AddRun(Work work, int index, ImmutableArray<Step>.Builder steps)
    {
        var run = work.Runs[index];
        var working = work.Piece.Working;
        var perCable = Usage.Cable(work.Pleating.PitchAt(run.Row.Index), work.Pleating.Gauge.LineHeight);
        var reach = Math.Max(1, (int)((working.WorkingLength - working.Tails) / perCable) - run.HalfStitches);
        for (var v = run.From.Number; v <= run.To.Number; v += reach)
        {
            var last = Math.Min(v + reach - 1, run.To.Number);
            steps.Add(new Step
            {
                Number = steps.Count + 1,
                RunIndex = index,
                Thread = run.Thread,
                Needleful = steps.Count + 1,
                Row = run.Row,
                From = new Valley(v),
                To = new Valley(last),
                Begin = run.LevelAt(new Valley(v)),
                End = run.LevelAt(new Valley(last)),
                Turned = false,
                Starts = StartKind.New,
                TieOff = true,
                HalfAtBegin = v == run.From.Number && run.HalfLeft,
                HalfAtEnd = last == run.To.Number && run.HalfRight,
            });
        }
    }
}
