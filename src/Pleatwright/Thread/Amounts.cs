using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>What the working order uses of one thread.</summary>
/// <param name="Thread">The thread.</param>
/// <param name="Cables">Cables worked in it.</param>
/// <param name="HalfStitches">Half stitches worked in it.</param>
/// <param name="Length">Thread used in all: stitches, carries, starts and tie-offs.</param>
/// <param name="Needlefuls">Times the needle is threaded: whole needlefuls.</param>
public readonly record struct ThreadUse(Floss Thread, int Cables, int HalfStitches, Length Length, int Needlefuls)
{
    /// <summary>Single stitches of bands worked in it, off the lattice of cables.</summary>
    public int BandStitches { get; init; }

    /// <summary>Accents worked in it.</summary>
    public int Accents { get; init; }

    /// <summary>Needlefuls that are cut longer than the working length, each to save a start.</summary>
    public int LongerNeedlefuls { get; init; }

    /// <summary>The most by which they are cut longer.</summary>
    public Length LongerBy { get; init; }

    /// <summary>Whether nothing is worked in it.</summary>
    public bool IsUnused => Cables + BandStitches + Accents == 0;
}

/// <summary>What to buy and cut of one thread.</summary>
/// <param name="Use">What is used of it.</param>
/// <param name="Skeins">Whole skeins to buy.</param>
public readonly record struct ThreadAmount(ThreadUse Use, int Skeins);

/// <summary>Cutting needlefuls from skeins: whole numbers throughout.</summary>
internal static class Cutting
{
    /// <summary>Whole working lengths in one skein.</summary>
    /// <remarks>A hair is added so that a skein of exactly so many lengths gives them all.</remarks>
    public static int LengthsPerSkein(Floss thread, Length workingLength) =>
        (int)Math.Floor(thread.SkeinLength / workingLength + 1e-9);

    /// <summary>Strands of one working length in one skein.</summary>
    public static int StrandsPerSkein(Floss thread, Length workingLength) =>
        LengthsPerSkein(thread, workingLength) * thread.StrandsInSkein;

    /// <summary>
    /// What to buy and cut. A skein gives floor(skein / working length) lengths, each of so many strands; a needleful
    /// takes its strands from any of them, so strands left of one skein go with strands of the next.
    /// </summary>
    /// <exception cref="ArgumentException">Thread is needed, but a skein is shorter than one working length.</exception>
    public static ThreadAmount Amount(ThreadUse use, Length workingLength)
    {
        if (use.Needlefuls == 0) return new ThreadAmount(use, 0);
        long perSkein = StrandsPerSkein(use.Thread, workingLength);
        if (perSkein == 0) throw new ArgumentException($"A skein of {use.Thread.SkeinLength} gives no needleful of {workingLength}.");
        var strands = (long)use.Needlefuls * use.Thread.Strands;
        var skeins = (int)((strands + perSkein - 1) / perSkein);
        return new ThreadAmount(use, Holding(use.Thread, workingLength, skeins, use.LongerNeedlefuls, use.LongerBy));
    }

    /// <summary>So many skeins, or more where their ends do not hold what some lengths are cut longer.</summary>
    internal static int Holding(Floss thread, Length workingLength, int skeins, int longer, Length by)
    {
        if (longer == 0 || by <= Length.Zero) return skeins;
        var over = thread.SkeinLength - workingLength * LengthsPerSkein(thread, workingLength);
        var each = (int)Math.Floor(over / by + 1e-9); // longer lengths that the end of one skein holds
        return each > 0 ? Math.Max(skeins, (longer + each - 1) / each) : skeins + (longer + LengthsPerSkein(thread, workingLength) - 1) / LengthsPerSkein(thread, workingLength);
    }
}
