using Pleatwright.Thread;

namespace Pleatwright.Picture;

/// <summary>Names and letters for threads that have none.</summary>
internal static class Naming
{
    /// <summary>The name, with a number after it when it is taken already.</summary>
    public static string Unlike(string name, HashSet<string> taken)
    {
        var own = name;
        for (var n = 2; !taken.Add(own); n++) own = $"{name} {n}";
        return own;
    }

    /// <summary>A letter that brings the name to mind: the first of its last word, else another of its letters, else any that is free.</summary>
    public static ThreadKey Letter(string name, HashSet<char> taken)
    {
        var words = name.ToLowerInvariant().Split(' ', StringSplitOptions.RemoveEmptyEntries).Where(w => char.IsAsciiLetter(w[0])).Reverse();
        foreach (var c in words.Select(w => w[0]).Concat(name.ToLowerInvariant()).Concat(Alphabet))
            if (char.IsAsciiLetter(c) && taken.Add(c)) return new ThreadKey(c);
        throw new ArgumentException("a piece has at most 52 threads, one a letter");
    }

    private const string Alphabet = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
}
