using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>What the working order uses of one thread.</summary>
/// <param name="Thread">The thread.</param>
/// <param name="Cables">Cables worked in it.</param>
/// <param name="HalfStitches">Half stitches worked in it.</param>
/// <param name="Length">Thread used in all: stitches, carries, starts and tie-offs.</param>
/// <param name="Needlefuls">Times the needle is threaded: whole needlefuls.</param>
public readonly record struct ThreadUse(Floss Thread, int Cables, int HalfStitches, Length Length, int Needlefuls);

/// <summary>What to buy and cut of one thread.</summary>
/// <param name="Use">What is used of it.</param>
/// <param name="Skeins">Whole skeins to buy.</param>
public readonly record struct ThreadAmount(ThreadUse Use, int Skeins);

/// <summary>Cutting needlefuls from skeins: whole numbers throughout.</summary>
public static class Cutting
{
    /// <summary>Whole working lengths in one skein.</summary>
    public static int LengthsPerSkein(Floss thread, Length workingLength) =>
        (int)Math.Floor(thread.SkeinLength / workingLength + 1e-9);

    /// <summary>
    /// What to buy and cut. A skein gives floor(skein / working length) lengths, each of so many strands; a needleful
    /// takes the thread's strands from any of them.
    /// </summary>
    /// <exception cref="ArgumentException">The skein is shorter than one working length.</exception>
    public static ThreadAmount Amount(ThreadUse use, Length workingLength)
    {
        var strands = LengthsPerSkein(use.Thread, workingLength) * use.Thread.StrandsInSkein;
        var perSkein = strands / use.Thread.Strands;
        if (perSkein == 0) throw new ArgumentException($"A skein of {use.Thread.SkeinLength} gives no needleful of {workingLength}.");
        return new ThreadAmount(use, (use.Needlefuls + perSkein - 1) / perSkein);
    }
}
