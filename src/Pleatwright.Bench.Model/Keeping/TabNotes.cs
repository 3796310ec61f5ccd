namespace Pleatwright.Bench.Model.Keeping;

/// <summary>
/// What a tab remembers in this browser until the shelf has it, each tab under a name of its own, so that none empties another's; what a closed tab left
/// is found by the next.
/// </summary>
/// <param name="memory">What this browser remembers.</param>
/// <param name="keeper">Knows which shelf it is, and which tab has which name.</param>
/// <param name="what">What is remembered, in a word.</param>
public sealed class TabNotes(IMemory memory, Keeper keeper, string what)
{
    private const int MostTabs = 8;

    private int tab;

    /// <summary>Whether this tab has a name.</summary>
    public bool IsClaimed => tab > 0;

    /// <summary>Takes a name, no other tab's; one under which something was left is gone on with.</summary>
    public async Task ClaimAsync()
    {
        var free = 0;
        for (var of = 1; tab == 0 && (of <= MostTabs || free == 0); of++)
        {
            if (!await keeper.ClaimAsync(NameOf(of))) continue;
            if (await ReadAsync(NameOf(of)) is not null) tab = of;
            else if (free == 0) free = of;
            else keeper.LetGo(NameOf(of));
        }
        if (tab == 0) tab = free;
        else if (free > 0) keeper.LetGo(NameOf(free));
    }

    /// <summary>Remembers a text in place of the last; forgets that when there is none.</summary>
    public Task RememberAsync(string? text) => WriteAsync(NameOf(tab), text);

    /// <summary>Remembers a text when the page may be gone the next moment.</summary>
    public void Leave(string text) => memory.SetSetting(NameOf(tab), text);

    /// <summary>What is remembered; null when nothing is.</summary>
    public Task<string?> RememberedAsync() => ReadAsync(NameOf(tab));

    /// <summary>Hands over, one after another, what closed tabs left; what was taken is forgotten.</summary>
    /// <param name="take">Takes a text; false to leave it.</param>
    public async Task EachLeftAsync(Func<string, Task<bool>> take)
    {
        for (var of = 1; of <= MostTabs; of++)
        {
            var name = NameOf(of);
            if (of == tab || await ReadAsync(name) is null || !await keeper.ClaimAsync(name)) continue;
            try
            {
                // Its tab may have just brought it there.
                if (await ReadAsync(name) is { } text && await take(text)) await WriteAsync(name, null);
            }
            finally
            {
                keeper.LetGo(name);
            }
        }
    }

    private string NameOf(int tab) => $"{what} {keeper.Place(null)}{(tab <= 1 ? "" : FormattableString.Invariant($"{tab}"))}";

    // What the last moment of a page left is overtaken by what is remembered after it, once that stands.
    private async Task WriteAsync(string name, string? text)
    {
        var left = memory.Setting(name);
        await memory.RememberAsync(name, text);
        if (left is not null && memory.Setting(name) == left) memory.SetSetting(name, null);
    }

    private async Task<string?> ReadAsync(string name) => memory.Setting(name) ?? await memory.RememberedAsync(name);
}
