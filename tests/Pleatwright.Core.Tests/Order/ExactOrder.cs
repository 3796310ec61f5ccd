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
    /// <summary>What an order costs, one thing after the other; thread carried in micrometres.</summary>
    public readonly record struct Cost(int Starts, int Fitted, int TakeUps, int Slant, int Turns, int Carried) : IComparable<Cost>
    {
        public int CompareTo(Cost other) => (Starts, Fitted, TakeUps, Slant, Turns, Carried).CompareTo((other.Starts, other.Fitted, other.TakeUps, other.Slant, other.Turns, other.Carried));
    }

    /// <summary>The least cost, one thing after the other; null when the solver proves nothing in time.</summary>
    /// <param name="work">The work.</param>
    /// <param name="areas">Row by row: the areas in the order they are to be worked.</param>
    public static Cost? Solve(Work work, IReadOnlyList<int> areas)
    {
        var working = work.Piece.Working;
        if (working.Way != WayOfWorking.RowByRow || working.First != FirstWay.Either) return Solve(work, areas, working.First);
        // row by row, either way may be worked first, but not by turns
        if (Solve(work, areas, FirstWay.Up) is not { } up || Solve(work, areas, FirstWay.Down) is not { } down) return null;
        return up.CompareTo(down) < 0 ? up : down;
    }

    private static Cost? Solve(Work work, IReadOnlyList<int> areas, FirstWay firstWay)
    {
        var runs = work.Runs.ToArray();
        int n = runs.Length;
        var working = work.Piece.Working;
        var gauge = work.Pleating.Gauge;
        int cable = Micrometres(Usage.Cable(gauge.Pitch, gauge.LineHeight).Millimetres);
        int pitch = Micrometres(gauge.Pitch.Millimetres), rowHeight = Micrometres(gauge.CableRowHeight.Millimetres);
        int needleful = Math.Max(cable, (int)Math.Floor((working.WorkingLength - working.Tails).Millimetres * 1000 + 1e-6));
        int longer = (int)Math.Floor(working.Longer.Millimetres * 1000 + 1e-6);
        var model = new CpModel();
        var place = new IntVar[n];
        var leftward = new BoolVar[n];
        var left = new IntVar[n]; // thread left after the run; below 0 when the needleful is one cut longer
        var come = new IntVar[n]; // thread there is for it
        var breaks = new IntVar[n];
        for (var i = 0; i < n; i++)
        {
            place[i] = model.NewIntVar(0, n - 1, $"place{i}");
            leftward[i] = model.NewBoolVar($"leftward{i}");
            if (!working.MayTurn) model.Add(leftward[i] == (working.Hand == Hand.Left ? 1 : 0));
            come[i] = model.NewIntVar(-longer, needleful, $"come{i}");
            left[i] = model.NewIntVar(-longer, needleful, $"left{i}");
            breaks[i] = model.NewIntVar(0, runs[i].Cables, $"breaks{i}");
            Thread(model, runs[i].Cables, cable, needleful, longer, working.SplitRuns, come[i], left[i], breaks[i]);
        }
        model.AddAllDifferent(place);
        var reached = Reached.Of(work);
        foreach (var (before, after) in Waits(work, reached, firstWay)) model.Add(place[before] < place[after]);
        if (working.Way == WayOfWorking.RowByRow) RowByRow(model, work, reached, areas, firstWay, place, leftward);
        else
        {
            Lean(model, work, reached, place);
            if (working.Way == WayOfWorking.SpaceBySpace) foreach (var (before, after) in BySpaces(work, reached)) model.Add(place[before] < place[after]);
        }
        var starts = LinearExpr.Sum(breaks) + n;
        var next = new List<(int J, int I, BoolVar On)>();
        List<LinearExpr> carries = [], both = [], takeUps = [];
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
                        if (rows > 0) both.Add(on * pleats);
                        BoolVar waits = model.NewBoolVar(""), atOnce = model.NewBoolVar("");
                        model.Add(place[i] == place[j] + 1).OnlyEnforceIf(atOnce);
                        model.AddBoolOr([on.Not(), atOnce, waits]);
                        takeUps.Add(waits);
                        // row by row no thread is left hanging while another area is begun
                        if (working.Way == WayOfWorking.RowByRow && work.Areas.AreaOf(i) != work.Areas.AreaOf(j)) model.AddImplication(on, atOnce);
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
        var turns = Turns(model, n, place, leftward, working.Hand == Hand.Left, andBack: working.Way == WayOfWorking.RowByRow);
        LinearExpr fitted = Fitted(model, runs, place), taken = Sum(takeUps), goSlant = Sum(both);
        // one after the other: what was found first is held fast
        var solver = new CpSolver { StringParameters = "num_workers:1,max_deterministic_time:10,random_seed:1" };
        var found = new List<int>();
        foreach (var goal in (LinearExpr[])[starts * (n + 1) + fitted, (taken * (12 * n + 1) + goSlant) * (n + 1) + turns, Sum(carries)])
        {
            if (found.Count == 2 && carries.Count == 0)
            {
                found.Add(0);
                break;
            }
            model.Minimize(goal);
            if (solver.Solve(model) != CpSolverStatus.Optimal) return null;
            found.Add((int)Math.Round(solver.ObjectiveValue));
            model.Add(goal == found[^1]);
        }
        return new Cost(found[0] / (n + 1), found[0] % (n + 1), found[1] / (n + 1) / (12 * n + 1), found[1] / (n + 1) % (12 * n + 1), found[1] % (n + 1), found[2]);
    }

    private static LinearExpr Sum(List<LinearExpr> terms) => terms.Count == 0 ? LinearExpr.Constant(0) : LinearExpr.Sum(terms);

    // A run worked when both runs that it touches in its row are done.
    private static LinearExpr Fitted(CpModel model, Run[] runs, IntVar[] place)
    {
        var fitted = new List<LinearExpr>();
        for (var i = 1; i + 1 < runs.Length; i++)
        {
            if (!Beside(runs[i - 1], runs[i]) || !Beside(runs[i], runs[i + 1])) continue;
            BoolVar fits = model.NewBoolVar(""), beforeLeft = model.NewBoolVar(""), beforeRight = model.NewBoolVar("");
            model.Add(place[i] < place[i - 1]).OnlyEnforceIf(beforeLeft);
            model.Add(place[i] < place[i + 1]).OnlyEnforceIf(beforeRight);
            model.AddBoolOr([fits, beforeLeft, beforeRight]);
            fitted.Add(fits);
        }
        return Sum(fitted);
    }

    // One run: all of it with the thread there is, or so many breaks within it, each needleful in whole cables.
    private static void Thread(CpModel model, int cables, int cable, int needleful, int longer, bool splitRuns, IntVar come, IntVar left, IntVar breaks)
    {
        var whole = model.NewBoolVar("");
        model.Add(breaks == 0).OnlyEnforceIf(whole);
        model.Add(left == come - cables * cable).OnlyEnforceIf(whole);
        model.Add(breaks >= 1).OnlyEnforceIf(whole.Not());
        if (cables == 1 || (!splitRuns && cables * cable <= needleful + longer))
        {
            model.Add(whole == 1);
            return;
        }
        var first = model.NewIntVar(1, cables - 1, "");
        var last = model.NewIntVar(1, cables - 1, "");
        var most = needleful / cable;
        model.Add(first * cable <= come).OnlyEnforceIf(whole.Not());
        model.Add(last <= (needleful + longer) / cable).OnlyEnforceIf(whole.Not());
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

    private static LinearExpr Turns(CpModel model, int n, IntVar[] place, BoolVar[] leftward, bool leftHanded, bool andBack)
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
        // row by row the work is laid with its top edge up again when all is done
        if (andBack) return LinearExpr.Sum(turns) + (leftHanded ? 1 - at[n - 1] : at[n - 1]);
        return LinearExpr.Sum(turns);
    }

    /// <summary>Which way each run is reached from its base row, and after how many turns of the way; by its definition.</summary>
    private sealed record Reached(Run[] Runs, int[] Way, int[] Round)
    {
        public static Reached Of(Work work)
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
            return new Reached(runs, Array.ConvertAll(way, w => w!.Value), round);
        }

        // What a run rests on lies on the side it was reached from.
        public IEnumerable<int> Inner(int i) => Way[i] == 0 ? [] : Enumerable.Range(0, Runs.Length).Where(j =>
            Shares(Runs[i], Runs[j]) && Runs[j].Row.Index == Runs[i].Row.Index - Way[i] && Round[j] <= Round[i]);

        public bool IsArm(int i) => Way[i] != 0 && !Inner(i).Any();
    }

    private static IEnumerable<(int Before, int After)> Waits(Work work, Reached reached, FirstWay firstWay)
    {
        var (runs, way, round) = reached;
        for (var i = 0; i < runs.Length; i++)
            foreach (var j in reached.Inner(i)) yield return (j, i);
        // all of one way from the base row, then all of the other
        if (firstWay == FirstWay.Either) yield break;
        var first = firstWay == FirstWay.Up ? -1 : 1;
        for (var i = 0; i < runs.Length; i++)
            for (var j = 0; j < runs.Length; j++)
                if (round[i] == 0 && round[j] == 0 && way[i] == first && way[j] == -first && work.Areas.AreaOf(i) == work.Areas.AreaOf(j)) yield return (i, j);
    }

    // An arm follows a run beside it.
    private static void Lean(CpModel model, Work work, Reached reached, IntVar[] place)
    {
        var runs = reached.Runs;
        for (var i = 0; i < runs.Length; i++)
        {
            if (!reached.IsArm(i)) continue;
            var beside = new List<ILiteral>();
            foreach (var other in new[] { i - 1, i + 1 })
            {
                if (other < 0 || other >= runs.Length || !Beside(runs[i], runs[other])) continue;
                var after = model.NewBoolVar("");
                model.Add(place[other] < place[i]).OnlyEnforceIf(after);
                beside.Add(after);
            }
            model.AddBoolOr(beside);
        }
    }

    // From a base row each way, the rows up to the next gathering row before those beyond it.
    private static IEnumerable<(int Before, int After)> BySpaces(Work work, Reached reached)
    {
        var (runs, way, round) = reached;
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        int Space(int i) => way[i] < 0 ? -(runs[i].Row.Index / perSpace) : (runs[i].Row.Index + perSpace - 1) / perSpace;
        for (var i = 0; i < runs.Length; i++)
            for (var j = 0; j < runs.Length; j++)
            {
                if (work.Areas.AreaOf(i) != work.Areas.AreaOf(j)) continue;
                if (way[i] == 0 && way[j] != 0 && round[j] == 0) yield return (i, j);
                if (way[i] != 0 && way[i] == way[j] && round[i] == round[j] && Space(i) < Space(j)) yield return (i, j);
            }
    }

    // Area by area, each row right across before the next outward, all its runs in one direction.
    private static void RowByRow(CpModel model, Work work, Reached reached, IReadOnlyList<int> areas, FirstWay firstWay, IntVar[] place, BoolVar[] leftward)
    {
        var (runs, way, round) = reached;
        var first = firstWay == FirstWay.Down ? 1 : -1;
        var rows = Enumerable.Range(0, runs.Length)
            .GroupBy(i => (Area: areas.ToList().IndexOf(work.Areas.AreaOf(i)), Round: round[i], Second: way[i] == 0 ? 0 : round[i] > 0 ? (way[i] > 0 ? 1 : 2) : way[i] == first ? 1 : 2, Out: way[i] < 0 ? -runs[i].Row.Index : runs[i].Row.Index))
            .OrderBy(g => g.Key).Select(g => g.ToArray()).ToArray();
        for (var y = 0; y + 1 < rows.Length; y++)
            foreach (var i in rows[y])
                foreach (var j in rows[y + 1]) model.Add(place[i] < place[j]);
        var begun = new HashSet<int>();
        foreach (var row in rows)
        {
            if (begun.Add(work.Areas.AreaOf(row[0]))) model.Add(leftward[row[0]] == (work.Piece.Working.Hand == Hand.Left ? 1 : 0)); // top edge up
            foreach (var i in row) model.Add(leftward[i] == leftward[row[0]]);
            foreach (var direction in new[] { false, true })
            {
                var order = Across(direction ? [.. row.Reverse()] : row);
                for (var k = 0; k + 1 < order.Count; k++)
                    model.Add(place[order[k]] < place[order[k + 1]]).OnlyEnforceIf(direction ? leftward[row[0]] : leftward[row[0]].Not());
            }
        }

        // what touches goes together; it begins with the first that rests on something, and the arms before that come last
        List<int> Across(int[] row)
        {
            var order = new List<int>();
            foreach (var i in row)
            {
                var at = order.Count;
                if (reached.IsArm(i))
                {
                    var upTo = Array.IndexOf(row, i);
                    var from = upTo;
                    while (from > 0 && Beside(runs[row[from - 1]], runs[row[from]])) from--;
                    if (Enumerable.Range(from, upTo - from + 1).All(k => reached.IsArm(row[k]))) continue;
                }
                order.Add(i);
                var index = Array.IndexOf(row, i);
                if (index + 1 < row.Length && Beside(runs[i], runs[row[index + 1]])) continue;
                // the end of what touches: the arms left out, the nearest first
                for (var k = index; k >= 0 && (k == index || Beside(runs[row[k]], runs[row[k + 1]])); k--)
                    if (!order.Contains(row[k])) order.Add(row[k]);
            }
            return order;
        }
    }

    private static bool Shares(Run a, Run b) => a.From.Number <= b.To.Number && b.From.Number <= a.To.Number;

    private static bool Beside(Run a, Run b) => a.Row == b.Row && (a.To.Number + 1 == b.From.Number || b.To.Number + 1 == a.From.Number);

    private static int Micrometres(double millimetres) => (int)Math.Ceiling(millimetres * 1000 - 1e-6);
}
