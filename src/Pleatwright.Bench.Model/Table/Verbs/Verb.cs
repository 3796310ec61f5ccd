using System.Collections.Immutable;

namespace Pleatwright.Bench.Model.Table.Verbs;

/// <summary>Something that can be done at the table. The keys, the buttons, the list of what can be done here and the list of keys all come from these.</summary>
/// <param name="Group">The heading it stands under.</param>
/// <param name="Words">What it does.</param>
/// <param name="Key">Its key as the page names it, or empty.</param>
/// <param name="Act">Does it; called only when it can be done.</param>
public sealed record Verb(string Group, string Words, string Key, Action<Workplace> Act)
{
    /// <summary>Every verb, in the order they are listed.</summary>
    public static ImmutableArray<Verb> All { get; } =
        [.. Stitching.All, .. Drawings.All, .. Marking.All, .. Figuring.All, .. Accents.All, .. Looking.All, .. Piecework.All];

    private static readonly Dictionary<string, Verb> ByKey = All.Where(v => v.Key.Length > 0).ToDictionary(v => v.Key);

    /// <summary>Whether it can be done now.</summary>
    public Func<Workplace, bool> Can { get; init; } = _ => true;

    /// <summary>Whether it is one of a family of keys that one line of the list stands for.</summary>
    public bool Unlisted { get; init; }

    /// <summary>Its words on a button.</summary>
    public string Short { get; init; } = Words;

    /// <summary>Its key as people write it: "Ctrl C", "Space", "→".</summary>
    public string KeyWords => KeyNames.Spell(Key);

    /// <summary>The verb of a key; null when none has it.</summary>
    public static Verb? Of(string key) => ByKey.GetValueOrDefault(key);

    /// <summary>Does it, and says so where it cannot be done or changes nothing.</summary>
    public void Do(Workplace at)
    {
        if (!Can(at)) { at.Desk.Say($"{Words}: not here."); return; }
        var before = at.State;
        Act(at);
        if (before.Equals(at.State)) at.Desk.Say($"{Words}: that changes nothing here.");
    }
}
