using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>The letter by which a thread is known in the figure rows and on the chart: a to z or A to Z.</summary>
public readonly record struct ThreadKey
{
    /// <summary>A key from its letter.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The character is not a letter a to z or A to Z.</exception>
    public ThreadKey(char letter)
    {
        if (!char.IsAsciiLetter(letter))
            throw new ArgumentOutOfRangeException(nameof(letter), letter, "A thread key is one letter, a to z or A to Z.");
        Letter = letter;
    }

    /// <summary>The letter itself.</summary>
    public char Letter { get; }

    /// <inheritdoc/>
    public override string ToString() => Letter.ToString();
}

/// <summary>
/// A thread as the piece uses it: the maker's own name for it, its colour, how many strands are in the needle, and
/// what a skein of it holds. No maker's colour numbers are kept anywhere.
/// </summary>
/// <param name="Key">Its letter.</param>
/// <param name="Name">The maker's own name for it.</param>
/// <param name="Colour">Its colour.</param>
/// <param name="Strands">Strands in the needle, 1 to <see cref="MostStrands"/>.</param>
public sealed record Floss(ThreadKey Key, string Name, Colour Colour, int Strands)
{
    /// <summary>Four strands for stacked cables (common practice, no source).</summary>
    public const int DefaultStrands = 4;

    /// <summary>The most strands a needle may take here: two whole lengths of six-strand floss.</summary>
    public const int MostStrands = 12;

    /// <summary>The most strands a length may have as it comes off the skein.</summary>
    public const int MostStrandsInSkein = 24;

    /// <summary>The longest name, in characters.</summary>
    public const int LongestName = 100;

    /// <summary>The longest note, in characters.</summary>
    public const int LongestNote = 500;

    /// <summary>The finest strand, in tex.</summary>
    public const double LeastTex = 1;

    /// <summary>The coarsest strand, in tex.</summary>
    public const double MostTex = 1000;

    /// <summary>
    /// Fineness of one strand in tex (g/km, ISO 1144), <see cref="LeastTex"/> to <see cref="MostTex"/>. Default 35: 1.7 g over 48 m,
    /// from memory.
    /// </summary>
    public double TexPerStrand { get; init; } = 35;

    /// <summary>Fineness of one strand.</summary>
    public Fineness Fineness => Fineness.FromTex(TexPerStrand);

    /// <summary>
    /// Strands in a length as it comes off the skein, 1 to <see cref="MostStrandsInSkein"/>. Default 6 (common practice, no source).
    /// </summary>
    public int StrandsInSkein { get; init; } = 6;

    /// <summary>Length of thread on a skein. Default 8 m (common practice, no source).</summary>
    public Length SkeinLength { get; init; } = Length.FromMetres(8);

    /// <summary>A word of the maker's own, or empty.</summary>
    public string Note { get; init; } = "";
}
