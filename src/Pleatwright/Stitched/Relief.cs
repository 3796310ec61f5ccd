using System.Numerics;

namespace Pleatwright.Stitched;

/// <summary>
/// A band of the picture before it is lit: of every sample its height, how steeply it rises, which way its fibres run, and of what it is. Cloth and strands
/// are laid into it, the highest on top.
/// </summary>
internal sealed class Relief
{
    /// <summary>Millimetres beyond the band that are laid too: so far reach shadows.</summary>
    public static float Reach(PleatField field) => ShadowReach(field) * 1.05f + 0.02f;

    /// <summary>How far towards the lamp there may be what keeps it off: half a pleat, but not less than a stitch is thick.</summary>
    public static float ShadowReach(PleatField field) => Math.Clamp((float)field.Pitch * 0.55f, 0.7f, 3);

    /// <summary>What a sample is of where it is not of a thread: cloth, or what the piece lies on.</summary>
    public const int Cloth = -1, Table = -2;

    private readonly StitchedPiece piece;
    private readonly float perMillimetre;
    private readonly int margin;
    private readonly float[] passing;
    private readonly float[] crown; // height over how far across a pleat
    private readonly float[] crownSlope;
    private float left, top;
    private int rows;

    /// <summary>A buffer.</summary>
    public Relief(StitchedPiece piece, int wide, int mostRows, float perMillimetre)
    {
        this.piece = piece;
        this.perMillimetre = perMillimetre;
        Field = piece.Field;
        margin = (int)MathF.Ceiling(Reach(piece.Field) * perMillimetre) + 1;
        Wide = wide;
        Stride = (wide + 2 * margin + Vector<float>.Count + 15) / 16 * 16;
        var size = Stride * (mostRows + 2 * margin) + 16;
        Height = new float[size];
        Right = new float[size];
        Down = new float[size];
        FibreX = new float[size];
        FibreY = new float[size];
        Shade = new float[size];
        Of = new int[size];
        Near = new float[size];
        Wider = new float[size];
        passing = new float[size];
        PerMillimetre = perMillimetre;
        (crown, crownSlope) = Crown();
    }

    /// <summary>Room for the strands of one stitch.</summary>
    public List<Strand> Taken { get; } = [];

    /// <summary>Samples across, margins apart.</summary>
    public int Wide { get; }

    /// <summary>Rows of samples in the band, margins apart.</summary>
    public int Rows => rows;

    /// <summary>Samples from one row to the next.</summary>
    public int Stride { get; }

    /// <summary>Samples to a millimetre.</summary>
    public float PerMillimetre { get; }

    /// <summary>Samples beyond the band on every side.</summary>
    public int Margin => margin;

    /// <summary>The cloth.</summary>
    public PleatField Field { get; }

    /// <summary>The piece.</summary>
    public StitchedPiece Piece => piece;

    /// <summary>Heights above the crowns of bare pleats, in millimetres.</summary>
    public float[] Height { get; }

    /// <summary>How steeply it rises to the right.</summary>
    public float[] Right { get; }

    /// <summary>How steeply it rises downward.</summary>
    public float[] Down { get; }

    /// <summary>Which way fibres run in the picture; of cloth, how far across it the sample lies.</summary>
    public float[] FibreX { get; }

    /// <summary>The same downward; of cloth, how far down it lies, in lines.</summary>
    public float[] FibreY { get; }

    /// <summary>How light it is over others of its kind, about 1.</summary>
    public float[] Shade { get; }

    /// <summary>Index of its thread, or <see cref="Cloth"/> or <see cref="Table"/>.</summary>
    public int[] Of { get; }

    /// <summary>Height of what lies close around.</summary>
    public float[] Near { get; }

    /// <summary>Height of what lies around within about half a pleat.</summary>
    public float[] Wider { get; }

    /// <summary>Where the first sample of a row of the band lies in the buffers.</summary>
    public int Start(int row) => (row + margin) * Stride + margin;

    /// <summary>Where a sample lies in the picture.</summary>
    public Vector2 PlaceOf(int row, int column) => new(left + (column + 0.5f) / perMillimetre, top + (row + 0.5f) / perMillimetre);

    /// <summary>Begins a band.</summary>
    public void Begin(float left, float top, int rows)
    {
        this.left = left;
        this.top = top;
        this.rows = rows;
    }

    // A soft full tube: nearly round on top, falling into a narrow valley. By share of the pitch, height from -1 to 0.
    private const int CrownSteps = 512;

