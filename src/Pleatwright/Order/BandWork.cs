using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order;

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
        var turned = false;
        foreach (var step in steps)
        {
            if (step.Starts) Starts++;
            if (step.Pass.Turned != turned) Turns++;
            turned = step.Pass.Turned;
            Carried += step.Carried;
        }
        if (turned) Turns++; // the runs begin with the top edge up
    }

    /// <summary>The work.</summary>
    public Work Work { get; }

    /// <summary>The steps of the bands, in order.</summary>
    public ImmutableArray<BandStep> Steps { get; }

    /// <summary>The accents that lie on the cloth, in order.</summary>
    public ImmutableArray<AccentStep> Accents { get; }

    /// <summary>Thread starts of the bands.</summary>
    public int Starts { get; }

    /// <summary>Times the work is turned over for the bands, and back after them.</summary>
    public int Turns { get; }

    /// <summary>Thread carried on the back from one row of a band to the next.</summary>
    public Length Carried { get; }

    /// <summary>Times a needle is threaded for accents: several may be worked with one needleful.</summary>
    public int AccentNeedlefuls => Accents.Count(a => a.Threads);

    /// <summary>Plans it.</summary>
    public static BandWork Of(Work work)
    {
        if (work.Bands.IsEmpty && work.Accents.IsEmpty) return new BandWork(work, [], []);
        var rests = new RestPool(work.Piece.Working); // of bands and accents
        var steps = WithRests(work, new BandNeedlefuls(work).Share(work.Bands.OrderBy(b => b.Highest).ThenBy(b => b.Index)), rests);
        return new BandWork(work, steps, AccentsOf(work, rests));
    }

    /// <summary>Adds what bands and accents use of a thread to what the runs use of it.</summary>
    public ThreadUse With(ThreadUse use)
    {
        if (Steps.IsEmpty && Accents.IsEmpty) return use;
        var tails = Work.Piece.Working.Tails;
        var key = use.Thread.Key;
        foreach (var step in Steps)
        {
            if (step.Band.Band.Thread != key) continue;
            use = use with
            {
                BandStitches = use.BandStitches + step.Count,
                Length = use.Length + step.Takes + (step.Starts ? tails : Length.Zero),
                Needlefuls = use.Needlefuls + (step.Threads ? 1 : 0),
            };
        }
        foreach (var accent in Accents)
        {
            if (accent.Laid.Mark.Thread != key) continue;
            use = use with { Accents = use.Accents + 1, Length = use.Length + accent.Length + tails, Needlefuls = use.Needlefuls + (accent.Threads ? 1 : 0) };
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

    /// <summary>Pitch of the pleats at so many spaces below gathering row 1.</summary>
    internal static Length PitchAt(Work work, double depth) =>
        work.Pleating.PitchAt((int)Math.Round(depth * work.Pleating.Gauge.CableRowsPerSpace));

    // What is left of a needleful after its tie-off serves the next start of its thread that it reaches. Of one worked from the centre, two ends
    // are left, and neither counts.
    private static ImmutableArray<BandStep> WithRests(Work work, ImmutableArray<BandStep> steps, RestPool rests)
    {
        var working = work.Piece.Working;
        var done = steps.ToBuilder();
        for (int from = 0, to; from < done.Count; from = to)
        {
            to = from + 1;
            var takes = working.Tails + steps[from].Takes;
            for (; to < done.Count && !steps[to - 1].TieOff; to++) takes += steps[to].Takes;
            if (!steps[from].Starts) continue;
            var (thread, withTail, need) = (steps[from].Band.Band.Thread, steps[from].Thread == BandThread.NewWithTail, RestPool.Micrometres(takes));
            var rest = withTail ? null : rests.Take(thread, need);
            done[from] = steps[from] with { Threads = rest is null, RestFrom = rest?.Step ?? 0 };
            if (!withTail) rests.LayBy(thread, new(0, (rest?.Left ?? RestPool.Micrometres(working.WorkingLength)) - need, to));
        }
        return done.ToImmutable();
    }

    // What is left of the bands' needlefuls and of the accents' own serves the next accents of its thread.
    private static ImmutableArray<AccentStep> AccentsOf(Work work, RestPool rests)
    {
        var working = work.Piece.Working;
        var steps = ImmutableArray.CreateBuilder<AccentStep>();
        // along a row the way the hand goes
        var inOrder = working.Hand == Hand.Left ? work.Accents.GroupBy(a => a.Index).SelectMany(g => g.OrderByDescending(a => a.Valley.Number)) : work.Accents;
        foreach (var accent in inOrder)
        {
            if (!accent.IsOnCloth(work)) continue;
            var length = accent.Accent.ThreadIn(accent, PitchAt(work, accent.Depth), work.Pleating.Gauge.LineHeight, work.Piece.Thread(accent.Mark.Thread)!) * working.ThreadFactor;
            var need = RestPool.Micrometres(length + working.Tails);
            var rest = rests.Take(accent.Mark.Thread, need);
            rests.LayBy(accent.Mark.Thread, new(0, (rest?.Left ?? RestPool.Micrometres(working.WorkingLength)) - need, 0));
            steps.Add(new AccentStep(accent, length, rest is null));
        }
        return steps.ToImmutable();
    }
}
