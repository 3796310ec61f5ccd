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

    /// <summary>Of how far it sinks, the share that goes with the square of t; the rest goes with its sixth power.</summary>
    public const float SinkSoon = 0.34f;

    /// <summary>How far apart strands lie in the middle, over the mean, and by how much less at the ends, with the eighth power of t.</summary>
    public const float Apart = 1.02f, Together = 0.20f;

    /// <summary>By how much, in radians, its turns are here longer, there shorter; how often that changes along it, and where it begins with its phase.</summary>
    public const float Loose = 0.9f, LooseOften = 2.6f, LooseBegin = 5;

    /// <summary>How round it is over a half circle; seen as one ribbon of several, how round each of them; and the least of a half circle's height that is reckoned with.</summary>
    public const float Roundness = 0.92f, FlatRound = 0.96f, LeastRise = 0.01f;

    /// <summary>How high the ridges of its plies are, over half its width; how far they lie aslant, in radians from its middle to its edge.</summary>
    public const float Ridge = 0.07f, Slants = -2.1f;

    /// <summary>Samples to a turn from which on plies are seen, and so many more for all of them; samples to half its width from which on fibres are.</summary>
    public const float TurnSeen = 4, TurnWhole = 5, FibreSeen = 2.4f, FibreWhole = 4;

    /// <summary>How far its fibres run aslant of it: all of them, by turns with the plies, and more to its edges; over half its length.</summary>
    public const float AslantAll = 0.10f, AslantPly = 0.09f, AslantAcross = 0.16f;

    /// <summary>How light it is: ridges over furrows, its middle, and how much darker its edges, where strands touch.</summary>
    public const float PlyShade = 0.035f, MiddleShade = 1.05f, EdgeShade = 0.30f;

    // Single fibres, lighter and darker by turns: how much, how many across it, how they wind with its twist, and where they begin with its phase.
    public const float Coarse = 0.13f, CoarseAcross = 11, CoarseAlong = 0.55f, CoarseBegin = 3, CoarseAcross2 = 4, CoarseAlong2 = 0.29f;
    public const float Middle = 0.11f, MiddleAcross = 27, MiddleAlong = 0.8f, MiddleBegin = 7, MiddleOften = 5, MiddleBegin2 = 11;
    public const float Fine = 0.07f, FineAcross = 51, FineAlong = 0.5f;

    /// <summary>Of a bow, how far its middle lies out: as far as keeps the whole of it where it is.</summary>
    public const float Swells = 1f / 3;

    /// <summary>How far it has sunk towards the valleys, 0 in the middle to 1 at the ends: over the pleats and steeply down between them.</summary>
    public static float Sink(float t)
    {
        float t2 = t * t, t4 = t2 * t2;
        return SinkSoon * t2 + (1 - SinkSoon) * t4 * t2;
    }

    /// <summary>How <see cref="Sink"/> changes with t.</summary>
    public static float SinkSlope(float t)
    {
        float t2 = t * t, t4 = t2 * t2;
        return 2 * SinkSoon * t + 6 * (1 - SinkSoon) * t * t4;
    }

    /// <summary>How near the strands lie to one another along the stitch: drawn together where they go down through one hole. 1 on the whole.</summary>
    public static float Pinch(float t)
    {
        float t2 = t * t, t4 = t2 * t2;
        return Apart - Together * t4 * t4;
    }

    /// <summary>Where the middle of the strand lies across the stitch.</summary>
    public readonly float CentreAt(float t) => Offset * Pinch(t) + Lean * t + Bow * (Swells - t * t);
}
