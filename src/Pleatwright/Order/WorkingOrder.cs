using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>The order in which to work every run, and what it costs.</summary>
public sealed class WorkingOrder
{
    private readonly Layout layout;
    private readonly Lazy<int> lowerBound;
    private int[]? before;
    private Dictionary<int, Length>? longerBy;
    private int? longestWait;
    private int? needles;
    private Backsmock? backsmock;
    private BandWork? bands;

    internal WorkingOrder(Layout layout, ImmutableArray<Step> steps, Lazy<int> lowerBoundStarts, IReadOnlyDictionary<ClusterKey, Planning.Solution> solved, Effort effort)
    {
        this.layout = layout;
        Work = layout.Work;
        BaseRow = steps.IsEmpty ? layout.Work.Piece.Working.BaseRow ?? new CableRow(0) : steps[0].Row;
        Steps = steps;
        lowerBound = lowerBoundStarts;
        Solved = solved;
        Effort = effort;
        var turned = false;
        foreach (var step in steps)
        {
            if (step.Starts == StartKind.New) Starts++;
            else if (steps[step.Number - 2].Needleful != step.Needleful) TakeUps++;
            if (step.Threads) CutLengths++;
            if (step.Turned != turned) Turns++;
            turned = step.Turned;
            Carried += step.Carried;
        }
    }

    /// <summary>The work ordered.</summary>
    public Work Work { get; }

    /// <summary>The row worked first.</summary>
    public CableRow BaseRow { get; }

    /// <summary>The steps, in order; empty when nothing is worked.</summary>
    public ImmutableArray<Step> Steps { get; }

    /// <summary>Thread starts of the steps: needlefuls of the runs, bands and accents apart.</summary>
    public int Starts { get; }

    /// <summary>The way of working it keeps to.</summary>
    public WayOfWorking Way => layout.Way;

    /// <summary>Times a thread that was left hanging is taken up again.</summary>
    public int TakeUps { get; }

    /// <summary>
    /// The most rows that are begun while a thread waits, up to the one in which it is taken up again: 0 when it is in the same row.
    /// </summary>
    public int LongestWaitRows => longestWait ??= FindLongestWait();

    /// <summary>
    /// Needles threaded at once: the one in hand, and one for each thread left hanging, which stays in its needle until it is taken up; 0 where nothing is
    /// worked. A half left hanging at a band's centre has none: it is threaded when it is taken up.
    /// </summary>
    internal int Needles => needles ??= FindNeedles();

    /// <summary>Lengths of thread cut for the steps: less than their starts, where rests are used again.</summary>
    public int CutLengths { get; }

    /// <summary>Times the work is turned over from one step of the runs to the next.</summary>
    public int Turns { get; }

    /// <summary>Thread carried on the back from run to run.</summary>
    public Length Carried { get; }

    /// <summary>Times the work is turned top to bottom in all: for backsmocking, bands and runs, and back for the accents.</summary>
    public int TurnsInAll => Turns + Bands.Turns + Backsmock.Turns + (TurnsBackForAccents ? 1 : 0);

    /// <summary>Thread carried in all, of runs, bands and backsmocking.</summary>
    public Length CarriedInAll => Carried + Bands.Carried + Backsmock.Carried;

    /// <summary>Whether the runs leave the work turned and accents follow, which are worked with the top edge up.</summary>
    internal bool TurnsBackForAccents => !Bands.Accents.IsEmpty && Steps is [.., { Turned: true }];

    /// <summary>No order of the runs can have fewer starts than this.</summary>
    public int LowerBoundStarts => lowerBound.Value;

    /// <summary>The areas and ways by which the order goes outward.</summary>
    internal Outward Outward => layout.Outward;

    /// <summary>Borders and figures, in the order they are worked.</summary>
    internal Parts Parts => layout.Parts;

    /// <summary>How long it was sought.</summary>
    public Effort Effort { get; }

    /// <summary>Clusters solved on the way, for the next planning.</summary>
    internal IReadOnlyDictionary<ClusterKey, Planning.Solution> Solved { get; }

    /// <summary>Runs whose fixed place in the order could not be kept: no run is there, or the place is taken or past the last.</summary>
    public ImmutableArray<FixedPlace> UnkeptPlaces => layout.Pins.Unkept;

    /// <summary>Number of the step that last used a step's thread, or 0 when it starts anew.</summary>
    public int LastStepOf(Step step)
    {
        before ??= FindBefore();
        return before[step.Number - 1];
    }

    /// <summary>Which run of the order a step is, from 1: a run worked with several needlefuls is one.</summary>
    public int PlaceOf(Step step)
    {
        var place = 0;
        foreach (var s in Steps.AsSpan()[..step.Number])
            if (!s.Continues) place++;
        return place;
    }

