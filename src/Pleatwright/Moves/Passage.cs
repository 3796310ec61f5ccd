using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Moves;

/// <summary>All the moves of a step, one after the other; each begins where the one before ended.</summary>
/// <param name="Moves">The moves.</param>
/// <param name="Turned">Whether the work is turned top to bottom for it.</param>
/// <param name="Way">1 when its stitches go right on the chart, -1 when they go left.</param>
/// <param name="Thread">Its thread.</param>
internal sealed record Passage(ImmutableArray<Move> Moves, bool Turned, int Way, Floss Thread)
{
    /// <summary>The stitches it makes, each once, in the order worked.</summary>
    public IEnumerable<int> Stitches => Moves.SelectMany(m => (int[])[m.Stitch, m.LastStitch]).Where(s => s >= 0).Distinct();

    /// <summary>The level of a move as the hands hold the work: turned, up and down are swapped.</summary>
    public Level? Held(Move move) => Turned ? move.Level?.Opposite() : move.Level;

    /// <summary>Whether the hands work from left to right, as they hold the work and see the face they work on.</summary>
    public bool Rightward(ClothSide face) => Way > 0 != Turned != (face == ClothSide.Wrong);
}
