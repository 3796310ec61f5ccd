using System.Collections.Immutable;
using Pleatwright.Chart.Stitches;
using Pleatwright.Cloth;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Accents;

/// <summary>
/// Flowerette of cables: down, up, down over four pleats, and a fourth cable close under the up one, so that four petals
/// lie on three lines.
/// </summary>
internal sealed class Flowerette : Accent
{
    /// <inheritdoc/>
    public override string Name => "flowerette";

    /// <inheritdoc/>
    public override string Manner => Told;

    /// <inheritdoc/>
    internal override ImmutableArray<(string Words, int Moves)> Parts =>
    [
        ("Over four pleats work three cables, {down}, {up} and {down}; ", 5),
        ("then bring the needle to the front between the two middle pleats ", 2),
        ("and close the flower with a fourth, {down}, over them.", 2),
    ];

    /// <inheritdoc/>
    public override int Across(LaidAccent laid) => 4;

    /// <inheritdoc/>
    public override IEnumerable<StitchShape> Shapes(LaidAccent laid, Gauge gauge)
    {
        double x = laid.Valley.Number, y = StitchDrawing.Down(laid.Depth, gauge.CableRowsPerSpace);
        yield return Cable(x - 1, y);
        yield return Cable(x, y - 1);
        yield return Cable(x + 1, y);
        yield return Cable(x, y + 1);
    }

    // A row of three cables, then a row of one, each begun as every row is.
    internal override IEnumerable<NeedlePoint> Needle(LaidAccent laid, Gauge gauge, Hand hand)
    {
        var depth = laid.Depth;
        var way = hand == Hand.Left ? -1 : 1;
        Stitch Over(int valley, double down, Level level) =>
            new(StitchKind.Over, new(way > 0 ? new Valley(valley).LeftPleat : new Valley(valley).RightPleat, down), new(way > 0 ? new Valley(valley).RightPleat : new Valley(valley).LeftPleat, down), level);
        var x = laid.Valley.Number;
        var three = new Stitches.Pass(0, 0, false, false, [Over(x - way, depth, Level.Down), Over(x, depth, Level.Up), Over(x + way, depth, Level.Down)]);
        var one = new Stitches.Pass(0, 0, false, false, [Over(x, depth + 0.5 / gauge.CableRowsPerSpace, Level.Down)]);
        List<NeedlePoint> path = [.. NeedlePath.Of(three, gauge.CableRowsPerSpace).Select(p => p.Point)];
        return [.. path, path[^1] with { Up = false }, .. NeedlePath.Of(one, gauge.CableRowsPerSpace).Select(p => p.Point)];
    }

    /// <inheritdoc/>
    public override Length ThreadIn(LaidAccent laid, Length pitch, Length lineHeight, Floss thread) =>
        Usage.Cable(pitch, lineHeight) * 4 + pitch * 2;

    private static StitchShape Cable(double valley, double line) => new(ShapeKind.Bar, new(valley - 1, line), new(valley + 1, line), 0.9);
}
