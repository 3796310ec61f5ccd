using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;

namespace Pleatwright.Order;

/// <summary>
/// Shares bands among needlefuls. A band worked from the centre has a needleful with half of it left there as a tail. Rows
/// that begin at a side are carried on one from the other with the thread in hand, and worked back with the work turned,
/// wherever that saves a start; the carry keeps to what the maker allows.
/// </summary>
internal sealed class BandNeedlefuls(Work work)
{
    private const int MostJoined = 12; // passes looked at together
    private const int MostStitches = 2000; // in them: longer rows have too little to gain from a thread carried on

    private readonly Working working = work.Piece.Working;
    private readonly Length usable = work.Piece.Working.WorkingLength - work.Piece.Working.Tails;
    private readonly ImmutableArray<BandStep>.Builder steps = ImmutableArray.CreateBuilder<BandStep>();
    private readonly List<Leg> chain = []; // passes of one thread, each within a carry of the one before

    /// <summary>One pass of a band, to be worked as it is.</summary>
    private readonly record struct Leg(LaidBand Band, Pass Pass);

    /// <summary>The steps of the bands, in order.</summary>
    public ImmutableArray<BandStep> Share(IEnumerable<LaidBand> bands)
    {
        foreach (var band in bands)
            for (var i = 0; i < band.Passes.Length; i++)
                if (i + 1 < band.Passes.Length && band.Passes[i + 1].GoesOn)
                {
                    WorkChain();
                    FromCentre(new Leg(band, band.Passes[i]), new Leg(band, band.Passes[++i]));
                }
                else
                {
                    var leg = new Leg(band, band.Passes[i]);
                    if (chain.Count > 0 && Next(chain[^1], leg) is null && Next(Back(chain[^1]), leg) is null) WorkChain();
                    chain.Add(leg);
                }
        WorkChain();
        return steps.ToImmutable();
    }

    private void FromCentre(Leg far, Leg near)
    {
        Measured first = new(work, [far]), second = new(work, [near]);
        var both = first.Length + second.Length <= usable;
        // one needleful for both halves when it reaches, else half of it on each side of the centre; but where each half has
        // enough with needlefuls of its own, a tail would only take a start more
        int own = Split(first, usable, usable).Count + Split(second, usable, usable).Count,
            shared = Split(first, usable / 2, usable).Count + Split(second, usable / 2, usable).Count - 1;
        if (!both && own < shared)
        {
            Emit(first, BandThread.New, usable);
            Emit(second, BandThread.New, usable);
            return;
        }
        var at = steps.Count;
        Emit(first, BandThread.NewWithTail, both ? usable : usable / 2);
        var left = usable - steps[at].Length;
        Emit(second, BandThread.Tail, both || left < usable / 2 ? left : usable / 2);
    }

    // Shares the passes of the chain among the fewest needlefuls; of two ways with as many, the one that joins fewer.
    private void WorkChain()
    {
        var count = chain.Count;
        var best = new (int Needlefuls, int From)[count + 1];
        var alone = new int[count];
        for (var to = 1; to <= count; to++)
        {
            best[to] = (int.MaxValue, 0);
            var apart = 0;
            var stitches = 0;
            for (var from = to - 1; from >= Math.Max(0, to - MostJoined); from--)
            {
                int needlefuls;
                stitches += chain[from].Pass.Stitches.Length;
                if (from < to - 1 && stitches > MostStitches) break;
                if (from == to - 1) needlefuls = alone[from] = Split(new Measured(work, [chain[from]]), usable, usable).Count;
                else if (Joined(from, to) is { } legs)
                {
                    var together = new Measured(work, legs);
                    var least = (int)Math.Ceiling(together.Length / usable - 1e-9);
                    if (least >= apart + alone[from]) { apart += alone[from]; continue; }
                    needlefuls = Split(together, usable, usable).Count;
                }
                else break;
                apart += alone[from];
                if (best[from].Needlefuls + needlefuls < best[to].Needlefuls) best[to] = (best[from].Needlefuls + needlefuls, from);
            }
        }
        var cuts = new Stack<int>();
        for (var at = count; at > 0; at = best[at].From) cuts.Push(at);
        for (var from = 0; cuts.TryPop(out var to); from = to) Emit(new Measured(work, Joined(from, to)!), BandThread.New, usable);
        chain.Clear();
    }

    // The passes of a stretch of the chain, each going on where the one before ended; null where one cannot.
    private List<Leg>? Joined(int from, int to)
    {
        List<Leg> legs = [chain[from]];
        for (var i = from + 1; i < to; i++)
        {
            if (Next(legs[^1], chain[i]) is not { } next) return null;
            legs.Add(next);
        }
        return legs;
    }

    // The pass as it can be worked on from the end of another: as it is, or back with the work turned.
    private Leg? Next(Leg? before, Leg leg)
    {
        if (before is not { } b || b.Band.Band.Thread != leg.Band.Band.Thread) return null;
        if (Reaches(b, leg)) return leg;
        return Back(leg) is { } back && Reaches(b, back) ? back : null;
    }

    private Leg? Back(Leg leg) => working.MayTurn && leg.Band.WorkedBack(leg.Pass) is { } back ? leg with { Pass = back } : null;

    private bool Reaches(Leg from, Leg to)
    {
        Bite a = from.Pass.Stitches[^1].To, b = to.Pass.Stitches[0].From;
        return Math.Abs(Pleats(from.Pass, to.Pass)) <= working.CarryPleats && Math.Abs(a.Depth - b.Depth) <= 1 + Stitch.Hair;
    }

