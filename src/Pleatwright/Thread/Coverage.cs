using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>
/// How much of the cloth the thread hides where rows are stacked. The strands in the needle lie side by side as a ribbon;
/// a line is covered when the ribbon is as wide as the line is high.
/// </summary>
internal static class Coverage
{
    /// <summary>
    /// Covered enough: from here up no cloth shows between the lines (common practice, no source; it parts the trade's
    /// four strands, which hide the cloth at five cable rows to 3/8 in, from three, which do not).
    /// </summary>
    public const double Enough = 0.9;

    /// <summary>Width of the ribbon the needle lays: strands times the strand's diameter.</summary>
    public static Length RibbonWidth(Floss thread) => thread.Fineness.Diameter * thread.Strands;

    /// <summary>The part of a line's height that the thread covers: 1 is all of it; above 1 the rows crowd.</summary>
    /// <param name="thread">The thread and its strands.</param>
    /// <param name="lineHeight">Height of a line, half a cable row; more than nothing.</param>
    public static double OfLine(Floss thread, Length lineHeight) => RibbonWidth(thread) / lineHeight;

    /// <summary>
    /// The fewest strands of this thread that cover a line enough, or null when even <see cref="Floss.MostStrands"/> do not.
    /// </summary>
    public static int? StrandsNeeded(Floss thread, Length lineHeight)
    {
        for (var strands = 1; strands <= Floss.MostStrands; strands++)
            if (OfLine(thread with { Strands = strands }, lineHeight) >= Enough)
                return strands;
        return null;
    }

    /// <summary>
    /// The part of a line's height that the thread covers where the pleats lie wider than they were gathered: the thread
    /// stitched at the gathered pitch is drawn out over the wider one and lies thinner by as much (our own reckoning:
    /// the thread keeps its volume).
    /// </summary>
    /// <param name="thread">The thread and its strands.</param>
    /// <param name="lineHeight">Height of a line, half a cable row; more than nothing.</param>
    /// <param name="gathered">Pitch of the pleats while they are stitched; more than nothing.</param>
    /// <param name="pitch">Pitch they finish at; more than nothing.</param>
    public static double AtPitch(Floss thread, Length lineHeight, Length gathered, Length pitch) =>
        OfLine(thread, lineHeight) * Math.Min(1, gathered / pitch);

    /// <summary>The widest pitch at which the thread still covers enough, by <see cref="AtPitch"/>.</summary>
    /// <param name="thread">The thread and its strands.</param>
    /// <param name="lineHeight">Height of a line, half a cable row; more than nothing.</param>
    /// <param name="gathered">Pitch of the pleats while they are stitched; more than nothing.</param>
    public static Length WidestPitch(Floss thread, Length lineHeight, Length gathered) =>
        gathered * (OfLine(thread, lineHeight) / Enough);
}
