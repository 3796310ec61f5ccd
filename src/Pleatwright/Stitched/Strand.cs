using System.Runtime.InteropServices;

namespace Pleatwright.Stitched;

/// <summary>
/// One strand of floss where it shows: a small ribbon laid from valley to valley, in plain floats, so that the same list goes to our own renderer and to a
/// graphics card. A place on it is <c>t</c> from -1 where it comes up to 1 where it goes down, and <c>c</c> from -1 to 1 across it. It lies at
/// <c>Mid + Along·t + Across·(CentreAt(t) + c·HalfWidth)</c>; lengths and heights are in millimetres, heights above the crowns of bare pleats.
/// </summary>
[StructLayout(LayoutKind.Sequential, Pack = 4)]
internal struct Strand
{
    /// <summary>Floats (of which the last is an integer) a strand takes.</summary>
    public const int Floats = 19;

    /// <summary>Middle of the stitch in the picture.</summary>
    public float MidX, MidY;

    /// <summary>From the middle to the end where it goes down.</summary>
    public float AlongX, AlongY;

    /// <summary>One millimetre across the stitch; shorter where the cloth is seen aslant.</summary>
    public float AcrossX, AcrossY;

    /// <summary>Where it lies across the stitch, its middle from the stitch's own.</summary>
    public float Offset;

    /// <summary>By how much it lies further across at its end than in its middle: strands are never quite side by side.</summary>
    public float Lean;

    /// <summary>By how much its middle lies further across than its ends.</summary>
    public float Bow;

    /// <summary>Half its width.</summary>
    public float HalfWidth;

    /// <summary>Height of its top in the middle.</summary>
    public float Apex;

    /// <summary>By how much its ends lie lower, in the valleys.</summary>
    public float Dip;

    /// <summary>Half its length, as it lies in the cloth.</summary>
    public float HalfLength;

    /// <summary>Length of one turn of its twist.</summary>
    public float Turn;

    /// <summary>Where in a turn it is in its middle, 0 to 1.</summary>
    public float Phase;

    /// <summary>How light it is over others of its thread, about 1.</summary>
    public float Shade;

    /// <summary>How many strands it stands for, seen from afar: 1 near by.</summary>
    public float Stands;

    /// <summary>1 where it stands for the stitch in keeping light from the cloth beside it, else 0.</summary>
    public float Casts;

    /// <summary>Index of its thread among the piece's.</summary>
    public int Thread;

    /// <summary>Of how far it sinks, the share that goes with the square of t; the rest goes with its tenth power.</summary>
    public const float SinkSoon = 0.35f;

    /// <summary>How far apart strands lie in the middle, over the mean, and by how much less at the ends, with the sixteenth power of t.</summary>
    public const float Apart = 1.015f, Together = 0.26f;

    /// <summary>How far it has sunk towards the valleys, 0 in the middle to 1 at the ends: over the pleats and steeply down between them.</summary>
    public static float Sink(float t)
    {
        float t2 = t * t, t4 = t2 * t2;
        return SinkSoon * t2 + (1 - SinkSoon) * t4 * t4 * t2;
    }

    /// <summary>How <see cref="Sink"/> changes with t.</summary>
    public static float SinkSlope(float t)
    {
        float t2 = t * t, t4 = t2 * t2;
        return 2 * SinkSoon * t + 10 * (1 - SinkSoon) * t * t4 * t4;
    }

    /// <summary>How near the strands lie to one another along the stitch: drawn together where they go down through one hole. 1 on the whole.</summary>
    public static float Pinch(float t)
    {
        float t2 = t * t, t4 = t2 * t2, t8 = t4 * t4;
        return Apart - Together * t8 * t8;
    }

    /// <summary>Where the middle of the strand lies across the stitch.</summary>
    public readonly float CentreAt(float t) => Offset * Pinch(t) + Lean * t + Bow * (1f / 3 - t * t);
}
