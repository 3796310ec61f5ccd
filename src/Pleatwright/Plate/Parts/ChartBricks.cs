using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>The stitches of the lattice on a chart: coloured bricks.</summary>
internal static class ChartBricks
{
    private const int MostRounded = 20_000;

    /// <summary>Size of the letters on bands of this geometry, in points.</summary>
    public static double LetterPoints(ChartGeometry geometry) =>
        Math.Min(Typeface.PointsOfCap(geometry.LineHeight * 0.66), geometry.Pitch * 1.1 / Typeface.MillimetresPerPoint);

    /// <summary>Draws the bricks of a part of the chart, in the chart's own millimetres. The two lines of a row lie close, rows a little apart.</summary>
    public static ImmutableArray<Mark> Draw(ChartGeometry geometry, ChartWindow window, Look look)
    {
        var threads = geometry.Work.Piece.Threads;
        var outlines = threads.ToDictionary(t => t.Key, _ => new OutlineBuilder());
        var gap = Math.Min(0.1, geometry.LineHeight * 0.05);
        var apart = geometry.LineHeight * 0.09;
        // Round corners cost much and show little where bricks are small or very many.
        var round = geometry.LineHeight >= 1.4 && geometry.Work.Cables <= MostRounded ? geometry.LineHeight * 0.28 : 0;
        foreach (var brick in geometry.Bricks(window))
        {
            var box = brick.Box.Grown(-gap);
            var upper = (brick.Line.Index & 1) == 0;
            outlines[brick.Thread].Rounded(new Box(box.X, upper ? box.Y + apart : box.Y, box.Width, box.Height - apart), round);
        }
        var marks = ImmutableArray.CreateBuilder<Mark>();
        foreach (var thread in threads)
            if (!outlines[thread.Key].IsEmpty)
                marks.Add(new Shape(outlines[thread.Key].Build(), thread.Colour, Edge(thread.Colour, geometry, look)));
        return marks.ToImmutable();
    }

    // A thread as pale as the paper still needs an edge.
    private static Pen Edge(Colour colour, ChartGeometry geometry, Look look) =>
        new(Look.Mix(colour, look.Ink, look.Large && geometry.LineHeight > 2 ? 0.75 : 0.45), Math.Min(0.14, geometry.LineHeight * 0.07));
}
