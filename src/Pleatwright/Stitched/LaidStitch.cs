using Pleatwright.Chart;
using Pleatwright.Chart.Stitches;

namespace Pleatwright.Stitched;

/// <summary>A length of thread that shows on the front, from where it comes up to where it goes down; places on the cloth as <see cref="PleatField"/> has them.</summary>
/// <param name="Across">Pleats from the left edge of pleat 1 to where it comes up.</param>
/// <param name="Down">Lines from the upper edge of cable row 0 to where it comes up.</param>
/// <param name="ToAcross">The same, to where it goes down.</param>
/// <param name="ToDown">The same, to where it goes down.</param>
/// <param name="Bow">By how many lines its middle is pushed down by how the thread is held; negative for up.</param>
/// <param name="Room">Lines that the ribbon of strands has room for; past that they crowd.</param>
/// <param name="Layer">How high it lies over the pleats, in thicknesses of a strand.</param>
/// <param name="Thread">Index of its thread among the piece's.</param>
/// <param name="Round">Whether its strands lie as one round bundle, not side by side.</param>
internal readonly record struct LaidStitch(float Across, float Down, float ToAcross, float ToDown, float Bow, float Room, float Layer, byte Thread, bool Round)
{
    private const float CableBow = 0.055f;
    private const float CableRoom = 1.06f;

    /// <summary>Every stitch that shows: bands, then cables from the top row down and from left to right, then accents.</summary>
    public static LaidStitch[] Of(Work work)
    {
        var laid = new List<LaidStitch>(work.Cables + work.Cables / 8);
        AddBands(laid, work);
        foreach (ref readonly var run in work.Runs) AddRun(laid, work, run);
        AddAccents(laid, work);
        return [.. laid];
    }

    private static void AddBands(List<LaidStitch> laid, Work work)
    {
        foreach (var band in work.Bands)
            if (IndexOf(work, band.Band.Thread) is { } thread)
                foreach (var pass in band.Passes)
                    foreach (var shape in StitchDrawing.Shapes(pass, work.Pleating.Gauge.CableRowsPerSpace)) Add(laid, shape, thread, 0);
    }

    private static void AddAccents(List<LaidStitch> laid, Work work)
    {
        foreach (var accent in work.Accents)
            if (IndexOf(work, accent.Mark.Thread) is { } thread)
                foreach (var shape in accent.Accent.Shapes(accent, work.Pleating.Gauge)) Add(laid, shape, thread, 2);
    }

    private static byte? IndexOf(Work work, Thread.ThreadKey key)
    {
        for (var i = 0; i < work.Piece.Threads.Length; i++)
            if (work.Piece.Threads[i].Key == key) return (byte)i;
        return null;
    }

    private static void AddRun(List<LaidStitch> laid, Work work, in Run run)
    {
        var thread = (byte)work.ThreadIndexAt(run.From, run.Row);
        if (run.HalfLeft) AddHalf(laid, run, run.From, RunEnd.Left, thread);
        for (var v = run.From.Number; v <= run.To.Number; v++)
        {
            var level = run.LevelAt(new Valley(v));
            var down = Lattice.LineOf(run.Row, level).Index + 0.5f;
            laid.Add(new LaidStitch(v - 1, down, v + 1, down, level == Level.Up ? -CableBow : CableBow, CableRoom, 0, thread, false));
        }
        if (run.HalfRight) AddHalf(laid, run, run.To, RunEnd.Right, thread);
    }

    private static void AddHalf(List<LaidStitch> laid, in Run run, Valley end, RunEnd side, byte thread)
    {
        var pleat = Lattice.HalfStitchPleat(end, side).Number;
        var down = Lattice.HalfStitchLine(end, run.Row, run.Phase).Index + 0.5f;
        laid.Add(new LaidStitch(pleat - 1, down, pleat, down, 0, CableRoom, 0, thread, false));
    }

    /// <summary>Lays a shape of a stitch as threads lie.</summary>
    public static void Add(List<LaidStitch> laid, StitchShape shape, byte thread, float layer)
    {
        float ax = (float)shape.From.Across, ay = (float)shape.From.Down, bx = (float)shape.To.Across, by = (float)shape.To.Down, wide = (float)shape.Width;
        switch (shape.Kind)
        {
            case ShapeKind.Hidden:
                break;
            case ShapeKind.Bar:
                laid.Add(new LaidStitch(ax, ay, bx, by, 0, wide * 1.17f, layer, thread, false));
                break;
            case ShapeKind.Coil:
                Coil();
                break;
            case ShapeKind.Knot:
                Knot();
                break;
            default:
                Loop();
                break;
        }

        // Turns side by side round nothing, each leaning a little.
        void Coil()
        {
            bool lies = Math.Abs(bx - ax) > Math.Abs(by - ay) / 4;
            var turns = Math.Clamp((int)MathF.Ceiling(Math.Max(Math.Abs(bx - ax) * 4, Math.Abs(by - ay) / 0.45f)), 3, 200);
            for (var i = 0; i < turns; i++)
            {
                float t = (i + 0.5f) / turns, x = ax + (bx - ax) * t, y = ay + (by - ay) * t, lean = (bx - ax) / turns * 0.8f;
                laid.Add(lies ? new LaidStitch(x - lean, y + wide / 2, x + lean, y - wide / 2, 0, 0.6f, layer + 1, thread, true)
                    : new LaidStitch(x - wide / 5, y + 0.2f, x + wide / 5, y - 0.2f, 0, 0.6f, layer + 1, thread, true));
            }
        }

        // Two turns round the needle: one about the foot, one over the top.
        void Knot()
        {
            float r = wide / 2, across = r * 0.42f;
            laid.Add(new LaidStitch(ax - across, ay, ax + across, ay, -r * 0.9f, 0.7f, layer, thread, true));
            laid.Add(new LaidStitch(ax - across, ay, ax + across, ay, r * 0.9f, 0.7f, layer, thread, true));
            laid.Add(new LaidStitch(ax - across * 0.8f, ay + r * 0.3f, ax + across * 0.8f, ay - r * 0.25f, -r * 0.2f, 0.7f, layer + 1.5f, thread, true));
        }

        void Loop()
        {
            float swell = wide * 0.42f;
            laid.Add(new LaidStitch(ax, ay, bx, by, -swell, 0.7f, layer, thread, true));
            laid.Add(new LaidStitch(ax, ay, bx, by, swell, 0.7f, layer, thread, true));
            float ex = (bx - ax) * 0.09f, ey = (by - ay) * 0.09f;
            laid.Add(new LaidStitch(bx - ex, by - ey, bx + ex * 2, by + ey * 2, 0, 0.7f, layer + 1, thread, true));
        }
    }
}
