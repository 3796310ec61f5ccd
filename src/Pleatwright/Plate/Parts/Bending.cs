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
        switch (work.Piece.Cloth.Form)
        {
            case Round round:
                double outer = Radius(work, round, window.LastRow + 1), inner = Radius(work, round, window.FirstRow);
                return Sector(inner, outer, round.Sweep.Radians / 2);
            case Ball ball:
                var radius = ball.Diameter.Millimetres / 2;
                return new Box(-radius, -radius, 2 * radius, 2 * radius);
            default:
                return null;
        }
    }

    /// <summary>The pleats that can be seen: of a ball those in front, else all.</summary>
    public static ChartWindow Seen(Work work, ChartWindow window) => work.Piece.Cloth.Form is not Ball ? window : window with
    {
        FirstPleat = work.Pleating.Pleats / 4 + 1,
        LastPleat = work.Pleating.Pleats - work.Pleating.Pleats / 4,
    };

    /// <summary>
    /// Depth below gathering row 1, in millimetres, of a place on a flat chart at life size: that row runs along the middle of
    /// cable row 0, half a row below the chart's upper edge.
    /// </summary>
    public static double DepthAt(Work work, double flatY) => flatY - work.Pleating.Gauge.CableRowHeight.Millimetres / 2;

    /// <summary>The box of a ring's share, so far to either side of straight down.</summary>
    public static Box Sector(double inner, double outer, double half)
    {
        var across = half >= Math.PI / 2 ? outer : outer * Math.Sin(half);
        // The highest spot: on the outer arc when the share passes a half turn, else on an end of the inner one.
        var top = Math.Min(half > Math.PI / 2 ? outer * Math.Cos(half) : inner * Math.Cos(half), inner);
        return new Box(-across, top, 2 * across, outer - top);
    }

    /// <summary>Bends marks drawn flat. The flat picture and the bent one are equally many times life size.</summary>
    /// <param name="geometry">Where everything lies on the flat picture.</param>
    /// <param name="marks">Shapes and lettering; anything else is left as it is.</param>
    public static ImmutableArray<Mark> Bend(ChartGeometry geometry, ImmutableArray<Mark> marks)
    {
        var work = geometry.Work;
        var times = geometry.LineHeight / work.Pleating.Gauge.LineHeight.Millimetres;
        var cloth = work.Piece.Cloth;
        var left = geometry.LeftOf(new Pleat(1));
        var width = geometry.Pitch * work.Pleating.Pleats;
        Func<Spot, Spot> move = cloth.Form switch
        {
            Round round => flat => Arcs.At(
                Math.Max(0, round.NeckRadius.Millimetres + DepthAt(work, flat.Y / times)) * times, ((flat.X - left) / width - 0.5) * round.Sweep.Radians),
            Ball ball => flat =>
            {
                var polar = Math.Clamp(ball.PolarAngleAt(cloth, Measure.Length.FromMillimetres(DepthAt(work, flat.Y / times))).Radians, 0, Math.PI);
                double round = ((flat.X - left) / width - 0.5) * 2 * Math.PI, radius = ball.Diameter.Millimetres / 2 * times;
                return new Spot(radius * Math.Sin(polar) * Math.Sin(round), -radius * Math.Cos(polar));
            },
            _ => flat => flat,
        };
        // Long lines are laid on in short pieces; on a bishop those down the pleats stay straight.
        return Bend(marks, move, new Spot(geometry.Pitch * 1.5, cloth.Form is Round ? double.PositiveInfinity : geometry.RowHeight * 3));
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

    private static double Radius(Work work, Round round, int row) =>
        Math.Max(0, round.NeckRadius.Millimetres + DepthAt(work, row * work.Pleating.Gauge.CableRowHeight.Millimetres));

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
