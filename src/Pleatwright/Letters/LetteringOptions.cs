using Pleatwright.Chart;

namespace Pleatwright.Letters;

/// <summary>How the letters of a text stand to one another.</summary>
internal enum Arrangement
{
    /// <summary>On a row; a line of text a row.</summary>
    Row,

    /// <summary>Along a band: drawn apart evenly until they fill <see cref="LetteringOptions.Across"/> valleys.</summary>
    Along,

    /// <summary>One below the other.</summary>
    Down,

    /// <summary>Two or three letters as one figure: the middle one of three is twice as large as the others, two are both large.</summary>
    Monogram,
}

/// <summary>What is to be stitched in letters, and how.</summary>
internal sealed record LetteringOptions
{
    /// <summary>The most lines of a text.</summary>
    public const int MostLines = 12;

    /// <summary>The most valleys that letters may be drawn apart over.</summary>
    public const int MostAcross = Figure.MostValleys;

    /// <summary>The highest capitals, in cable rows.</summary>
    public const int MostHeight = 400;

    /// <summary>The text, 1 to <see cref="Figure.MostLetters"/> characters, in up to <see cref="MostLines"/> lines.</summary>
    public required string Text { get; init; }

    /// <summary>What its letters come from.</summary>
    public required ILetterSource Source { get; init; }

    /// <summary>Rows of a capital; the nearest height whose lines lie on gathering rows is taken. Null for the least.</summary>
    public int? Height { get; init; }

    /// <summary>How they stand.</summary>
    public Arrangement Arrangement { get; init; }

    /// <summary>Valleys to be filled along a band; null leaves the letters as they stand on a row.</summary>
    public int? Across { get; init; }

    /// <summary>Whether a border is worked round it.</summary>
    public bool Border { get; init; }

    /// <summary>The thread's letter.</summary>
    public char Thread { get; init; } = 'a';

    /// <summary>The border's thread.</summary>
    public char BorderThread { get; init; } = 'a';
}

/// <summary>What letters come from: an alphabet drawn for the lattice, or a font.</summary>
internal interface ILetterSource
{
    /// <summary>Its name.</summary>
    string Name { get; }

    /// <summary>Zones from the capital line to the base line.</summary>
    int Zones { get; }

    /// <summary>White between two letters; see <see cref="Letters.Spacing"/>.</summary>
    double Spacing { get; }

    /// <summary>Valleys between two words, beyond what lies between two letters.</summary>
    int Word { get; }

    /// <summary>A character at a size; null where there is none.</summary>
    /// <exception cref="ArgumentException">It is there, but cannot be stitched at this size; the message says why.</exception>
    LetterShape? Shape(string character, LetterSize size);
}
