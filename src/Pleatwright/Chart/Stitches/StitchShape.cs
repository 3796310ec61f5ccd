namespace Pleatwright.Chart.Stitches;

/// <summary>A place on the chart, whatever its scale.</summary>
/// <param name="Across">Pleats from the left edge of pleat 1; valley v lies at v.</param>
/// <param name="Down">Lines (half cable rows) from the upper edge of cable row 0.</param>
public readonly record struct ChartPlace(double Across, double Down);

/// <summary>What kind of mark a stitch makes.</summary>
public enum ShapeKind
{
    /// <summary>A straight length of thread.</summary>
    Bar,

    /// <summary>Thread hidden inside a fold; it shows on the back alone.</summary>
    Hidden,

    /// <summary>A round knot; both places are its middle.</summary>
    Knot,

    /// <summary>A loop: a drop with its point where it begins and its belly where it ends.</summary>
    Drop,

    /// <summary>A coil of thread from end to end.</summary>
    Coil,
}

/// <summary>How a stitch is drawn.</summary>
/// <param name="Kind">What kind of mark it is.</param>
/// <param name="From">Where it begins.</param>
/// <param name="To">Where it ends.</param>
/// <param name="Width">Its width in lines.</param>
public readonly record struct StitchShape(ShapeKind Kind, ChartPlace From, ChartPlace To, double Width);

/// <summary>Draws stitches, later ones over earlier ones.</summary>
internal static class StitchDrawing
{
    /// <summary>Where a depth lies down the chart, in lines: gathering row 1 runs between the two lines of cable row 0.</summary>
    /// <param name="depth">Spaces below gathering row 1.</param>
    /// <param name="cableRowsPerSpace">Cable rows in one space.</param>
    public static double Down(double depth, int cableRowsPerSpace) => depth * 2 * cableRowsPerSpace + 1;

    /// <summary>The shapes of a pass, in the order worked.</summary>
    public static IEnumerable<StitchShape> Shapes(Pass pass, int cableRowsPerSpace) => OfStitches(pass, cableRowsPerSpace).Select(s => s.Shape);

    /// <summary>The shapes of a pass, in the order worked, each with the stitch it belongs to, counted from 0.</summary>
    /// <remarks>
    /// Where the thread leaves a bite decides how a stitch slants. With the thread above the needle it ends above the
    /// bite, else below it; the next stitch comes out on the other side of what just ended there. So cables lie level,
    /// and outline, whose stitches all end on one side, slants like a rope.
    /// </remarks>
    public static IEnumerable<(int Stitch, StitchShape Shape)> OfStitches(Pass pass, int cableRowsPerSpace)
    {
        var lastSide = SideBefore(pass);
        ChartPlace? lastLoop = null;
        for (var i = 0; i < pass.Stitches.Length; i++)
        {
            var stitch = pass.Stitches[i];
            double from = Down(stitch.From.Depth, cableRowsPerSpace), to = Down(stitch.To.Depth, cableRowsPerSpace);
            var side = SideOf(stitch);
            // A half stitch lies over one pleat alone, along the way of its row.
            var way = stitch.Kind == StitchKind.Over && stitch.From.Pleat == stitch.To.Pleat ? NeedlePath.WayOf(pass) : Math.Sign(stitch.To.Pleat.Number - stitch.From.Pleat.Number);
            double near = Edge(stitch.From.Pleat, -way), far = Edge(stitch.To.Pleat, way);
            switch (stitch.Kind)
            {
                case StitchKind.Over:
                    yield return (i, new StitchShape(ShapeKind.Bar, new(near, from - lastSide), new(far, to + side), OverWidth(stitch, lastSide, side)));
                    break;
                case StitchKind.Catch:
                    yield return (i, new StitchShape(ShapeKind.Bar, new(near + 0.4 * way, from - 0.5), new(far - 0.4 * way, to - 0.5), 0.85));
                    yield return (i, new StitchShape(ShapeKind.Bar, new(near + 0.4 * way, from + 0.5), new(far - 0.4 * way, to + 0.5), 0.85));
                    break;
                case StitchKind.Bar:
                    yield return (i, new StitchShape(ShapeKind.Bar, new(near, from), new(near, to), 0.7));
                    break;
                case StitchKind.Slip:
                    yield return (i, new StitchShape(ShapeKind.Hidden, new(near, from), new(near, to), 0.4));
                    break;
                default:
                    var end = new ChartPlace(far, to);
                    if (lastLoop is { } last) yield return (i, new StitchShape(ShapeKind.Bar, last, end, 0.55));
                    yield return (i, new StitchShape(ShapeKind.Bar, new(near, from), end, 0.55));
                    lastLoop = end;
                    break;
            }
            lastSide = side;
        }
    }

    /// <summary>What shows on the back where the needle goes through a pleat: a bit of thread, shown there alone.</summary>
    public static IEnumerable<StitchShape> Bites(Pass pass, int cableRowsPerSpace)
    {
        yield return Bit(pass.Stitches[0].From);
        foreach (var stitch in pass.Stitches)
            if (stitch.To.Pleat != stitch.From.Pleat || stitch.Kind == StitchKind.Bar) yield return Bit(stitch.To);

        StitchShape Bit(Bite bite)
        {
            var down = Down(bite.Depth, cableRowsPerSpace);
            return new StitchShape(ShapeKind.Hidden, new(bite.Pleat.Number - 0.65, down), new(bite.Pleat.Number - 0.35, down), 0.6);
        }
    }

    // The side on which a stitch before the first would have ended: a row begins as it goes on. Only a cable or a turn,
    // which lies level and is not followed by its like, has the other side before it.
    private static double SideBefore(Pass pass)
    {
        var first = pass.Stitches[0];
        var rope = pass.Stitches.Length > 1 && pass.Stitches[1] is { IsLevel: true } next && next.Level == first.Level;
        return first.IsLevel && !rope && !pass.GoesOn ? -SideOf(first) : SideOf(first);
    }

    private static double SideOf(Stitch stitch) => stitch.Level == Level.Up ? -0.5 : 0.5;

    // Cables fill their line. Along a row with the thread on one side each stitch lies over half of the last, as thick as it is, and two such lines touch;
    // where steps overlap in one pleat each has half of it.
    private static double OverWidth(Stitch stitch, double lastSide, double side) =>
        !stitch.IsLevel ? 0.6 : lastSide != side ? 0.9 : 1;

    private static double Edge(Pleat pleat, int side) => pleat.Number - 0.5 + 0.5 * side;
}
