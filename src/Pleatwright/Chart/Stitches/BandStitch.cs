using System.Collections.Immutable;

namespace Pleatwright.Chart.Stitches;

/// <summary>A whole number a band may choose, and what is usual.</summary>
/// <param name="Least">The least allowed.</param>
/// <param name="Most">The most allowed.</param>
/// <param name="Usual">What is meant when the band does not say.</param>
public readonly record struct Choice(int Least, int Most, int Usual);

/// <summary>
/// A geometric stitch that can be worked as a band. Each stitch is one file in this folder; to add one, derive from
/// this and put it in <see cref="All"/>.
/// </summary>
public abstract class BandStitch
{
    /// <summary>Every stitch there is, in the order they are offered.</summary>
    public static ImmutableArray<BandStitch> All { get; } =
    [
        new CableStitch(), new OutlineStitch(), new WheatStitch(), new BabyWaveStitch(), new WaveStitch(), new TrellisStitch(),
        new DiamondStitch(), new CrossedTrellisStitch(), new HoneycombStitch(), new SurfaceHoneycombStitch(), new FeatherStitch(),
        new VandykeStitch(),
    ];

    /// <summary>The trade's word for it, as the piece file writes it.</summary>
    public abstract string Name { get; }

    /// <summary>How it is worked, in a sentence or two for the directions; which side of the needle the thread lies on is told apart from it.</summary>
    public abstract string Manner { get; }

    /// <summary>What it leaves on the back, in a few words.</summary>
    public virtual string Back => "nothing but starts and tie-offs";

    /// <summary>The steps it may take from turn to turn, or nothing when it has no choice.</summary>
    public virtual Choice? Steps => null;

    /// <summary>The quarter spaces it may be high, or nothing when it has no choice.</summary>
    public virtual Choice? Height => null;

    /// <summary>Where its working usually begins.</summary>
    public virtual WorkFrom UsualStart => WorkFrom.Side;

    /// <summary>Whether it is worked against the hand's own direction: from right to left by a right-handed maker.</summary>
    public virtual bool Backward => false;

    /// <summary>Whether a row of it looks the same when it is worked back from the other side with the work turned.</summary>
    public virtual bool MayWorkBack => true;

    /// <summary>
    /// Whether it lies on the lattice of cables, on a whole cable row, where figures may lie over it. The working order
    /// then takes its rows as it takes any others.
    /// </summary>
    public virtual bool OnLattice => false;

    /// <summary>Its journeys across the cloth, the first worked first. All have one repeat.</summary>
    /// <param name="steps">Steps from turn to turn, within <see cref="Steps"/>.</param>
    /// <param name="height">Quarter spaces high, within <see cref="Height"/>.</param>
    public abstract ImmutableArray<Journey> Journeys(int steps, int height);

    /// <summary>How far below itself it is worked again.</summary>
    /// <param name="height">Quarter spaces high.</param>
    /// <returns>Quarter spaces and, on top, cable rows.</returns>
    public virtual (double Quarters, int Rows) Nest(int height) => (0, 1);

    /// <summary>The stitch of this name, or null.</summary>
    public static BandStitch? Named(string name) => All.FirstOrDefault(s => s.Name == name);

    /// <summary>Steps this band takes from turn to turn; 0 when the stitch has none.</summary>
    public int StepsOf(Band band) => band.Steps ?? Steps?.Usual ?? 0;

    /// <summary>Quarter spaces this band is high; 0 when the stitch has no height of its own.</summary>
    public int HeightOf(Band band) => band.Height ?? Height?.Usual ?? 0;

    /// <summary>Where the working of this band begins.</summary>
    public WorkFrom StartOf(Band band) => band.WorkFrom ?? UsualStart;

    /// <summary>Whether a band may choose its ends: only where a pattern repeats.</summary>
    public bool TakesEnds(Band band) => !OnLattice && RepeatOf(band) > 1;

    /// <summary>Whether it lets the pleats spread again: a pattern that goes up and down does; cable, outline and wheat hold them (common practice, no source).</summary>
    internal bool Stretches(Band band) => TakesEnds(band);

    /// <summary>The journeys of a band, turned upside down where it asks for that.</summary>
    public ImmutableArray<Journey> JourneysOf(Band band)
    {
        var journeys = Journeys(StepsOf(band), HeightOf(band));
        if (!band.UpsideDown) return journeys;
        var bottom = journeys.Max(j => j.Bottom);
        var drop = journeys.Max(j => j.Drop);
        return [.. journeys.Select(j => j.UpsideDown(bottom, drop - j.Drop))];
    }

    /// <summary>
    /// The side of the needle on which the thread lies all along each journey of this band, as held, the first worked first; nothing where it changes sides. Books
    /// disagree which side makes outline and which stem, so wherever such a band is named this is told with it.
    /// </summary>
    internal ImmutableArray<Level> SidesOf(Band band)
    {
        var sides = JourneysOf(band).Select(j => j.Side).ToList();
        return sides.TrueForAll(s => s is not null) ? [.. sides.Select(s => s!.Value)] : [];
    }

    /// <summary>Valleys from one repeat of this band to the next.</summary>
    public int RepeatOf(Band band) => Journeys(StepsOf(band), HeightOf(band))[0].Repeat;
}
