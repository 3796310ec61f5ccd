using Pleatwright.Chart;
using Pleatwright.Cloth;
using System.Numerics;

namespace Pleatwright.Stitched;

/// <summary>
/// Where every pleat stands in the finished piece: drawn a little together where stitches hold it, a little opened where nothing does, and fanning out
/// past the outermost stitches. Places on the cloth are <em>across</em>, in pleats from the left edge of pleat 1 (valley v lies at v), and <em>down</em>,
/// in lines from the upper edge of cable row 0; places in the picture are in millimetres of the finished piece. How much pleats give is drawn
/// by eye from gathered cloth, our own choice; the whole keeps the measure its form gives it.
/// </summary>
internal sealed class PleatField
{
    /// <summary>How much wider a pleat lies that nothing holds, over one that stitches hold.</summary>
    public const float Opening = 0.09f;

    /// <summary>How much wider the whole lies far past the outermost stitches, where it lies flat.</summary>
    public const float Fanning = 0.04f;

    private const float Astray = 0.095f; // how far a pleat stands from where it should, over their pitch

    private const float Clumped = 0.34f, ClumpsWide = 7, ClumpsHigh = 17; // by how many pleats pleats that lie together are moved, how many those are, and over how many lines

    private readonly float[] shift;
    private readonly float[] held;
    private readonly Surface surface;
    private readonly double width;

    /// <summary>The cloth of a work.</summary>
    public PleatField(Work work) : this(work, null)
    {
    }

    private PleatField(Work work, IReadOnlyList<double>? valleys)
    {
        Work = work;
        var gauge = work.Pleating.Gauge;
        Pitch = gauge.Pitch.Millimetres;
        LineHeight = gauge.LineHeight.Millimetres;
        Pleats = work.Pleating.Pleats;
        width = Pleats * Pitch;
        surface = work.Piece.Cloth.Form.SurfaceOf(work.Piece.Cloth);
        var cloth = work.Piece.Cloth;
        var (above, below) = ((cloth.HoldingRowsAbove + 1) * gauge.CableRowsPerSpace, (cloth.HoldingRowsBelow + 1) * gauge.CableRowsPerSpace);
        long rows = work.CableRows + above + below;
        // A very large cloth is told every few rows: it is never seen so near that it shows.
        RowsApart = (int)Math.Max(1, rows * (Pleats + 1) / MostNodes);
        Top = -2 * above;
        Rows = (int)(rows / RowsApart) + 2;
        shift = new float[Rows * Columns];
        held = new float[Rows * Columns];
        if (valleys is null) Settle(gauge.CableRowsPerSpace);
    }

    /// <summary>Pleats that stand where they are told to, the same from top to bottom, drawn together by stitches.</summary>
    /// <param name="work">The work that says how large the cloth is.</param>
    /// <param name="valleys">Where each valley lies, both edges counted in, in millimetres; where there is one pleat more it is as wide as it was gathered.</param>
    /// <param name="stitches">What holds it.</param>
    public PleatField(Work work, IReadOnlyList<double> valleys, LaidStitch[] stitches) : this(work, valleys)
    {
        var hold = new float[Rows * Pleats];
        foreach (ref readonly var stitch in stitches.AsSpan())
        {
            var row = Math.Clamp((int)MathF.Round(((stitch.Down + stitch.ToDown) / 2 - Top) / (2 * RowsApart)), 0, Rows - 1);
            for (var p = Math.Max(0, (int)Math.Min(stitch.Across, stitch.ToAcross)); p < Math.Min(Pleats, Math.Max(stitch.Across, stitch.ToAcross)); p++) hold[row * Pleats + p] = 1;
        }
        Blur(hold, Math.Max(1, (int)Math.Round(work.Pleating.Gauge.CableRowsPerSpace * 0.42 / RowsApart)));
        for (var row = 0; row < Rows; row++)
            for (var k = 0; k <= Pleats; k++)
            {
                shift[row * Columns + k] = (float)((k < valleys.Count ? valleys[k] : valleys[^1] + Pitch * (k - valleys.Count + 1)) / Pitch - k);
                held[row * Columns + k] = (hold[row * Pleats + Math.Max(0, k - 1)] + hold[row * Pleats + Math.Min(k, Pleats - 1)]) / 2;
            }
    }

    private const int MostNodes = 4_000_000;

    /// <summary>The work whose cloth it is.</summary>
    public Work Work { get; }

    /// <summary>Pleats across.</summary>
    public int Pleats { get; }

    /// <summary>Pitch of the gathered pleats in millimetres.</summary>
    public double Pitch { get; }

    /// <summary>Height of a line in millimetres.</summary>
    public double LineHeight { get; }

    /// <summary>What the cloth lies on.</summary>
    public Surface Surface => surface;

    /// <summary>Nodes across: one at each valley, both edges counted; node k lies at k pleats across.</summary>
    public int Columns => Pleats + 1;

