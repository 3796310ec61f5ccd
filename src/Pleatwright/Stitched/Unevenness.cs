namespace Pleatwright.Stitched;

/// <summary>
/// What makes no two pleats alike: how a pleat bulges, leans and stands at a height, reckoned from which pleat it is and how far down it. By eye from gathered cloth,
/// our own choice.
/// </summary>
/// <param name="Rise">How steeply its crown rises downward, in millimetres a millimetre, where the cloth is not smooth.</param>
/// <param name="Dimple">The same where the gathering thread ran, and nothing holds it now.</param>
/// <param name="Full">How deep it is, over the others.</param>
/// <param name="Lean">By how much its crown lies to one side, in shares of its width.</param>
/// <param name="Stands">How much higher it stands than the others, over the depth of a valley.</param>
/// <param name="Tone">How light it is, about 1.</param>
/// <param name="Creased">Where its creases begin, as an angle.</param>
internal readonly record struct Unevenness(float Rise, float Dimple, float Full, float Lean, float Stands, float Tone, float Creased)
{
    // Chance for each purpose; see Grain.
    public const int DimplePurpose = 27, SoftPurpose = 30, BulgePurpose = 21, RipplePurpose = 22, TonePurpose = 23, FullPurpose = 24, LeanPurpose = 25, SwayPurpose = 31, AslantPurpose = 26, UpPurpose = 32, TallPurpose = 33;

    // Over how many millimetres each changes, and by how much it does.
    public const float SoftLong = 5.3f, Soft = 0.20f, BulgeLong = 1.7f, Bulge = 0.19f, RippleLong = 0.7f, Ripple = 0.08f, RiseStep = 0.2f;
    public const float DimpleSharp = 90, Dimpled = 1.75f, DimpleChance = 1.4f;
    public const float FullLong = 6, Fuller = 0.20f, ToneLong = 9, Toned = 0.03f;
    public const float LeanLong = 11, Leans = 0.34f, SwayLong = 2.3f, Sways = 0.16f, Aslant = 0.14f;
    public const float UpLong = 13, Up = 0.10f, Tall = 0.05f;

    // Creases: an angle a millimetre, how far apart they begin from pleat to pleat, and by how much they wander over how many millimetres.
    public const int CreasedPurpose = 28, CreasePurpose = 29;
    public const float CreasedOften = 2.1f, CreasedApart = 3.1f, CreasedAstray = 2.6f, CreasedLong = 2.1f;

    /// <summary>What lies between two, all of it changing evenly.</summary>
    /// <param name="upper">At 0.</param>
    /// <param name="lower">At 1.</param>
    /// <param name="share">From 0 to 1.</param>
    public static Unevenness Between(in Unevenness upper, in Unevenness lower, float share) => new(
        upper.Rise + (lower.Rise - upper.Rise) * share, upper.Dimple + (lower.Dimple - upper.Dimple) * share, upper.Full + (lower.Full - upper.Full) * share, upper.Lean + (lower.Lean - upper.Lean) * share,
        upper.Stands + (lower.Stands - upper.Stands) * share, upper.Tone + (lower.Tone - upper.Tone) * share, upper.Creased + (lower.Creased - upper.Creased) * share);

    /// <summary>Of a pleat at a place.</summary>
    /// <param name="pleat">Which, from 0.</param>
    /// <param name="down">Millimetres below the upper edge of cable row 0.</param>
    /// <param name="row">How far down it is in gathering rows.</param>
    public static Unevenness At(int pleat, float down, float row)
    {
        var nearest = MathF.Round(row);
        var off = row - nearest;
        return new(
            Soft * Rising(down / SoftLong, pleat, SoftPurpose) + Bulge * Rising(down / BulgeLong, pleat, BulgePurpose) + Ripple * Rising(down / RippleLong, pleat, RipplePurpose),
            off * MathF.Exp(-off * off * DimpleSharp) * (Dimpled + DimpleChance * Grain.At(pleat, (int)nearest, DimplePurpose)),
            1 + Fuller * Grain.Along(down / FullLong, pleat, FullPurpose),
            Leans * Grain.Along(down / LeanLong, pleat, LeanPurpose) + Sways * Grain.Along(down / SwayLong, pleat, SwayPurpose) + Aslant * Grain.At(pleat, 0, AslantPurpose),
            Up * Grain.Along(down / UpLong, pleat, UpPurpose) + Tall * Grain.At(pleat, 0, TallPurpose),
            1 + Toned * Grain.Along(down / ToneLong, pleat, TonePurpose),
            CreasedApart * Grain.At(pleat, 0, CreasedPurpose) + CreasedAstray * Grain.Along(down / CreasedLong, pleat, CreasePurpose));
    }

    private static float Rising(float at, int pleat, int purpose) => Grain.Along(at + RiseStep, pleat, purpose) - Grain.Along(at - RiseStep, pleat, purpose);
}

/// <summary>The unevenness of pleats from row to row of samples: where these lie close, it is reckoned at steps down the cloth and between them changes evenly.</summary>
/// <param name="lineHeight">Millimetres.</param>
/// <param name="linesPerSpace">Lines from one gathering row to the next.</param>
/// <param name="perMillimetre">Samples.</param>
internal sealed class KeptUnevenness(float lineHeight, float linesPerSpace, float perMillimetre)
{
    private const float Step = 0.2f; // millimetres: of what changes soonest, the ripple, a third
    private const int Most = 2048;

    private readonly (int Pleat, int Step, Unevenness Upper, Unevenness Lower)[] kept = NoneKept();

    private readonly bool keeps = perMillimetre * Step >= 2;

    /// <summary>Of a pleat so many millimetres down the cloth.</summary>
    public Unevenness At(int pleat, float down)
    {
        if (!keeps) return Reckoned(pleat, down);
        var at = down / Step;
        var from = MathF.Floor(at);
        ref var last = ref kept[pleat & (Most - 1)];
        if (last.Pleat != pleat || last.Step != (int)from)
            last = (pleat, (int)from, last.Pleat == pleat && last.Step == (int)from - 1 ? last.Lower : Reckoned(pleat, from * Step), Reckoned(pleat, (from + 1) * Step));
        return Unevenness.Between(last.Upper, last.Lower, at - from);
    }

    private Unevenness Reckoned(int pleat, float down) => Unevenness.At(pleat, down, (down / lineHeight - 1) / linesPerSpace);

    private static (int Pleat, int Step, Unevenness Upper, Unevenness Lower)[] NoneKept()
    {
        var none = new (int, int, Unevenness, Unevenness)[Most];
        Array.Fill(none, (int.MinValue, 0, default, default));
        return none;
    }
}
