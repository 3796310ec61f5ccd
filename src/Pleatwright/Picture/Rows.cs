namespace Pleatwright.Picture;

/// <summary>Questions asked of a labelling's rows.</summary>
internal static class Rows
{
    /// <summary>The row with the most cables, the topmost of several: where the work begins.</summary>
    public static int Widest(ReadOnlySpan<byte> labels, int width)
    {
        int widest = 0, most = -1;
        for (var y = 0; y * width < labels.Length; y++)
        {
            var row = labels.Slice(y * width, width);
            var cables = width - row.Count((byte)0);
            if (cables > most) (widest, most) = (y, cables);
        }
        return widest;
    }
}