    // From valley to valley: from where a pass leaves the thread to where it comes up for the next.
    private static int Pleats(Pass from, Pass to) => (int)Math.Round(NeedlePath.Rise(to) - NeedlePath.Left(from));

    // As few needlefuls as can be, and even, so that none is threaded for a stitch or two.
    private void Emit(Measured measured, BandThread thread, Length reach)
    {
        var parts = Split(measured, reach, usable);
        var least = measured.Length / parts.Count;
        for (var slack = 1.0; slack < 1.5 && parts.Count > 1; slack += 0.05)
        {
            Length first = reach < least * slack ? reach : least * slack, each = usable < least * slack ? usable : least * slack;
            if (Split(measured, first, each) is var even && even.Count > parts.Count) continue;
            parts = even;
            break;
        }
        var from = 0;
        foreach (var count in parts)
        {
            for (var to = from + count; from < to;)
            {
                var leg = measured.LegAt(from);
                var end = Math.Min(to, leg.End);
                steps.Add(new BandStep(leg.Band, leg.Pass, from - leg.First, end - from, thread, measured.Between(from, end))
                {
                    Carried = thread == BandThread.Carry ? measured.CarryBefore(from) : Length.Zero,
                    CarriedPleats = thread == BandThread.Carry ? Pleats(measured.LegAt(from - 1).Pass, leg.Pass) : 0,
                    CarriedSpaces = thread == BandThread.Carry ? measured[from].From.Depth - measured[from - 1].To.Depth : 0,
                    TieOff = end == to,
                });
                from = end;
                thread = BandThread.Carry;
            }
            thread = from < measured.Stitches && measured.Begins(from) ? BandThread.New : BandThread.GoesOn;
        }
    }

    // Stitches in each needleful. A thread is changed at the end of a row or at a turn where one lies in the last third it
    // reaches, and never between a catch and the way to the next.
    private static List<int> Split(Measured measured, Length reach, Length usable)
    {
        List<int> parts = [];
        for (var first = 0; first < measured.Stitches;)
        {
            var count = 1;
            while (first + count < measured.Stitches && measured.Between(first, first + count + 1) <= reach) count++;
            if (first + count < measured.Stitches) count = Break(measured, first, count);
            parts.Add(count);
            first += count;
            reach = usable;
        }
        return parts;
    }

    private static int Break(Measured measured, int first, int count)
    {
        bool Crosses(int n) => measured[first + n - 1] is var s && s.From.Pleat != s.To.Pleat;
        for (var n = count; n > count * 2 / 3; n--)
            if (measured.Begins(first + n)) return n;
        for (var n = count; n > count * 2 / 3; n--)
            if (Crosses(n) && measured[first + n - 1].IsLevel) return n;
        for (var n = count; n > 0; n--)
            if (Crosses(n)) return n;
        return count;
    }

    /// <summary>A pass among others worked on from each other.</summary>
    private readonly record struct Part(LaidBand Band, Pass Pass, int First)
    {
        public int End => First + Pass.Stitches.Length;
    }

    /// <summary>Passes worked on from each other, with the thread in their stitches and carries summed up.</summary>
    private sealed class Measured
    {
        private readonly List<Part> parts = [];
        private readonly Stitch[] stitches;
        private readonly Length[] upTo; // entry i: thread in the first i stitches and the carries before them
        private readonly Dictionary<int, Length> carries = [];

        public Measured(Work work, List<Leg> legs)
        {
            stitches = new Stitch[legs.Sum(l => l.Pass.Stitches.Length)];
            upTo = new Length[stitches.Length + 1];
            var at = 0;
            foreach (var (band, pass) in legs)
            {
                parts.Add(new Part(band, pass, at));
                foreach (var stitch in pass.Stitches)
                {
                    stitches[at] = stitch;
                    if (at > 0 && at == parts[^1].First) carries[at] = Carry(work, stitches[at - 1].To, stitch.From, Pleats(parts[^2].Pass, pass));
                    upTo[at + 1] = upTo[at] + CarryBefore(at) + BandWork.LengthOf(work, stitch);
                    at++;
                }
            }
        }

        public Stitch this[int index] => stitches[index];

        public int Stitches => stitches.Length;

        public Length Length => upTo[^1];

        /// <summary>Whether a pass begins with this stitch, another before it.</summary>
        public bool Begins(int stitch) => carries.ContainsKey(stitch);

        public Length CarryBefore(int stitch) => carries.GetValueOrDefault(stitch);

        public Part LegAt(int stitch) => parts.FindLast(p => p.First <= stitch);

        /// <summary>Thread in stitches from one to another, what is carried to the first left out.</summary>
        public Length Between(int from, int to) => upTo[to] - upTo[from] - CarryBefore(from);

        // along the pleat, then sideways, floated or cabled across
        private static Length Carry(Work work, Bite from, Bite to, int pleats)
        {
            var along = work.Pleating.Gauge.RowSpacing * Math.Abs(to.Depth - from.Depth) + BandWork.PitchAt(work, to.Depth) * Carries.Floated(pleats);
            return Carries.IsCabled(pleats) ? along + BandWork.LengthOf(work, new Stitch(StitchKind.Over, to, to with { Pleat = new(to.Pleat.Number > 1 ? to.Pleat.Number - 1 : 2) }, Level.Up)) * Carries.Cables(pleats) : along;
        }
    }
}
