using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>Cables worked on the back along one gathering row. Pleats are numbered as on the right side.</summary>
/// <param name="Row">The gathering row.</param>
/// <param name="Begin">The pleat at which it is begun.</param>
/// <param name="End">The pleat at which it ends.</param>
/// <param name="Turned">Whether the work is turned for it, bottom edge up, its wrong side still up.</param>
/// <param name="Length">Thread in its cables.</param>
/// <param name="Needlefuls">Needlefuls begun in it; 0 when the thread of the row before does for all of it.</param>
public readonly record struct BackRow(GatheringRow Row, Pleat Begin, Pleat End, bool Turned, Length Length, int Needlefuls)
{
    /// <summary>Its leftmost pleat on the right side.</summary>
    public Pleat From => Begin.Number < End.Number ? Begin : End;

    /// <summary>Its rightmost pleat on the right side.</summary>
    public Pleat To => Begin.Number < End.Number ? End : Begin;

    /// <summary>Cables in it.</summary>
    public int Cables => To.Number - From.Number;

    /// <summary>Thread carried to it from the row before, one space along the pleat and then sideways; nothing where it begins with a needleful of its own.</summary>
    public Length Carried { get; init; }

    /// <summary>Pleats passed sideways by that, toward the right on the chart when positive.</summary>
    public int CarriedPleats { get; init; }

    /// <summary>Whether its thread goes on to the next row; else it is tied off.</summary>
    public bool KeepsThread { get; init; }
}

/// <summary>
/// The backsmocking of a piece: right across every gathering row that the front does not hold right across, or, where the
/// maker will have it so, only where nothing is stitched; cabled on the back before anything else, with shallow bites and few strands near the cloth's colour (common practice,
/// no source).
/// </summary>
public sealed class Backsmock
{
    /// <summary>Two strands (common practice, no source).</summary>
    public const int Strands = 2;

    private Backsmock(ImmutableArray<BackRow> rows, Floss thread, Length tails)
    {
        Rows = rows;
        Thread = thread;
        var length = Length.Zero;
        var turned = false;
        foreach (var row in rows)
        {
            length += row.Length;
            Carried += row.Carried;
            Needlefuls += row.Needlefuls;
            Cables += row.Cables;
            if (row.Turned != turned) Turns++;
            turned = row.Turned;
        }
        if (turned) Turns++; // what comes next begins with the top edge up
        Length = length + Carried + tails * Needlefuls;
    }

    /// <summary>Whether every row is cabled right across.</summary>
    public bool IsRightAcross => Rows.All(r => r.From.Number == 1 && r.Cables == Rows[0].Cables);

    /// <summary>What is cabled, in the order worked: from the top row down and from left to right, but for rows that share a thread.</summary>
    public ImmutableArray<BackRow> Rows { get; }

    /// <summary>Its thread: floss like the piece's first, two strands, in the cloth's colour. Its letter means nothing.</summary>
    public Floss Thread { get; }

    /// <summary>Cables in all.</summary>
    public int Cables { get; }

    /// <summary>Thread used in all: cables, carries, starts and tie-offs.</summary>
    public Length Length { get; }

    /// <summary>Thread carried from row to row.</summary>
    public Length Carried { get; }

    /// <summary>Needlefuls in all.</summary>
    public int Needlefuls { get; }

    /// <summary>Times the work is turned top to bottom, and back after it.</summary>
    public int Turns { get; }

    /// <summary>What is used of its thread.</summary>
    public ThreadUse Use => new(Thread, Cables, 0, Length, Needlefuls);

    /// <summary>Plans it; nothing is planned where the piece asks for none.</summary>
    public static Backsmock Of(Work work)
    {
        var piece = work.Piece;
        var like = piece.Threads.Length > 0 ? piece.Threads[0] : new Floss(new ThreadKey('a'), "", default, Strands);
        var thread = like with { Name = "backsmocking thread", Colour = piece.Cloth.Colour, Strands = Strands, Note = "" };
        return new Backsmock(piece.Back == Backsmocking.None ? [] : new BackNeedlefuls(work).Share(
            piece.Back == Backsmocking.Gaps ? Stretches(work) : [.. Holding.Rows(work, belowBishops: piece.Back == Backsmocking.All).Where(r => r.Count > 1)]), thread, piece.Working.Tails);
    }

    // Loose stretches reach one pleat into the stitching beside them, which holds their ends; short held parts between
    // two of them are not worth two more starts.
    private static List<LoosePleats> Stretches(Work work)
    {
        var stretches = new List<LoosePleats>();
        foreach (var loose in Holding.Loose(work))
        {
            Pleat from = new(Math.Max(1, loose.From.Number - 1)), to = new(Math.Min(work.Pleating.Pleats, loose.To.Number + 1));
            if (stretches.Count > 0 && stretches[^1] is var last && last.Row == loose.Row && from.Number - last.To.Number <= Holding.MostLoose)
                stretches[^1] = last with { To = to };
            else if (to.Number > from.Number)
                stretches.Add(new LoosePleats(loose.Row, from, to));
        }
        return stretches;
    }
}
