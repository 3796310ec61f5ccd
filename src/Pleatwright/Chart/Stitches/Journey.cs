using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>A part of a journey worked without a break in one direction.</summary>
/// <param name="Centre">The valley the pattern is centred on.</param>
/// <param name="Top">Spaces below gathering row 1 at which the journey's height 0 lies.</param>
/// <param name="First">The first pleat worked.</param>
/// <param name="Last">The last pleat worked; less than <paramref name="First"/> when travelling left.</param>
/// <param name="Turned">Whether the work is turned top to bottom.</param>
/// <param name="GoesOn">Whether it goes on from the stitch in the centre valley, with the tail left there.</param>
public readonly record struct Leg(Valley Centre, double Top, Pleat First, Pleat Last, bool Turned, bool GoesOn)
{
    /// <summary>1 when it travels right on the chart, -1 when it travels left.</summary>
    public int Way => Last.Number >= First.Number ? 1 : -1;
}

/// <summary>
/// One journey of a band across the cloth: a pattern that repeats to both sides of the centre valley. Heights are in
/// quarter spaces downward from the band's top.
/// </summary>
public abstract class Journey
{
    /// <summary>Valleys from one repeat to the next, at least 1.</summary>
    public abstract int Repeat { get; }

    /// <summary>Cable rows by which it lies lower than the heights say, so that the threads of two journeys lie side by side.</summary>
    public int Drop { get; init; }

    /// <summary>The greatest height it reaches down to.</summary>
    public abstract double Bottom { get; }

    /// <summary>The least height it reaches up to.</summary>
    public virtual double Highest => 0;

    /// <summary>Stitches from its highest to its lowest, 0 when it has one height alone.</summary>
    public abstract int Slope { get; }

    /// <summary>Where the thread lies on one side of the needle all along: that side, as held, up for above; else null. What outline and stem differ in.</summary>
    internal virtual Level? Side => null;

    /// <summary>The single stitches of a leg, in the order worked.</summary>
    public abstract IEnumerable<Stitch> Work(Leg leg);

    /// <summary>The journey turned upside down.</summary>
    /// <param name="height">Quarter spaces from the band's top to its bottom.</param>
    /// <param name="drop">Cable rows by which the journey then lies lower.</param>
    public abstract Journey UpsideDown(double height, int drop);

    /// <summary>The place of an offset from the centre in a pattern that repeats to both sides.</summary>
    protected static int Wrap(int offset, int repeat) => ((offset % repeat) + repeat) % repeat;
}

/// <summary>How the thread is held along a running journey.</summary>
internal enum Hold
{
    /// <summary>Up, down, up, down from the centre valley, which is up: cables.</summary>
    Alternate,

    /// <summary>Always above the needle, as held.</summary>
    Above,

    /// <summary>Always below the needle, as held.</summary>
    Below,

    /// <summary>Below while the stitches rise and above while they fall; above at a top turn and below at a bottom turn.</summary>
    ByRise,
}

/// <summary>A journey with one stitch in every valley, pleat by pleat.</summary>
/// <param name="heights">
/// Height of the bite in each pleat of one repeat: the first is the left pleat of the centre valley, the second its right.
/// </param>
/// <param name="hold">How the thread is held.</param>
internal sealed class Running(ImmutableArray<double> heights, Hold hold) : Journey
{
    private readonly double top = heights.Min();

    /// <inheritdoc/>
    public override int Repeat => hold == Hold.Alternate && heights.Length % 2 == 1 ? heights.Length * 2 : heights.Length;

    /// <inheritdoc/>
    public override double Bottom => heights.Max();

    /// <inheritdoc/>
    public override double Highest => top;

    /// <inheritdoc/>
    public override int Slope => heights.Length / 2 - (heights.Length > 1 ? 1 : 0);

    /// <summary>Whether a row of cables begins with the other level.</summary>
    public bool Swapped { get; init; }

    /// <inheritdoc/>
    internal override Level? Side => hold switch { Hold.Above => Level.Up, Hold.Below => Level.Down, _ => null };

    /// <inheritdoc/>
    public override IEnumerable<Stitch> Work(Leg leg)
    {
        for (var p = leg.First.Number; p != leg.Last.Number; p += leg.Way)
        {
            double from = HeightAt(p, leg), to = HeightAt(p + leg.Way, leg);
            var stitch = new Stitch(StitchKind.Over,
                new Bite(new Pleat(p), leg.Top + from / 4), new Bite(new Pleat(p + leg.Way), leg.Top + to / 4), Level.Up);
            yield return stitch with { Level = LevelOf(stitch, from, leg) };
        }
    }

    /// <inheritdoc/>
    public override Journey UpsideDown(double height, int drop) => new Running([.. heights.Select(h => height - h)], hold switch
    {
        Hold.Above => Hold.Below,
        Hold.Below => Hold.Above,
        _ => hold,
    }) { Drop = drop, Swapped = !Swapped };

    private double HeightAt(int pleat, Leg leg) => heights[Wrap(pleat - leg.Centre.Number, heights.Length)];