    private static (float[] Height, float[] Slope) Crown()
    {
        var height = new float[CrownSteps + 2];
        var slope = new float[CrownSteps + 2];
        for (var i = 0; i < height.Length; i++) height[i] = At((float)i / CrownSteps);
        for (var i = 0; i <= CrownSteps; i++) slope[i] = (height[Math.Min(i + 1, CrownSteps)] - height[Math.Max(i - 1, 0)]) / ((Math.Min(i + 1, CrownSteps) - Math.Max(i - 1, 0)) / (float)CrownSteps);
        return (height, slope);

        static float At(float s)
        {
            var q = Math.Min(1, MathF.Abs(2 * s - 1));
            return MathF.Pow(Math.Max(0, 1 - q * q), 0.56f) - 1;
        }
    }

    // Above its holding rows a neck is open: how far down the cloth begins, in lines.
    private float Uppermost
    {
        get
        {
            if (Field.Surface.IsStraight || Field.Surface.Backdrop is not null) return float.NegativeInfinity;
            var cloth = piece.Work.Piece.Cloth;
            var rows = piece.Work.Pleating.Gauge.CableRowsPerSpace;
            return -2f * (cloth.HoldingRowsAbove * rows + Math.Max(1, rows / 2));
        }
    }

    /// <summary>Whether cloth lies at a place in the picture.</summary>
    public bool HasCloth(Vector2 place) => Field.Locate(place.X, place.Y) is { } found && found.Down >= Uppermost;

    private const float Tuck = 0.24f; // how far pleats are drawn down under stitches, over the depth of a valley

    // Samples between which places on the cloth are taken to change evenly.
    private int NodesApart => Field.Surface.IsStraight && perMillimetre * Field.Pitch > 16 ? 8 : 4;

