using System.Numerics;
using Pleatwright.Thread;

namespace Pleatwright.Stitched;

/// <summary>
/// Lights a relief. Thread is lit as a bundle of fibres: its diffuse part and its highlight depend on the angle between the light and the way the fibres run
/// (J. T. Kajiya, T. L. Kay, "Rendering fur with three dimensional textures", SIGGRAPH 1989), with two highlights shifted along the fibre, one of the lamp's colour and one
/// of the thread's, as S. R. Marschner and others found on hair ("Light scattering from human hair fibers", SIGGRAPH 2003). Cloth is dull: Lambert's law, wrapped round the edge
/// of the light as thin cotton lets some through. In valleys and between stitches it is darker by how much lies higher around, and by what stands between a place and the
/// lamp; colour thrown back and forth there makes the shadows of a colour warmer than grey.
/// </summary>
internal static class Shading
{
    // How much of the light is the lamp's, and how much comes from all round: a lamp beside a window, our own choice.
    private const float Lamp = 0.62f, Around = 0.52f;

    // What a filled area comes to under both, so that its colour is the thread's own; measured, and held by a test.
    private const float ThreadMean = 1.06f;

    private static readonly float[] ShadowSteps = [0.07f, 0.15f, 0.26f, 0.42f, 0.66f, 1]; // shares of the shadows' reach

