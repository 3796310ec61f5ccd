using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>The stitches of the lattice on a chart: coloured bricks with the letter of their thread.</summary>
internal static class ChartBricks
{
    /// <summary>Letters smaller than this many points are left out: nobody could read them.</summary>
    public const double SmallestLetter = 4.5;

    private const int MostRounded = 20_000;

    /// <summary>Size of the letters on bricks of this geometry, in points.</summary>
    public static double LetterPoints(ChartGeometry geometry) =>
        Math.Min(Typeface.PointsOfCap(geometry.LineHeight * 0.66), geometry.Pitch * 1.1 / Typeface.MillimetresPerPoint);

    /// <summary>Draws the bricks of a part of the chart, in the chart's own millimetres.</summary>
    public static ImmutableArray<Mark> Draw(ChartGeometry geometry, ChartWindow window, Look look)
    {
        var threads = geometry.Work.Piece.Threads;
        var outlines = threads.ToDictionary(t => t.Key, _ => new OutlineBuilder());
        var points = LetterPoints(geometry);
        var styles = threads.ToDictionary(t => t.Key, t => new TypeStyle(Face.TextBold, Math.Round(points, 2), t.Colour.LetterOn));
        var letters = new List<Mark>();
        var gap = Math.Min(0.12, geometry.LineHeight * 0.06);
        // Round corners cost much and show little where bricks are small or very many.
        var round = geometry.LineHeight >= 1.4 && geometry.Work.Cables <= MostRounded ? geometry.LineHeight * 0.28 : 0;
        foreach (var brick in geometry.Bricks(window))
        {
            outlines[brick.Thread].Rounded(brick.Box.Grown(-gap), round);
            if (points < SmallestLetter) continue;
            var centre = brick.Box.Centre;
            var style = styles[brick.Thread];
            letters.Add(new Lettering(new Spot(centre.X, centre.Y + Typeface.CapHeight(style) / 2), brick.Thread.ToString(), style, Anchor.Middle));
        }
        var marks = ImmutableArray.CreateBuilder<Mark>();
        foreach (var thread in threads)
            if (!outlines[thread.Key].IsEmpty)
                marks.Add(new Shape(outlines[thread.Key].Build(), thread.Colour, Edge(thread.Colour, geometry, look)));
        marks.AddRange(letters);
        return marks.ToImmutable();
    }

    // A thread as pale as the paper still needs an edge.
    private static Pen Edge(Colour colour, ChartGeometry geometry, Look look) =>
        new(Look.Mix(colour, look.Ink, look.Large && geometry.LineHeight > 2 ? 0.75 : 0.45), Math.Min(0.14, geometry.LineHeight * 0.07));
}
