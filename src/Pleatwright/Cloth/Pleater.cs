using System.Collections.Immutable;

namespace Pleatwright.Cloth;

/// <summary>A pleater, the rolling frame of needles that gathers several rows in one pass.</summary>
/// <param name="Rows">Rows its needles gather at once, <see cref="LeastRows"/> to <see cref="MostRows"/>.</param>
/// <param name="Overlap">
/// Rows already gathered that run in its first grooves again on the next pass and keep the rows in step, 0 to one less
/// than <paramref name="Rows"/>; 1 by common practice, no source.
/// </param>
public readonly record struct Pleater(int Rows, int Overlap)
{
    /// <summary>The fewest rows a pleater takes.</summary>
    public const int LeastRows = 2;

    /// <summary>The most rows a pleater may take here.</summary>
    public const int MostRows = 200;

    /// <summary>Overlap when the maker says nothing: 1 (common practice, no source).</summary>
    public const int UsualOverlap = 1;

    /// <summary>The passes for so many rows; a single one when they all fit.</summary>
    /// <param name="rows">Rows to gather, holding rows among them, at least 1.</param>
    /// <exception cref="InvalidOperationException">The overlap leaves no row to gather.</exception>
    public ImmutableArray<Pass> Passes(int rows)
    {
        if (Overlap < 0 || Overlap >= Rows) throw new InvalidOperationException($"An overlap of {Overlap} leaves a pleater of {Rows} rows nothing to gather.");
        var passes = ImmutableArray.CreateBuilder<Pass>();
        for (var first = 1; ; first = passes[^1].Last + 1)
        {
            var again = passes.Count == 0 ? 0 : Overlap;
            passes.Add(new Pass(first, Math.Min(rows, first + Rows - again - 1), again));
            if (passes[^1].Last == rows) return passes.ToImmutable();
        }
    }
}

/// <summary>One pass through the pleater.</summary>
/// <param name="First">First row newly gathered, from 1 at the top with the holding rows counted.</param>
/// <param name="Last">Last row newly gathered.</param>
/// <param name="Again">Rows of the pass before that run through again above the first.</param>
public readonly record struct Pass(int First, int Last, int Again)
{
    /// <summary>Rows newly gathered.</summary>
    public int Rows => Last - First + 1;

    /// <summary>Needles threaded or run through.</summary>
    public int Needles => Rows + Again;
}
