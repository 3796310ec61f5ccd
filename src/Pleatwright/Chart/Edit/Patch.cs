using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>A block of cables lifted off the cloth, to be laid elsewhere. Bare cells let what lies under them show.</summary>
/// <param name="Rows">Its rows from the top, thread letters and '.' as in a figure.</param>
public sealed record Patch(ImmutableArray<string> Rows)
{
    /// <summary>The threads it is worked in, as they were where it was lifted.</summary>
    public ImmutableArray<Floss> Threads { get; init; } = [];

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
        var lifted = rows.MoveToImmutable();
        return new Patch(lifted) { Threads = [.. work.Piece.Threads.Where(t => lifted.Any(r => r.Contains(t.Key.Letter)))] };
    }

    /// <summary>Mirrored left to right.</summary>
    public Patch Mirrored() => this with { Rows = [.. Rows.Select(r => string.Concat(r.Reverse()))] };

    /// <summary>Turned top to bottom.</summary>
    public Patch Upended() => this with { Rows = [.. Rows.Reverse()] };

    /// <summary>Whether no cable lies in it.</summary>
    public bool IsBare => Rows.All(r => r.AsSpan().IndexOfAnyExcept(Figure.Bare) < 0);

    /// <summary>Brings its threads to another piece: the piece with them, and itself in that piece's letters.</summary>
    /// <inheritdoc cref="Edit.Threads.Bring"/>
    public (Piece Piece, Patch Patch, ImmutableArray<BroughtThread> Brought) BringTo(Piece piece, IReadOnlyDictionary<ThreadKey, ThreadKey?>? answers = null)
    {
        var (with, brought) = Edit.Threads.Bring(piece, Threads, answers);
        return (with, this with { Rows = Edit.Threads.Relettered(Rows, brought), Threads = [.. brought.Select(b => b.To)] }, brought);
    }

    /// <summary>The cables it has when its upper left corner lies on a cell, thread by thread.</summary>
    public IEnumerable<IGrouping<ThreadKey, (Valley Valley, CableRow Row)>> CablesAt(Valley left, CableRow top) =>
        Cells(left, top).GroupBy(c => new ThreadKey(c.Letter), c => (c.Valley, c.Row));

    /// <summary>Lays it with its upper left corner on a cell; what falls off the cloth is left out.</summary>
    /// <returns>The piece; the same when nothing was laid.</returns>
    /// <exception cref="ArgumentException">The piece lacks one of its threads.</exception>
    public Piece LayOn(Piece piece, Valley left, CableRow top)
    {
        (int, int)? into = null;
        foreach (var thread in CablesAt(left, top)) (piece, into) = Draw.Cables(piece, thread, thread.Key, into);
        return piece;
    }

    private IEnumerable<(char Letter, Valley Valley, CableRow Row)> Cells(Valley left, CableRow top)
    {
        for (var r = 0; r < Height; r++)
            for (var c = 0; c < Width; c++)
                if (Rows[r][c] != Figure.Bare) yield return (Rows[r][c], new Valley(left.Number + c), new CableRow(top.Index + r));
    }
}
