using System.Collections.Immutable;

namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>All that a verb works on: the piece, the hand, the painted cloth.</summary>
public sealed record Workplace(Desk Desk, Needle Needle, ICloth Cloth);

/// <summary>Something that can be done at the table. The keys, the list of what can be done here and the list of keys all come from these.</summary>
/// <param name="Group">The heading it stands under.</param>
/// <param name="Words">What it does.</param>
/// <param name="Key">Its key as the page names it, or empty.</param>
/// <param name="Do">Does it.</param>
public sealed record Verb(string Group, string Words, string Key, Action<Workplace> Do)
{
    /// <summary>Every verb, in the order they are listed.</summary>
    public static ImmutableArray<Verb> All { get; } =
        [.. Stitching.All, .. Marking.All, .. Figuring.All, .. Accents.All, .. Looking.All, .. Piecework.All];

    private static readonly Dictionary<string, Verb> ByKey = All.Where(v => v.Key.Length > 0).ToDictionary(v => v.Key);

    /// <summary>Whether it can be done now.</summary>
    public Func<Workplace, bool> Can { get; init; } = _ => true;

    /// <summary>Whether it is one of a family of keys that one line of the list stands for.</summary>
    public bool Unlisted { get; init; }

    /// <summary>Its key as people write it: "Ctrl + C", "Space", "→".</summary>
    public string KeyWords => Spell(Key);

    /// <summary>Does what a key asks; false when no verb has the key.</summary>
    public static bool Press(string key, Workplace at)
    {
        if (!ByKey.TryGetValue(key, out var verb)) return false;
        if (verb.Can(at)) verb.Do(at);
        else at.Desk.Say($"{verb.Words}: not here.");
        return true;
    }

    /// <summary>A key as people write it.</summary>
    public static string Spell(string key) => key
        .Replace("Arrow", "", StringComparison.Ordinal).Replace("Right", "→", StringComparison.Ordinal).Replace("Left", "←", StringComparison.Ordinal)
        .Replace("PageUp", "Page up", StringComparison.Ordinal).Replace("PageDown", "Page down", StringComparison.Ordinal)
        .Replace("Up", "↑", StringComparison.Ordinal).Replace("Down", "↓", StringComparison.Ordinal)
        .Replace("Escape", "Esc", StringComparison.Ordinal)
        .Replace("Ctrl+", "Ctrl ", StringComparison.Ordinal).Replace("Alt+", "Alt ", StringComparison.Ordinal).Replace("Shift+", "Shift ", StringComparison.Ordinal) switch
    {
        " " => "Space",
        var spelt => spelt.Replace("Ctrl c", "Ctrl C", StringComparison.Ordinal).Replace("Ctrl x", "Ctrl X", StringComparison.Ordinal)
            .Replace("Ctrl v", "Ctrl V", StringComparison.Ordinal).Replace("Ctrl a", "Ctrl A", StringComparison.Ordinal)
            .Replace("Ctrl z", "Ctrl Z", StringComparison.Ordinal).Replace("Ctrl y", "Ctrl Y", StringComparison.Ordinal),
    };
}
