using System.Numerics;
using System.Runtime.CompilerServices;
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
    internal const float Lamp = 0.62f, Around = 0.52f;

    // The lamp is a little warmer, what comes from all round a little cooler; together they are white.
    internal static readonly Vector3 Warm = new(1.03f, 1, 0.955f), Cool = new(0.955f, 1, 1.065f);

    // Of the light that falls on it, what cloth of one colour gives back where it lies open to it: so much that the brightest of white cloth is not cut.
    internal const float ClothMean = 1.06f;

    // What a filled area comes to under both, so that its colour is the thread's own; measured, and held by a test.
    internal const float ThreadMean = 1.06f;

    // Highlights: how much of the thread's own colour, and of the lamp's, that a dark thread gives back less of; how far each is shifted along the fibre, and how sharp it is.
    internal const float Glow = 1.0f, Sheen = 2.6f, SheenLeast = 0.006f, SheenOwn = 0.17f, SheenShift = 0.06f, SheenSharp = 42, GlowShift = -0.10f, GlowSharp = 16;

    // Of the dull light of a thread the share that depends on the way of its fibres; how far light wraps round thread and cloth; how soon a thread that faces the lamp is lit.
    internal const float FibreShare = 0.34f, WrapThread = 0.15f, WrapCloth = 0.22f, FacesSteep = 2.5f, FacesLeast = 0.3f;

    // Shadows: how soft beside what casts them, and how much softer a millimetre away; how much of the lamp they take.
    internal const float ShadowSoft = 0.16f, ShadowSofter = 0.45f, ShadowDark = 0.78f;

    // How much darker it is below what lies close around, a millimetre; and below what lies around, a valley's depth.
    internal const float NearDark = 2.5f, WiderDark = 1.0f;

    // Light from all round: for what faces up, and more from above and from the left; the least of it; and how much is thrown back and forth where little comes in.
    internal const float SkyFaces = 0.55f, SkyAbove = 0.2f, SkyLeft = 0.12f, SkyLeast = 0.45f, Back = 0.55f;

    // By how much shadows of a white thread are paler, and its highlights less.
    internal const float Paler = 0.52f, PalerSheen = 0.7f;

    // How light colours are to the eye, roughly.
    internal static readonly Vector3 Eye = new(0.3f, 0.5f, 0.2f);

    // How many of the steps look at what is there itself; farther off, edges are seen softened.
    internal const int SharpSteps = 3;

    internal static readonly float[] ShadowSteps = [0.07f, 0.15f, 0.26f, 0.42f, 0.66f, 1]; // shares of the shadows' reach

    /// <summary>Lights a row of samples and adds it to a row of pixels.</summary>
    /// <param name="relief">What is lit, settled.</param>
    /// <param name="row">The row of its band.</param>
    /// <param name="light">The light.</param>
    /// <param name="into">Red, green and blue light of each pixel.</param>
    /// <param name="sampling">Samples to a pixel across.</param>
    [MethodImpl(Relief.Hot)]
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
        var lies = !relief.Field.Surface.IsStraight && relief.Field.Surface.Backdrop is not null;
        Vector<float> one = Vector<float>.One, zero = Vector<float>.Zero;
        var lanes = Vector<float>.Count;
        var strength = light.Strength;
        Span<float> red = stackalloc float[lanes], green = stackalloc float[lanes], blue = stackalloc float[lanes], riseX = stackalloc float[lanes], riseY = stackalloc float[lanes];
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
                var over = new Vector<float>(i < SharpSteps ? relief.Height : relief.Near, at + offsets[i]) - height - new Vector<float>(steps[i] * steep);
                blocked = Vector.Max(blocked, over * (1 / (ShadowSoft + ShadowSofter * steps[i])));
            }
            var lit = one - ShadowDark * Vector.Min(one, blocked);
            var near = Vector.Max(zero, new Vector<float>(relief.Near, at) - height);
            var wider = Vector.Max(zero, new Vector<float>(relief.Wider, at) - height);
            var tight = Vector.Exp(near * -NearDark);
            var around = Vector.Exp(wider * (-WiderDark / depth));
            var open = tight * tight * around;

            var length = one / Vector.SquareRoot(one + right * right + down * down);
            Vector<float> nx = -right * length, ny = -down * length, nz = length;
            var facing = nx * lamp.X + ny * lamp.Y + nz * lamp.Z;
            // Thin cloth lets light through from pleat to pleat: its valleys are less dark.
            var sky = (nz * SkyFaces - ny * SkyAbove - nx * SkyLeft + new Vector<float>(SkyLeast)) * Vector.ConditionalSelect(isThread, open, Vector.Max(open, around * Vector.SquareRoot(tight)));

            Vector<float> lamped = zero, sheen = zero, glow = zero, skied = sky * Around;
            var shade = new Vector<float>(relief.Shade, at);
            if (Vector.LessThanAny(of, Vector<int>.Zero))
            {
                var wrapped = Vector.Max(zero, (facing + new Vector<float>(WrapCloth)) * (1 / (1 + WrapCloth)));
                lamped = wrapped * lit * tight * Lamp;
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
                var wrapped = Vector.Max(zero, (facing + new Vector<float>(WrapThread)) * (1 / (1 + WrapThread)));
                var faces = Vector.Min(one, Vector.Max(zero, facing * FacesSteep + new Vector<float>(FacesLeast))) * lit;
                var threadLamped = (fibre * FibreShare + wrapped * (1 - FibreShare)) * faces * Lamp;
                // cos^n about the fibre's own plane, as exp(-n x² / 2)
                Vector<float> first = alongHalf + new Vector<float>(SheenShift), second = alongHalf + new Vector<float>(GlowShift);
                var mirror = Vector.Exp(first * first * -SheenSharp);
                var inner = Vector.Exp(second * second * -GlowSharp);
                sheen = Vector.ConditionalSelect(isThread, mirror * faces * open, zero);
                glow = Vector.ConditionalSelect(isThread, inner * faces * open, zero);
                lamped = Vector.ConditionalSelect(isThread, threadLamped, lamped);
            }
            for (var i = 0; i < lanes; i++)
            {
                ref readonly var c = ref palette[of[i] + 2];
                (red[i], green[i], blue[i]) = (c.X, c.Y, c.Z);
            }
            lamped = lamped * shade + glow * Glow;
            skied *= shade;
            var back = Back * (one - open);
            Vector<float> r0 = new(red), g0 = new(green), b0 = new(blue);
            // A light thread throws so much light back and forth that its shadows are paler and its highlights stand out less.
            var most = Vector.Max(r0, Vector.Max(g0, b0));
            var paler = one - Paler * most * most;
            // Of the lamp's own colour a dark thread gives back less.
            var white = sheen * Sheen * (new Vector<float>(SheenLeast) + SheenOwn * (r0 * Eye.X + g0 * Eye.Y + b0 * Eye.Z)) * (one - PalerSheen * most * most);
            r0 = Given(r0, Warm.X, Cool.X);
            g0 = Given(g0, Warm.Y, Cool.Y);
            b0 = Given(b0, Warm.Z, Cool.Z);
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

            // What comes back of one of the three colours of light.
            Vector<float> Given(Vector<float> own, float warm, float cool)
            {
                var falls = lamped * warm + skied * cool;
                var thread = one + (falls * (1 / ThreadMean) - one) * paler;
                return (own * Vector.ConditionalSelect(isThread, thread, falls * (1 / ClothMean)) / (one - back * own) + white * warm) * strength;
            }
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
