using Pleatwright.Chart;

namespace Pleatwright.Proof;

/// <summary>A remedy that can be done at one press: safe, and the only sensible one of its kind.</summary>
/// <param name="Words">What it does, short enough for a button.</param>
/// <param name="Apply">Does it; for the very piece that was proofed.</param>
public sealed record Mend(string Words, Func<Piece, Piece> Apply);
