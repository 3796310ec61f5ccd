using Google.OrTools.Sat;
using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Tests.Order;

/// <summary>
/// The working order as a model for a constraint solver, written from the rules of the craft and not from the planner:
/// which runs wait for which is worked out afresh here, one run at a time.
/// </summary>
internal static class ExactOrder
{
    /// <summary>
    /// The fewest starts, the fewest turns with so many starts, and the least thread carried with so many of both, in
    /// micrometres; null when the solver proves nothing in time.
    /// </summary>
    public static (int Starts, int Turns, int Carried)? Solve(Work work)
    {
        var runs = work.Runs.ToArray();
        int n = runs.Length;
        var working = work.Piece.Working;
        var gauge = work.Pleating.Gauge;
        int cable = Micrometres(Usage.Cable(gauge.Pitch, gauge.LineHeight).Millimetres);
        int pitch = Micrometres(gauge.Pitch.Millimetres), rowHeight = Micrometres(gauge.CableRowHeight.Millimetres);
        int needleful = Math.Max(cable, (int)Math.Floor((working.WorkingLength - working.Tails).Millimetres * 1000 + 1e-6));
        var model = new CpModel();
        var place = new IntVar[n];
        var leftward = new BoolVar[n];
        var left = new IntVar[n]; // thread left after the run
        var come = new IntVar[n]; // thread there is for it
        var breaks = new IntVar[n];
        for (var i = 0; i < n; i++)
        {
            place[i] = model.NewIntVar(0, n - 1, $"place{i}");
            leftward[i] = model.NewBoolVar($"leftward{i}");
            if (!working.MayTurn) model.Add(leftward[i] == (working.Hand == Hand.Left ? 1 : 0));
            come[i] = model.NewIntVar(0, needleful, $"come{i}");
            left[i] = model.NewIntVar(0, needleful, $"left{i}");
            breaks[i] = model.NewIntVar(0, runs[i].Cables, $"breaks{i}");
            Thread(model, runs[i].Cables, cable, needleful, working.SplitRuns, come[i], left[i], breaks[i]);
        }
        model.AddAllDifferent(place);
        foreach (var (before, after) in Waits(work)) model.Add(place[before] < place[after]);
        var starts = LinearExpr.Sum(breaks) + n;
        var next = new List<(int J, int I, BoolVar On)>();
        var carries = new List<LinearExpr>();
        for (var j = 0; j < n; j++)
            for (var i = 0; i < n; i++)
            {
                if (i == j || runs[i].Thread != runs[j].Thread) continue;
                var rows = Math.Abs(runs[i].Row.Index - runs[j].Row.Index);
                if (rows > gauge.CableRowsPerSpace) continue;
                for (var jl = 0; jl < 2; jl++)
                    for (var il = 0; il < 2; il++)
                    {
                        var pleats = Math.Abs((jl == 1 ? runs[j].From : runs[j].To).Number - (il == 1 ? runs[i].To : runs[i].From).Number);
                        if (pleats > working.CarryPleats) continue;
                        var on = model.NewBoolVar($"carry{j}-{i}-{jl}{il}");
                        next.Add((j, i, on));
                        var carry = pleats * pitch + rows * rowHeight;
                        carries.Add(on * carry);
                        model.AddImplication(on, jl == 1 ? leftward[j] : leftward[j].Not());
                        model.AddImplication(on, il == 1 ? leftward[i] : leftward[i].Not());
                        model.Add(place[j] < place[i]).OnlyEnforceIf(on);
                        model.Add(come[i] == left[j] - carry).OnlyEnforceIf(on);
                    }
            }
        for (var i = 0; i < n; i++)
        {
            var into = next.Where(c => c.I == i).Select(c => c.On).ToArray();
            var outOf = next.Where(c => c.J == i).Select(c => c.On).ToArray();
            model.AddAtMostOne(outOf);
            var begins = model.NewBoolVar($"begins{i}");
            model.AddExactlyOne([.. into, begins]);
            model.Add(come[i] == needleful).OnlyEnforceIf(begins);
        }
        if (next.Count > 0) starts -= LinearExpr.Sum(next.Select(c => c.On));
        Parking(model, n, place, next, working.ParkedThreads);
        var turns = Turns(model, n, place, leftward, working.Hand == Hand.Left);
        model.Minimize(starts * (n + 1) + turns);
        var solver = new CpSolver { StringParameters = "num_workers:1,max_deterministic_time:20,random_seed:1" };
        if (solver.Solve(model) != CpSolverStatus.Optimal) return null;
        var best = (int)Math.Round(solver.ObjectiveValue);
        if (carries.Count == 0) return (best / (n + 1), best % (n + 1), 0);
        // one after the other: what was found first is held fast, and the solver sets out from it
        foreach (var variable in (IntVar[])[.. place, .. leftward, .. next.Select(c => c.On)]) model.AddHint(variable, solver.Value(variable));
        model.Add(starts * (n + 1) + turns == best);
        model.Minimize(LinearExpr.Sum(carries));
        if (solver.Solve(model) != CpSolverStatus.Optimal) return null;
        return (best / (n + 1), best % (n + 1), (int)Math.Round(solver.ObjectiveValue));
    }