    /// <summary>Lays the cloth.</summary>
    public void LayCloth()
    {
        var apart = NodesApart;
        var nodes = (Stride + apart - 1) / apart + 1;
        var shifted = new float[nodes];
        Array.Fill(shifted, float.NaN);
        var across = new float[nodes];
        var down = new float[nodes];
        var held = new float[nodes];
        var before = new float[nodes];
        var heldBefore = new float[nodes];
        var depth = Strands.ValleyDepth(Field.Pitch);
        var least = Uppermost;
        float perSpace = 2 * piece.Work.Pleating.Gauge.CableRowsPerSpace;
        for (var row = -margin; row < rows + margin; row++)
        {
            var y = top + (row + 0.5f) / perMillimetre;
            if (row == -margin) Locate(y - 1 / perMillimetre, before, down, heldBefore);
            else
            {
                across.CopyTo(before, 0);
                held.CopyTo(heldBefore, 0);
            }
            Locate(y, across, down, held);
            var at = (row + margin) * Stride;
            var pleat = int.MinValue;
            float pucker = 0, tone = 1, full = 1, lean = 0, creased = 0;
            for (var n = 0; n < nodes - 1; n++)
            {
                var count = Math.Min(apart, Stride - n * apart);
                bool here = !float.IsNaN(across[n]), there = !float.IsNaN(across[n + 1]);
                if (!here || !there || MathF.Abs(across[n + 1] - across[n]) > 0.5f * Field.Pleats)
                {
                    // The cloth ends or begins between two nodes: told sample by sample.
                    for (var i = 0; i < count; i++, at++) LayEdge(at, left + (n * apart + i - margin + 0.5f) / perMillimetre, y, here || there);
                    continue;
                }
                float a = across[n], step = (across[n + 1] - a) / apart, perRight = step * perMillimetre;
                var perDown = float.IsNaN(before[n]) ? 0 : (a - before[n]) * perMillimetre;
                float d = down[n], dStep = (down[n + 1] - d) / apart;
                var gradient = MathF.Sqrt(perRight * perRight + perDown * perDown);
                // Drawn together pleats are as deep as they are narrow; where a pleat is no wider than a sample nothing is told of it.
                var local = Math.Min(1, 1 / (gradient * (float)Field.Pitch));
                var deep = depth * (0.35f + 0.65f * local) * Math.Clamp(perMillimetre / gradient / 3 - 0.5f, 0, 1) * (1 - 0.18f * held[n]);
                var sunk = depth * Tuck * held[n];
                var tucks = -depth * Tuck * (held[n] - heldBefore[n]) * perMillimetre;
                for (var i = 0; i < count; i++, at++, a += step, d += dStep)
                {
                    if (d < least)
                    {
                        LayTable(at);
                        continue;
                    }
                    var floor = MathF.Floor(a);
                    if ((int)floor != pleat)
                    {
                        pleat = (int)floor;
                        var v = d * (float)Field.LineHeight;
                        // A dimple where the gathering thread ran, on some pleats more than on others; and where the cloth just is not smooth.
                        var row1 = (d - 1) / perSpace;
                        var from = row1 - MathF.Round(row1);
                        var dimple = from * MathF.Exp(-from * from * 90) * (5 + 4 * Grain.At(pleat, (int)MathF.Round(row1), 27)) * (1 - 0.7f * held[n]);
                        pucker = dimple * 0.35f + 0.16f * (Grain.Along(v / 1.7f + 0.2f, pleat, 21) - Grain.Along(v / 1.7f - 0.2f, pleat, 21)) + 0.10f * (Grain.Along(v / 0.7f + 0.2f, pleat, 22) - Grain.Along(v / 0.7f - 0.2f, pleat, 22));
                        creased = perMillimetre < 9 ? 0 : v * 2.1f + 3.1f * Grain.At(pleat, 0, 28) + 1.4f * Grain.Along(v / 2.1f, pleat, 29);
                        tone = 1 + 0.025f * Grain.Along(v / 9, pleat, 23);
                        full = 1 + 0.16f * Grain.Along(v / 6, pleat, 24);
                        lean = 0.26f * Grain.Along(v / 11, pleat, 25) + 0.10f * Grain.At(pleat, 0, 26);
                    }
                    // No pleat stands quite upright.
                    var share = a - floor;
                    share += lean * share * (1 - share);
                    var s = share * CrownSteps;
                    var k = (int)s;
                    var h = crown[k] + (crown[k + 1] - crown[k]) * (s - k);
                    var slope = crownSlope[k] * deep * full;
                    // From close by it is seen that the tube is soft: shallow creases run across it aslant.
                    var crease = creased == 0 ? 0 : MathF.Sin(creased + share * 4.5f) * (1 + h) * (1 - 0.6f * held[n]);
                    Height[at] = h * deep * full - sunk;
                    Right[at] = slope * perRight;
                    Down[at] = slope * perDown + pucker * (1 + h) + tucks + 0.075f * crease;
                    FibreX[at] = a;
                    FibreY[at] = d;
                    Shade[at] = tone;
                    Of[at] = Cloth;
                }
            }
        }

        void Locate(float y, float[] across, float[] down, float[] held)
        {
            for (var n = 0; n < nodes; n++)
            {
                var x = left + (n * apart - margin + 0.5f) / perMillimetre;
                if (Field.Locate(x, y, ref shifted[n]) is { } place)
                {
                    (across[n], down[n]) = place;
                    held[n] = Field.HeldAt(place.Across, place.Down);
                }
                else across[n] = shifted[n] = float.NaN;
            }
        }

        void LayEdge(int at, float x, float y, bool near)
        {
            LayTable(at);
            if (!near || Field.Locate(x, y) is not { } place || place.Down < least) return;
            var share = place.Across - MathF.Floor(place.Across);
            Height[at] = crown[(int)(share * CrownSteps)] * depth * 0.3f;
            (FibreX[at], FibreY[at], Of[at], Shade[at]) = (place.Across, place.Down, Cloth, 0.7f); // it turns away there
        }

        void LayTable(int at)
        {
            (Height[at], Right[at], Down[at], Shade[at], Of[at]) = (-depth * 1.5f, 0, 0, 1, Table);
        }
    }

    /// <summary>Lays strands over what is there.</summary>
    public void LayStrands(List<Strand> strands)
    {
        foreach (ref readonly var strand in System.Runtime.InteropServices.CollectionsMarshal.AsSpan(strands)) Lay(strand);
    }

    private static readonly Vector<float> Ascending = Vector.ConvertToSingle(Vector<int>.Indices);

