using System.Collections.Immutable;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Accents;

/// <summary>Bullion: a coil of thread from one valley to another, wound on the needle.</summary>
internal sealed class Bullion : Accent
{
    /// <inheritdoc/>
    public override string Name => "bullion";

    /// <inheritdoc/>
    public override string Manner => Told;

    /// <inheritdoc/>
    internal override ImmutableArray<(string Words, int Moves)> Parts =>
    [
        ("Bring the needle to the front at one end, ", 1),
        ("take a bite from the other end to the first, wind the thread round the needle until the coil is as long as the bite, draw through while holding the coil, ", 1),
        ("and take the needle to the back at the other end.", 1),
    ];

    /// <inheritdoc/>
    public override Choice? Size => new(2, 12, 4);

    /// <summary>Turns of thread round the needle: as many as lie side by side over its length.</summary>
    public static int Wraps(LaidAccent laid, Length pitch, Floss thread) =>
        (int)Math.Ceiling(pitch * laid.Size / (thread.Fineness.Diameter * Math.Sqrt(thread.Strands)));

    /// <inheritdoc/>
    public override IEnumerable<StitchShape> Shapes(LaidAccent laid, Gauge gauge)
    {
        var (from, to) = Ends(laid, gauge);
        yield return new StitchShape(ShapeKind.Coil, from, to, 1.6);
    }

    // Up at one end, a bite from the other end to the first, and down at the other when the coil is wound.
    internal override IEnumerable<NeedlePoint> Needle(LaidAccent laid, Gauge gauge, Hand hand)
    {
        var (from, to) = Ends(laid, gauge);
        return [new(true, from, 0), new(false, to, 0), new(true, from, 0), new(false, to, 0)];
    }

    /// <inheritdoc/>
    public override Length ThreadIn(LaidAccent laid, Length pitch, Length lineHeight, Floss thread) =>
        Wrap(thread) * Wraps(laid, pitch, thread) + pitch * laid.Size * 3;
}