    private Level LevelOf(Stitch stitch, double height, Leg leg) => hold switch
    {
        Hold.Alternate => (stitch.Valley.Number - leg.Centre.Number & 1) == 0 != Swapped ? Level.Up : Level.Down,
        // what the hands do is the same all along; on the chart a turned leg shows the other level
        Hold.Above => leg.Turned ? Level.Down : Level.Up,
        Hold.Below => leg.Turned ? Level.Up : Level.Down,
        // turning the work turns the slope and the level both, so on the chart the rule is the same
        _ when stitch.IsLevel => height <= top + Stitch.Hair ? Level.Up : Level.Down,
        _ => stitch.Rises ? Level.Down : Level.Up,
    };
}

/// <summary>
/// A journey that catches the two pleats of every valley together, by turns at its top and its bottom, and goes from one
/// to the other along the pleat they share.
/// </summary>
/// <param name="height">Quarter spaces from its top to its bottom.</param>
/// <param name="catches">How two pleats are caught: over them once, or twice in one place.</param>
/// <param name="between">How the thread goes from one height to the other: over the pleat or inside its fold.</param>
internal sealed class Catching(double height, StitchKind catches, StitchKind between) : Journey
{
    /// <inheritdoc/>
    public override int Repeat => 2;

    /// <inheritdoc/>
    public override double Bottom => height;

    /// <inheritdoc/>
    public override int Slope => 1;

    /// <summary>Whether the centre valley is caught at the bottom rather than the top.</summary>
    public bool CentreAtBottom { get; init; }

    /// <inheritdoc/>
    public override IEnumerable<Stitch> Work(Leg leg)
    {
        if (leg.GoesOn && leg.First != leg.Last) yield return Along(leg.First, !AtBottom(Ahead(leg.First, leg), leg), leg);
        for (var pleat = leg.First; pleat != leg.Last;)
        {
            var low = AtBottom(Ahead(pleat, leg), leg);
            var next = new Pleat(pleat.Number + leg.Way);
            var depth = DepthOf(low, leg);
            yield return new Stitch(catches, new Bite(pleat, depth), new Bite(next, depth), low ? Level.Down : Level.Up);
            if (next != leg.Last) yield return Along(next, low, leg);
            pleat = next;
        }
    }

    // Along one pleat from the bottom to the top, or the other way.
    private Stitch Along(Pleat pleat, bool fromBottom, Leg leg) =>
        new(between, new Bite(pleat, DepthOf(fromBottom, leg)), new Bite(pleat, DepthOf(!fromBottom, leg)), fromBottom ? Level.Down : Level.Up);

    private double DepthOf(bool low, Leg leg) => leg.Top + (low ? height / 4 : 0);

    private static int Ahead(Pleat pleat, Leg leg) => Math.Min(pleat.Number, pleat.Number + leg.Way);

    /// <inheritdoc/>
    public override Journey UpsideDown(double within, int drop) =>
        new Catching(height, catches, between) { Drop = drop, CentreAtBottom = !CentreAtBottom };

    private bool AtBottom(int valley, Leg leg) => (valley - leg.Centre.Number & 1) == 1 != CentreAtBottom;
}

/// <summary>
/// A journey of loops: in every valley the needle takes both pleats at a slant, and the thread is held under its point.
/// So many loops step down, then as many step up.
/// </summary>
/// <param name="height">Quarter spaces from its top to its bottom.</param>
/// <param name="steps">Loops from the top to the bottom, at least 1.</param>
internal sealed class Looping(double height, int steps) : Journey
{
    /// <summary>The part of a step that the needle's slant takes up (common practice, no source).</summary>
    public const double Slant = 1.0 / 3;

    /// <inheritdoc/>
    public override int Repeat => 2 * steps;

    /// <inheritdoc/>
    public override double Bottom => height;

    /// <inheritdoc/>
    public override int Slope => steps;

    /// <summary>Whether the centre valley lies at the bottom rather than the top.</summary>
    public bool CentreAtBottom { get; init; }

    /// <inheritdoc/>
    public override IEnumerable<Stitch> Work(Leg leg)
    {
        for (var p = leg.First.Number; p != leg.Last.Number; p += leg.Way)
        {
            var valley = Math.Min(p, p + leg.Way);
            double here = HeightAt(valley, leg), next = HeightAt(valley + leg.Way, leg);
            yield return new Stitch(StitchKind.Loop,
                new Bite(new Pleat(p), leg.Top + here / 4),
                new Bite(new Pleat(p + leg.Way), leg.Top + (here + (next - here) * Slant) / 4),
                next > here ? Level.Up : Level.Down);
        }
    }

    /// <inheritdoc/>
    public override Journey UpsideDown(double within, int drop) => new Looping(height, steps) { Drop = drop, CentreAtBottom = !CentreAtBottom };

    private double HeightAt(int valley, Leg leg)
    {
        var place = Wrap(valley - leg.Centre.Number, Repeat);
        var down = height * Math.Min(place, Repeat - place) / steps;
        return CentreAtBottom ? height - down : down;
    }
}
