using System.Collections.Immutable;

namespace Pleatwright.Chart.Edit;

/// <summary>A piece as it stood at one moment, and the edit that led to it.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Edit">What was done, in a word or two, for “undo …”.</param>
public sealed record Moment(Piece Piece, string Edit);

/// <summary>Every moment of a piece since it was opened: unlimited undo and redo. Pieces share what did not change.</summary>
public sealed record History
{
    /// <summary>A history with nothing to undo.</summary>
    public History(Piece opened) => Now = new Moment(opened, "");

    /// <summary>A history from its moments, as a journal keeps them.</summary>
    /// <param name="moments">Every moment, oldest first; at least one.</param>
    /// <param name="now">Which of them is the present, from 0.</param>
    /// <exception cref="ArgumentException">There is no such moment.</exception>
    public static History From(ImmutableArray<Moment> moments, int now)
    {
        if ((uint)now >= (uint)moments.Length) throw new ArgumentException("The present is one of the moments.", nameof(now));
        return new History(moments[now].Piece)
        {
            Now = moments[now],
            Past = moments.Take(now).Aggregate(ImmutableStack<Moment>.Empty, (stack, m) => stack.Push(m)),
            Future = moments.Skip(now + 1).Reverse().Aggregate(ImmutableStack<Moment>.Empty, (stack, m) => stack.Push(m)),
        };
    }

    /// <summary>The present.</summary>
    public Moment Now { get; private init; }

    /// <summary>What can be undone to, latest on top.</summary>
    public ImmutableStack<Moment> Past { get; private init; } = ImmutableStack<Moment>.Empty;

    /// <summary>What can be redone to, next on top.</summary>
    public ImmutableStack<Moment> Future { get; private init; } = ImmutableStack<Moment>.Empty;

    /// <summary>Whether anything can be undone.</summary>
    public bool CanUndo => !Past.IsEmpty;

    /// <summary>Whether anything can be redone.</summary>
    public bool CanRedo => !Future.IsEmpty;

    /// <summary>Moves on to an edited piece; what could be redone is gone. The very same piece is no edit.</summary>
    public History Do(Piece piece, string edit) =>
        ReferenceEquals(piece, Now.Piece) ? this : this with { Past = Past.Push(Now), Now = new Moment(piece, edit), Future = ImmutableStack<Moment>.Empty };

    /// <summary>Back one moment; itself when there is none.</summary>
    public History Undo() => CanUndo ? this with { Past = Past.Pop(out var before), Future = Future.Push(Now), Now = before } : this;

    /// <summary>On one moment; itself when there is none.</summary>
    public History Redo() => CanRedo ? this with { Past = Past.Push(Now), Future = Future.Pop(out var next), Now = next } : this;
}
