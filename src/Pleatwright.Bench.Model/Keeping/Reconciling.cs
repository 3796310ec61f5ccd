using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>What comes on the table when this browser's journal and the shelf are looked at together.</summary>
public enum Reconciled
{
    /// <summary>The piece on the shelf; this browser knows nothing of it.</summary>
    Theirs,

    /// <summary>Ours, which the shelf has as it is.</summary>
    InStep,

    /// <summary>Ours, with edits that the shelf is still to get.</summary>
    Ahead,

    /// <summary>The piece on the shelf, changed there while nothing was changed here: one step on in our history.</summary>
    TheirsOnTop,

    /// <summary>Ours, and the maker must say what becomes of it and of the one on the shelf.</summary>
    Parted,

    /// <summary>Ours, until the shelf answers.</summary>
    Waiting,

    /// <summary>Nothing: the shelf has it no more, and nothing here is newer.</summary>
    Gone,
}

/// <summary>The one rule by which journal and shelf are brought together. It forgets nothing: a history ends only when its maker says so.</summary>
public static class Reconciling
{
    /// <summary>Decides.</summary>
    /// <param name="held">The edition this browser holds, and how it stands; null when it holds none.</param>
    /// <param name="answered">Whether the shelf answered.</param>
    /// <param name="there">The edition on the shelf; null when there is none.</param>
    public static Reconciled Decide((Edition Now, Standing Standing)? held, bool answered, Edition? there) => (held, answered, there) switch
    {
        (null, _, not null) => Reconciled.Theirs,
        (null, _, null) => Reconciled.Gone,
        ({ Standing.Parted: true }, false, _) => Reconciled.Parted,
        (_, false, _) => Reconciled.Waiting,
        ({ } h, _, null) => h.Standing.IsClean(h.Now) && !h.Standing.Parted ? Reconciled.Gone : Reconciled.Parted,
        ({ } h, _, { } t) when t == h.Now => Reconciled.InStep,
        ({ } h, _, { } t) when h.Standing.IsOurs(t) => t == h.Standing.Base && h.Standing.IsClean(h.Now) ? Reconciled.InStep : Reconciled.Ahead,
        ({ } h, _, _) => h.Standing.IsClean(h.Now) && !h.Standing.Parted ? Reconciled.TheirsOnTop : Reconciled.Parted,
    };

    /// <summary>What the maker is told of a piece that has parted.</summary>
    /// <param name="name">Its name on the shelf.</param>
    /// <param name="gone">Whether the shelf has it no more.</param>
    public static string Words(PieceName name, bool gone) => gone
        ? $"“{name}” was deleted or renamed on the shelf while you worked on it. Yours is in this browser, with every step back."
        : $"“{name}” was changed by another bench, tab or program while you worked on it. Both are kept: the other stands on the shelf, yours is in this browser, with every step back.";
}
