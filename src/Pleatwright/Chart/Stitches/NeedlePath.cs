namespace Pleatwright.Chart.Stitches;

/// <summary>A place where the needle goes through the front of the cloth.</summary>
/// <param name="Up">Whether it comes to the front there; else it goes in.</param>
/// <param name="At">Where.</param>
/// <param name="Toward">1 when it lies at the left edge of the pleat it goes through, -1 at the right edge; 0 where it goes through no one pleat.</param>
internal readonly record struct NeedlePoint(bool Up, ChartPlace At, int Toward);

/// <summary>
/// The needle's way through the cloth, point by point in the order worked. From a point where it comes up to one where it goes in the thread
/// lies on the front; from one where it goes in to the next the needle is inside a pleat or a fold, or behind the cloth.
/// </summary>
internal static class NeedlePath
{
    /// <summary>The way of the stitches of a pass, each point with the stitch it belongs to, counted from 0.</summary>
    /// <remarks>
    /// It begins as every row does: up in the valley between the first two pleats, in again there, and through the first pleat, so that the thread
    /// leaves its outer side. From then on every bite goes through its pleat against the way of travel; a loop's takes both pleats along it.
    /// </remarks>
    public static IEnumerable<(int Stitch, NeedlePoint Point)> Of(Pass pass, int cableRowsPerSpace)
    {
        var first = pass.Stitches[0];
        var way = WayOf(pass);
        yield return (0, Point(true, first.From, way));
        if (first.Kind != StitchKind.Loop)
        {
            yield return (0, Point(false, first.From, way));
            yield return (0, Point(true, first.From, -way));
        }
        for (var i = 0; i < pass.Stitches.Length; i++)
        {
            var stitch = pass.Stitches[i];
            switch (stitch.Kind)
            {
                case StitchKind.Loop:
                    yield return (i, Point(false, stitch.From, -way));
                    yield return (i, Point(true, stitch.To, way));
                    break;
                case StitchKind.Catch:
                    yield return (i, Point(false, stitch.To, way));
                    yield return (i, Point(true, stitch.From, -way));
                    yield return (i, Point(false, stitch.To, way));
                    // a slip takes the needle on from here, inside the fold
                    if (i + 1 == pass.Stitches.Length || pass.Stitches[i + 1].Kind != StitchKind.Slip) yield return (i, Point(true, stitch.To, -way));
                    break;
                case StitchKind.Slip:
                    if (i == 0 || pass.Stitches[i - 1].Kind != StitchKind.Catch) yield return (i, Point(false, stitch.From, way));
                    yield return (i, Point(true, stitch.To, -way));
                    break;
                default:
                    yield return (i, Point(false, stitch.To, way));
                    yield return (i, Point(true, stitch.To, -way));
                    break;
            }
        }

        NeedlePoint Point(bool up, Bite bite, int side) =>
            new(up, new ChartPlace(bite.Pleat.Number - 0.5 + 0.5 * side, StitchDrawing.Down(bite.Depth, cableRowsPerSpace)), -side);
    }

    /// <summary>Across, the valley where the needle comes up for a pass; the first point of its way.</summary>
    public static double Rise(Pass pass) => pass.Stitches[0].From.Pleat.Number - 0.5 + 0.5 * WayOf(pass);

    /// <summary>Across, the valley where the last stitch of a pass leaves the needle; the last point of its way. A loop's goes along the way, every other bite against it.</summary>
    public static double Left(Pass pass) => pass.Stitches[^1].To.Pleat.Number - 0.5 + 0.5 * WayOf(pass) * (pass.Stitches[^1].Kind == StitchKind.Loop ? 1 : -1);

    /// <summary>1 when a pass travels right on the chart, -1 when it travels left.</summary>
    public static int WayOf(Pass pass)
    {
        foreach (var stitch in pass.Stitches)
            if (stitch.To.Pleat != stitch.From.Pleat) return Math.Sign(stitch.To.Pleat.Number - stitch.From.Pleat.Number);
        return 1;
    }
}
