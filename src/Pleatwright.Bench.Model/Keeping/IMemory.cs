namespace Pleatwright.Bench.Model.Keeping;

/// <summary>The browser's storage gave up: full, closed, or taken away.</summary>
public sealed class MemoryException : Exception
{
    /// <summary>With the storage's own reason.</summary>
    public MemoryException(string message, Exception? inner = null) : base(message, inner) { }
}

/// <summary>What this browser remembers beside the shelf: small texts and settings.</summary>
public interface IMemory
{
    /// <summary>What was remembered under a name, or null; null too where nothing can be kept.</summary>
    Task<string?> RememberedAsync(string name);

    /// <summary>Remembers a text under a name, even through a kill; forgets it when there is none. Never fails: a convenience lost, nothing more.</summary>
    Task RememberAsync(string name, string? text);

    /// <summary>Remembers a text, or forgets it, where what was read under the name still stands there: another tab may have been faster.</summary>
    /// <returns>False when something else stands there by now, and nothing was done; true, too, where nothing can be kept.</returns>
    Task<bool> ReplaceAsync(string name, string? was, string? text);

    /// <summary>A small setting; may be lost with a kill.</summary>
    string? Setting(string name);

    /// <summary>Sets a small setting, or forgets it.</summary>
    void SetSetting(string name, string? value);

    /// <summary>A small setting of this tab alone; it outlives a reload, not the tab.</summary>
    string? OfTab(string name);

    /// <summary>Sets a small setting of this tab, or forgets it.</summary>
    void SetOfTab(string name, string? value);

    /// <summary>Calls back when the page is going, or may be: the last moment at which anything can still be written.</summary>
    void OnLeave(Action act);
}

/// <summary>One moment as the journal keeps it.</summary>
public sealed record MomentText(string Edit, string Text);

/// <summary>A journal as it stands in the store.</summary>
/// <param name="At">Which moment is the present, from 0.</param>
/// <param name="Base">The edition on the shelf when it was last written; empty when it was on none.</param>
/// <param name="Moments">Every moment, oldest first.</param>
/// <param name="More">What else is known of how it stands with the shelf; null in journals that older benches wrote.</param>
public sealed record JournalText(int At, string Base, IReadOnlyList<MomentText> Moments, string? More = null);

/// <summary>What stands at the head of a journal, without its moments.</summary>
/// <param name="Key">Which journal.</param>
/// <param name="Count">Moments it holds.</param>
/// <param name="At">Which is the present, from 0.</param>
/// <param name="Base">The edition on the shelf when it was last written; empty when it was on none.</param>
/// <param name="More">What else is known of how it stands with the shelf; null in journals that older benches wrote.</param>
public sealed record JournalHead(string Key, int Count, int At, string Base, string? More = null);

/// <summary>What is new in a journal: moments from one number on, and where the present is.</summary>
/// <param name="From">Number of the first moment written.</param>
/// <param name="Count">Moments in all from now on; later ones are forgotten.</param>
/// <param name="At">Which is the present.</param>
/// <param name="Base">The edition on the shelf.</param>
/// <param name="Moments">The moments from <paramref name="From"/> on.</param>
/// <param name="More">What else is known of how it stands with the shelf.</param>
public sealed record JournalNote(int From, int Count, int At, string Base, IReadOnlyList<MomentText> Moments, string? More = null);

/// <summary>Where journals are kept in this browser. Members throw <see cref="MemoryException"/> when the storage gives up.</summary>
public interface IJournalStore
{
    /// <summary>How often the browser has cleared all that it held since this tab was opened, as it may where room runs short; known after whatever was asked of it next.</summary>
    int Clearings { get; }

    /// <summary>A whole journal, or null.</summary>
    Task<JournalText?> GetAsync(string key);

    /// <summary>The heads of all journals of this browser.</summary>
    Task<IReadOnlyList<JournalHead>> HeadsAsync();

    /// <summary>The text of a journal's present, or null.</summary>
    Task<string?> PresentAsync(string key);

    /// <summary>Writes what is new, all or nothing.</summary>
    Task PutAsync(string key, JournalNote note);

    /// <summary>The same when the page may be gone the next moment; cannot be waited for.</summary>
    void Leave(string key, JournalNote note);

    /// <summary>Forgets a journal.</summary>
    Task ClearAsync(string key);

    /// <summary>Gives a journal another key, all or nothing, in place of any that has it.</summary>
    Task MoveAsync(string from, string to);

    /// <summary>Whether this tab may keep the journal: one tab does at a time.</summary>
    Task<bool> ClaimAsync(string key);

    /// <summary>Lets another tab keep it.</summary>
    void LetGo(string key);
}