    private void Lay(in Strand strand)
    {
        // Back from the picture to t and across.
        var turn = strand.AlongX * strand.AcrossY - strand.AlongY * strand.AcrossX;
        float tx = strand.AcrossY / turn, ty = -strand.AcrossX / turn, ox = -strand.AlongY / turn, oy = strand.AlongX / turn;
        // A stitch lies close on the cloth beside it and keeps the light from it.
        var contact = strand.Casts == 0 ? 0 : ContactReach / strand.HalfWidth;
        var reach = MathF.Abs(strand.Offset) * 1.02f + MathF.Abs(strand.Lean) + MathF.Abs(strand.Bow) * 0.67f + strand.HalfWidth * (1 + contact);
        float boxX = MathF.Abs(strand.AlongX) + MathF.Abs(strand.AcrossX) * reach, boxY = MathF.Abs(strand.AlongY) + MathF.Abs(strand.AcrossY) * reach;
        int fromX = Math.Max(0, Column(strand.MidX - boxX)), toX = Math.Min(Stride - Vector<float>.Count, Column(strand.MidX + boxX) + 1);
        int fromY = Math.Max(-margin, Row(strand.MidY - boxY)), toY = Math.Min(rows + margin - 1, Row(strand.MidY + boxY) + 1);
        if (fromX > toX || fromY > toY) return;

        Vector<float> one = Vector<float>.One, zero = Vector<float>.Zero;
        // Ridges of the plies show where a turn takes several samples.
        var seen = Math.Clamp(strand.Turn * perMillimetre / 5 - 0.8f, 0, 1) * (strand.Stands > 1 ? 0 : 1);
        var ridge = 0.07f * strand.HalfWidth * seen;
        float perT = 2 * MathF.Tau * strand.HalfLength / strand.Turn, perC = -2.1f, begin = strand.Phase * MathF.Tau;
        var grains = Math.Clamp(strand.HalfWidth * perMillimetre / 4 - 0.6f, 0, 1); // single fibres, from close by
        var round = strand.Stands > 1 ? 0.6f * strand.HalfWidth / strand.Stands * 1.6f : 0.92f * strand.HalfWidth;
        var inverse = 1 / strand.HalfWidth;
        var stepT = new Vector<float>(tx / perMillimetre);
        var stepO = new Vector<float>(ox / perMillimetre);
        var thread = new Vector<int>(strand.Thread);
        for (var row = fromY; row <= toY; row++)
        {
            var py = top + (row + 0.5f) / perMillimetre - strand.MidY;
            var line = (row + margin) * Stride;
            for (var column = fromX; column <= toX + Vector<float>.Count - 1 && column <= Stride - Vector<float>.Count; column += Vector<float>.Count)
            {
                var px = left + (column - margin + 0.5f) / perMillimetre - strand.MidX;
                var t = new Vector<float>(px * tx + py * ty) + Ascending * stepT;
                var o = new Vector<float>(px * ox + py * oy) + Ascending * stepO;
                var t2 = t * t;
                var t4 = t2 * t2;
                var t8 = t4 * t4;
                var centre = strand.Offset * (new Vector<float>(Strand.Apart) - Strand.Together * t8 * t8) + strand.Lean * t + strand.Bow * (new Vector<float>(1f / 3) - t2);
                var c = (o - centre) * inverse;
                var c2 = c * c;
                var inside = Vector.LessThan(t2, one) & Vector.LessThan(c2, one);
                if (contact > 0)
                {
                    var beside = Vector.LessThan(t2, one) & Vector.LessThan(c2, new Vector<float>((1 + contact) * (1 + contact))) & Vector.Equals(new Vector<int>(Of, line + column), new Vector<int>(Cloth));
                    if (Vector.LessThanAny(beside, Vector<int>.Zero))
                    {
                        var away = Vector.Min(one, Vector.Max(zero, (Vector.Abs(c) - one) * (1 / contact)));
                        away = new Vector<float>(0.24f) + 0.76f * away * (new Vector<float>(2) - away);
                        var was = new Vector<float>(Shade, line + column);
                        Vector.ConditionalSelect(beside, was * away, was).CopyTo(Shade, line + column);
                    }
                }
                if (Vector.EqualsAll(inside, Vector<int>.Zero)) continue;
                var rise = Vector.SquareRoot(Vector.Max(one - c2, new Vector<float>(0.01f)));
                var twist = t * perT + c * perC + new Vector<float>(begin);
                var height = new Vector<float>(strand.Apex - round) - strand.Dip * (Strand.SinkSoon * t2 + (1 - Strand.SinkSoon) * t8 * t2) + round * rise;
                Vector<float> wave = zero, slant = zero;
                if (seen > 0)
                {
                    var (sin, cos) = Vector.SinCos(twist);
                    wave = sin;
                    slant = cos;
                    height += ridge * cos * rise;
                }
                var at = line + column;
                // Thread lies over cloth whichever is higher: it has drawn the pleat down.
                var there = Vector.ConditionalSelect(Vector.LessThan(new Vector<int>(Of, at), Vector<int>.Zero), new Vector<float>(float.NegativeInfinity), new Vector<float>(Height, at));
                inside &= Vector.GreaterThan(height, there);
                if (Vector.EqualsAll(inside, Vector<int>.Zero)) continue;
                var shift = new Vector<float>(strand.Lean) - 2 * strand.Bow * t;
                var alongSlope = -strand.Dip * (2 * Strand.SinkSoon * t + 10 * (1 - Strand.SinkSoon) * t8 * t) - ridge * perT * wave;
                var crossSlope = (-round * c / rise - ridge * perC * wave) * inverse;
                alongSlope -= crossSlope * shift;
                Vector.ConditionalSelect(inside, height, new Vector<float>(Height, at)).CopyTo(Height, at);
                Vector.ConditionalSelect(inside, alongSlope * tx + crossSlope * ox, new Vector<float>(Right, at)).CopyTo(Right, at);
                Vector.ConditionalSelect(inside, alongSlope * ty + crossSlope * oy, new Vector<float>(Down, at)).CopyTo(Down, at);
                // Fibres run along the strand, a little to either side by turns: plies one way, fibres in them the other.
                var aslant = (new Vector<float>(0.10f) + 0.09f * seen * wave + 0.16f * c) * strand.HalfLength;
                var fx = new Vector<float>(strand.AlongX) + strand.AcrossX * (shift + aslant);
                var fy = new Vector<float>(strand.AlongY) + strand.AcrossY * (shift + aslant);
                var length = one / Vector.SquareRoot(fx * fx + fy * fy + new Vector<float>(1e-12f));
                Vector.ConditionalSelect(inside, fx * length, new Vector<float>(FibreX, at)).CopyTo(FibreX, at);
                Vector.ConditionalSelect(inside, fy * length, new Vector<float>(FibreY, at)).CopyTo(FibreY, at);
                // Between strands it is darker than the light alone would have it.
                var shade = strand.Shade * (one + 0.045f * seen * slant) * (new Vector<float>(1.05f) - 0.30f * c2 * c2 * c2);
                if (grains > 0)
                    shade *= one + grains * (0.10f * Vector.Sin(c * 14 + twist * 0.8f + new Vector<float>(begin * 3)) * Vector.Sin(c * 5 - twist * 0.37f) + 0.09f * Vector.Sin(c * 33 + twist * 1.1f + new Vector<float>(begin * 7)) + 0.05f * Vector.Sin(c * 57 - twist * 0.7f));
                Vector.ConditionalSelect(inside, shade, new Vector<float>(Shade, at)).CopyTo(Shade, at);
                Vector.ConditionalSelect(inside, thread, new Vector<int>(Of, at)).CopyTo(Of, at);
            }
        }

        int Column(float x) => (int)MathF.Floor((x - left) * perMillimetre) + margin;
        int Row(float y) => (int)MathF.Floor((y - top) * perMillimetre);
    }

