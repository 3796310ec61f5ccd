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

    /// <summary>How it is at a place: how steeply it rises across and along the pleat, and by how much it is lighter.</summary>
    /// <param name="across">Millimetres across the cloth as it lies.</param>
    /// <param name="down">Millimetres down it.</param>
    /// <param name="share">How far across its pleat.</param>
    public static (float Across, float Down, float Lighter) At(float across, float down, float share)
    {
        // Round the tube the cloth turns away, so that its yarns lie closer.
        var round = share * 2 - 1;
        var u = (across + Aside * round * round * round) * Turned / Warp;
        var v = down / Weft;
        u += Wanders * Wander(v * WarpOften) + WandersFinely * Wander(v * WarpFinely + Yarns / 3f);
        v += Wanders * Wander(u * WeftOften + Yarns / 7f) + WandersFinely * Wander(u * WeftFinely + Yarns / 2f);
        float fu = MathF.Floor(u), fv = MathF.Floor(v), su = u - fu - 0.5f, sv = v - fv - 0.5f;
        int i = (int)fu & (Yarns - 1), j = (int)fv & (Yarns - 1);
        var knot = Knots[j * Yarns + i];
        var over = ((i + j) & 1) == 0;
        var thick = -2 * YarnSteep * (1 + YarnThick * knot);
        return ((over ? su : YarnAlong * su) * thick, (over ? YarnAlong * sv : sv) * thick,
            YarnLight - YarnDark * (over ? su * su : sv * sv) + YarnTone * (over ? Tones[i] : Tones[j]) + KnotTone * knot);
    }

    private static float Wander(float at)
    {
        var from = MathF.Floor(at);
        var i = (int)from & (Yarns - 1);
        return Wandering[i] + (Wandering[i + 1] - Wandering[i]) * (at - from);
    }
}
