using Pleatwright.Chart;

namespace Pleatwright.Order.Telling;

/// <summary>Runs that have to be fitted between two finished rows; only a run that the maker fixed to a place can force one.</summary>
internal static class Squeezing
{
    /// <summary>For each step, whether it begins a run with worked runs above and below that share a valley with it.</summary>
    public static bool[] Of(WorkingOrder order)
    {
        var work = order.Work;
        var worked = new bool[work.Runs.Length];
        var squeezed = new bool[order.Steps.Length];
        for (var i = 0; i < squeezed.Length; i++)
        {
            var step = order.Steps[i];
            var run = work.Runs[step.RunIndex];
            squeezed[i] = !step.Continues && Worked(run, -1) && Worked(run, 1);
            worked[step.RunIndex] = true;
        }
        return squeezed;

        bool Worked(Run run, int way)
        {
            var row = new CableRow(run.Row.Index + way);
            if (row.Index < 0 || row.Index >= work.CableRows) return false;
            var end = work.FirstRunIndex(new CableRow(row.Index + 1));
            for (var r = work.FirstRunIndex(row); r < end && work.Runs[r].From.Number <= run.To.Number; r++)
                if (worked[r] && work.Runs[r].To.Number >= run.From.Number) return true;
            return false;
        }
    }
}
