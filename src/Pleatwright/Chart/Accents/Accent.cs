using System.Collections.Immutable;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Accents;

/// <summary>
/// A small ornament put on one valley: each is one file in this folder; to add one, derive from this and put it in
/// <see cref="All"/>. How they are worked is common practice, no source.
/// </summary>
public abstract class Accent
{
    /// <summary>Every accent there is, in the order they are offered.</summary>
    public static ImmutableArray<Accent> All { get; } = [new Bullion(), new Knot(), new DetachedChain(), new Flowerette()];

    /// <summary>Thickness of the needle that thread is wound round (embroidery needle, from memory).</summary>
    protected static Length NeedleThickness => Length.FromMillimetres(0.8);

    /// <summary>The trade's word for it, as the piece file writes it.</summary>
    public abstract string Name { get; }

    /// <summary>How it is worked, in a sentence or two for the directions; {up} and {down} stand for the levels, whatever they are called.</summary>
    public abstract string Manner { get; }

    /// <summary>What <see cref="Manner"/> says, part by part, each with the needle's moves that it tells.</summary>
    internal abstract ImmutableArray<(string Words, int Moves)> Parts { get; }

    /// <summary>The parts in one sentence.</summary>
    private protected string Told => string.Concat(Parts.Select(p => p.Words));

    /// <summary>The pleats it may be long, or nothing when it has no choice.</summary>
    public virtual Choice? Size => null;

    /// <summary>Whether it may stand along its valley instead of lying across: only where it is long.</summary>
    internal bool MayBeUpright => Size is not null;

    /// <summary>Pleats it spans across the cloth, an even count, for the check that it lies on the cloth.</summary>
    public virtual int Across(LaidAccent laid) => laid.Mark.Upright ? 2 : Math.Max(2, laid.Size);

    /// <summary>How it is drawn.</summary>
    /// <param name="laid">Where it lies.</param>
    /// <param name="gauge">How the cloth is gathered: an upright accent is as long as one across.</param>
    public abstract IEnumerable<StitchShape> Shapes(LaidAccent laid, Gauge gauge);

    /// <summary>The needle's way through the cloth, in the order worked.</summary>
    /// <param name="laid">Where it lies.</param>
    /// <param name="gauge">How the cloth is gathered.</param>
    /// <param name="hand">The hand that works it.</param>
    internal abstract IEnumerable<NeedlePoint> Needle(LaidAccent laid, Gauge gauge, Hand hand);

    /// <summary>Thread in it, start and tie-off apart.</summary>
    /// <param name="laid">Where it lies.</param>
    /// <param name="pitch">Pitch of the pleats where it lies.</param>
    /// <param name="lineHeight">Height of one line, half a cable row.</param>
    /// <param name="thread">Its thread.</param>
    public abstract Length ThreadIn(LaidAccent laid, Length pitch, Length lineHeight, Floss thread);

    /// <summary>The accent of this name, or null.</summary>
    public static Accent? Named(string name) => All.FirstOrDefault(a => a.Name == name);

    /// <summary>Thread once round the needle, the ribbon's own thickness counted.</summary>
    protected static Length Wrap(Floss thread) => (NeedleThickness + thread.Fineness.Diameter * Math.Sqrt(thread.Strands)) * Math.PI;

    /// <summary>The two ends of an accent of a length in pleats, across or upright about its place.</summary>
    protected static (ChartPlace From, ChartPlace To) Ends(LaidAccent laid, Gauge gauge)
    {
        double x = laid.Valley.Number, y = StitchDrawing.Down(laid.Depth, gauge.CableRowsPerSpace);
        if (!laid.Mark.Upright) return (new(x - laid.Size / 2.0, y), new(x + laid.Size / 2.0, y));
        var half = laid.Size / 2.0 * (gauge.Pitch / gauge.LineHeight);
        return (new(x, y - half), new(x, y + half));
    }
}
