using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Accents;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>How a step of a band gets its thread.</summary>
public enum BandThread
{
    /// <summary>A new needleful.</summary>
    New,

    /// <summary>A new needleful at the centre, half of it left hanging at the back for the other half of the band.</summary>
    NewWithTail,

    /// <summary>The half left hanging at the centre.</summary>
    Tail,

    /// <summary>A new needleful where the one before ran out.</summary>
    GoesOn,
}

/// <summary>Stitches of a band worked with one thread, in one direction.</summary>
/// <param name="Band">The band.</param>
/// <param name="Pass">The pass they belong to.</param>
/// <param name="First">The first of them, counted from 0 in the pass.</param>
/// <param name="Count">How many, at least 1.</param>
/// <param name="Thread">How the thread comes.</param>
/// <param name="Length">Thread in them, tails apart.</param>
public sealed record BandStep(LaidBand Band, Pass Pass, int First, int Count, BandThread Thread, Length Length)
{
    /// <summary>The first stitch.</summary>
    public Stitch Begin => Pass.Stitches[First];

    /// <summary>The last stitch.</summary>
    public Stitch End => Pass.Stitches[First + Count - 1];

    /// <summary>Whether the pass goes on after it with another needleful.</summary>
    public bool Continues => First + Count < Pass.Stitches.Length;

    /// <summary>Whether it begins a needleful.</summary>
    public bool Starts => Thread != BandThread.Tail;
}

/// <summary>One accent, worked with a thread of its own that is begun and fastened there.</summary>
/// <param name="Laid">The accent in its place.</param>
/// <param name="Length">Thread in it, tails apart.</param>
public readonly record struct AccentStep(LaidAccent Laid, Length Length);

/// <summary>
/// The geometric stitches of a work in the order worked: bands from the top down, journey by journey, then accents, which
/// lie over everything.
/// </summary>
public sealed class BandWork
{
    private BandWork(Work work, ImmutableArray<BandStep> steps, ImmutableArray<AccentStep> accents)
    {
        Work = work;
        Steps = steps;
        Accents = accents;
    }

    /// <summary>The work.</summary>
    public Work Work { get; }

    /// <summary>The steps of the bands, in order.</summary>
    public ImmutableArray<BandStep> Steps { get; }

    /// <summary>The accents that lie on the cloth, in order.</summary>
    public ImmutableArray<AccentStep> Accents { get; }

    /// <summary>Plans it.</summary>
    public static BandWork Of(Work work)
    {
        if (work.Bands.IsEmpty && work.Accents.IsEmpty) return new BandWork(work, [], []);
        var steps = ImmutableArray.CreateBuilder<BandStep>();
        foreach (var band in work.Bands.OrderBy(b => b.Highest).ThenBy(b => b.Index)) Add(work, band, steps);
        return new BandWork(work, steps.ToImmutable(), [.. work.Accents.Where(a => a.IsOnCloth(work)).Select(a => new AccentStep(a, LengthOf(work, a)))]);
    }

    /// <summary>Adds what bands and accents use of a thread to what the runs use of it.</summary>
    public ThreadUse With(ThreadUse use)
    {
        if (Steps.IsEmpty && Accents.IsEmpty) return use;
        var working = Work.Piece.Working;
        var key = use.Thread.Key;
        foreach (var step in Steps)
        {
            if (step.Band.Band.Thread != key) continue;
            use = use with
            {
                BandStitches = use.BandStitches + step.Count,
                Length = use.Length + step.Length + (step.Starts ? working.Tails : Length.Zero),
                Needlefuls = use.Needlefuls + (step.Starts ? 1 : 0),
            };
        }
        var left = Length.Zero; // of the needleful in hand
        foreach (var accent in Accents)
        {
            if (accent.Laid.Mark.Thread != key) continue;
            var takes = accent.Length + working.Tails;
            var fresh = takes > left;
            if (fresh) left = working.WorkingLength;
            left = takes < left ? left - takes : Length.Zero;
            use = use with { Accents = use.Accents + 1, Length = use.Length + takes, Needlefuls = use.Needlefuls + (fresh ? 1 : 0) };
        }
        return use;
    }

