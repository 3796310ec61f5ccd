using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Thread;

namespace Pleatwright.Plate.Parts;

/// <summary>The piece as it will look: pleats in light and shade, and the threads lying over them.</summary>
internal static class StitchedPicture
{
    /// <summary>Draws the finished cloth, holding rows and all, without seam pleats.</summary>
    /// <param name="work">The work.</param>
    /// <param name="width">Width of the picture in millimetres, more than 0.</param>
    public static Drawing Draw(Work work, double width)
    {
        if (Bending.View(work, Cloth(work)) is { } view) return DrawBent(work, width, view);
        var times = width / (work.Pleating.Pleats * work.Pleating.Gauge.Pitch.Millimetres);
        return Draw(ChartGeometry.Scaled(work, times), Cloth(work));
    }

    /// <summary>How high the picture is that is so many millimetres wide.</summary>
    public static double HeightOf(Work work, double width)
    {
        if (Bending.View(work, Cloth(work)) is { } view) return view.Height * width / view.Width;
        return ChartGeometry.Scaled(work, width / (work.Pleating.Pleats * work.Pleating.Gauge.Pitch.Millimetres)).BoxOf(Cloth(work)).Height;
    }

    /// <summary>The picture as large as may be, so many millimetres wide and high at the most.</summary>
    public static Drawing Within(Work work, double width, double height) => Draw(work, Math.Min(width, width * height / HeightOf(work, width)));

    private static Drawing DrawBent(Work work, double width, Box life)
    {
        var times = width / life.Width;
        var geometry = ChartGeometry.Scaled(work, times);
        var flat = Draw(geometry, Bending.Seen(work, Cloth(work))).Marks;
        var view = new Box(life.X * times, life.Y * times, width, life.Height * times);
        // Past the gathered rows a ball is the smooth cloth drawn up to its poles.
        if (Bending.SurfaceOf(work).Backdrop is { } smooth)
            flat = [new Shape(Outline.Circle(view.Centre, smooth * times), Look.Darker(work.Piece.Cloth.Colour, 0.12)), .. Bending.Bend(geometry, flat)];
        else flat = Bending.Bend(geometry, flat);
        return new Drawing(view, flat);
    }

    /// <summary>Draws a part of the finished cloth.</summary>
    public static Drawing Draw(ChartGeometry geometry, ChartWindow window)
    {
        var view = geometry.BoxOf(window);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        DrawPleats(geometry, window, view, marks);
        marks.AddRange(ThreadShapes.Bands(geometry, window, null));
        DrawThreads(geometry, window, marks);
        marks.AddRange(ThreadShapes.Accents(geometry, window, null));
        return new Drawing(view, marks.ToImmutable());
    }

    /// <summary>All the finished cloth: no seam pleats, but the holding rows.</summary>
    public static ChartWindow Cloth(Work work) =>
        new ChartGeometry(work, 1, 1).Everything with { FirstPleat = 1, LastPleat = work.Pleating.Pleats };

    // A pleat is a little roll lit from the upper left; it is drawn as upright strips, all strips of one shade at once.
    private static void DrawPleats(ChartGeometry geometry, ChartWindow window, Box view, ImmutableArray<Mark>.Builder marks)
    {
        var cloth = geometry.Work.Pleating.Cloth.Colour;
        var strips = geometry.Pitch switch { >= 0.8 => 9, >= 0.4 => 5, >= 0.15 => 3, _ => 1 };
        marks.Add(new Shape(Outline.Rectangle(view), strips == 1 ? Shade(cloth, 0.5) : Shade(cloth, 0)));
        for (var strip = 0; strip < strips && strips > 1; strip++)
        {
            var outline = new OutlineBuilder();
            double from = (double)strip / strips, to = (strip + 1.0) / strips;
            // Strips reach under the next one, so that no light shows between them.
            if (strip < strips - 1) to += 0.5 / strips;
            for (var p = window.FirstPleat; p <= window.LastPleat; p++)
            {
                var left = geometry.LeftOf(new Pleat(p));
                outline.Rectangle(new Box(left + from * geometry.Pitch, view.Y, (to - from) * geometry.Pitch, view.Height));
            }
            marks.Add(new Shape(outline.Build(), Shade(cloth, (strip + 0.5) / strips)));
        }
    }