    /// <summary>Lights a row of samples and adds it to a row of pixels.</summary>
    /// <param name="relief">What is lit, settled.</param>
    /// <param name="row">The row of its band.</param>
    /// <param name="light">The light.</param>
    /// <param name="into">Red, green and blue light of each pixel.</param>
    /// <param name="sampling">Samples to a pixel across.</param>
    public static void Light(Relief relief, int row, in Light light, float[] into, int sampling)
    {
        var palette = Palette(relief.Piece);
        var lamp = light.Toward;
        var half = Vector3.Normalize(lamp + Vector3.UnitZ);
        var flat = MathF.Sqrt(lamp.X * lamp.X + lamp.Y * lamp.Y);
        var steep = lamp.Z / Math.Max(flat, 1e-3f);
        var start = relief.Start(row);
        var stride = relief.Stride;
        Span<int> offsets = stackalloc int[ShadowSteps.Length];
        Span<float> steps = stackalloc float[ShadowSteps.Length];
        for (var i = 0; i < offsets.Length; i++)
        {
            steps[i] = ShadowSteps[i] * Relief.ShadowReach(relief.Field);
            offsets[i] = (int)MathF.Round(steps[i] * lamp.Y / flat * relief.PerMillimetre) * stride + (int)MathF.Round(steps[i] * lamp.X / flat * relief.PerMillimetre);
        }
        var depth = Strands.ValleyDepth(relief.Field.Pitch);
        var weave = Math.Clamp(relief.PerMillimetre * Warp / 2.5f - 1, 0, 1);
        var lies = !relief.Field.Surface.IsStraight && relief.Field.Surface.Backdrop is not null;
        Vector<float> one = Vector<float>.One, zero = Vector<float>.Zero;
        var lanes = Vector<float>.Count;
        Span<float> red = stackalloc float[lanes], green = stackalloc float[lanes], blue = stackalloc float[lanes], mottle = stackalloc float[lanes], riseX = stackalloc float[lanes], riseY = stackalloc float[lanes];
        for (var column = 0; column < relief.Wide; column += lanes)
        {
            var at = start + column;
            var of = new Vector<int>(relief.Of, at);
            var isThread = Vector.GreaterThanOrEqual(of, Vector<int>.Zero);
            var height = new Vector<float>(relief.Height, at);
            var right = new Vector<float>(relief.Right, at);
            var down = new Vector<float>(relief.Down, at);
            if (lies)
            {
                for (var i = 0; i < lanes; i++)
                {
                    var p = relief.PlaceOf(row, column + i);
                    var (r, d) = relief.Field.Surface.RiseAt(p.X, p.Y);
                    (riseX[i], riseY[i]) = of[i] == Relief.Table ? (0, 0) : ((float)r, (float)d);
                }
                right += new Vector<float>(riseX);
                down += new Vector<float>(riseY);
            }

            // Shadow: from what stands towards the lamp, softer the farther it is; and from what lies higher around.
            var blocked = zero;
            for (var i = 0; i < offsets.Length; i++)
            {
                // Farther off, edges are seen softened.
                var over = new Vector<float>(i < 3 ? relief.Height : relief.Near, at + offsets[i]) - height - new Vector<float>(steps[i] * steep);
                blocked = Vector.Max(blocked, over * (1 / (0.16f + 0.45f * steps[i])));
            }
            var lit = one - 0.78f * Vector.Min(one, blocked);
            var near = Vector.Max(zero, new Vector<float>(relief.Near, at) - height);
            var wider = Vector.Max(zero, new Vector<float>(relief.Wider, at) - height);
            var tight = Vector.Exp(near * -2.5f);
            var open = tight * tight * Vector.Exp(wider * (-1.0f / depth));

            var length = one / Vector.SquareRoot(one + right * right + down * down);
            Vector<float> nx = -right * length, ny = -down * length, nz = length;
            var facing = nx * lamp.X + ny * lamp.Y + nz * lamp.Z;
            var sky = (nz * 0.55f - ny * 0.2f - nx * 0.12f + new Vector<float>(0.45f)) * open;

            Vector<float> dull = zero, sheen = zero, glow = zero;
            var shade = new Vector<float>(relief.Shade, at);
            if (Vector.LessThanAny(of, Vector<int>.Zero))
            {
                var wrapped = Vector.Max(zero, (facing + new Vector<float>(0.22f)) * (1 / 1.22f));
                dull = wrapped * lit * tight * Lamp + sky * Around;
                if (weave > 0)
                {
                    Weave(relief, at, of, mottle);
                    dull *= one + weave * new Vector<float>(mottle);
                }
            }
            if (!Vector.EqualsAll(isThread, Vector<int>.Zero))
            {
                var fx = new Vector<float>(relief.FibreX, at);
                var fy = new Vector<float>(relief.FibreY, at);
                var fz = right * fx + down * fy;
                var fl = one / Vector.SquareRoot(fx * fx + fy * fy + fz * fz + new Vector<float>(1e-9f));
                fx *= fl;
                fy *= fl;
                fz *= fl;
                var alongLamp = fx * lamp.X + fy * lamp.Y + fz * lamp.Z;
                var alongHalf = fx * half.X + fy * half.Y + fz * half.Z;
                var fibre = Vector.SquareRoot(Vector.Max(zero, one - alongLamp * alongLamp));
                var wrapped = Vector.Max(zero, (facing + new Vector<float>(0.15f)) * (1 / 1.15f));
                var faces = Vector.Min(one, Vector.Max(zero, facing * 2.5f + new Vector<float>(0.3f))) * lit;
                var threadDull = (fibre * 0.34f + wrapped * 0.66f) * faces * Lamp + sky * Around;
                // cos^n about the fibre's own plane, as exp(-n x² / 2)
                Vector<float> first = alongHalf + new Vector<float>(0.06f), second = alongHalf - new Vector<float>(0.10f);
                var mirror = Vector.Exp(first * first * -42f);
                var inner = Vector.Exp(second * second * -16f);
                sheen = Vector.ConditionalSelect(isThread, mirror * faces * open, zero);
                glow = Vector.ConditionalSelect(isThread, inner * faces * open, zero);
                dull = Vector.ConditionalSelect(isThread, threadDull, dull);
            }
            for (var i = 0; i < lanes; i++)
            {
                ref readonly var c = ref palette[of[i] + 2];
                (red[i], green[i], blue[i]) = (c.X, c.Y, c.Z);
            }
            dull *= shade;
            var coloured = dull + glow * Glow;
            var back = 0.55f * (one - open);
            Vector<float> r0 = new(red), g0 = new(green), b0 = new(blue);
            var thread = coloured * (1 / ThreadMean);
            // A light thread throws so much light back and forth that its shadows are paler and its highlights stand out less.
            var most = Vector.Max(r0, Vector.Max(g0, b0));
            thread = one + (thread - one) * (one - 0.52f * most * most);
            coloured = Vector.ConditionalSelect(isThread, thread, coloured);
            // Of the lamp's own colour a dark thread gives back less.
            var white = sheen * Sheen * (new Vector<float>(0.006f) + 0.17f * (r0 * 0.3f + g0 * 0.5f + b0 * 0.2f)) * (one - 0.7f * most * most);
            var strength = light.Strength;
            r0 = (r0 * coloured / (one - back * r0) + white) * strength;
            g0 = (g0 * coloured / (one - back * g0) + white * 0.98f) * strength;
            b0 = (b0 * coloured / (one - back * b0) + white * 0.93f) * strength;
            r0.CopyTo(red);
            g0.CopyTo(green);
            b0.CopyTo(blue);
            for (var i = 0; i < lanes && column + i < relief.Wide; i++)
            {
                if (of[i] == Relief.Table) Table(relief, row, column + i, light, palette[0], red, green, blue, i);
                var pixel = (column + i) / sampling * 3;
                into[pixel] += red[i];
                into[pixel + 1] += green[i];
                into[pixel + 2] += blue[i];
            }
        }
    }