    /// <summary>Thread in one stitch of a band.</summary>
    public static Length LengthOf(Work work, Stitch stitch)
    {
        var gauge = work.Pleating.Gauge;
        var pitch = PitchAt(work, (stitch.From.Depth + stitch.To.Depth) / 2);
        var drop = gauge.RowSpacing * stitch.Drop;
        return stitch.Kind switch
        {
            StitchKind.Over => Usage.Slanting(pitch, gauge.LineHeight, drop),
            StitchKind.Catch => Usage.Catch(pitch),
            StitchKind.Loop => Usage.Loop(pitch, drop),
            var kind => Usage.Along(pitch, drop, kind == StitchKind.Bar),
        } * work.Piece.Working.ThreadFactor;
    }

    private static Length LengthOf(Work work, LaidAccent accent) =>
        accent.Accent.ThreadIn(accent, PitchAt(work, accent.Depth), work.Pleating.Gauge.LineHeight, work.Piece.Thread(accent.Mark.Thread)!)
        * work.Piece.Working.ThreadFactor;

    private static Length PitchAt(Work work, double depth) =>
        work.Pleating.PitchAt((int)Math.Round(depth * work.Pleating.Gauge.CableRowsPerSpace));

    private static void Add(Work work, LaidBand band, ImmutableArray<BandStep>.Builder steps)
    {
        var usable = work.Piece.Working.WorkingLength - work.Piece.Working.Tails;
        for (var i = 0; i < band.Passes.Length; i++)
        {
            var pass = new Measured(work, band.Passes[i]);
            if (i + 1 < band.Passes.Length && band.Passes[i + 1].GoesOn)
            {
                var other = new Measured(work, band.Passes[++i]);
                // one needleful for both halves when it reaches, else half of it on each side of the centre
                var both = pass.Length + other.Length <= usable;
                Share(band, pass, BandThread.NewWithTail, both ? usable : usable / 2, usable, steps);
                Share(band, other, BandThread.Tail, both ? usable : usable / 2, usable, steps);
            }
            else
            {
                Share(band, pass, pass.Pass.GoesOn ? BandThread.Tail : BandThread.New, usable, usable, steps);
            }
        }
    }

    // Shares a pass among as few needlefuls as can be, and evenly, so that none is threaded for a stitch or two.
    private static void Share(LaidBand band, Measured pass, BandThread thread, Length reach, Length usable, ImmutableArray<BandStep>.Builder steps)
    {
        var parts = Split(pass, reach, usable);
        var least = pass.Length / parts.Count;
        for (var slack = 1.0; slack < 1.5 && parts.Count > 1; slack += 0.05)
        {
            Length first = reach < least * slack ? reach : least * slack, each = usable < least * slack ? usable : least * slack;
            if (Split(pass, first, each) is var even && even.Count > parts.Count) continue;
            parts = even;
            break;
        }
        var from = 0;
        foreach (var count in parts)
        {
            steps.Add(new BandStep(band, pass.Pass, from, count, thread, pass.Between(from, from + count)));
            from += count;
            thread = BandThread.GoesOn;
        }
    }

    // Stitches in each needleful. A thread is changed at a turn where one lies in the last third it reaches, and never
    // between a catch and the way to the next.
    private static List<int> Split(Measured pass, Length reach, Length usable)
    {
        List<int> parts = [];
        for (var first = 0; first < pass.Stitches;)
        {
            var count = 1;
            while (first + count < pass.Stitches && pass.Between(first, first + count + 1) <= reach) count++;
            if (first + count < pass.Stitches) count = Break(pass.Pass, first, count);
            parts.Add(count);
            first += count;
            reach = usable;
        }
        return parts;
    }

    private static int Break(Pass pass, int first, int count)
    {
        bool Crosses(int n) => pass.Stitches[first + n - 1] is var s && s.From.Pleat != s.To.Pleat;
        for (var n = count; n > count * 2 / 3; n--)
            if (n > 0 && Crosses(n) && pass.Stitches[first + n - 1].IsLevel) return n;
        for (var n = count; n > 0; n--)
            if (Crosses(n)) return n;
        return count;
    }

    /// <summary>A pass with the thread in its stitches summed up.</summary>
    private sealed class Measured
    {
        private readonly Length[] upTo; // entry i: thread in the first i stitches

        public Measured(Work work, Pass pass)
        {
            Pass = pass;
            upTo = new Length[pass.Stitches.Length + 1];
            for (var i = 0; i < pass.Stitches.Length; i++) upTo[i + 1] = upTo[i] + LengthOf(work, pass.Stitches[i]);
        }

        public Pass Pass { get; }

        public int Stitches => Pass.Stitches.Length;

        public Length Length => upTo[^1];

        public Length Between(int from, int to) => upTo[to] - upTo[from];
    }
}