    // One run: all of it with the thread there is, or so many breaks within it, each needleful in whole cables.
    private static void Thread(CpModel model, int cables, int cable, int needleful, bool splitRuns, IntVar come, IntVar left, IntVar breaks)
    {
        var whole = model.NewBoolVar("");
        model.Add(breaks == 0).OnlyEnforceIf(whole);
        model.Add(left == come - cables * cable).OnlyEnforceIf(whole);
        model.Add(breaks >= 1).OnlyEnforceIf(whole.Not());
        if (cables == 1 || (!splitRuns && cables * cable <= needleful))
        {
            model.Add(whole == 1);
            return;
        }
        var first = model.NewIntVar(1, cables - 1, "");
        var last = model.NewIntVar(1, cables - 1, "");
        var most = needleful / cable;
        model.Add(first * cable <= come).OnlyEnforceIf(whole.Not());
        model.Add(last <= most).OnlyEnforceIf(whole.Not());
        model.Add(cables - first - last <= (breaks - 1) * most).OnlyEnforceIf(whole.Not());
        model.Add(cables - first - last >= breaks - 1).OnlyEnforceIf(whole.Not());
        model.Add(left == needleful - last * cable).OnlyEnforceIf(whole.Not());
    }

    // At every place in the order, no more carries pass over it than threads may be parked.
    private static void Parking(CpModel model, int n, IntVar[] place, List<(int J, int I, BoolVar On)> next, int parked)
    {
        if (next.Count <= parked) return;
        for (var at = 0; at < n; at++)
        {
            var over = new List<BoolVar>();
            foreach (var (j, i, on) in next)
            {
                BoolVar passes = model.NewBoolVar(""), early = model.NewBoolVar(""), late = model.NewBoolVar("");
                model.Add(place[j] >= at).OnlyEnforceIf(early.Not());
                model.Add(place[i] <= at).OnlyEnforceIf(late.Not());
                model.AddBoolOr([passes, on.Not(), early.Not(), late.Not()]);
                over.Add(passes);
            }
            model.Add(LinearExpr.Sum(over) <= parked);
        }
    }

    private static LinearExpr Turns(CpModel model, int n, IntVar[] place, BoolVar[] leftward, bool leftHanded)
    {
        var at = new BoolVar[n]; // at[p]: the p-th run is travelled leftward
        var turns = new BoolVar[n];
        for (var p = 0; p < n; p++) at[p] = model.NewBoolVar("");
        for (var i = 0; i < n; i++) model.AddElement(place[i], at, leftward[i]);
        for (var p = 0; p < n; p++)
        {
            turns[p] = model.NewBoolVar("");
            LinearExpr before = p == 0 ? LinearExpr.Constant(leftHanded ? 1 : 0) : at[p - 1];
            model.Add(turns[p] >= at[p] - before);
            model.Add(turns[p] >= before - at[p]);
        }
        return LinearExpr.Sum(turns);
    }

