using System.Runtime.InteropServices;
using Pleatwright.Chart;
using Pleatwright.Stitched;

namespace Pleatwright.Bench.Model.Painting;

/// <summary>
/// The stitched piece as numbers for a graphics card: where every pleat stands, and every strand of floss. Strands come in blocks, one for each
/// cable row's height of the cloth and each kind of stitch, so that after an edit only the blocks that it touched are laid and sent again.
/// </summary>
internal sealed class StitchedNumbers
{
    /// <summary>By how much of a pleat a strand may lie beside where it should before it is laid anew, when something far off was edited. Our own choice: less than
    /// can be seen.</summary>
    public const float Tolerance = 0.012f;

    /// <summary>Numbers a node of the cloth takes: how far right, how far down, how firmly held.</summary>
    public const int NodeNumbers = 3;

    private readonly SortedDictionary<int, Block> blocks = [];
    private readonly List<Strand> laid = [];
    private Work? work;
    private StitchedPiece? piece;
    private OnTable? table;
    private float[] nodes = [];

    /// <summary>Nodes across.</summary>
    public int Columns => piece!.Field.Columns;

    /// <summary>Every node, the top row first.</summary>
    public ReadOnlySpan<float> Nodes => nodes;

    /// <summary>The constants that light and form need; see <see cref="GraphicsNumbers"/>.</summary>
    public string Constants { get; private set; } = "";

    /// <summary>The blocks there are, in the order in which they lie one over the other.</summary>
    public IEnumerable<int> Blocks => blocks.Keys;

    /// <summary>Takes a work, and says what of the one before it no longer holds.</summary>
    public StitchedChange Take(Work next)
    {
        var before = piece;
        var anew = work is null || !ReferenceEquals(work.Piece.Cloth, next.Piece.Cloth) || work.Piece.Threads != next.Piece.Threads;
        work = next;
        piece = new StitchedPiece(next);
        table = new OnTable(piece);
        if (anew)
        {
            blocks.Clear();
            before = null;
            Constants = GraphicsNumbers.Of(piece);
        }
        var held = TakeNodes(before);
        return new StitchedChange(anew, held, TakeStitches());
    }

    /// <summary>The strands of a block, as they lie in memory.</summary>
    /// <param name="block">Which; one of <see cref="Blocks"/>.</param>
    /// <param name="whole">The strands of each stitch as one, to be seen from afar.</param>
    public ReadOnlySpan<byte> Lay(int block, bool whole)
    {
        laid.Clear();
        foreach (ref readonly var stitch in blocks[block].Stitches.AsSpan()) table!.Lay(stitch, laid, whole);
        return MemoryMarshal.AsBytes(CollectionsMarshal.AsSpan(laid));
    }

    // Rows of nodes whose cloth must be drawn anew: lines from and to, or null where none is.
    private (float From, float To)? TakeNodes(StitchedPiece? before)
    {
        var field = piece!.Field;
        var fresh = new float[field.Rows * field.Columns * NodeNumbers];
        for (int row = 0, at = 0; row < field.Rows; row++)
            for (var k = 0; k < field.Columns; k++)
            {
                var lies = table!.Node(k, row);
                fresh[at++] = lies.X;
                fresh[at++] = lies.Y;
                fresh[at++] = field.Held[row * field.Columns + k];
            }
        int first = 0, last = field.Rows - 1;
        if (before is not null && nodes.Length == fresh.Length)
        {
            var perRow = field.Columns * NodeNumbers;
            while (first <= last && Same(first)) first++;
            while (last > first && Same(last)) last--;

            bool Same(int row) => nodes.AsSpan(row * perRow, perRow).SequenceEqual(fresh.AsSpan(row * perRow, perRow));
        }
        if (first > last) return null;
        nodes = fresh;
        return (table!.LineOf(first - 1), table.LineOf(last + 1));
    }

    private List<int> TakeStitches()
    {
        var fresh = new Dictionary<int, List<LaidStitch>>();
        foreach (ref readonly var stitch in piece!.Stitches.Span)
        {
            var key = KeyOf(stitch);
            if (!fresh.TryGetValue(key, out var list)) fresh[key] = list = [];
            list.Add(stitch);
        }
        var touched = new List<int>();
        foreach (var gone in blocks.Keys.Where(k => !fresh.ContainsKey(k)).ToList())
        {
            blocks.Remove(gone);
            touched.Add(gone);
        }
        foreach (var (key, list) in fresh)
        {
            if (blocks.TryGetValue(key, out var block) && block.Stitches.AsSpan().SequenceEqual(CollectionsMarshal.AsSpan(list)) && Stands(block)) continue;
            blocks[key] = new Block([.. list], piece!.Field);
            touched.Add(key);
        }
        touched.Sort();
        return touched;
    }

    /// <summary>Whether a block exists still.</summary>
    public bool Has(int block) => blocks.ContainsKey(block);

    // Whether the pleats under a block stand where they stood when it was laid.
    private bool Stands(Block block)
    {
        PleatField old = block.Field, now = piece!.Field;
        if (ReferenceEquals(old, now)) return true;
        if (old.Columns != now.Columns || old.Rows != now.Rows) return false;
        float top = float.PositiveInfinity, bottom = float.NegativeInfinity;
        foreach (var s in block.Stitches) (top, bottom) = (Math.Min(top, Math.Min(s.Down, s.ToDown)), Math.Max(bottom, Math.Max(s.Down, s.ToDown)));
        var from = Math.Clamp((int)((top - now.Top) / (2 * now.RowsApart)) - 1, 0, now.Rows - 1);
        var to = Math.Clamp((int)((bottom - now.Top) / (2 * now.RowsApart)) + 2, 0, now.Rows - 1);
        ReadOnlySpan<float> a = old.Shift[(from * now.Columns)..((to + 1) * now.Columns)], b = now.Shift[(from * now.Columns)..((to + 1) * now.Columns)];
        for (var i = 0; i < a.Length; i++)
            if (Math.Abs(a[i] - b[i]) > Tolerance) return false;
        return true;
    }

    private const int Rows = 1 << 16;

    // By what lies over what, then by height: bands and cables lie on the pleats, accents over them.
    private static int KeyOf(in LaidStitch stitch) => (stitch.Layer > 0 ? Rows : 0) + Math.Clamp((int)((stitch.Down + stitch.ToDown) / 4) + 64, 0, Rows - 1);

    private sealed record Block(LaidStitch[] Stitches, PleatField Field);
}

/// <summary>What an edit touched of the stitched piece.</summary>
/// <param name="Anew">All of it: cloth or threads are others.</param>
/// <param name="Cloth">Lines between which pleats stand otherwise; null where none does.</param>
/// <param name="Blocks">Blocks of strands to be laid again, or that are gone.</param>
internal sealed record StitchedChange(bool Anew, (float From, float To)? Cloth, List<int> Blocks);
