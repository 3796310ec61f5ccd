using System.Text.RegularExpressions;

namespace Pleatwright.ReadBack;

// What the hands do with what was understood: steps, threads, stitches.
internal sealed partial class Reader
{
    private enum Comes { New, Rest, Start, Same, TakenUp }

    private enum Goes { Keep, TieOff, Hang }

    private sealed class Step
    {
        public int Number, Row, First, Last, Cables;
        public char Thread;
        public bool Turned, Continues, Taken;
        public Goes Goes;
        public int Onward => Last > First ? 1 : -1;
        public int FirstValley => Math.Min(First, First + Onward);
        public int LastValley => Math.Min(Last, Last - Onward);
    }

    /// <summary>A run as told, places counted from a centre that may not be known yet.</summary>
    private sealed record Told(Match Match, bool Turned, Comes Comes, int Before, bool Continues, Goes Goes, bool FirstUp, bool? BeginUp, bool? EndUp, string Longer, string Left);

    private readonly SortedDictionary<int, Step> steps = [];
    private readonly List<Told> pending = []; // the lines of a figure that is worked several times
    private readonly HashSet<(int Row, int Valley)> worked = [];
    private Step? last;
    private int hand; // the step whose thread is in hand; 0 for none
    private int needlefuls, turns, accents, cables;
    private bool runTurned;
    private string band = "";
    private readonly List<ReadStitch> pass = [];
    private List<bool> sides = []; // of each line of the band: whether its thread lies above the needle all along
    private bool begun;

    private void Work(Told told, int number, int offset, int centre, bool swapped, int lower)
    {
        var match = told.Match;
        var step = new Step
        {
            Number = number,
            Row = Number(match, "row") + lower,
            Thread = match.Groups["thread"].Success ? match.Groups["thread"].Value[0] : match.Groups["letter"].Value[0],
            Turned = told.Turned,
            Continues = told.Continues,
            Goes = told.Goes,
            Cables = Number(match, "cables"),
            First = Pleat(match, "from", centre, told.Turned),
            Last = Pleat(match, "to", centre, told.Turned),
        };
        var before = last;
        last = step;
        Agree(!steps.ContainsKey(number) && number == steps.Count + 1, "steps are numbered one after the other");
        if (!steps.TryAdd(number, step)) return;
        Agree(step.Last - step.First == (reading.RightHanded != told.Turned ? 1 : -1) * step.Cables, "a run goes from its first pleat to its last in as many cables");
        if (Math.Abs(step.Last - step.First) != step.Cables) return;
        if (told.Turned != runTurned) turns++;
        runTurned = turned = told.Turned;
        everTurned |= told.Turned;
        Under(step);
        Thread(told, step, before, offset, centre);
        reading.Threads.Add(new(number, told.Comes == Comes.Rest ? told.Before + offset : 0, told.Longer, told.Left));

        cables += step.Cables;
        var up = told.FirstUp != told.Turned != swapped; // on the chart
        if (!step.Continues && Squeezes(step)) reading.Squeezed.Add(number);
        if (told.BeginUp is { } begin)
        {
            Agree(begin != told.FirstUp, "a half stitch lies opposite the cable beside it");
            reading.Cables.Add(new(step.Row, step.First, true, step.Thread, begin != told.Turned != swapped));
        }
        for (var i = 0; i < step.Cables; i++)
        {
            var valley = Math.Min(step.First + step.Onward * i, step.First + step.Onward * (i + 1));
            Agree(valley >= 1 && valley < reading.Pleats, "a run lies on the cloth");
            if (!worked.Add((step.Row, valley))) Agree(false, "no cable is worked twice");
            reading.Cables.Add(new(step.Row, valley, false, step.Thread, up == (i % 2 == 0)));
        }
        if (told.EndUp is { } end)
        {
            Agree(end != (told.FirstUp == (step.Cables % 2 == 1)), "a half stitch lies opposite the cable beside it");
            reading.Cables.Add(new(step.Row, step.Last, true, step.Thread, end != told.Turned != swapped));
        }
    }