    // How a pleat's roll looks so far across it, 0 to 1.
    private static Colour Shade(Colour cloth, double across)
    {
        var turn = Math.Sin(Math.PI * Math.Pow(across, 0.8)); // 0 in the valleys, 1 a little left of the crown
        return turn > 0.88 ? Look.Lighter(cloth, (turn - 0.88) * 3) : Look.Darker(cloth, 0.40 * Math.Pow(1 - turn, 1.3) + 0.02);
    }

    private static void DrawThreads(ChartGeometry geometry, ChartWindow window, ImmutableArray<Mark>.Builder marks)
    {
        var piece = geometry.Work.Piece;
        var life = geometry.Pitch / geometry.Work.Pleating.Gauge.Pitch.Millimetres;
        var outlines = piece.Threads.ToDictionary(t => t.Key, _ => new Layers());
        var detailed = geometry.LineHeight >= 0.3;
        var all = new OutlineBuilder();
        var ribbons = piece.Threads.ToDictionary(t => t.Key, t => Math.Min(Coverage.RibbonWidth(t).Millimetres * life, geometry.LineHeight * 1.04));
        foreach (var brick in geometry.Bricks(window))
        {
            // The thread goes down between the pleats, so it ends a little short of the brick's ends.
            var box = brick.Box;
            var ribbon = ribbons[brick.Thread];
            var end = ribbon / 2 + geometry.Pitch * 0.02;
            double left = box.X + end, right = Math.Max(left + 0.01, box.Right - end), y = box.Centre.Y;
            var layers = outlines[brick.Thread];
            layers.Body.Thread(left, y, right, y);
            if (!detailed) continue;
            all.Thread(left, y + ribbon * 0.16, right, y + ribbon * 0.16);
            layers.Lit.Thread(left + ribbon * 0.04, y - ribbon * 0.10, right - ribbon * 0.04, y - ribbon * 0.10);
            layers.Gleam.Thread(left + (right - left) * 0.12, y - ribbon * 0.2, right - (right - left) * 0.22, y - ribbon * 0.2);
            var strands = Math.Min(6, piece.Thread(brick.Thread)?.Strands ?? 1);
            if (geometry.LineHeight < 0.7) continue;
            for (var s = 1; s < strands; s++)
            {
                var lie = y - ribbon / 2 + ribbon * s / strands;
                var bow = ribbon * 0.1;
                layers.Strands.MoveTo(left, lie).CurveTo(new(left + (right - left) / 3, lie - bow), new(right - (right - left) / 3, lie + bow), new(right, lie));
                layers.Strands.CurveTo(new(right - (right - left) / 3, lie + bow), new(left + (right - left) / 3, lie - bow), new(left, lie)).Close();
            }
        }
        var widest = ribbons.Values.DefaultIfEmpty(0).Max();
        if (!all.IsEmpty) marks.Add(new Shape(all.Build(), null, Round(Look.Darker(piece.Cloth.Colour, 0.5), widest)));
        foreach (var thread in piece.Threads)
        {
            var layers = outlines[thread.Key];
            var ribbon = ribbons[thread.Key];
            Add(layers.Body, detailed ? Look.Darker(thread.Colour, 0.26) : thread.Colour, ribbon);
            Add(layers.Lit, thread.Colour, ribbon * 0.78);
            Add(layers.Strands, Look.Darker(thread.Colour, 0.2), ribbon * 0.035);
            Add(layers.Gleam, Look.Lighter(thread.Colour, 0.3), ribbon * 0.16);
        }

        void Add(OutlineBuilder outline, Colour colour, double pen)
        {
            if (!outline.IsEmpty) marks.Add(new Shape(outline.Build(), null, Round(colour, pen)));
        }
    }

    private static Pen Round(Colour colour, double width) => new(colour, width) { Round = true };

    private sealed class Layers
    {
        public OutlineBuilder Body { get; } = new();

        public OutlineBuilder Lit { get; } = new();

        public OutlineBuilder Strands { get; } = new();

        public OutlineBuilder Gleam { get; } = new();
    }
}
