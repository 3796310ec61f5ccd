namespace Pleatwright.Stitched;

/// <summary>
/// Chance that is the same every time: the hand's small irregularity is reckoned from where a stitch or a pleat lies, never drawn from a generator, so
/// that a part of a picture is the same as in the whole. Mixed by the finaliser of MurmurHash3 (Appleby, public domain; from memory).
/// </summary>
internal static class Grain
{
    /// <summary>An even number from -1 to 1 for a place and a purpose.</summary>
    public static float At(int x, int y, int purpose) => (int)Mix((uint)x * 0x9E3779B1u ^ Mix((uint)y * 0x85EBCA77u ^ (uint)purpose * 0xC2B2AE3Du)) * (1f / int.MaxValue);

    /// <summary>The same, changing smoothly with the first coordinate, one unit from one number to the next.</summary>
    public static float Along(float x, int y, int purpose)
    {
        var from = MathF.Floor(x);
        var t = x - from;
        t = t * t * (3 - 2 * t);
        float a = At((int)from, y, purpose), b = At((int)from + 1, y, purpose);
        return a + (b - a) * t;
    }

    private static uint Mix(uint h)
    {
        h ^= h >> 16;
        h *= 0x85EBCA6Bu;
        h ^= h >> 13;
        h *= 0xC2B2AE35u;
        return h ^ (h >> 16);
    }
}