    // Under a heading that names a stretch of pleats lie runs that reach from the one end of it to the other; where headings tell the way, all of one stretch together.
    private sealed class Stretch
    {
        public bool Several, OnBorder;
        public int From, To, First = int.MaxValue, Last;
        public readonly List<int> Bases = []; // stacked figures may lie over the same pleats
    }

    private readonly List<Stretch> stretches = [];
    private Stretch? under;
    private double? opensAt;
    private string outward = "", way = "";

    // Whether a worked run lies next to it on that side.
    private bool Inner(Step step, int side)
    {
        for (var v = Math.Min(step.First, step.Last); v < Math.Max(step.First, step.Last); v++)
            if (worked.Contains((step.Row + side, v))) return true;
        return false;
    }

    private void Heading(Match match, bool ranged, double? opens, string goes, bool fromBase, bool onBorder)
    {
        (opensAt, way, outward) = (opens, goes, fromBase ? goes : "");
        if (!ranged)
        {
            under ??= new Stretch { First = 0 };
            return;
        }
        var (from, to) = (Pleat(match, "from", Middle, false), Pleat(match, "to", Middle, false));
        under = goes.Length > 0 || opens is not null ? stretches.Find(s => s.Several && (s.From, s.To) == (from, to)) : null;
        if (under is null) stretches.Add(under = new() { From = from, To = to, Several = goes.Length > 0 || opens is not null });
        under.OnBorder |= onBorder;
    }

    private void Under(Step step)
    {
        if (under is null) return;
        under.First = Math.Min(under.First, Math.Min(step.First, step.Last));
        under.Last = Math.Max(under.Last, Math.Max(step.First, step.Last));
        if (opensAt is { } depth)
        {
            Agree(Math.Abs(depth * reading.PerSpace - step.Row) < 1e-6, "a base row lies where it is said to lie");
            under.Bases.Add(step.Row);
            opensAt = null;
        }
        if (way.Length > 0 && Inner(step, way == "top" ? -1 : 1) && !Inner(step, way == "top" ? 1 : -1)) Agree(false, "runs go outward the way that is told");
        if (outward.Length > 0 && under.Bases.Count > 0) Agree(under.Bases.Any(b => outward == "top" ? step.Row < b : step.Row > b), "runs lie on the side of the base row that is told");
    }

    private void Headed()
    {
        foreach (var stretch in stretches) Agree((stretch.From, stretch.To) == (stretch.First, stretch.Last) && (!stretch.Several || stretch.OnBorder || stretch.Bases.Count > 0), "runs reach over the pleats that their heading names");
    }

    private void Thread(Told told, Step step, Step? before, int offset, int centre)
    {
        if (told.Comes == Comes.Same)
        {
            Agree(hand > 0 && before is { } kept && kept.Number == hand && kept.Thread == step.Thread, "the same thread is in hand");
            if (before is not null) Carries(told, step, before);
        }
        else
        {
            Agree(hand == 0, "a thread that is kept is used next");
            if (told.Comes is Comes.TakenUp or Comes.Rest)
            {
                var from = steps.GetValueOrDefault(told.Before + offset);
                Agree(from is { Taken: false } && from != step && from.Thread == step.Thread && from.Goes == (told.Comes == Comes.Rest ? Goes.TieOff : Goes.Hang), "a thread is there to be taken up");
                if (from is null || from == step) return;
                from.Taken = true;
                if (told.Comes == Comes.TakenUp)
                {
                    Agree(Pleat(told.Match, "hung", centre, told.Turned) == from.Last, "a thread hangs where it is said to hang");
                    Carries(told, step, from);
                }
            }
            if (told.Comes == Comes.New) needlefuls++;
        }
        if (told.Continues) Agree(before is { Goes: Goes.TieOff } && before.Row == step.Row && before.Thread == step.Thread && before.Last == step.First, "a run goes on where its thread ran out");
        hand = step.Goes == Goes.Keep ? step.Number : 0;
    }

