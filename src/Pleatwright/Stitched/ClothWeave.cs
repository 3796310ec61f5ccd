using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Pleatwright.Stitched;

/// <summary>
/// The weave of the cloth, seen from close by: a plain weave, yarns over and under by turns, that wander a little and are here thicker, there thinner. A fine
/// cotton, from memory.
/// </summary>
internal static class ClothWeave
{
    /// <summary>Millimetres from one yarn to the next, along the pleat and across it.</summary>
    public const float Warp = 0.21f, Weft = 0.24f;

    // Over how much more cloth there is than is seen from above; how much of it is turned away at the sides of a pleat, in millimetres.
    public const float Turned = 1.35f, Aside = 0.06f;

    // How steeply a yarn rises at its edge, and along itself over that; how much one is thicker than another.
    public const float YarnSteep = 0.33f, YarnAlong = 0.4f, YarnThick = 0.35f;

    // How much darker it is at a yarn's edge, and how much lighter in its middle; by how much yarns differ, and places on one.
    public const float YarnDark = 0.26f, YarnLight = 0.04f, YarnTone = 0.045f, KnotTone = 0.05f;

    // By how many yarns a yarn wanders, how often, and finely; the same the other way.
    public const float Wanders = 0.42f, WandersFinely = 0.16f, WarpOften = 0.31f, WarpFinely = 1.3f, WeftOften = 0.27f, WeftFinely = 1.1f;

    /// <summary>Samples to a yarn from which on it is seen, and so many more for all of it.</summary>
    public const float YarnSeen = 3.5f, YarnWhole = 3.5f;

    /// <summary>After so many yarns chance comes round again.</summary>
    public const int Yarns = 256;

    public const int WanderPurpose = 51, YarnPurpose = 52, KnotPurpose = 53;

    // Chance that changes smoothly along a yarn, a step a quarter of it.
    private static readonly float[] Wandering = [.. Enumerable.Range(0, Yarns + 1).Select(i => Grain.At(i % Yarns, 0, WanderPurpose))];
    private static readonly float[] Tones = [.. Enumerable.Range(0, Yarns).Select(i => Grain.At(i, 0, YarnPurpose))];
    private static readonly float[] Knots = [.. Enumerable.Range(0, Yarns * Yarns).Select(i => Grain.At(i % Yarns, i / Yarns, KnotPurpose))];

    /// <summary>How far the weave is seen at so many samples to a millimetre, 0 to 1.</summary>
    public static float Seen(float perMillimetre) => Math.Clamp((perMillimetre * Warp - YarnSeen) / YarnWhole, 0, 1);

    /// <summary>How it is at four places: how steeply it rises across and along the pleat, and by how much it is lighter.</summary>
    /// <param name="across">Millimetres across the cloth as it lies.</param>
    /// <param name="down">Millimetres down it.</param>
    /// <param name="share">How far across its pleat.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector128<float> Across, Vector128<float> Down, Vector128<float> Lighter) At(Vector128<float> across, Vector128<float> down, Vector128<float> share)
    {
        // Round the tube the cloth turns away, so that its yarns lie closer.
        var round = share * 2 - Vector128<float>.One;
        var u = (across + Aside * round * round * round) * (Turned / Warp);
        var v = down * (1 / Weft);
        u += Wanders * Wander(v * WarpOften) + WandersFinely * Wander(v * WarpFinely + Vector128.Create(Yarns / 3f));
        v += Wanders * Wander(u * WeftOften + Vector128.Create(Yarns / 7f)) + WandersFinely * Wander(u * WeftFinely + Vector128.Create(Yarns / 2f));
        Vector128<float> fu = Vector128.Floor(u), fv = Vector128.Floor(v), half = Vector128.Create(0.5f), su = u - fu - half, sv = v - fv - half;
        Vector128<int> mask = Vector128.Create(Yarns - 1), i = Vector128.ConvertToInt32(fu) & mask, j = Vector128.ConvertToInt32(fv) & mask;
        var knot = Gathered(Knots, j * Yarns + i);
        var over = Vector128.Equals((i + j) & Vector128<int>.One, Vector128<int>.Zero);
        var thick = -2 * YarnSteep * (Vector128<float>.One + YarnThick * knot);
        var lies = over.AsSingle();
        var aslant = Vector128.ConditionalSelect(lies, su, sv);
        return (Vector128.ConditionalSelect(lies, su, YarnAlong * su) * thick, Vector128.ConditionalSelect(lies, YarnAlong * sv, sv) * thick,
            Vector128.Create(YarnLight) - YarnDark * aslant * aslant + YarnTone * Gathered(Tones, Vector128.ConditionalSelect(over, i, j)) + KnotTone * knot);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<float> Wander(Vector128<float> at)
    {
        var from = Vector128.Floor(at);
        var i = Vector128.ConvertToInt32(from) & Vector128.Create(Yarns - 1);
        var here = Gathered(Wandering, i);
        return here + (Gathered(Wandering, i + Vector128<int>.One) - here) * (at - from);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<float> Gathered(float[] of, Vector128<int> at) => Vector128.Create(of[at[0]], of[at[1]], of[at[2]], of[at[3]]);
}
