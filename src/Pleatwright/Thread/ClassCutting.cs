using System.Collections.Immutable;
using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>
/// One floss for a whole class. Every kit is given whole cut lengths of its own, so that nobody waits for half a length of
/// a neighbour's (common practice, no source); the lengths of all kits are cut from as few whole skeins as hold them.
/// </summary>
/// <param name="Kit">How one kit's needlefuls are put together from its lengths.</param>
/// <param name="Kits">Kits to fill, spare ones counted, at least 1.</param>
/// <param name="ExtraLengths">Lengths in each kit beyond those that are worked, for what is unpicked; 0 or more.</param>
/// <param name="WorkingLength">The length of every cut, but for those cut longer; a skein holds at least one.</param>
internal sealed record ClassFloss(CutFloss Kit, int Kits, int ExtraLengths, Length WorkingLength)
{
    /// <summary>Whole lengths in one skein, at least 1.</summary>
    public int LengthsPerSkein => Cutting.LengthsPerSkein(Threads[0], WorkingLength);

    /// <summary>The threads of the piece cut from it, most strands first.</summary>
    public ImmutableArray<Floss> Threads => Kit.Threads;

    /// <summary>Lengths in each kit.</summary>
    public int LengthsInKit => Kit.Lengths + ExtraLengths;

    /// <summary>Needlefuls that each kit works.</summary>
    public int NeedlefulsInKit => Kit.Needlefuls.Length;

    /// <summary>Lengths to cut for the class.</summary>
    public int Lengths => LengthsInKit * Kits;

    /// <summary>Needlefuls that the class works.</summary>
    public int Needlefuls => NeedlefulsInKit * Kits;

    /// <summary>Whole skeins to buy for the class, those that hold what some lengths are cut longer too.</summary>
    public int Skeins => Cutting.Holding(Threads[0], WorkingLength, (Lengths + LengthsPerSkein - 1) / LengthsPerSkein, Kit.LongerLengths * Kits, Kit.LongerBy);

    /// <summary>Whole lengths left on the last skein when every kit is filled.</summary>
    public int LengthsLeft => Skeins * LengthsPerSkein - Lengths;

    /// <summary>Needlefuls that one kit works of one of its threads.</summary>
    public int NeedlefulsOf(Floss thread) => Kit.Needlefuls.Count(n => n.Thread == thread);
}

/// <summary>What is bought and cut for a class.</summary>
/// <param name="WorkingLength">The length of every cut.</param>
/// <param name="Students">Students, at least 1.</param>
/// <param name="SpareKits">Kits beyond one for each student.</param>
/// <param name="Flosses">The flosses, in the order of the piece's threads.</param>
internal sealed record ClassCutting(Length WorkingLength, int Students, int SpareKits, ImmutableArray<ClassFloss> Flosses)
{
    /// <summary>Kits in all.</summary>
    public int Kits => Students + SpareKits;

    /// <summary>Skeins in all.</summary>
    public int Skeins => Flosses.Sum(f => f.Skeins);

    /// <summary>Plans it.</summary>
    /// <param name="uses">What one piece uses of each thread.</param>
    /// <param name="workingLength">One needleful, more than nothing.</param>
    /// <param name="students">Students, at least 1.</param>
    /// <param name="spareKits">Kits beyond one for each student, 0 or more.</param>
    /// <param name="extraLengths">Lengths of each floss that every kit gets beyond those worked, 0 or more.</param>
    /// <exception cref="ArgumentException">Thread is needed, but a skein is shorter than one working length.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is out of its range.</exception>
    public static ClassCutting Of(ImmutableArray<ThreadUse> uses, Length workingLength, int students, int spareKits = 0, int extraLengths = 0)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(students, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(spareKits);
        ArgumentOutOfRangeException.ThrowIfNegative(extraLengths);
        var kit = CuttingPlan.Of(uses, workingLength);
        return new ClassCutting(workingLength, students, spareKits,
            [.. kit.Flosses.Select(f => new ClassFloss(f, students + spareKits, extraLengths, workingLength))]);
    }
}