    /// <summary>Whether a step travels from left to right on the chart.</summary>
    public bool TravelsRight(Step step) => step.From == step.To
        ? step.Turned == (Work.Piece.Working.Hand == Hand.Left)
        : step.From.Number < step.To.Number;

    /// <summary>The wrong side: every start, carry and tie-off, in the order worked.</summary>
    public ImmutableArray<BackPath> BackPaths() => BackPath.Of(this);

    private int FindNeedles()
    {
        if (Needlefuls == 0) return 0;
        var (most, waiting) = (1, new HashSet<int>());
        foreach (var step in Steps)
        {
            waiting.Remove(step.Needleful);
            most = Math.Max(most, waiting.Count + 1);
            if (step.Parks) waiting.Add(step.Needleful);
        }
        return most;
    }

    private int FindLongestWait()
    {
        var rowOf = new int[Steps.Length];
        var longest = 0;
        for (var i = 1; i < rowOf.Length; i++)
        {
            rowOf[i] = rowOf[i - 1] + (Steps[i].Row == Steps[i - 1].Row && layout.Parts.Of(Steps[i].RunIndex) == layout.Parts.Of(Steps[i - 1].RunIndex) ? 0 : 1);
            if (Steps[i].Starts == StartKind.Carry && Steps[i].Needleful != Steps[i - 1].Needleful)
                longest = Math.Max(longest, rowOf[i] - rowOf[LastStepOf(Steps[i]) - 1]);
        }
        return longest;
    }

    private int[] FindBefore()
    {
        var last = new int[Starts + 1];
        var found = new int[Steps.Length];
        foreach (var step in Steps)
        {
            if (step.Starts == StartKind.Carry) found[step.Number - 1] = last[step.Needleful];
            last[step.Needleful] = step.Number;
        }
        return found;
    }

    /// <summary>What is cabled on the back, before anything else; its thread is counted apart from the piece's own.</summary>
    public Backsmock Backsmock => backsmock ??= Backsmock.Of(Work);

    /// <summary>The bands off the lattice, worked before the runs, and the accents, worked after them.</summary>
    public BandWork Bands => bands ??= BandWork.Of(Work);

    /// <summary>How much longer than usual the length is cut that a needle is threaded with for a step; nothing where none is.</summary>
    internal Length LongerBy(Step step)
    {
        if (!step.Threads) return Length.Zero;
        longerBy ??= Rests.LongerBy(layout, Steps);
        return longerBy.GetValueOrDefault(step.Needleful);
    }

    /// <summary>Threads begun in all: for runs, bands, accents and backsmocking.</summary>
    public int Needlefuls => Starts + Bands.Starts + Bands.AccentNeedlefuls + Backsmock.Needlefuls;

    /// <summary>What is used of each thread of the piece, in the order of its key.</summary>
    public ImmutableArray<ThreadUse> ThreadUses()
    {
        var threads = Work.Piece.Threads;
        var cables = new int[threads.Length];
        var halves = new int[threads.Length];
        var starts = new int[threads.Length];
        var (cut, longer) = (new int[threads.Length], new int[threads.Length]);
        var length = new Length[threads.Length];
        var indexOf = new int[128];
        for (var i = 0; i < threads.Length; i++) indexOf[threads[i].Key.Letter] = i;
        foreach (var step in Steps)
        {
            var i = indexOf[step.Thread.Letter];
            cables[i] += step.Cables;
            halves[i] += step.HalfStitches;
            length[i] += Work.CableThread(step.Row) * step.Cables + Work.HalfStitchThread(step.Row) * step.HalfStitches + step.Carried;
            if (step.Starts == StartKind.New) starts[i]++;
            if (!step.Threads) continue;
            cut[i]++;
            if (LongerBy(step) > Length.Zero) longer[i]++;
        }
        var uses = ImmutableArray.CreateBuilder<ThreadUse>(threads.Length);
        for (var i = 0; i < threads.Length; i++)
            uses.Add(Bands.With(new ThreadUse(threads[i], cables[i], halves[i], length[i] + Work.Piece.Working.Tails * starts[i], cut[i])
            {
                LongerNeedlefuls = longer[i],
                LongerBy = longer[i] > 0 ? Work.Piece.Working.Longer : Length.Zero,
            }));
        return uses.MoveToImmutable();
    }

    /// <summary>How every needleful is cut, the backsmocking's last: what is spare of one serves the next.</summary>
    /// <exception cref="ArgumentException">A skein is shorter than one needleful.</exception>
    public CuttingPlan Cutting() => CuttingPlan.Of(
        Backsmock.Rows.IsEmpty ? ThreadUses() : [.. ThreadUses(), Backsmock.Use with { Thread = Backsmock.Thread with { Key = default, Name = "near the cloth’s colour, for the back" } }],
        Work.Piece.Working.WorkingLength);
}
