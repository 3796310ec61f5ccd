using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>What is stitched of a traced picture, without what it was found from; see <see cref="Traced"/>.</summary>
internal sealed record TracedFigure(Figure Figure, ImmutableArray<Floss> Threads, int BaseRow, Phase Phase, int Cables, int Runs)
{
    /// <summary>Of a trace.</summary>
    public static implicit operator TracedFigure(Traced traced) => new(traced.Figure, traced.Threads, traced.BaseRow, traced.Phase, traced.Cables, traced.Runs);
}
