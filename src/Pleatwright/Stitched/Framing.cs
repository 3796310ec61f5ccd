using System.Numerics;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Stitched;

/// <summary>Frames one figure so that neither it nor anything beside it is cut.</summary>
internal static class Framing
{
    private const double Around = 0.16; // of the longer side, left free round the figure

    /// <summary>
    /// The frame of a figure: of its copies the one nearest the middle of the piece, with some cloth round it. What else would be cut is left out
    /// where there is room to, and taken in whole where there is not; only what runs right across the piece goes on beyond it to both sides.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="figure">The figure's name.</param>
    /// <returns>Null where no copy of it lies in sight.</returns>
    public static Frame? Of(StitchedPiece piece, string figure)
    {
        var whole = piece.Whole;
        var things = Things(piece);
        var middle = new Vector2((float)(whole.X + whole.Width / 2), (float)(whole.Y + whole.Height / 2));
        var own = things.Where(t => t.Figure == figure).OrderBy(t => Vector2.Distance(middle, new Vector2((float)(t.Box.X + t.Box.Width / 2), (float)(t.Box.Y + t.Box.Height / 2)))).FirstOrDefault();
        if (own is null) return null;
        var frame = own.Box.Grown(Math.Max(2 * piece.Field.Pitch, Around * Math.Max(own.Box.Width, own.Box.Height))).Within(whole);
        var least = own.Box.Grown(0.4 * piece.Field.LineHeight).Within(whole);
        var others = things.Where(t => t != own).ToList();
        foreach (var other in others)
            if (frame.Meets(other.Box) && !Shows(frame, other)) frame = Without(frame, least, other);
        // What is left is taken in; that may cut something else, until nothing is.
        for (var before = default(Frame); before != frame;)
        {
            before = frame;
            foreach (var other in others)
                if (frame.Meets(other.Box) && !Shows(frame, other))
                    frame = (other.Across ? Frame.Of(frame.X, Math.Min(frame.Y, other.Box.Y), frame.Right, Math.Max(frame.Bottom, other.Box.Bottom)) : frame.With(other.Box)).Within(whole);
        }
        return frame;
    }

    /// <summary>What is stitched, each thing with the box it lies in, so far as it is in sight; a band that fits the cloth lies across it.</summary>
    internal sealed record Thing(string? Figure, Frame Box, bool Across);

    /// <summary>Every copy of every figure, every band and every accent that is in sight.</summary>
    internal static List<Thing> Things(StitchedPiece piece)
    {
        var work = piece.Work;
        var field = piece.Field;
        var (first, last) = field.Surface.Seen(field.Pleats);
        var things = new List<Thing>();
        var straight = field.Surface.IsStraight;
        var perSpace = work.Pleating.Gauge.CableRowsPerSpace;
        foreach (var footprint in work.Footprints)
        {
            if (footprint.Width == 0) continue;
            for (var copy = 0; copy < footprint.Placement.Repeat.Count; copy++)
            {
                var from = footprint.From.Number + copy * footprint.Placement.Repeat.Every;
                Add(footprint.Figure.Name, from - 1, footprint.Top.Index * 2, from + footprint.Width, footprint.Bottom.Index * 2 + 2);
            }
        }
        foreach (var band in work.Piece.Bands)
        {
            if (BandStitch.Named(band.Stitch) is not { OnLattice: true } stitch) continue;
            var fit = BandFit.Of(stitch, band, work.Pleating);
            var top = (float)StitchDrawing.Down(LaidBand.TopOf(band, perSpace), perSpace) - 1;
            Add(null, fit.First.Number - 1, top, fit.Last.Number, top + 2 * band.Rows);
        }
        foreach (var band in work.Bands)
            if (!band.Passes.IsEmpty) Add(null, band.Fit.First.Number - 1, Down(band.Highest) - 1, band.Fit.Last.Number, Down(band.Lowest) + 1);
        foreach (var accent in work.Accents)
        {
            float half = accent.Accent.Across(accent) / 2f, high = accent.Mark.Upright ? half * (float)(field.Pitch / field.LineHeight) : 1;
            Add(null, accent.Valley.Number - half, Down(accent.Depth) - high - 1, accent.Valley.Number + half, Down(accent.Depth) + high + 1);
        }
        return things;

        float Down(double depth) => (float)StitchDrawing.Down(depth, perSpace);

        void Add(string? figure, float left, float top, float right, float bottom)
        {
            (left, right) = (Math.Max(left, first - 1), Math.Min(right, last));
            (top, bottom) = (Math.Max(top, 0), Math.Min(bottom, 2 * work.CableRows));
            if (left >= right || top >= bottom) return;
            Vector2 least = new(float.PositiveInfinity), most = new(float.NegativeInfinity);
            const int steps = 8;
            for (var i = 0; i <= steps; i++)
                for (var j = 0; j <= steps; j++)
                {
                    if (straight && i % steps != 0 && j % steps != 0) continue; // the edges are enough
                    var p = field.Place(left + (right - left) * i / steps, top + (bottom - top) * j / steps);
                    (least, most) = (Vector2.Min(least, p), Vector2.Max(most, p));
                }
            things.Add(new Thing(figure, new Frame(least.X, least.Y, most.X - least.X, most.Y - least.Y), figure is null && right - left > field.Pleats * 2f / 3));
        }
    }

    /// <summary>Whether a thing is not cut by a frame: it lies in it, or beside it, or runs through it from side to side.</summary>
    internal static bool Shows(Frame frame, Thing thing) =>
        !frame.Meets(thing.Box) || frame.Holds(thing.Box) || (thing.Across && frame with { X = thing.Box.X, Width = thing.Box.Width } is var wide && wide.Holds(thing.Box));

    // The frame drawn in as little as may be so that a thing lies outside, as long as it holds what it must.
    private static Frame Without(Frame frame, Frame least, Thing other)
    {
        var box = other.Box;
        ReadOnlySpan<Frame> ways =
        [
            Frame.Of(frame.X, frame.Y, Math.Min(frame.Right, box.X), frame.Bottom),
            Frame.Of(Math.Max(frame.X, box.Right), frame.Y, frame.Right, frame.Bottom),
            Frame.Of(frame.X, frame.Y, frame.Right, Math.Min(frame.Bottom, box.Y)),
            Frame.Of(frame.X, Math.Max(frame.Y, box.Bottom), frame.Right, frame.Bottom),
        ];
        var best = frame;
        var area = 0.0;
        foreach (var way in ways)
            if (way.Width > 0 && way.Height > 0 && way.Holds(least) && way.Width * way.Height > area) (best, area) = (way, way.Width * way.Height);
        return best;
    }
}