    /// <summary>Nodes down.</summary>
    public int Rows { get; }

    /// <summary>Cable rows from one node to the next down.</summary>
    public int RowsApart { get; }

    /// <summary>Where the topmost nodes lie, in lines.</summary>
    public float Top { get; }

    /// <summary>By how many pleats each node is moved to the right, top row first, <see cref="Columns"/> a row.</summary>
    public ReadOnlySpan<float> Shift => shift;

    /// <summary>How firmly stitches hold the pleats at each node, 0 to 1.</summary>
    public ReadOnlySpan<float> Held => held;

    /// <summary>How far right a place on the cloth is moved, in pleats.</summary>
    public float ShiftAt(float across, float down)
    {
        var (at, u, v) = Cell(across, down);
        // Smooth down the pleat (Catmull and Rom, 1974), so that it bends and does not break; across it what is between changes evenly.
        int last = (Rows - 1) * Columns, before = at >= Columns ? at - Columns : at, below = at + Columns, after = below < last ? below + Columns : below;
        float a = Across(shift, before, u), b = Across(shift, at, u), c = Across(shift, below, u), d = Across(shift, after, u);
        return b + 0.5f * v * (c - a + v * (2 * a - 5 * b + 4 * c - d + v * (3 * (b - c) + d - a)));
    }

    /// <summary>How firmly stitches hold the pleats there, 0 to 1.</summary>
    public float HeldAt(float across, float down)
    {
        var (at, u, v) = Cell(across, down);
        var upper = Across(held, at, u);
        return upper + (Across(held, at + Columns, u) - upper) * v;
    }

    private (int At, float Right, float Down) Cell(float across, float down)
    {
        var x = Math.Clamp(across, 0, Pleats);
        var y = Math.Clamp((down - Top) / (2 * RowsApart), 0, Rows - 1.001f);
        int left = Math.Min((int)x, Pleats - 1), top = (int)y;
        return (top * Columns + left, x - left, y - top);
    }

    private static float Across(float[] of, int at, float right) => of[at] + (of[at + 1] - of[at]) * right;

    /// <summary>Where a place on the cloth lies in the picture, in millimetres.</summary>
    public Vector2 Place(float across, float down)
    {
        var share = (across + ShiftAt(across, down)) / Pleats;
        if (surface.IsStraight) return new Vector2((float)(share * width), (float)(down * LineHeight));
        var (x, y) = surface.Place(share, DepthOf(down), 1);
        return new Vector2((float)x, (float)y);
    }

    /// <summary>Which place on the cloth lies there; null where no cloth does.</summary>
    public (float Across, float Down)? Locate(float x, float y)
    {
        var shifted = float.NaN;
        return Locate(x, y, ref shifted);
    }

    /// <summary>The same, sooner where it is known about how far the place is moved.</summary>
    /// <param name="x">Millimetres to the right in the picture.</param>
    /// <param name="y">Millimetres down.</param>
    /// <param name="shifted">About how far a place near by is moved, or not a number; then how far this one is.</param>
    public (float Across, float Down)? Locate(float x, float y, ref float shifted)
    {
        float moved, down;
        if (surface.IsStraight) (moved, down) = ((float)(x / Pitch), (float)(y / LineHeight));
        else
        {
            if (surface.LyingAt(x, y) is not { } lies) return null;
            (moved, down) = ((float)(lies.Share * Pleats), (float)(lies.Depth / LineHeight) + 1);
        }
        // What is moved is found by going back; pleats give so little that three steps are enough, and one from near by.
        var steps = 1;
        if (float.IsNaN(shifted)) (shifted, steps) = (0, 3);
        for (var i = 0; i < steps; i++) shifted = ShiftAt(moved - shifted, down);
        return (moved - shifted, down);
    }

    /// <summary>Millimetres below gathering row 1, which runs between the two lines of cable row 0.</summary>
    public double DepthOf(float down) => (down - 1) * LineHeight;

    /// <summary>How wide a pleat lies at its row, over its pitch as it was gathered.</summary>
    public double SpreadAt(float down) => Work.Pleating.PitchAt((int)MathF.Floor(down / 2)).Millimetres / Pitch;

