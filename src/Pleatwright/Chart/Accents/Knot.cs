using System.Collections.Immutable;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Accents;

/// <summary>Knot: thread wound twice round the needle and drawn down beside where it came up.</summary>
internal sealed class Knot : Accent
{
    /// <inheritdoc/>
    public override string Name => "knot";

    /// <inheritdoc/>
    public override string Manner => Told;

    /// <inheritdoc/>
    internal override ImmutableArray<(string Words, int Moves)> Parts =>
    [
        ("Bring the needle to the front in the valley, ", 1),
        ("wind the thread twice round it, and take it to the back through the pleat beside it while holding the thread taut.", 1),
    ];

    /// <inheritdoc/>
    public override IEnumerable<StitchShape> Shapes(LaidAccent laid, Gauge gauge)
    {
        var at = new ChartPlace(laid.Valley.Number, StitchDrawing.Down(laid.Depth, gauge.CableRowsPerSpace));
        yield return new StitchShape(ShapeKind.Knot, at, at, 1.8);
    }

    internal override IEnumerable<NeedlePoint> Needle(LaidAccent laid, Gauge gauge, Hand hand)
    {
        var down = StitchDrawing.Down(laid.Depth, gauge.CableRowsPerSpace);
        return [new(true, new(laid.Valley.Number, down), 0), new(false, new(laid.Valley.Number + 0.5, down), 0)];
    }

    /// <inheritdoc/>
    public override Length ThreadIn(LaidAccent laid, Length pitch, Length lineHeight, Floss thread) => Wrap(thread) * 2 + pitch * 2;
}