    private const float Glow = 1.0f, Sheen = 2.6f;

    private const float Warp = 0.21f, Weft = 0.24f; // millimetres from one yarn of the cloth to the next: a fine cotton, from memory

    // A plain weave: yarns over and under by turns, no two quite alike.
    private static void Weave(Relief relief, int at, Vector<int> of, Span<float> into)
    {
        var pitch = (float)relief.Field.Pitch;
        var line = (float)relief.Field.LineHeight;
        for (var i = 0; i < into.Length; i++)
        {
            into[i] = 0;
            if (of[i] != Relief.Cloth) continue;
            float a = relief.FibreX[at + i], d = relief.FibreY[at + i];
            // Round the tube the cloth turns away, so that its yarns lie closer.
            var u = (a + 0.09f * MathF.Sin(MathF.Tau * a)) * pitch * 1.35f / Warp;
            var v = d * line / Weft;
            float fu = MathF.Floor(u), fv = MathF.Floor(v);
            float su = u - fu - 0.5f, sv = v - fv - 0.5f;
            var over = (((int)fu + (int)fv) & 1) == 0;
            var bump = over ? 1 - 4 * su * su : 1 - 4 * sv * sv;
            into[i] = 0.16f * (bump - 0.66f) + 0.05f * (over ? Grain.At((int)fu, 0, 31) : Grain.At((int)fv, 0, 32)) + 0.04f * Grain.At((int)fu, (int)fv, 33);
        }
    }

    // What the piece lies on where it does not fill the picture: paper, with its own soft shadow.
    private static void Table(Relief relief, int row, int column, in Light light, Vector3 paper, Span<float> red, Span<float> green, Span<float> blue, int i)
    {
        var p = relief.PlaceOf(row, column);
        var flat = new Vector2(light.Toward.X, light.Toward.Y);
        var dark = 0f;
        var jitter = Grain.At(column, row, 41);
        const int steps = 8;
        var far = relief.Field.Surface.Backdrop is { } radius ? (float)radius * 0.35f : 4f;
        for (var s = 1; s <= steps; s++)
        {
            var q = p + flat * (far * (s + 0.5f * jitter) / steps);
            if (relief.HasCloth(q)) dark += 1f / steps;
        }
        var lightness = light.Strength * (1 - 0.45f * dark * dark * (3 - 2 * dark));
        (red[i], green[i], blue[i]) = (paper.X * lightness, paper.Y * lightness, paper.Z * lightness);
    }

    // Paper, cloth, then the threads, as light.
    private static Vector3[] Palette(StitchedPiece piece) =>
        [new Vector3(0.90f, 0.89f, 0.86f), Of(piece.Work.Piece.Cloth.Colour), .. piece.Work.Piece.Threads.Select(t => Of(t.Colour))];

    private static Vector3 Of(Colour colour)
    {
        var light = LinearRgb.From(colour);
        return new Vector3((float)light.Red, (float)light.Green, (float)light.Blue);
    }
}
