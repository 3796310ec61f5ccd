using System.Net.Http.Json;
using System.Text.Json;
using Pleatwright.Shelf;

namespace Pleatwright.Bench.Model.Keeping;

/// <summary>Which shelf and stash this bench has: its host's when a host serves it, else the browser's own.</summary>
public static class ShelfChoice
{
    private const string Remembered = "shelf";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30); // then the host is taken not to answer

    /// <summary>
    /// Asks whoever served the bench. When nobody answers (the bench was opened from the browser's own copy) it is the
    /// shelf of last time, so that a stopped host never seems an empty shelf.
    /// </summary>
    public static async Task<(IShelf Shelf, IStashShelf Stash)> MakeAsync(HttpClient http, IMemory memory, Func<IFileStore> browser, TimeProvider time)
    {
        http.Timeout = Patience;
        string? kind = null;
        try
        {
            kind = (await http.GetFromJsonAsync("shelf-kind.json", ShelfJson.Default.ShelfKind))?.Shelf;
        }
        catch (Exception e) when (e is HttpRequestException or OperationCanceledException or JsonException or NotSupportedException) { } // as if nobody had answered
        if (kind is "files" or "browser") memory.SetSetting(Remembered, kind);
        else kind = memory.Setting(Remembered);
        if (kind == "files")
        {
            var host = new HostShelf(http);
            return (host, host);
        }
        var store = browser();
        return (new FileShelf(store, time) { InBrowserOnly = true }, new FileStash(store, time));
    }
}
