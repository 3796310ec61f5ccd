namespace Pleatwright.Thread;

/// <summary>How alike two colours look, in a plain word.</summary>
public enum Likeness
{
    /// <summary>No eye tells them apart.</summary>
    Same,

    /// <summary>Only a practised eye tells them apart, side by side.</summary>
    HardToTell,

    /// <summary>Anyone sees it side by side; apart, they pass for the same.</summary>
    Near,

    /// <summary>Another colour.</summary>
    Different,
}

/// <summary>
/// The limits of the words, in CIEDE2000: same up to 1, hard to tell up to 2, near up to 5. They are those of Mokrzycki and
/// Tatol, "Colour difference ΔE: a survey", 2011 (from memory), where an observer does not notice below 1, only an
/// experienced one to 2, and two different colours are seen from 5. A screen is a guess at a thread: daylight decides.
/// </summary>
internal static class Likenesses
{
    /// <summary>The most that is "same".</summary>
    public const double MostSame = 1;

    /// <summary>The most that is "hard to tell".</summary>
    public const double MostHardToTell = 2;

    /// <summary>The most that is "near".</summary>
    public const double MostNear = 5;

    /// <summary>
    /// The most at which one thread may be offered in place of another: what is "near", and no further. Past it an onlooker has another colour
    /// before them: 75 of 100 found a difference unacceptable from 5.82 on (20 observers, 24 colours on a calibrated screen; doctoral thesis,
    /// Faculty of Graphic Arts, University of Zagreb, repository item grf:3584, its summary). And CIEDE2000 itself is laid out for differences of no more than 5 (reference
    /// conditions of CIE 142-2001, as the documentation of a public colour library lists them): how far a blue is from a red it does not say.
    /// </summary>
    public const double MostInstead = MostNear;

    /// <summary>The likeness at a difference.</summary>
    /// <param name="difference">By CIEDE2000, at least 0.</param>
    public static Likeness Of(double difference) => difference switch
    {
        <= MostSame => Likeness.Same,
        <= MostHardToTell => Likeness.HardToTell,
        <= MostNear => Likeness.Near,
        _ => Likeness.Different,
    };

    /// <summary>The word: "same", "hard to tell", "near", "clearly different".</summary>
    public static string Word(this Likeness likeness) => likeness switch
    {
        Likeness.Same => "same",
        Likeness.HardToTell => "hard to tell",
        Likeness.Near => "near",
        _ => "clearly different",
    };
}
