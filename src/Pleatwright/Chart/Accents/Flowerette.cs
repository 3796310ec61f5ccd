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
    public override string Manner => "Over four pleats work three cables, {down}, {up} and {down}; then bring the needle to the front between the two middle pleats and close the flower with a fourth, {down}, over them.";

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

    /// <inheritdoc/>
    public override Length ThreadIn(LaidAccent laid, Length pitch, Length lineHeight, Floss thread) =>
        Usage.Cable(pitch, lineHeight) * 4 + pitch * 2;

    private static StitchShape Cable(double valley, double line) => new(ShapeKind.Bar, new(valley - 1, line), new(valley + 1, line), 0.9);
}
