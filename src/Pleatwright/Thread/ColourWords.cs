namespace Pleatwright.Thread;

/// <summary>Plain words for a colour, for threads that have no name yet: "dark red", "pale blue", "sand".</summary>
/// <remarks>The bounds are our own choice, drawn by eye in Oklab; no list of names is followed.</remarks>
internal static class ColourWords
{
    /// <summary>One to three words, lower case.</summary>
    public static string For(Colour colour)
    {
        var lab = Oklab.From(colour);
        var (chroma, hue) = (lab.Chroma, lab.Hue);
        if (lab.L > 0.9 && chroma is > 0.012 and < 0.06 && hue is > 55 and < 115) return "cream";
        if (chroma < Oklab.Grey) return Grey(lab.L);
        return Hued(lab.L, chroma, hue);
    }

    private static string Grey(double lightness) => lightness switch
    {
        > 0.95 => "white",
        > 0.82 => "pale grey",
        > 0.67 => "light grey",
        > 0.48 => "grey",
        > 0.28 => "dark grey",
        _ => "black",
    };

    private static string Hued(double lightness, double chroma, double hue)
    {
        // Some hues have a word of their own when they are dark, light or dull.
        switch (hue)
        {
            case < 45 or >= 345 when lightness > 0.72: return chroma < 0.07 ? "pale pink" : "pink";
            case >= 25 and < 95 when lightness < 0.38 && chroma < 0.14: return "dark brown";
            case >= 35 and < 95 when lightness < 0.62 && chroma < 0.14: return "brown";
            case >= 45 and < 95 when chroma < 0.095: return lightness > 0.8 ? "pale sand" : "sand";
            case >= 95 and < 125 when lightness < 0.68: return lightness < 0.45 ? "dark olive" : "olive";
            case >= 45 and < 75 when lightness is > 0.55 and < 0.8: return "orange";
            case >= 75 and < 118: return chroma < 0.1 ? "pale yellow" : lightness < 0.75 ? "dark yellow" : "yellow";
        }
        var word = hue switch
        {
            < 18 or >= 350 => "rose",
            < 43 => "red",
            < 75 => "orange",
            < 165 => "green",
            < 210 => "teal",
            < 275 => "blue",
            < 315 => "violet",
            _ => "purple",
        };
        var shade = lightness switch { < 0.42 => "dark ", > 0.82 => "pale ", > 0.7 => "light ", _ => chroma < 0.06 ? "dull " : "" };
        return shade + word;
    }
}
