using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>How much thread a stitch takes. Lengths are of the thread as threaded, whatever its strands.</summary>
public static class Usage
{
    /// <summary>
    /// Thread in one cable: two pitches over the front, one back through the pleat, and the step between the row's two
    /// lines (common practice, no source; check: the workroom rule "three times the width of the row").
    /// </summary>
    /// <param name="pitch">Pitch of the pleats where it lies.</param>
    /// <param name="lineHeight">Height of one line, half a cable row.</param>
    public static Length Cable(Length pitch, Length lineHeight) => pitch * 3 + lineHeight;

    /// <summary>
    /// Thread in one half stitch: one pitch over the front, one back through the pleat, and the step between the lines
    /// (common practice, no source).
    /// </summary>
    /// <param name="pitch">Pitch of the pleats where it lies.</param>
    /// <param name="lineHeight">Height of one line, half a cable row.</param>
    public static Length HalfStitch(Length pitch, Length lineHeight) => pitch * 2 + lineHeight;
}