    // Outward from the base, by its definition: what a run rests on lies on the side it was reached from.
    private static IEnumerable<(int Before, int After)> Waits(Work work)
    {
        var runs = work.Runs.ToArray();
        var areas = work.Areas;
        var way = new int?[runs.Length];
        var round = new int[runs.Length];
        for (var i = 0; i < runs.Length; i++)
            if (runs[i].Row == areas.All[areas.AreaOf(i)].Base) way[i] = 0;
        // runs side by side go together; a way is followed to its end before it turns
        for (var turn = 0; way.Contains(null); turn++)
            foreach (var direction in new[] { -1, 1 })
                for (var grew = true; grew;)
                {
                    grew = false;
                    for (var i = 0; i < runs.Length; i++)
                    {
                        if (way[i] is not null) continue;
                        var reached = Enumerable.Range(0, runs.Length).Any(j => way[j] is { } w
                            && ((Shares(runs[i], runs[j]) && runs[i].Row.Index == runs[j].Row.Index + direction
                                    && (w == direction || (turn == 0 ? w == 0 : w == -direction && round[j] < turn)))
                                || (Beside(runs[i], runs[j]) && w == direction && round[j] == turn)));
                        if (!reached) continue;
                        (way[i], round[i], grew) = (direction, turn, true);
                    }
                }
        for (var i = 0; i < runs.Length; i++)
        {
            if (way[i] == 0) continue;
            for (var j = 0; j < runs.Length; j++)
                if (Shares(runs[i], runs[j]) && runs[j].Row.Index == runs[i].Row.Index - way[i] && round[j] <= round[i]) yield return (j, i);
        }
        foreach (var lean in Leans(work, way, round)) yield return lean;
        // all of one way from the base row, then all of the other
        if (work.Piece.Working.First == FirstWay.Either) yield break;
        var first = work.Piece.Working.First == FirstWay.Up ? -1 : 1;
        for (var i = 0; i < runs.Length; i++)
            for (var j = 0; j < runs.Length; j++)
                if (round[i] == 0 && round[j] == 0 && way[i] == first && way[j] == -first && areas.AreaOf(i) == areas.AreaOf(j)) yield return (i, j);
    }

    private static IEnumerable<(int Before, int After)> Leans(Work work, int?[] way, int[] round)
    {
        var runs = work.Runs.ToArray();
        bool Rests(int i) => Enumerable.Range(0, runs.Length).Any(j =>
            Shares(runs[i], runs[j]) && runs[j].Row.Index == runs[i].Row.Index - way[i] && round[j] <= round[i]);
        int Distance(int i, int step)
        {
            for (var d = 0; ; d++)
            {
                if (Rests(i + step * d)) return d;
                var following = i + step * (d + 1);
                if (following < 0 || following >= runs.Length || !Beside(runs[i + step * d], runs[following])) return int.MaxValue;
            }
        }
        for (var i = 0; i < runs.Length; i++)
        {
            if (way[i] == 0 || Rests(i)) continue;
            int toLeft = Distance(i, -1), toRight = Distance(i, 1);
            var leftFirst = work.Piece.Working.Hand == Hand.Right;
            yield return (toLeft < toRight || (toLeft == toRight && leftFirst) ? i - 1 : i + 1, i);
        }
    }

    private static bool Shares(Run a, Run b) => a.From.Number <= b.To.Number && b.From.Number <= a.To.Number;

    private static bool Beside(Run a, Run b) => a.Row == b.Row && (a.To.Number + 1 == b.From.Number || b.To.Number + 1 == a.From.Number);

    private static int Micrometres(double millimetres) => (int)Math.Ceiling(millimetres * 1000 - 1e-6);
}
