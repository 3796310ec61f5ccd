using System.Collections.Immutable;
using Pleatwright.Chart;
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

    /// <summary>The thread's letter once for every stretch of its colour that hangs together, on the run of it nearest the row that is worked first.</summary>
    public static IEnumerable<Mark> Letters(ChartGeometry geometry, ChartWindow window)
    {
        var points = Math.Round(LetterPoints(geometry), 2);
        if (points < SmallestLetter) yield break;
        var work = geometry.Work;
        var bottom = Math.Min(window.LastRow, work.CableRows - 1);
        for (var y = Math.Max(0, window.FirstRow); y <= bottom; y++)
            foreach (var i in Patches.Of(work).LetteredIn(new CableRow(y)))
            {
                var run = work.Runs[i];
                var valley = new Valley(run.From.Number + Math.Min(2, run.Cables / 2));
                var box = geometry.CableBox(valley, run.Row, run.LevelAt(valley));
                if (valley.Number < window.FirstPleat || valley.Number >= window.LastPleat) continue;
                var thread = work.Piece.Thread(run.Thread)!;
                var style = new TypeStyle(Face.TextBold, points, thread.Colour.LetterOn);
                if (run.Cables > 2)
                {
                    style = style with { Points = Math.Round(Math.Max(points, Math.Min(9, Typeface.PointsOfCap(geometry.RowHeight * 0.45))), 2) };
                    box = new Box(box.X, geometry.RowHeight * run.Row.Index, box.Width, geometry.RowHeight);
                    yield return new Shape(Outline.Circle(box.Centre, Math.Min(geometry.RowHeight * 0.47, style.Points * Typeface.MillimetresPerPoint * 0.6)), thread.Colour, new Pen(Colour.White, 0.2));
                }
                yield return new Lettering(new Spot(box.Centre.X, box.Centre.Y + Typeface.CapHeight(style) / 2), run.Thread.ToString(), style, Anchor.Middle);
            }
    }

    // A thread as pale as the paper still needs an edge.
    private static Pen Edge(Colour colour, ChartGeometry geometry, Look look) =>
        new(Look.Mix(colour, look.Ink, look.Large && geometry.LineHeight > 2 ? 0.75 : 0.45), Math.Min(0.14, geometry.LineHeight * 0.07));
}
