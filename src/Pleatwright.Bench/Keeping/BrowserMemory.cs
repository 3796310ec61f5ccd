using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using Pleatwright.Bench.Model.Keeping;

namespace Pleatwright.Bench.Keeping;

/// <summary>The browser's own storage as what the bench remembers and journals in.</summary>
public sealed class BrowserMemory : IMemory, IJournalStore
{
    /// <inheritdoc/>
    public Task<string?> RememberedAsync(string name) => OrNullAsync(Store.RememberedAsync(name));

    /// <inheritdoc/>
    public async Task RememberAsync(string name, string? text)
    {
        try { await Store.RememberAsync(name, text); }
        catch (JSException) { } // a convenience lost, nothing more
    }

    /// <inheritdoc/>
    public async Task<bool> ReplaceAsync(string name, string? was, string? text)
    {
        try { return await Store.ReplaceAsync(name, was, text); }
        catch (JSException) { return true; }
    }

    /// <inheritdoc/>
    public string? Setting(string name) => Store.Setting(name);

    /// <inheritdoc/>
    public void SetSetting(string name, string? value) => Store.SetSetting(name, value);

    /// <inheritdoc/>
    public string? OfTab(string name) => Store.OfTab(name);

    /// <inheritdoc/>
    public void SetOfTab(string name, string? value) => Store.SetOfTab(name, value);

    /// <inheritdoc/>
    public void OnLeave(Action act) => Store.OnLeave(act);

    /// <inheritdoc/>
    public int Clearings => Store.Clearings();

    /// <inheritdoc/>
    public Task<JournalText?> GetAsync(string key) => Try(async () =>
        await Store.JournalGetAsync(key) is { } json ? JsonSerializer.Deserialize(json, StoreJson.Default.JournalText) : null);

    /// <inheritdoc/>
    public Task<IReadOnlyList<JournalHead>> HeadsAsync() => Try<IReadOnlyList<JournalHead>>(async () =>
        JsonSerializer.Deserialize(await Store.JournalHeadsAsync(), StoreJson.Default.JournalHeadArray)!);

    /// <inheritdoc/>
    public Task<string?> PresentAsync(string key) => Try(() => Store.JournalPresentAsync(key));

    /// <inheritdoc/>
    public Task PutAsync(string key, JournalNote note) => Try(() => Store.JournalPutAsync(key, note.From, note.Count, note.At, note.Base, Pairs(note), note.More));

    /// <inheritdoc/>
    public void Leave(string key, JournalNote note) => Store.JournalLeave(key, note.From, note.Count, note.At, note.Base, Pairs(note), note.More);

    /// <inheritdoc/>
    public Task ClearAsync(string key) => Try(() => Store.JournalClearAsync(key));

    /// <inheritdoc/>
    public Task MoveAsync(string from, string to) => Try(() => Store.JournalMoveAsync(from, to));

    /// <inheritdoc/>
    public Task<bool> ClaimAsync(string key) => Store.ClaimAsync(key);

    /// <inheritdoc/>
    public void LetGo(string key) => Store.LetGo(key);

    private static string[] Pairs(JournalNote note) => [.. note.Moments.SelectMany(m => new[] { m.Edit, m.Text })];

    private static async Task<string?> OrNullAsync(Task<string?> asked)
    {
        try { return await asked; }
        catch (JSException) { return null; }
    }

    private static async Task<T> Try<T>(Func<Task<T>> act)
    {
        try { return await act(); }
        catch (Exception e) when (e is JSException or JsonException) { throw new MemoryException(e.Message, e); }
    }

    private static Task Try(Func<Task> act) => Try(async () =>
    {
        await act();
        return true;
    });
}
