using Pleatwright.Thread;

namespace Pleatwright.Chart;

/// <summary>
/// Cables side by side in one row, in one thread and one phase: what is worked in one go. A run of m cables lies over
/// m + 1 pleats.
/// </summary>
/// <param name="Row">Its cable row.</param>
/// <param name="From">Its leftmost valley.</param>
/// <param name="To">Its rightmost valley, no less than <paramref name="From"/>.</param>
/// <param name="Thread">Its thread.</param>
/// <param name="Phase">The phase it follows.</param>
/// <param name="HalfLeft">Whether a half stitch squares its left end.</param>
/// <param name="HalfRight">Whether a half stitch squares its right end.</param>
public readonly record struct Run(
    CableRow Row, Valley From, Valley To, ThreadKey Thread, Phase Phase, bool HalfLeft, bool HalfRight)
{
    /// <summary>Cables in it, at least 1.</summary>
    public int Cables => To.Number - From.Number + 1;

    /// <summary>Half stitches in it, 0 to 2.</summary>
    public int HalfStitches => (HalfLeft ? 1 : 0) + (HalfRight ? 1 : 0);

    /// <summary>Its leftmost pleat.</summary>
    public Pleat FirstPleat => From.LeftPleat;

    /// <summary>Its rightmost pleat.</summary>
    public Pleat LastPleat => To.RightPleat;

    /// <summary>Chart level of its leftmost cable.</summary>
    public Level LeftLevel => Lattice.LevelAt(From, Row, Phase);

    /// <summary>Chart level of its cable in a valley.</summary>
    public Level LevelAt(Valley valley) => Lattice.LevelAt(valley, Row, Phase);

    /// <summary>Whether it has a cable in this valley.</summary>
    public bool Contains(Valley valley) => valley.Number >= From.Number && valley.Number <= To.Number;
}
