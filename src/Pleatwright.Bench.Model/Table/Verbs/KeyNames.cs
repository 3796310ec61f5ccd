namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>Keys: what each does at the table, and how people write them.</summary>
public static class KeyNames
{
    private static readonly (string Page, string People)[] Names =
    [
        ("ArrowRight", "→"), ("ArrowLeft", "←"), ("ArrowUp", "↑"), ("ArrowDown", "↓"), ("PageUp", "Page up"), ("PageDown", "Page down"), ("Escape", "Esc"), (" ", "Space"),
    ];

    /// <summary>A key, as the page names it, as people write it: "Ctrl C", "Space", "→".</summary>
    public static string Spell(string key)
    {
        if (key.Length == 0) return "";
        // The last part is the key; "Ctrl++" holds Ctrl and +.
        var split = key.Length > 1 ? key.LastIndexOf('+', key.Length - 2) : -1;
        var (held, pressed) = (key[..(split + 1)].Replace('+', ' '), key[(split + 1)..]);
        var people = Names.FirstOrDefault(n => n.Page == pressed).People ?? (held.Length > 0 ? pressed.ToUpperInvariant() is { Length: 1 } letter ? letter : pressed : pressed);
        return held + people;
    }

    /// <summary>The key of a line of the list; one line stands for all four arrows.</summary>
    public static string SpellListed(Verb verb) => verb.Key.EndsWith("ArrowRight", StringComparison.Ordinal)
        ? Spell(verb.Key)[..^1] + "← ↑ ↓ →" : verb.KeyWords;

    /// <summary>Does what a key asks at the table; false when it asks nothing.</summary>
    public static bool Press(string key, Workplace at)
    {
        if (key.Length == 1 && char.IsAsciiLetter(key[0]))
        {
            var thread = new Pleatwright.Thread.ThreadKey(key[0]);
            if (at.Desk.Piece.Thread(thread) is not null) at.Needle.TakeThread(thread);
            else at.Desk.Say($"No thread has the letter {key}.");
            return true;
        }
        if (Verb.Of(key) is not { } verb) return false;
        verb.Do(at);
        return true;
    }
}