    // Sentences tell of every thread how far it is carried, lines of one that goes far.
    private void Carries(Told told, Step step, Step from)
    {
        var (rows, pleats) = (Math.Abs(step.Row - from.Row), Math.Abs(step.FirstValley - from.LastValley));
        var (toldRows, toldPleats) = told.Match.Groups["sofar"].Success ? (Rows(told.Match), Number(told.Match, "side"))
            : told.Match.Groups["far"].Success ? (Number(told.Match, "crows"), Number(told.Match, "cpleats")) : rows <= 1 && pleats <= 2 ? (rows, pleats) : (-1, -1);
        Agree(Math.Abs(toldRows - rows) < 1e-6, "a thread is carried as many rows as lie between");
        Agree(toldPleats == pleats, "a thread is carried as many pleats as lie between");
        if (told.Match.Groups["sofar"].Success) Across(told.Match);
    }

    // A thread floats over three pleats on the back; further it is cabled across (common practice, no source).
    private void Across(Match match) => Agree(match.Groups["across"].Success == Number(match, "side") > 3, "a thread that goes further than three pleats is cabled across");

    private bool Squeezes(Step step)
    {
        bool above = false, below = false;
        for (var v = Math.Min(step.First, step.Last); v < Math.Max(step.First, step.Last); v++)
        {
            above |= worked.Contains((step.Row - 1, v));
            below |= worked.Contains((step.Row + 1, v));
        }
        // of a run worked with several threads the rest lies further on
        return above && below;
    }

    // Stitch by stitch along a pattern, as held, and back on the chart.
    private void Stitch(Match match, char thread, bool isTurned, bool rightward, double high, double low, int start, int slope, int from, int to)
    {
        var onward = rightward != isTurned ? 1 : -1;
        var step = slope > 0 ? (low - high) / slope : 0;
        Agree(start >= 0 && start <= slope, "a band begins between its two heights");
        var (pleat, at, count) = (from, isTurned ? slope - start : start, 0); // steps down on the chart
        if (pass.Count == 0 || pass[^1].ToPleat != from || pass[^1].Turned != isTurned) pass.Clear();
        foreach (var (kind, one, above, times) in Pattern(match.Groups["pattern"].Value))
            for (var n = 0; n < times; n++, count++)
            {
                var moves = kind is "step" or "bar" or "slip" or "loop";
                var down = one is null ? 0 : frame.IsUp(one) != isTurned ? -1 : 1; // on the chart
                var next = moves ? at + down : at;
                if (next < 0 || next > slope || count > 1_000_000)
                {
                    Agree(false, "a band goes to and fro between its two heights");
                    return;
                }
                double a = high + step * at, b = high + step * next;
                var ahead = kind is "bar" or "slip" ? pleat : pleat + onward;
                if (above is { } held && sides.Count > 0)
                {
                    Agree(held == sides[0] || (begun && sides.Contains(held)), "the thread lies on the side of the needle told");
                    begun = true;
                }
                bool? lies = above is { } side ? side != isTurned : kind is "cable" or "catch" ? frame.IsUp(one!) != isTurned : null;
                var stitch = new ReadStitch(band, thread, kind is "cable" or "stitch" or "step" ? "over" : kind, pleat, a, ahead, kind == "loop" ? a + (b - a) / 3 : b, lies, isTurned);
                reading.Stitches.Add(stitch);
                pass.Add(stitch);
                (pleat, at) = (ahead, next);
            }
        Agree(pleat == to, "a band's stitches reach its last pleat");
        Agree(count == Number(match, "count"), "a band's stitches are as many as told");
    }

    private IEnumerable<(string Kind, string? One, bool? Above, int Times)> Pattern(string words)
    {
        foreach (var part in words.Split("; then "))
        {
            var cycle = Cycle().Match(part);
            var groups = cycle.Success ? cycle.Groups["groups"].Value : part;
            for (var times = cycle.Success ? Number(cycle, "times") : 1; times > 0; times--)
                for (var (at, group) = (0, frame.Group.Match(groups)); group.Success && group.Length > 0; at += group.Length, group = frame.Group.Match(groups, at))
                    yield return (group.Groups["kind"].Value, group.Groups["one"].Success ? group.Groups["one"].Value : null,
                        group.Groups["side"].Success ? frame.IsAbove(group.Groups["side"].Value) : null, group.Groups["n"].Success ? Number(group, "n") : 1);
        }
    }

    [GeneratedRegex(@"^(?<times>\d+) times \((?<groups>.*)\)$", Plain)]
    private static partial Regex Cycle();
}