    private void Settle(int rowsPerSpace)
    {
        var hold = new float[Rows * Pleats];
        Mark(hold);
        var (first, last) = HeldRows();
        Blur(hold, Math.Max(1, (int)Math.Round(rowsPerSpace * 0.42 / RowsApart)));
        var fans = surface.IsStraight && last >= first;
        var period = 2.3f * 2 * rowsPerSpace; // lines over which a pleat's wander changes
        var widths = new float[Pleats];
        for (var row = 0; row < Rows; row++)
        {
            var down = Top + row * 2 * RowsApart;
            float sum = 0;
            for (var p = 0; p < Pleats; p++)
            {
                var h = hold[row * Pleats + p];
                sum += widths[p] = 1 + Opening * (1 - h);
            }
            var past = Math.Max(0, Math.Max(first - row, row - last) - 1) * RowsApart / (float)rowsPerSpace;
            var fan = fans ? 1 + Fanning * (1 - MathF.Exp(-past * past / 2.2f)) : 1;
            float at = 0, scale = Pleats / sum;
            for (var k = 0; k <= Pleats; k++)
            {
                var stands = Pleats / 2f + (at * scale - Pleats / 2f) * fan;
                var (l, r) = (Math.Max(0, k - 1), Math.Min(k, Pleats - 1));
                var h = held[row * Columns + k] = (hold[row * Pleats + l] + hold[row * Pleats + r]) / 2;
                // Every valley by itself: were it every width, all that lies beyond would sway with it. The edges stay.
                var astray = k == 0 || k == Pleats ? 0 : Astray * (1 - 0.6f * h) * (0.45f * Grain.At(k, 0, 11) + 0.75f * Grain.Along(down / period + 0.37f * k, k, 12) + 0.16f * Grain.Along(down / period * 3.7f + 0.61f * k, k, 13));
                shift[row * Columns + k] = stands - k + astray + Clump(k, down) * (1 - h);
                if (k < Pleats) at += widths[k];
            }
        }

        // Pleats that nothing holds lie closer in some places and wider in others, some of them together.
        float Clump(int k, float down)
        {
            var at = down / ClumpsHigh;
            var from = MathF.Floor(at);
            float t = at - from, upper = Grain.Along(k / ClumpsWide, (int)from, 14), lower = Grain.Along(k / ClumpsWide, (int)from + 1, 14);
            return Clumped * Math.Min(1, Math.Min(k, Pleats - k) / ClumpsWide) * (upper + (lower - upper) * t * t * (3 - 2 * t));
        }

        // The first and the last row of nodes that something holds.
        (int, int) HeldRows()
        {
            int from = int.MaxValue, to = -1;
            for (var row = 0; row < Rows; row++)
                if (hold.AsSpan(row * Pleats, Pleats).ContainsAnyExcept(0f)) (from, to) = (Math.Min(from, row), row);
            return (from, to);
        }
    }

    // Which pleats are held by a stitch, and where.
    private void Mark(float[] hold)
    {
        foreach (ref readonly var run in Work.Runs)
            for (var p = run.FirstPleat.Number; p <= run.LastPleat.Number; p++) Hold(p, run.Row.Index * 2 + 1, 1);
        foreach (var band in Work.Bands)
            foreach (var pass in band.Passes)
                foreach (var stitch in pass.Stitches)
                {
                    Hold(stitch.From.Pleat.Number, Down(stitch.From.Depth), 0.8f);
                    Hold(stitch.To.Pleat.Number, Down(stitch.To.Depth), 0.8f);
                }
        foreach (var accent in Work.Accents)
            for (var p = accent.Valley.Number; p <= accent.Valley.Number + 1; p++) Hold(p, Down(accent.Depth), 0.4f);

        float Down(double depth) => (float)Chart.Stitches.StitchDrawing.Down(depth, Work.Pleating.Gauge.CableRowsPerSpace);

        void Hold(int pleat, float down, float by)
        {
            var row = (int)MathF.Round((down - Top) / (2 * RowsApart));
            if ((uint)row >= (uint)Rows || pleat < 1 || pleat > Pleats) return;
            ref var h = ref hold[row * Pleats + pleat - 1];
            h = Math.Max(h, by);
        }
    }

    // A stitch's hold eases off over a fraction of a space down the pleat, and over a pleat to either side.
    private void Blur(float[] hold, int radius)
    {
        var passing = new float[hold.Length];
        for (var time = 0; time < 2; time++)
        {
            for (var row = 0; row < Rows; row++)
                for (var p = 0; p < Pleats; p++)
                {
                    var (l, r) = (Math.Max(0, p - 1), Math.Min(Pleats - 1, p + 1));
                    passing[row * Pleats + p] = 0.25f * hold[row * Pleats + l] + 0.5f * hold[row * Pleats + p] + 0.25f * hold[row * Pleats + r];
                }
            for (var p = 0; p < Pleats; p++)
            {
                float sum = 0;
                for (var row = -radius; row < Rows; row++)
                {
                    if (row + radius < Rows) sum += passing[(row + radius) * Pleats + p];
                    if (row - radius - 1 >= 0) sum -= passing[(row - radius - 1) * Pleats + p];
                    if (row >= 0) hold[row * Pleats + p] = sum / (2 * radius + 1);
                }
            }
        }
        // A single row holds well enough where it lies.
        for (var i = 0; i < hold.Length; i++) hold[i] = Math.Min(1, hold[i] * 1.6f);
    }
}
