using System.Numerics;

namespace Pleatwright.Stitched;

/// <summary>The light that falls on the piece: one large lamp far away, and light from all round.</summary>
internal readonly record struct Light
{
    /// <summary>From the upper left, as a needleworker's lamp stands; a little warmer than what comes from all round.</summary>
    public static Light UpperLeft { get; } = new() { Toward = Vector3.Normalize(new Vector3(-0.62f, -0.50f, 0.86f)), Strength = 1 };

    /// <summary>Unit direction toward the lamp: right, down, and toward the eye.</summary>
    public Vector3 Toward { get; init; }

    /// <summary>How bright all light is; at 1 a filled area has its thread's own colour.</summary>
    public float Strength { get; init; }
}
