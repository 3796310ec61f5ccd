using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

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

    // Compiled well at once: such a loop is run through once for a picture, and what is compiled in haste first takes several times as long.
    internal const MethodImplOptions Hot = MethodImplOptions.AggressiveOptimization;

    private readonly StitchedPiece piece;
    private readonly float perMillimetre;
    private readonly int margin;
    private readonly float[] passing;
    private static readonly Vector128<float>[] crown = Crown();
    private readonly (float Least, float Most) edges;
    private readonly KeptUnevenness uneven;
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
        edges = Edges;
        uneven = new KeptUnevenness((float)Field.LineHeight, 2 * piece.Work.Pleating.Gauge.CableRowsPerSpace, perMillimetre);
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

    /// <summary>Which way fibres of a thread run in the picture.</summary>
    public float[] FibreX { get; }

    /// <summary>The same downward.</summary>
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
    internal const float CrownRound = 0.56f; // a half would be a half circle

    private const int CrownSteps = 512;

    private const float CreaseWave = 4.5f; // how far a crease goes on across a pleat, as an angle

    // By how far across a pleat: its height, how steeply that rises, and the two waves a crease is made of.
    private static Vector128<float>[] Crown()
    {
        var height = new float[CrownSteps + 2];
        for (var i = 0; i < height.Length; i++) height[i] = At((float)i / CrownSteps);
        var crown = new Vector128<float>[CrownSteps + 2];
        for (var i = 0; i < crown.Length; i++)
        {
            int before = Math.Max(Math.Min(i, CrownSteps) - 1, 0), after = Math.Min(i + 1, CrownSteps);
            var (sin, cos) = MathF.SinCos(CreaseWave * i / CrownSteps);
            crown[i] = Vector128.Create(height[i], (height[after] - height[before]) / ((after - before) / (float)CrownSteps), sin, cos);
        }
        return crown;

        static float At(float s)
        {
            var q = Math.Min(1, MathF.Abs(2 * s - 1));
            return MathF.Pow(Math.Max(0, 1 - q * q), CrownRound) - 1;
        }
    }

    // Where the cloth of a neck or a hem begins and ends, in lines: past its holding rows there is none. A ball is closed, and a flat piece goes on past the picture.
    private (float Least, float Most) Edges
    {
        get
        {
            if (Field.Surface.IsStraight || Field.Surface.Backdrop is not null) return (float.NegativeInfinity, float.PositiveInfinity);
            var (top, bottom) = piece.Ends;
            return ((float)top, (float)bottom);
        }
    }

    // By how many lines the cloth of a valley ends sooner than that of a crown: an edge is seen to be folded.
    private const float Scallop = 0.9f;

    // By how many lines one pleat hangs lower than another.
    private const float Hemmed = 0.8f;

    /// <summary>Whether cloth lies at a place in the picture.</summary>
    public bool HasCloth(Vector2 place) => Field.Locate(place.X, place.Y) is { } found && found.Down >= edges.Least && found.Down <= edges.Most;

    internal const float Tuck = 0.24f; // how far pleats are drawn down under stitches, over the depth of a valley

    // How deep a pleat is where it lies as wide as can be, over one as it was gathered; how much less deep where stitches hold it, and how much smoother.
    internal const float WideDeep = 0.35f, HeldShallow = 0.18f, HeldSmooth = 0.7f;

    // A pleat is seen from so many samples to it on, and wholly from so many more.
    internal const float PleatSeen = 1.5f, PleatWhole = 3;

    private const float CreaseSeen = 9, Crease = 0.06f; // samples to a millimetre from which on creases across a pleat are seen, and how steep they are

    private const int Four = 4; // samples that are laid at a time

    private static readonly Vector128<float> Steps = Vector128.Create(0f, 1, 2, 3);

    // Height, slope and the waves of a crease at four places across their pleats, between two steps of the table.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector128<float> Height, Vector128<float> Slope, Vector128<float> Sin, Vector128<float> Cos) CrownAt(Vector128<int> k, Vector128<float> past)
    {
        Vector128<float> a = crown[k[0]], b = crown[k[1]], c = crown[k[2]], d = crown[k[3]];
        a += (crown[k[0] + 1] - a) * past[0];
        b += (crown[k[1] + 1] - b) * past[1];
        c += (crown[k[2] + 1] - c) * past[2];
        d += (crown[k[3] + 1] - d) * past[3];
        return (Vector128.Create(a[0], b[0], c[0], d[0]), Vector128.Create(a[1], b[1], c[1], d[1]), Vector128.Create(a[2], b[2], c[2], d[2]), Vector128.Create(a[3], b[3], c[3], d[3]));
    }

    // Samples between which places on the cloth are taken to change evenly.
    private int NodesApart => Field.Surface.IsStraight && perMillimetre * Field.Pitch > 16 ? 8 : 4;

    /// <summary>Lays the cloth.</summary>
    [MethodImpl(Hot)]
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
        var downBefore = new float[nodes];
        var depth = Strands.ValleyDepth(Field.Pitch);
        var (least, most) = edges;
        var ends = float.IsFinite(least) || float.IsFinite(most);
        float pitch = (float)Field.Pitch, line = (float)Field.LineHeight;
        var closes = Field.Surface.Closes;
        for (var row = -margin; row < rows + margin; row++)
        {
            var y = top + (row + 0.5f) / perMillimetre;
            if (row == -margin) Locate(y - 1 / perMillimetre, before, downBefore, heldBefore);
            else
            {
                across.CopyTo(before, 0);
                held.CopyTo(heldBefore, 0);
                down.CopyTo(downBefore, 0);
            }
            Locate(y, across, down, held);
            var at = (row + margin) * Stride;
            var pleat = int.MinValue;
            var pleatIs = default(Unevenness);
            float creaseSin = 0, creaseCos = 0, hem = 0;
            for (var n = 0; n < nodes - 1; n++)
            {
                var count = Math.Min(apart, Stride - n * apart);
                bool here = !float.IsNaN(across[n]), there = !float.IsNaN(across[n + 1]);
                float a = across[n], toRight = across[n + 1] - a;
                if (closes) toRight = Round(toRight);
                if (!here || !there || MathF.Abs(toRight) > 0.5f * Field.Pleats)
                {
                    // The cloth ends or begins between two nodes: told sample by sample.
                    for (var i = 0; i < count; i++, at++) LayEdge(at, left + (n * apart + i - margin + 0.5f) / perMillimetre, y, here || there);
                    continue;
                }
                float step = toRight / apart, perRight = step * perMillimetre, toDown = float.IsNaN(before[n]) ? 0 : a - before[n];
                var perDown = (closes ? Round(toDown) : toDown) * perMillimetre;
                float d = down[n], dStep = (down[n + 1] - d) / apart;
                var gradient = MathF.Sqrt(perRight * perRight + perDown * perDown);
                // Drawn together pleats are as deep as they are narrow; where a pleat is no wider than a sample nothing is told of it.
                var local = Math.Min(1, 1 / (gradient * pitch));
                var deep = depth * (WideDeep + (1 - WideDeep) * local) * Math.Clamp((perMillimetre / gradient - PleatSeen) / PleatWhole, 0, 1) * (1 - HeldShallow * held[n]);
                var sunk = depth * Tuck * held[n];
                // Where the cloth turns away, its yarns lie closer.
                float dDown = down[n] - downBefore[n], closer = line * MathF.Sqrt(dStep * dStep + dDown * dDown) * perMillimetre;
                var weave = ClothWeave.Seen(perMillimetre / Math.Max(1, Math.Max(closer, gradient * pitch)));
                var tucks = -depth * Tuck * (held[n] - heldBefore[n]) * perMillimetre;
                var smooth = 1 - HeldSmooth * held[n];
                for (var i = 0; i < count; i += Four)
                {
                    // Four samples at a time, each of the pleat it lies on: mostly one.
                    var acrossHere = Vector128.Create(a + i * step) + Steps * step;
                    var downHere = Vector128.Create(d + i * dStep) + Steps * dStep;
                    var floors = Vector128.Floor(acrossHere);
                    for (var left = Vector128<int>.AllBitsSet; left != Vector128<int>.Zero;)
                    {
                        var lane = BitOperations.TrailingZeroCount(left.ExtractMostSignificantBits());
                        var floor = floors[lane];
                        var lanes = left & Vector128.Equals(floors, Vector128.Create(floor)).AsInt32();
                        left &= ~lanes;
                        if ((int)floor != pleat)
                        {
                            pleat = (int)floor;
                            var own = closes ? (pleat + Field.Pleats) % Field.Pleats : pleat;
                            pleatIs = uneven.At(own, downHere[lane] * line);
                            if (ends) hem = Hemmed * Grain.At(own, 0, 34);
                            if (perMillimetre >= CreaseSeen) (creaseSin, creaseCos) = MathF.SinCos(downHere[lane] * line * Unevenness.CreasedOften + pleatIs.Creased);
                        }
                        // No pleat stands quite upright.
                        var share = acrossHere - floors;
                        share += pleatIs.Lean * share * (Vector128<float>.One - share);
                        var s = share * CrownSteps;
                        var k = Vector128.ConvertToInt32(s);
                        var (h, slope, sin, cos) = CrownAt(k, s - Vector128.ConvertToSingle(k));
                        if (ends)
                        {
                            var cloth = lanes & Vector128.GreaterThanOrEqual(downHere, Vector128.Create(least) - Scallop * h).AsInt32()
                                & Vector128.LessThanOrEqual(downHere, Vector128.Create(most - hem) + Scallop * h).AsInt32();
                            if (cloth != lanes)
                                for (var l = 0; l < Four; l++)
                                    if (lanes[l] != 0 && cloth[l] == 0) LayTable(at + i + l);
                            if (cloth == Vector128<int>.Zero) continue;
                            lanes = cloth;
                        }
                        // From close by it is seen that the tube is soft: shallow creases run across it aslant.
                        var rise = Vector128.Create(pleatIs.Rise + pleatIs.Dimple * smooth) + Crease * smooth * (creaseSin * cos + creaseCos * sin);
                        var above = h + Vector128<float>.One;
                        var steep = slope * (deep * pleatIs.Full);
                        var right = steep * perRight;
                        var downward = steep * perDown + rise * above + Vector128.Create(tucks);
                        var shade = Vector128.Create(pleatIs.Tone);
                        if (weave > 0)
                        {
                            var (su, sv, lighter) = ClothWeave.At(acrossHere * pitch, downHere * line, share);
                            su *= weave * pitch;
                            sv *= weave * pitch;
                            right += su * perRight - sv * perDown;
                            downward += su * perDown + sv * perRight;
                            shade *= Vector128<float>.One + weave * lighter;
                        }
                        Put(Height, h * (deep * pleatIs.Full) - Vector128.Create(sunk) + above * (depth * pleatIs.Stands * (1 - held[n])));
                        Put(Right, right);
                        Put(Down, downward);
                        Put(Shade, shade);
                        var of = Vector128.LoadUnsafe(ref Of[at + i]);
                        Vector128.ConditionalSelect(lanes, Vector128.Create(Cloth), of).StoreUnsafe(ref Of[at + i]);

                        [MethodImpl(MethodImplOptions.AggressiveInlining)]
                        void Put(float[] into, Vector128<float> value) =>
                            Vector128.ConditionalSelect(lanes.AsSingle(), value, Vector128.LoadUnsafe(ref into[at + i])).StoreUnsafe(ref into[at + i]);
                    }
                }
                at += count;
            }
        }

        // From one pleat to another the shorter way round.
        float Round(float way) => way - Field.Pleats * MathF.Round(way / Field.Pleats);

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
            if (!near || Field.Locate(x, y) is not { } place || place.Down < least || place.Down > most) return;
            var share = place.Across - MathF.Floor(place.Across);
            Height[at] = crown[(int)(share * CrownSteps)][0] * depth * 0.3f;
            (Right[at], Down[at], Of[at], Shade[at]) = (0, 0, Cloth, 0.7f); // it turns away there
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

    [MethodImpl(Hot)]
    private void Lay(in Strand strand)
    {
        // Back from the picture to t and across.
        var turn = strand.AlongX * strand.AcrossY - strand.AlongY * strand.AcrossX;
        float tx = strand.AcrossY / turn, ty = -strand.AcrossX / turn, ox = -strand.AlongY / turn, oy = strand.AlongX / turn;
        // A stitch lies close on the cloth beside it and keeps the light from it.
        var contact = strand.Casts == 0 ? 0 : ContactReach / strand.HalfWidth;
        var reach = MathF.Abs(strand.Offset) * Strand.Apart + MathF.Abs(strand.Lean) + MathF.Abs(strand.Bow) * (1 - Strand.Swells) + strand.HalfWidth * (1 + contact);
        float boxX = MathF.Abs(strand.AlongX) + MathF.Abs(strand.AcrossX) * reach, boxY = MathF.Abs(strand.AlongY) + MathF.Abs(strand.AcrossY) * reach;
        int fromX = Math.Max(0, Column(strand.MidX - boxX)), toX = Math.Min(Stride - Vector<float>.Count, Column(strand.MidX + boxX) + 1);
        int fromY = Math.Max(-margin, Row(strand.MidY - boxY)), toY = Math.Min(rows + margin - 1, Row(strand.MidY + boxY) + 1);
        if (fromX > toX || fromY > toY) return;

        Vector<float> one = Vector<float>.One, zero = Vector<float>.Zero;
        // Ridges of the plies show where a turn takes several samples.
        var seen = Math.Clamp((strand.Turn * perMillimetre - Strand.TurnSeen) / Strand.TurnWhole, 0, 1) * (strand.Stands > 1 ? 0 : 1);
        var ridge = Strand.Ridge * strand.HalfWidth * seen;
        float perT = 2 * MathF.Tau * strand.HalfLength / strand.Turn, perC = Strand.Slants, begin = strand.Phase * MathF.Tau;
        var grains = Math.Clamp((strand.HalfWidth * perMillimetre - Strand.FibreSeen) / Strand.FibreWhole, 0, 1); // single fibres, from close by
        var round = strand.Stands > 1 ? Strand.FlatRound * strand.HalfWidth / strand.Stands : Strand.Roundness * strand.HalfWidth;
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
                var centre = strand.Offset * (new Vector<float>(Strand.Apart) - Strand.Together * t8) + strand.Lean * t + strand.Bow * (new Vector<float>(Strand.Swells) - t2);
                var c = (o - centre) * inverse;
                var c2 = c * c;
                var inside = Vector.LessThan(t2, one) & Vector.LessThan(c2, one);
                if (contact > 0)
                {
                    var beside = Vector.LessThan(t2, one) & Vector.LessThan(c2, new Vector<float>((1 + contact) * (1 + contact))) & Vector.Equals(new Vector<int>(Of, line + column), new Vector<int>(Cloth));
                    if (Vector.LessThanAny(beside, Vector<int>.Zero))
                    {
                        var away = Vector.Min(one, Vector.Max(zero, (Vector.Abs(c) - one) * (1 / contact)));
                        away = new Vector<float>(ContactLeft) + (1 - ContactLeft) * away * away * (new Vector<float>(3) - 2 * away);
                        var was = new Vector<float>(Shade, line + column);
                        Vector.ConditionalSelect(beside, was * away, was).CopyTo(Shade, line + column);
                    }
                }
                if (Vector.EqualsAll(inside, Vector<int>.Zero)) continue;
                var rise = Vector.SquareRoot(Vector.Max(one - c2, new Vector<float>(Strand.LeastRise)));
                // No turn is quite as long as the next.
                var twist = t * perT + c * perC + new Vector<float>(begin) + Strand.Loose * Vector.Sin(t * Strand.LooseOften + new Vector<float>(begin * Strand.LooseBegin));
                var height = new Vector<float>(strand.Apex - round) - strand.Dip * (Strand.SinkSoon * t2 + (1 - Strand.SinkSoon) * t4 * t2) + round * rise;
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
                var alongSlope = -strand.Dip * (2 * Strand.SinkSoon * t + 6 * (1 - Strand.SinkSoon) * t4 * t) - ridge * perT * wave;
                var crossSlope = (-round * c / rise - ridge * perC * wave) * inverse;
                alongSlope -= crossSlope * shift;
                Vector.ConditionalSelect(inside, height, new Vector<float>(Height, at)).CopyTo(Height, at);
                Vector.ConditionalSelect(inside, alongSlope * tx + crossSlope * ox, new Vector<float>(Right, at)).CopyTo(Right, at);
                Vector.ConditionalSelect(inside, alongSlope * ty + crossSlope * oy, new Vector<float>(Down, at)).CopyTo(Down, at);
                // Fibres run along the strand, a little to either side by turns: plies one way, fibres in them the other.
                var aslant = (new Vector<float>(Strand.AslantAll) + Strand.AslantPly * seen * wave + Strand.AslantAcross * c) * strand.HalfLength;
                var fx = new Vector<float>(strand.AlongX) + strand.AcrossX * (shift + aslant);
                var fy = new Vector<float>(strand.AlongY) + strand.AcrossY * (shift + aslant);
                var length = one / Vector.SquareRoot(fx * fx + fy * fy + new Vector<float>(1e-12f));
                Vector.ConditionalSelect(inside, fx * length, new Vector<float>(FibreX, at)).CopyTo(FibreX, at);
                Vector.ConditionalSelect(inside, fy * length, new Vector<float>(FibreY, at)).CopyTo(FibreY, at);
                // Between strands it is darker than the light alone would have it.
                var shade = strand.Shade * (one + Strand.PlyShade * seen * slant) * (new Vector<float>(Strand.MiddleShade) - Strand.EdgeShade * c2 * c2 * c2);
                if (grains > 0)
                {
                    var coarse = Vector.Sin(c * Strand.CoarseAcross + twist * Strand.CoarseAlong + new Vector<float>(begin * Strand.CoarseBegin)) * Vector.Sin(c * Strand.CoarseAcross2 - twist * Strand.CoarseAlong2);
                    var middle = Vector.Sin(c * Strand.MiddleAcross + twist * Strand.MiddleAlong + new Vector<float>(begin * Strand.MiddleBegin)) * Vector.Sin(t * Strand.MiddleOften + new Vector<float>(begin * Strand.MiddleBegin2));
                    shade *= one + grains * (Strand.Coarse * coarse + Strand.Middle * middle + Strand.Fine * Vector.Sin(c * Strand.FineAcross - twist * Strand.FineAlong));
                }
                Vector.ConditionalSelect(inside, shade, new Vector<float>(Shade, at)).CopyTo(Shade, at);
                Vector.ConditionalSelect(inside, thread, new Vector<int>(Of, at)).CopyTo(Of, at);
            }
        }

        int Column(float x) => (int)MathF.Floor((x - left) * perMillimetre) + margin;
        int Row(float y) => (int)MathF.Floor((y - top) * perMillimetre);
    }

    internal const float ContactReach = 0.2f; // millimetres
    internal const float ContactLeft = 0.13f; // of the light, right beside a stitch

    // What lies close around, in millimetres, and what lies around, in shares of the pitch, which may be so many millimetres for that.
    internal const float NearReach = 0.2f, WiderReach = 0.27f, WidestPitch = 4;

    /// <summary>When all is laid: how high it is round every sample.</summary>
    public void Settle()
    {
        Mean(Height, Near, Math.Max(1, (int)MathF.Round(NearReach * perMillimetre)));
        Mean(Near, Wider, Math.Max(1, (int)MathF.Round(WiderReach * (float)Math.Min(Field.Pitch, WidestPitch) * perMillimetre)));
    }

    // The mean over a square about every sample; past the edges what lies there goes on.
    [MethodImpl(Hot)]
    private void Mean(float[] of, float[] into, int radius)
    {
        var all = rows + 2 * margin;
        var share = 1f / (2 * radius + 1);
        // Along two rows at a time: one sum waits for its last, two do not wait for each other.
        for (var row = 0; row < all; row += 2)
        {
            int other = Math.Min(row + 1, all - 1);
            ReadOnlySpan<float> from = of.AsSpan(row * Stride, Stride), from2 = of.AsSpan(other * Stride, Stride);
            Span<float> to = passing.AsSpan(row * Stride, Stride), to2 = passing.AsSpan(other * Stride, Stride);
            float sum = from[0] * radius, sum2 = from2[0] * radius;
            for (var i = 0; i <= radius; i++)
            {
                var at = Math.Min(i, Stride - 1);
                sum += from[at];
                sum2 += from2[at];
            }
            int inner = Math.Min(radius, Stride), outer = Math.Max(inner, Stride - radius - 1);
            for (var x = 0; x < Stride; x++)
            {
                if (x == inner)
                    for (; x < outer; x++)
                    {
                        to[x] = sum * share;
                        to2[x] = sum2 * share;
                        sum += from[x + radius + 1] - from[x - radius];
                        sum2 += from2[x + radius + 1] - from2[x - radius];
                    }
                to[x] = sum * share;
                to2[x] = sum2 * share;
                int comes = Math.Min(x + radius + 1, Stride - 1), goes = Math.Max(x - radius, 0);
                sum += from[comes] - from[goes];
                sum2 += from2[comes] - from2[goes];
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
