using System.Collections.Immutable;
using Pleatwright.Chart;
using Pleatwright.Measure;
using Pleatwright.Thread;

namespace Pleatwright.Order;

/// <summary>Cables worked on the back along one gathering row.</summary>
/// <param name="Row">The gathering row.</param>
/// <param name="From">First pleat, numbered as on the right side.</param>
/// <param name="To">Last pleat.</param>
/// <param name="Length">Thread in its cables.</param>
/// <param name="Needlefuls">Needlefuls it takes, at least 1.</param>
public readonly record struct BackRow(GatheringRow Row, Pleat From, Pleat To, Length Length, int Needlefuls)
{
    /// <summary>Cables in it.</summary>
    public int Cables => To.Number - From.Number;
}

/// <summary>
/// The backsmocking of a piece: every full gathering row without stitching on the front, and long gaps beside figures,
/// cabled on the back before anything else, with shallow bites and few strands near the cloth's colour (common practice,
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
        foreach (var row in rows)
        {
            length += row.Length;
            Needlefuls += row.Needlefuls;
            Cables += row.Cables;
        }
        Length = length + tails * Needlefuls;
    }

    /// <summary>What is cabled, from the top row down and from left to right.</summary>
    public ImmutableArray<BackRow> Rows { get; }

    /// <summary>Its thread: floss like the piece's first, two strands, in the cloth's colour. Its letter means nothing.</summary>
    public Floss Thread { get; }

    /// <summary>Cables in all.</summary>
    public int Cables { get; }

    /// <summary>Thread used in all, starts and tie-offs too.</summary>
    public Length Length { get; }

    /// <summary>Needlefuls in all.</summary>
    public int Needlefuls { get; }

    /// <summary>What is used of its thread.</summary>
    public ThreadUse Use => new(Thread, Cables, 0, Length, Needlefuls);

    /// <summary>Plans it; nothing is planned where the piece asks for none.</summary>
    public static Backsmock Of(Work work)
    {
        var piece = work.Piece;
        var like = piece.Threads.Length > 0 ? piece.Threads[0] : new Floss(new ThreadKey('a'), "", default, Strands);
        var thread = like with { Name = "backsmocking thread", Colour = piece.Cloth.Colour, Strands = Strands, Note = "" };
        return new Backsmock(piece.Back == Backsmocking.Auto ? Plan(work) : [], thread, piece.Working.Tails);
    }

    private static ImmutableArray<BackRow> Plan(Work work)
    {
        var pleating = work.Pleating;
        var gauge = pleating.Gauge;
        var usable = (work.Piece.Working.WorkingLength - work.Piece.Working.Tails).Millimetres;
        var rows = ImmutableArray.CreateBuilder<BackRow>();
        foreach (var (row, from, to) in Stretches(work))
        {
            var pitch = pleating.PitchAt(row.CableRow(gauge.CableRowsPerSpace).Index);
            var length = Usage.Cable(pitch, gauge.LineHeight) * ((to.Number - from.Number) * work.Piece.Working.ThreadFactor);
            rows.Add(new BackRow(row, from, to, length, Math.Max(1, (int)Math.Ceiling(length.Millimetres / usable - 1e-9))));
        }
        return rows.ToImmutable();
    }

    // Loose stretches reach one pleat into the stitching beside them, which holds their ends; short held parts between
    // two of them are not worth two more starts.
    private static List<(GatheringRow Row, Pleat From, Pleat To)> Stretches(Work work)
    {
        var stretches = new List<(GatheringRow Row, Pleat From, Pleat To)>();
        foreach (var loose in Holding.Loose(work))
        {
            Pleat from = new(Math.Max(1, loose.From.Number - 1)), to = new(Math.Min(work.Pleating.Pleats, loose.To.Number + 1));
            if (stretches.Count > 0 && stretches[^1] is var last && last.Row == loose.Row && from.Number - last.To.Number <= Holding.MostLoose)
                stretches[^1] = last with { To = to };
            else if (to.Number > from.Number)
                stretches.Add((loose.Row, from, to));
        }
        return stretches;
    }
}
