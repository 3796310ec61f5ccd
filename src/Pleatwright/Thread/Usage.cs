using Pleatwright.Measure;

namespace Pleatwright.Thread;

/// <summary>How much thread a stitch takes. Lengths are of the thread as threaded, whatever its strands.</summary>
internal static class Usage
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

    /// <summary>
    /// Thread in one stitch over two pleats that ends higher or lower than it begins: the slant over the front, one pitch
    /// back through the pleat, and the step between lines. Level, it is a cable (geometry of the stitch; common
    /// practice, no source).
    /// </summary>
    /// <param name="pitch">Pitch of the pleats where it lies.</param>
    /// <param name="lineHeight">Height of one line, half a cable row.</param>
    /// <param name="drop">How much higher or lower it ends, at least nothing.</param>
    public static Length Slanting(Length pitch, Length lineHeight, Length drop) => Slant(pitch * 2, drop) + pitch + lineHeight;

    /// <summary>
    /// Thread in two stitches that catch two pleats in one place: twice over both and once back through both (geometry
    /// of the stitch; common practice, no source).
    /// </summary>
    /// <param name="pitch">Pitch of the pleats where it lies.</param>
    public static Length Catch(Length pitch) => pitch * 6;

    /// <summary>Thread along one pleat from one height to another, and through the pleat where it shows on the surface.</summary>
    /// <param name="pitch">Pitch of the pleats where it lies.</param>
    /// <param name="drop">How far up or down it goes, at least nothing.</param>
    /// <param name="onSurface">Whether it lies over the pleat rather than inside its fold.</param>
    public static Length Along(Length pitch, Length drop, bool onSurface) => onSurface ? drop + pitch : drop;

    /// <summary>
    /// Thread in one loop of feather: both arms of the loop over the front and two pitches back through both pleats
    /// (geometry of the stitch; common practice, no source).
    /// </summary>
    /// <param name="pitch">Pitch of the pleats where it lies.</param>
    /// <param name="drop">How much higher or lower the loop ends, at least nothing.</param>
    public static Length Loop(Length pitch, Length drop) => Slant(pitch * 2, drop) + Slant(pitch, drop) + pitch * 2;

    private static Length Slant(Length across, Length drop) =>
        Length.FromMillimetres(Math.Sqrt(across.Millimetres * across.Millimetres + drop.Millimetres * drop.Millimetres));
}
