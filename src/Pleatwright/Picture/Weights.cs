namespace Pleatwright.Picture;

/// <summary>
/// What the energy charges, in hundredths of a CIEDE2000 unit: a cable whose thread is one unit from the picture costs
/// 100. The figure with the least energy shows the picture truly in few, long, well-seated runs.
/// </summary>
public sealed record Weights
{
    /// <summary>
    /// A change along a row, from one thread to another; from bare pleats to a thread or back it is half as much, and a
    /// row's two ends count as bare. So every run pays this once. Even, 0 or more.
    /// </summary>
    public int Change { get; init; }

    /// <summary>A change between a cable and the one above it; half as much where one of them is bare. Even, 0 or more.</summary>
    public int Ragged { get; init; }

    /// <summary>A run of exactly two cables.</summary>
    public int Short { get; init; }

    /// <summary>A lone cable, a run of one. The default is so much that none is left.</summary>
    public int Lone { get; init; } = Never;

    /// <summary>
    /// Each cable with none in its own valley or the valleys beside it on the row it is stacked on, the next one
    /// towards the base row.
    /// </summary>
    public int Overhang { get; init; }

    /// <summary>
    /// A bare valley where the picture shows something, or a cable where it shows nothing; by halves where it shows itself
    /// by half. The bare valley also pays what the best thread would have, and up to what the worst one would where the
    /// picture fills it.
    /// </summary>
    public int Shape { get; init; } = 3000;

    /// <summary>More than any rightful cost.</summary>
    public const int Never = 1_000_000;

    /// <summary>The weights for a place on the fidelity slider.</summary>
    /// <param name="fidelity">0: as few runs as can be; 1: every cable in its nearest thread, but for lone ones.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fidelity is not from 0 to 1.</exception>
    public static Weights ForFidelity(double fidelity)
    {
        if (!(fidelity is >= 0 and <= 1)) throw new ArgumentOutOfRangeException(nameof(fidelity), "Fidelity runs from 0 to 1.");
        var ease = 1 - fidelity;
        // a little steeper than a straight line; by square roots, which every machine rounds alike
        var change = 2 * (int)Math.Round(MostChange / 2.0 * ease * Math.Sqrt(Math.Sqrt(Math.Sqrt(ease))));
        return new Weights
        {
            Change = change,
            Ragged = change / 6 * 2,
            Short = change / 2,
            Overhang = change / 2,
        };
    }

    private const int MostChange = 4400;
}
