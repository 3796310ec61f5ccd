using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>A block of cables lifted off the cloth, to be laid elsewhere. Bare cells let what lies under them show.</summary>
/// <param name="Rows">Its rows from the top, thread letters and '.' as in a figure.</param>
public sealed record Patch(ImmutableArray<string> Rows)
{
    /// <summary>Width in valleys.</summary>
    public int Width => Rows[0].Length;

    /// <summary>Height in cable rows.</summary>
    public int Height => Rows.Length;

    /// <summary>Lifts what shows in an area.</summary>
    public static Patch Lift(Work work, Area area)
    {
        var rows = ImmutableArray.CreateBuilder<string>(area.Height);
        for (var y = area.Top.Index; y <= area.Bottom.Index; y++)
            rows.Add(string.Create(area.Width, (work, area, y), static (text, at) =>
            {
                for (var i = 0; i < text.Length; i++)
                    text[i] = at.work.ThreadAt(new Valley(at.area.From.Number + i), new CableRow(at.y))?.Letter ?? Figure.Bare;
            }));
        return new Patch(rows.MoveToImmutable());
    }

    /// <summary>Mirrored left to right.</summary>
    public Patch Mirrored() => new([.. Rows.Select(r => string.Concat(r.Reverse()))]);

    /// <summary>Turned top to bottom.</summary>
    public Patch Upended() => new([.. Rows.Reverse()]);

    /// <summary>Lays it with its upper left corner on a cell; what falls off the cloth is left out.</summary>
    /// <returns>The piece; the same when nothing was laid.</returns>
    /// <exception cref="ArgumentException">The piece lacks one of its threads.</exception>
    public Piece LayOn(Piece piece, Valley left, CableRow top)
    {
        (int, int)? into = null;
        foreach (var thread in Cells(left, top).GroupBy(c => c.Letter, c => (c.Valley, c.Row)))
            (piece, into) = Draw.Cables(piece, thread, new ThreadKey(thread.Key), into);
        return piece;
    }

    private IEnumerable<(char Letter, Valley Valley, CableRow Row)> Cells(Valley left, CableRow top)
    {
        for (var r = 0; r < Height; r++)
            for (var c = 0; c < Width; c++)
                if (Rows[r][c] != Figure.Bare) yield return (Rows[r][c], new Valley(left.Number + c), new CableRow(top.Index + r));
    }
}
