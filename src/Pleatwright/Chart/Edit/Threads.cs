using System.Collections.Immutable;
using Pleatwright.Thread;

namespace Pleatwright.Chart.Edit;

/// <summary>A thread that came to a piece along with stitches worked in it.</summary>
/// <param name="From">The thread as it came.</param>
/// <param name="To">The piece's own thread that the stitches are worked in now.</param>
/// <param name="Added">Whether the piece did not have it before.</param>
public readonly record struct BroughtThread(Floss From, Floss To, bool Added);

/// <summary>The threads of a piece: added, changed, taken away.</summary>
internal static class Threads
{
    /// <summary>The first letter no thread has yet: a to z, then A to Z; null when all 52 are taken.</summary>
    public static ThreadKey? FreeKey(Piece piece)
    {
        foreach (var letter in "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ")
            if (piece.Thread(new ThreadKey(letter)) is null) return new ThreadKey(letter);
        return null;
    }

    /// <summary>Adds a thread at the end of the key.</summary>
    /// <exception cref="ArgumentException">Its letter is taken.</exception>
    public static Piece Add(Piece piece, Floss thread)
    {
        if (piece.Thread(thread.Key) is not null) throw new ArgumentException($"The letter {thread.Key} is taken.", nameof(thread));
        return piece with { Threads = piece.Threads.Add(thread) };
    }

    /// <summary>
    /// Brings threads from elsewhere, as <see cref="ThreadMatching"/> finds them: one that the piece has is the piece's own; of one in doubt the maker's answer holds,
    /// and without an answer it comes along; so does one that the piece has nothing near, under its own letter where that is free and another where it is taken.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="threads">The threads that come.</param>
    /// <param name="answers">For a letter that comes, the piece's thread it is to be worked in, or null for a thread of its own.</param>
    /// <exception cref="ArgumentException">The piece would have more than 52 threads, or an answer names no thread of it.</exception>
    public static (Piece Piece, ImmutableArray<BroughtThread> Brought) Bring(Piece piece, IEnumerable<Floss> threads, IReadOnlyDictionary<ThreadKey, ThreadKey?>? answers = null)
    {
        var brought = ImmutableArray.CreateBuilder<BroughtThread>();
        foreach (var match in ThreadMatching.Of(piece.Threads, threads))
        {
            var thread = match.From;
            var own = answers is not null && answers.TryGetValue(thread.Key, out var answer)
                ? answer is { } key ? piece.Thread(key) ?? throw new ArgumentException($"No thread has the letter '{key}'.", nameof(answers)) : null
                : match.Fit == ThreadFit.Same ? match.Choices[0].Thread : null;
            if (own is null)
            {
                own = thread with
                {
                    Key = piece.Thread(thread.Key) is null ? thread.Key : FreeKey(piece) ?? throw new ArgumentException("A piece has at most 52 threads, one a letter."),
                };
                piece = Add(piece, own);
                brought.Add(new BroughtThread(thread, own, true));
            }
            else brought.Add(new BroughtThread(thread, own, false));
        }
        return (piece, brought.ToImmutable());
    }

    /// <summary>Rows of thread letters in the letters of the piece the threads were brought to.</summary>
    public static ImmutableArray<string> Relettered(ImmutableArray<string> rows, ImmutableArray<BroughtThread> brought)
    {
        var letters = brought.ToDictionary(b => b.From.Key.Letter, b => b.To.Key.Letter);
        return [.. rows.Select(r => string.Concat(r.Select(c => letters.GetValueOrDefault(c, c))))];
    }

    /// <summary>Changes a thread; with a new letter, every stitch worked in it takes the letter too.</summary>
    /// <exception cref="ArgumentException">No such thread, its new letter is taken, or its strands are out of range.</exception>
    public static Piece Change(Piece piece, ThreadKey key, Floss thread)
    {
        var old = piece.Thread(key) ?? throw new ArgumentException($"No thread has the letter '{key}'.", nameof(key));
        if (thread.Strands is < 1 or > Floss.MostStrands) throw new ArgumentException($"A needle takes 1 to {Floss.MostStrands} strands.", nameof(thread));
        if (thread.Key == key) return old == thread ? piece : piece with { Threads = piece.Threads.Replace(old, thread) };
        if (piece.Thread(thread.Key) is not null) throw new ArgumentException($"The letter {thread.Key} is taken.", nameof(thread));
        var both = piece with { Threads = piece.Threads.Insert(piece.Threads.IndexOf(old), thread) };
        var changed = Recolour.Everywhere(both, key, thread.Key);
        return changed with { Threads = changed.Threads.Remove(old) };
    }

    /// <summary>Whether any figure, band or accent is worked in it.</summary>
    public static bool InUse(Piece piece, ThreadKey key) =>
        piece.Bands.Any(b => b.Thread == key) || piece.Accents.Any(a => a.Thread == key) || piece.Figures.Any(f => f.Rows.Any(r => r.Contains(key.Letter)));

    /// <summary>Takes a thread away; what was worked in it is worked in another, or where none is given cleared.</summary>
    /// <exception cref="ArgumentException">The thread that takes its place is unknown or the same.</exception>
    public static Piece Remove(Piece piece, ThreadKey key, ThreadKey? instead)
    {
        if (piece.Thread(key) is not { } old) return piece;
        if (instead is { } other)
        {
            if (other == key) throw new ArgumentException("A thread cannot take its own place.", nameof(instead));
            piece = Recolour.Everywhere(piece, key, other);
        }
        else if (InUse(piece, key))
        {
            var bare = piece.Figures.Select(f => f.WithRows([.. f.Rows.Select(r => r.Replace(key.Letter, Figure.Bare))], f.Halves));
            piece = piece with
            {
                Figures = [.. bare],
                Bands = piece.Bands.RemoveAll(b => b.Thread == key),
                Accents = piece.Accents.RemoveAll(a => a.Thread == key),
            };
        }
        return piece with { Threads = piece.Threads.Remove(old) };
    }
}
