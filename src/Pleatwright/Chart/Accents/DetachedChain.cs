using System.Collections.Immutable;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Accents;

/// <summary>Detached chain: a single loop held down by a tiny stitch; its point lies left, or upright at the top.</summary>
internal sealed class DetachedChain : Accent
{
    /// <inheritdoc/>
    public override string Name => "detached chain";

    /// <inheritdoc/>
    public override string Manner => Told;

    /// <inheritdoc/>
    internal override ImmutableArray<(string Words, int Moves)> Parts =>
    [
        ("Bring the needle to the front at the point of the loop, ", 1),
        ("take it to the back in the same place and to the front at the loop’s other end over the thread, ", 1),
        ("and hold the loop there with a tiny stitch.", 1),
    ];

    /// <inheritdoc/>
    public override Choice? Size => new(1, 8, 2);

    /// <inheritdoc/>
    public override IEnumerable<StitchShape> Shapes(LaidAccent laid, Gauge gauge)
    {
        var (from, to) = Ends(laid, gauge);
        yield return new StitchShape(ShapeKind.Drop, from, to, 1.8);
    }

    // Round the loop from its point, and down just beyond its other end over the thread.
    internal override IEnumerable<NeedlePoint> Needle(LaidAccent laid, Gauge gauge, Hand hand)
    {
        var (from, to) = Ends(laid, gauge);
        ChartPlace beyond = new(to.Across + (to.Across - from.Across) * 0.2, to.Down + (to.Down - from.Down) * 0.2);
        return [new(true, from, 0), new(false, from, 0), new(true, to, 0), new(false, beyond, 0)];
    }

    /// <inheritdoc/>
    public override Length ThreadIn(LaidAccent laid, Length pitch, Length lineHeight, Floss thread) => pitch * (laid.Size * 3 + 1);
}
