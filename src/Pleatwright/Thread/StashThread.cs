using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>
/// A thread the maker has: their own name for it, its colour, and how much is left. No maker's colour numbers are kept.
/// </summary>
/// <param name="Name">The maker's own name for it, 1 to 100 characters.</param>
/// <param name="Colour">Its colour.</param>
/// <param name="Skeins">Skeins left, 0 to <see cref="MostSkeins"/>; a part of a skein is a fraction of its length.</param>
public sealed record StashThread(string Name, Colour Colour, double Skeins)
{
    /// <summary>The most skeins of one thread.</summary>
    public const double MostSkeins = 10_000;

    private static readonly Floss Usual = new(default, "", default, 1);

    /// <summary>Length of a whole skein. Default 8 m (common practice, no source).</summary>
    public Length SkeinLength { get; init; } = Usual.SkeinLength;

    /// <summary>Strands in a length as it comes off the skein, 1 to <see cref="Floss.MostStrandsInSkein"/>. Default 6 (common practice, no source).</summary>
    public int StrandsInSkein { get; init; } = Usual.StrandsInSkein;

    /// <summary>Fineness of one strand in tex (g/km, ISO 1144), <see cref="Floss.LeastTex"/> to <see cref="Floss.MostTex"/>. Default 35.</summary>
    public double TexPerStrand { get; init; } = Usual.TexPerStrand;

    /// <summary>A word of the maker's own, or empty.</summary>
    public string Note { get; init; } = "";

    /// <summary>Whether a strand is as fine and as many lie on the skein, so that it works up alike.</summary>
    public bool IsMadeLike(Floss thread) => TexPerStrand == thread.TexPerStrand && StrandsInSkein == thread.StrandsInSkein;

    /// <summary>How unlike the two look: CIEDE2000.</summary>
    public double DifferenceFrom(Floss thread) => ColourDifference.Between(Colour, thread.Colour);

    /// <summary>The thread of a piece with this one in its place: its letter and the strands in the needle stay.</summary>
    public Floss InPlaceOf(Floss thread) => thread with
    {
        Name = Name,
        Colour = Colour,
        SkeinLength = SkeinLength,
        StrandsInSkein = StrandsInSkein,
        TexPerStrand = TexPerStrand,
        Note = Note,
    };

    /// <summary>The lengths of thread there are to cut from: whole skeins, then the part of one.</summary>
    /// <param name="most">No more than so many, for the most that can be of use.</param>
    public IEnumerable<Length> Lengths(int most = int.MaxValue)
    {
        // A hair is added so that 2.9999999999 skeins, the rest of a sum, are 3.
        var whole = Math.Floor(Skeins + 1e-9);
        var part = Skeins - whole;
        for (var i = 0; i < whole && i < most; i++) yield return SkeinLength;
        if (whole < most && part > 1e-9) yield return SkeinLength * part;
    }
}
