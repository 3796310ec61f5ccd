namespace Pleatwright.Thread;

/// <summary>Colours laid out as on a shade card: the greys from dark to light, then round the hues from red, each from dark to light.</summary>
internal static class ColourOrder
{
    private const double Band = 22.5; // degrees of hue; our own choice

    /// <summary>Puts some of a list of threads in order.</summary>
    /// <param name="threads">The threads.</param>
    /// <param name="which">Which of them, by their place in the list.</param>
    public static IEnumerable<int> Of(IReadOnlyList<StashThread> threads, IEnumerable<int> which) =>
        which.Select(at => (at, Lab: Oklab.From(threads[at].Colour))).OrderBy(t => BandOf(t.Lab)).ThenBy(t => t.Lab.L).ThenBy(t => t.at).Select(t => t.at);

    private static int BandOf(Oklab lab) => lab.Chroma < Oklab.Grey ? -1 : (int)(lab.Hue / Band);
}
