namespace Pleatwright.App.Images;

/// <summary>Whether a picture's file is there to its end, where the decoder does not say so itself.</summary>
internal static class Wholeness
{
    private const byte Mark = 0xff, Start = 0xd8, End = 0xd9, ScanBegins = 0xda, FirstRestart = 0xd0, LastRestart = 0xd7, Progressive = 0xc2;

    /// <summary>
    /// Whether it is a progressive JPEG that breaks off before its end. Its first scan shows the whole picture coarsely, so that half of it decodes as if nothing
    /// were missing; only the mark of its end tells.
    /// </summary>
    // ITU-T T.81, annex B: segments with their lengths, then the scan, in which 0xff is followed by 0 or by a restart; a progressive one has several scans.
    public static bool IsCutShort(ReadOnlySpan<byte> jpeg)
    {
        if (jpeg is not [Mark, Start, ..]) return false;
        var progressive = false;
        for (var at = 2; ;)
        {
            while (at < jpeg.Length && jpeg[at] != Mark) at++; // of a scan, or filling between segments
            while (at < jpeg.Length && jpeg[at] == Mark) at++;
            if (at >= jpeg.Length) return progressive;
            var kind = jpeg[at++];
            if (kind is 0 or (>= FirstRestart and <= LastRestart) or Start) continue;
            if (kind == End) return false;
            progressive |= kind == Progressive;
            if (at + 2 > jpeg.Length) return progressive;
            at += (jpeg[at] << 8) | jpeg[at + 1];
        }
    }
}
