using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Cloth;

namespace Pleatwright.Plate.Parts;

/// <summary>Lays a flat picture of the cloth onto its form: a bishop on its arcs, a ball seen from the front.</summary>
internal static class Bending
{
    /// <summary>Width and height of the form's picture at life size, in millimetres, or null when it lies flat.</summary>
    public static Box? View(Work work, ChartWindow window)
    {
        var height = work.Pleating.Gauge.CableRowHeight.Millimetres;
        return SurfaceOf(work).View(DepthAt(work, window.FirstRow * height), DepthAt(work, (window.LastRow + 1) * height)) is var (x, y, width, down) ? new Box(x, y, width, down) : null;
    }

    /// <summary>The pleats that can be seen: of a ball those in front, else all.</summary>
    public static ChartWindow Seen(Work work, ChartWindow window)
    {
        var (first, last) = SurfaceOf(work).Seen(work.Pleating.Pleats);
        return window with { FirstPleat = Math.Max(first, window.FirstPleat), LastPleat = Math.Min(last, window.LastPleat) };
    }

    /// <summary>What the work lies on.</summary>
    public static Surface SurfaceOf(Work work) => work.Piece.Cloth.Form.SurfaceOf(work.Piece.Cloth);

    /// <summary>
    /// Depth below gathering row 1, in millimetres, of a place on a flat chart at life size: that row runs along the middle of
    /// cable row 0, half a row below the chart's upper edge.
    /// </summary>
    public static double DepthAt(Work work, double flatY) => flatY - work.Pleating.Gauge.CableRowHeight.Millimetres / 2;

    /// <summary>The box of a ring's share, so far to either side of straight down.</summary>
    public static Box Sector(double inner, double outer, double half)
    {
        var (x, y, width, height) = FanSurface.Sector(inner, outer, half);
        return new Box(x, y, width, height);
    }

    /// <summary>Bends marks drawn flat. The flat picture and the bent one are equally many times life size.</summary>
    /// <param name="geometry">Where everything lies on the flat picture.</param>
    /// <param name="marks">Shapes and lettering; anything else is left as it is.</param>
    public static ImmutableArray<Mark> Bend(ChartGeometry geometry, ImmutableArray<Mark> marks)
    {
        var work = geometry.Work;
        var times = geometry.LineHeight / work.Pleating.Gauge.LineHeight.Millimetres;
        var surface = SurfaceOf(work);
        var left = geometry.LeftOf(new Pleat(1));
        var width = geometry.Pitch * work.Pleating.Pleats;
        // Long lines are laid on in short pieces; on a bishop those down the pleats stay straight.
        return Bend(marks, Move, new Spot(geometry.Pitch * 1.5, surface.IsStraightDown ? double.PositiveInfinity : geometry.RowHeight * 3));

        Spot Move(Spot flat)
        {
            var (x, y) = surface.Place((flat.X - left) / width, DepthAt(work, flat.Y / times), times);
            return new Spot(x, y);
        }
    }

    /// <summary>Moves every spot of marks.</summary>
    /// <param name="marks">Shapes and lettering; anything else is left as it is.</param>
    /// <param name="move">Where a spot goes.</param>
    /// <param name="step">Lines longer than this are laid on in pieces.</param>
    public static ImmutableArray<Mark> Bend(ImmutableArray<Mark> marks, Func<Spot, Spot> move, Spot step) =>
    [
        .. marks.Select(m => m switch
        {
            Shape shape => shape with { Outline = Bend(shape.Outline, move, step) },
            Lettering lettering => lettering with { At = move(lettering.At) },
            _ => m,
        }),
    ];

    private static Outline Bend(Outline flat, Func<Spot, Spot> move, Spot step)
    {
        var bent = new OutlineBuilder();
        Spot start = default, at = default;
        for (int i = 0, s = 0; i < flat.Strokes.Length; i++)
            switch (flat.Strokes[i])
            {
                case Stroke.Move:
                    start = at = flat.Spots[s++];
                    var begin = move(at);
                    bent.MoveTo(begin.X, begin.Y);
                    break;
                case Stroke.Line:
                    To(flat.Spots[s++]);
                    break;
                case Stroke.Curve:
                    bent.CurveTo(move(flat.Spots[s]), move(flat.Spots[s + 1]), move(flat.Spots[s + 2]));
                    at = flat.Spots[s + 2];
                    s += 3;
                    break;
                default:
                    if (at != start && (Math.Abs(at.X - start.X) > step.X || Math.Abs(at.Y - start.Y) > step.Y)) To(start);
                    bent.Close();
                    at = start;
                    break;
            }
        return bent.Build();

        void To(Spot end)
        {
            var parts = (int)Math.Clamp(Math.Max(Math.Abs(end.X - at.X) / step.X, Math.Abs(end.Y - at.Y) / step.Y), 0, 5000) + 1;
            for (var part = 1; part <= parts; part++)
            {
                var spot = move(new Spot(at.X + (end.X - at.X) * part / parts, at.Y + (end.Y - at.Y) * part / parts));
                bent.LineTo(spot.X, spot.Y);
            }
            at = end;
        }
    }
}
