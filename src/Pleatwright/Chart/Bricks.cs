namespace Pleatwright.Chart;

/// <summary>What a painter must know of a lattice cell beside its thread.</summary>
[Flags]
internal enum BrickMarks : byte
{
    /// <summary>Nothing more: the brick lies on its row's upper line.</summary>
    None = 0,

    /// <summary>The brick lies on its row's lower line; told of bare cells too.</summary>
    Down = 1,

    /// <summary>A half stitch squares the left end of the run that begins here.</summary>
    HalfLeft = 2,

    /// <summary>A half stitch squares the right end of the run that ends here.</summary>
    HalfRight = 4,

    /// <summary>A run begins here.</summary>
    RunFrom = 8,

    /// <summary>A run ends here.</summary>
    RunTo = 16,
}

/// <summary>A work as plain bytes, for a painter that knows nothing of the craft.</summary>
internal static class Bricks
{
    /// <summary>Bytes that <see cref="Pack"/> fills: two a cell.</summary>
    public static int PackedLength(Work work) => work.Valleys * work.CableRows * 2;

    /// <summary>
    /// Packs every cell, top row first and from left to right: a byte that is 0 for bare pleats and else 1 + the
    /// thread's index, then a byte of <see cref="BrickMarks"/>.
    /// </summary>
    /// <exception cref="ArgumentException">The room given is not <see cref="PackedLength"/> bytes.</exception>
    public static void Pack(Work work, Span<byte> into)
    {
        if (into.Length != PackedLength(work)) throw new ArgumentException("The room must hold two bytes a cell.", nameof(into));
        for (var y = 0; y < work.CableRows; y++)
        {
            var row = into.Slice(y * work.Valleys * 2, work.Valleys * 2);
            var down = Lattice.LevelAt(new Valley(1), new CableRow(y), work.Piece.Phase) == Level.Down;
            for (var i = 0; i < row.Length; i += 2, down = !down)
            {
                row[i] = 0;
                row[i + 1] = down ? (byte)BrickMarks.Down : (byte)0;
            }
        }
        foreach (var run in work.Runs) PackRun(work, run, into);
    }

    private static void PackRun(Work work, in Run run, Span<byte> into)
    {
        var start = run.Row.Index * work.Valleys - 1;
        var thread = (byte)(work.ThreadIndexAt(run.From, run.Row) + 1);
        var down = run.LeftLevel == Level.Down;
        for (var v = run.From.Number; v <= run.To.Number; v++, down = !down)
        {
            var at = (start + v) * 2;
            into[at] = thread;
            into[at + 1] = down ? (byte)BrickMarks.Down : (byte)0;
        }
        into[(start + run.From.Number) * 2 + 1] |= (byte)(BrickMarks.RunFrom | (run.HalfLeft ? BrickMarks.HalfLeft : 0));
        into[(start + run.To.Number) * 2 + 1] |= (byte)(BrickMarks.RunTo | (run.HalfRight ? BrickMarks.HalfRight : 0));
    }
}
