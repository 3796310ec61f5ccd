using System.Collections.Immutable;
using Pleatwright.Chart.Accents;
using Pleatwright.Cloth;
using Pleatwright.Thread;

namespace Pleatwright.Chart;

/// <summary>What to do about gathering rows with no stitching on the front.</summary>
public enum Backsmocking
{
    /// <summary>
    /// Right across every gathering row that no stitching on the front holds right across, as support behind the figures; but not below
    /// the design of a bishop, which stays free to flare.
    /// </summary>
    Auto,

    /// <summary>Plan none; the proof still points to unheld rows.</summary>
    None,

    /// <summary>Only where nothing is stitched on the front: rows without a stitch, and long gaps beside figures.</summary>
    Gaps,

    /// <summary>As <see cref="Auto"/>, and below the design of a bishop too.</summary>
    All,
}

/// <summary>
/// A piece: the cloth, the threads, the figures, and where they go. This is what a piece file holds, no more and no less.
/// </summary>
/// <param name="Title">Its title, at most <see cref="LongestTitle"/> characters.</param>
/// <param name="Cloth">Its cloth.</param>
/// <param name="Threads">Its threads, each with a letter of its own, in the order of the key.</param>
/// <param name="Figures">Its figures, each with a name of its own.</param>
/// <param name="Placements">The figures put on the cloth; later ones lie over earlier ones.</param>
public sealed record Piece(
    string Title,
    ClothPlan Cloth,
    ImmutableArray<Floss> Threads,
    ImmutableArray<Figure> Figures,
    ImmutableArray<Placement> Placements)
{
    /// <summary>The most characters a title may have.</summary>
    public const int LongestTitle = 200;

    /// <summary>Whose design it is.</summary>
    public Credit Credit { get; init; } = Credit.None;

    /// <summary>What the maker calls the size this piece is cut for; empty when it has no name.</summary>
    public string SizeName { get; init; } = "";

    /// <summary>Geometric bands; they lie under the figures.</summary>
    public ImmutableArray<Band> Bands { get; init; } = [];

    /// <summary>Accents; they lie over everything else.</summary>
    public ImmutableArray<AccentMark> Accents { get; init; } = [];

    /// <summary>What to do about unheld gathering rows.</summary>
    public Backsmocking Back { get; init; }

    /// <summary>Which phase the piece follows; a placement may flip it.</summary>
    public Phase Phase { get; init; }

    /// <summary>How the maker means to work it.</summary>
    public Working Working { get; init; } = new();

    /// <summary>More sizes of the same design; see <see cref="SizeTable"/>.</summary>
    public ImmutableArray<Size> Sizes { get; init; } = [];

    /// <summary>What was measured on swatches. It changes nothing until <see cref="Calibrated"/> applies it.</summary>
    public ImmutableArray<Swatch> Swatches { get; init; } = [];

    /// <summary>What the swatches say, or null when there are none.</summary>
    public Calibration? Calibration => Pleatwright.Cloth.Calibration.Of(Swatches, Cloth.Gauge, Working.Tails);

    /// <summary>
    /// The piece with the gauge and the thread factor its swatches give (the factor held to what
    /// <see cref="Working.ThreadFactor"/> allows); itself when there are none.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The swatches give a take-up less than their pitch.</exception>
    public Piece Calibrated() => Calibration is not { } found ? this : this with
    {
        Cloth = Cloth with { Gauge = found.Applied(Cloth.Gauge) },
        Working = found.ThreadFactor is { } factor
            ? Working with { ThreadFactor = Math.Clamp(factor.Value, Working.LeastThreadFactor, Working.MostThreadFactor) }
            : Working,
    };

    /// <summary>The thread of this letter, or null.</summary>
    public Floss? Thread(ThreadKey key) => Threads.FirstOrDefault(t => t.Key == key);

    /// <summary>The figure of this name, or null.</summary>
    public Figure? Figure(string name) => Figures.FirstOrDefault(f => f.Name == name);
}
