using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;

namespace Pleatwright.Order;

/// <summary>Turns a route into steps: where threads start, carry, wait and are tied off.</summary>
internal static class Steps
{
    /// <summary>The steps of the routes of all clusters, one after the other.</summary>
    public static ImmutableArray<Step> From(Layout layout, Route[] routes)
    {
        var steps = ImmutableArray.CreateBuilder<Step>(layout.Runs + layout.Runs / 4);
        var needlefuls = 0;
        foreach (var route in routes) Add(layout, route, steps, ref needlefuls);
        Rests.Share(layout, steps, needlefuls);
        return steps.ToImmutable();
    }

    private static void Add(Layout layout, Route route, ImmutableArray<Step>.Builder steps, ref int needlefuls)
    {
        var plans = PathPlan.Of(layout, route);
        var lastOn = new int[route.Paths]; // step that last used the path's thread
        foreach (var visit in route.Visits)
        {
            var plan = plans[visit.Path];
            var along = plan.Worked++;
            var run = layout.Work.Runs[visit.Run];
            for (var from = 0; from < run.Cables;)
            {
                var starts = from > 0 || plan.BreaksAt(along, from);
                var to = plan.NextBreakIn(along, from) ?? run.Cables;
                var last = to == run.Cables;
                var carriedFrom = starts ? null : plan.Visits[along - 1] as Visit?;
                if (starts) plan.Needleful = ++needlefuls;
                else if (lastOn[visit.Path] != steps.Count - 1) steps[lastOn[visit.Path]] = steps[lastOn[visit.Path]] with { Parks = true };
                var (begin, end) = (At(run, visit, from), At(run, visit, to - 1));
                steps.Add(new Step
                {
                    Number = steps.Count + 1,
                    RunIndex = visit.Run,
                    Thread = run.Thread,
                    Needleful = plan.Needleful,
                    Row = run.Row,
                    From = begin,
                    To = end,
                    Begin = run.LevelAt(begin),
                    End = run.LevelAt(end),
                    Turned = layout.TurnedAt(visit.Entry),
                    Starts = starts ? StartKind.New : StartKind.Carry,
                    Carried = carriedFrom is { } c ? Length.FromMillimetres(layout.Carry(c.Exit, visit.Entry) / 1000.0) : Length.Zero,
                    CarriedPleats = carriedFrom is { } p ? begin.Number - Carries.Valley(layout.Work.Runs, p.Exit) : 0,
                    CarriedRows = carriedFrom is { } r ? run.Row.Index - layout.Work.Runs[r.Run].Row.Index : 0,
                    Continues = from > 0,
                    GoesOn = !last,
                    TieOff = !last || plan.BreaksAt(along + 1, 0),
                    HalfAtBegin = from == 0 && (visit.Leftward ? run.HalfRight : run.HalfLeft),
                    HalfAtEnd = last && (visit.Leftward ? run.HalfLeft : run.HalfRight),
                });
                lastOn[visit.Path] = steps.Count - 1;
                from = to;
            }
        }
    }

    private static Valley At(Run run, Visit visit, int cable) =>
        new(visit.Leftward ? run.To.Number - cable : run.From.Number + cable);

    /// <summary>One path with its breaks, and how far it has been worked.</summary>
    private sealed class PathPlan(Visit[] visits, List<Break> breaks)
    {
        private int passed;

        public Visit[] Visits => visits;

        public int Worked { get; set; }

        public int Needleful { get; set; }

        public static PathPlan[] Of(Layout layout, Route route)
        {
            var count = new int[route.Paths];
            foreach (var visit in route.Visits) count[visit.Path]++;
            var visits = new Visit[route.Paths][];
            for (var p = 0; p < count.Length; p++) visits[p] = new Visit[count[p]];
            Array.Clear(count);
            foreach (var visit in route.Visits) visits[visit.Path][count[visit.Path]++] = visit;
            var needlefuls = new Needlefuls(layout);
            return Array.ConvertAll(visits, v => new PathPlan(v, needlefuls.Share(v)));
        }

        /// <summary>Whether a thread starts before this cable; asked in order along the path.</summary>
        public bool BreaksAt(int along, int cable)
        {
            if (along == 0 && cable == 0) return true;
            if (along == visits.Length) return true;
            var at = new Break(along, cable);
            while (passed < breaks.Count && breaks[passed].CompareTo(at) < 0) passed++;
            return passed < breaks.Count && breaks[passed] == at;
        }

        /// <summary>The next break within a run after this cable, or null.</summary>
        public int? NextBreakIn(int along, int cable)
        {
            while (passed < breaks.Count && breaks[passed].CompareTo(new Break(along, cable)) <= 0) passed++;
            return passed < breaks.Count && breaks[passed].Along == along ? breaks[passed].Cable : null;
        }
    }
}
