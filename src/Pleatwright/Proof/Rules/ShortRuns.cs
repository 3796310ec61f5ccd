using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Proof.Rules;

/// <summary>Runs too short to be worth a start and a tie-off; the shared part of the rules that tell of them.</summary>
internal static class ShortRuns
{
    /// <summary>Runs of one length and thread that stand one over the other: told as one place.</summary>
    public readonly record struct Column(Place Place, ThreadKey Thread, int FirstRun)
    {
        /// <summary>Rows in it.</summary>
        public int Rows => Place.Bottom.Index - Place.Top.Index + 1;
    }

    /// <summary>Every column of runs of exactly so many cables.</summary>
    public static List<Column> Of(Work work, int cables)
    {
        var columns = new List<Column>();
        var openAt = new int[work.Valleys + 1]; // 1 + the column last seen from this valley
        for (var i = 0; i < work.Runs.Length; i++)
        {
            var run = work.Runs[i];
            if (run.Cables != cables) continue;
            var open = openAt[run.From.Number] - 1;
            if (open >= 0 && columns[open] is var c && c.Thread == run.Thread && c.Place.Bottom.Index == run.Row.Index - 1)
            {
                columns[open] = c with { Place = c.Place with { Bottom = run.Row } };
                continue;
            }
            columns.Add(new Column(Place.Of(run), run.Thread, i));
            openAt[run.From.Number] = columns.Count;
        }
        return columns;
    }

    /// <summary>
    /// The thread that lies on both sides of every row of the column in its own phase, so that the column could be worked
    /// in it; null when there is none.
    /// </summary>
    public static ThreadKey? Around(Work work, Place column)
    {
        if (column.From.Number <= 1 || column.To.Number >= work.Valleys) return null;
        ThreadKey? around = null;
        for (var y = column.Top.Index; y <= column.Bottom.Index; y++)
        {
            var row = new CableRow(y);
            Valley left = new(column.From.Number - 1), right = new(column.To.Number + 1);
            if (work.ThreadAt(left, row) is not { } thread || work.ThreadAt(right, row) != thread || (around is not null && around != thread)) return null;
            if (work.PhaseAt(left, row) != work.PhaseAt(column.From, row) || work.PhaseAt(right, row) != work.PhaseAt(column.From, row)) return null;
            around = thread;
        }
        return around;
    }

    /// <summary>Works the column in the thread around it.</summary>
    public static Mend? Recolour(Work work, Column column, ThreadKey thread) =>
        Mending.Redraw(work, column.Place, thread.Letter, $"Work it in {Say.Thread(work, thread)}", place => Around(work, place) == thread);
}