    private const float ContactReach = 0.17f; // millimetres

    /// <summary>When all is laid: how high it is round every sample.</summary>
    public void Settle()
    {
        Mean(Height, Near, Math.Max(1, (int)MathF.Round(0.2f * perMillimetre)));
        Mean(Near, Wider, Math.Max(1, (int)MathF.Round(0.27f * (float)Math.Min(Field.Pitch, 4) * perMillimetre)));
    }

    // The mean over a square about every sample; past the edges what lies there goes on.
    private void Mean(float[] of, float[] into, int radius)
    {
        var all = rows + 2 * margin;
        var share = 1f / (2 * radius + 1);
        for (var row = 0; row < all; row++)
        {
            var from = of.AsSpan(row * Stride, Stride);
            var to = passing.AsSpan(row * Stride, Stride);
            var sum = from[0] * radius;
            for (var i = 0; i <= radius; i++) sum += from[Math.Min(i, Stride - 1)];
            for (var x = 0; x < Stride; x++)
            {
                to[x] = sum * share;
                sum += from[Math.Min(x + radius + 1, Stride - 1)] - from[Math.Max(x - radius, 0)];
            }
        }
        var sums = new float[Stride];
        for (var i = -radius; i <= radius; i++) Add(PassingRow(i), 1);
        for (var row = 0; row < all; row++)
        {
            var to = into.AsSpan(row * Stride, Stride);
            for (var x = 0; x < Stride; x += Vector<float>.Count) (new Vector<float>(sums, x) * share).CopyTo(to[x..]);
            Add(PassingRow(row + radius + 1), 1);
            Add(PassingRow(row - radius), -1);
        }

        ReadOnlySpan<float> PassingRow(int row) => passing.AsSpan(Math.Clamp(row, 0, all - 1) * Stride, Stride);

        void Add(ReadOnlySpan<float> row, float times)
        {
            for (var x = 0; x < Stride; x += Vector<float>.Count) (new Vector<float>(sums, x) + new Vector<float>(row[x..]) * times).CopyTo(sums, x);
        }
    }
}
